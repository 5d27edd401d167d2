/** What the drawing knows of an item, as rows of words: its readings and what it is asked to do now. */
import { TAGS, type Tag } from '../../machines/field/tags.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import { FAR_S } from '../format/format.ts';
import { celsius, figure, kg, minutes, percent, tonnes } from './figures.ts';
import type { Item, ItemId } from './items.ts';
import { tempOf, weightOf } from './notes.ts';

export type Row = { readonly label: string; readonly value: string };

const decimalsOf = (interval: number): number => {
  if (interval >= 1) return 0;
  return interval >= 0.1 ? 1 : 2;
};

/** A reading with its unit; switches as yes or no. */
export const readingText = (tag: Tag, value: number): string => {
  const info = TAGS[tag];
  if (info.kind === 'switch') return value === 1 ? 'yes' : 'no';
  return `${figure(value, decimalsOf(info.interval))} ${info.unit}`.trimEnd();
};

const tankRows = (view: LineView, id: 'emulsion' | 'cutback'): readonly Row[] => {
  const tank = view.plant.tanks.find((each) => each.id === id);
  if (tank === undefined) return [];
  return [
    { label: 'Grade', value: tank.grade },
    { label: 'Contents', value: `${tonnes(tank.massKg)}, ${figure(tank.litres, 0)} L` },
    { label: 'Level', value: percent(tank.levelShare * 100) },
    { label: 'Above the coil', value: `${figure(tank.coilCoverMm, 0)} mm` },
    { label: 'Heating', value: `${tank.heating}, set ${figure(tank.setC, 0)} °C` },
  ];
};

const windowRows = (view: LineView, pattern: RegExp): readonly Row[] => {
  const temp = tempOf(view, pattern);
  if (temp === undefined) return [];
  const rows: Row[] = [];
  if (temp.fromC !== null && temp.toC !== null)
    rows.push({ label: 'Window', value: `${figure(temp.fromC, 0)} to ${figure(temp.toC, 0)} °C` });
  if (temp.untilInS !== null) rows.push({ label: 'Inside it in', value: minutes(temp.untilInS) });
  if (temp.untilOutS !== null && temp.untilOutS < FAR_S)
    rows.push({ label: 'Leaves it in', value: minutes(temp.untilOutS) });
  return rows;
};

const weightRows = (view: LineView, pattern: RegExp): readonly Row[] => {
  const weight = weightOf(view, pattern);
  if (weight === undefined) return [];
  const target = weight.targetKg === null ? 'none' : kg(weight.targetKg, weight.targetKg < 100 ? 1 : 0);
  return [
    { label: 'Target', value: target },
    { label: 'Weighing', value: weight.text },
  ];
};

const extraRows = (id: ItemId, view: LineView): readonly Row[] => {
  const { plant } = view;
  switch (id) {
    case 'bin1':
    case 'bin2':
    case 'bin3':
    case 'bin4': {
      const bin = plant.bins[Number(id.slice(3)) - 1];
      if (bin === undefined) return [];
      return [
        { label: 'Size', value: bin.size },
        { label: 'Moisture as tested', value: percent(bin.moisturePct, 1) },
      ];
    }
    case 'hopper':
      return weightRows(view, /hopper|aggregate/i);
    case 'dryer':
      return [
        { label: 'Burner', value: plant.burnerText },
        {
          label: 'Purge',
          value: `${figure(plant.purgeVolumes, 1)} of ${figure(plant.purgeVolumesNeeded, 0)} volumes`,
        },
      ];
    case 'holding':
      return [...windowRows(view, /holding/i), ...weightRows(view, /dryWeigher|drawn/i)];
    case 'emulsion':
    case 'cutback':
      return tankRows(view, id);
    case 'bucket':
      return weightRows(view, /bucket|binder/i);
    case 'mill':
      return [{ label: 'Holds', value: plant.mixerText }];
    case 'bays':
      return [
        ...plant.bays.map((bay) => ({
          label: bay.name,
          value: `${tonnes(bay.massKg)} of ${tonnes(bay.capacityKg)}`,
        })),
        { label: 'Waste skip', value: tonnes(plant.wasteKg) },
      ];
    default:
      return [];
  }
};

export const readingsOf = (item: Item, view: LineView): readonly Row[] => [
  ...item.tags.map((tag) => ({ label: TAGS[tag].label, value: readingText(tag, view.plant.readings[tag]) })),
  ...extraRows(item.id, view),
];

const openings = { shut: 'Gate shut', dribble: 'Gate at dribble', full: 'Gate full open' } as const;
const onOff = (what: string, isOn: boolean) => `${what} ${isOn ? 'on' : 'off'}`;

const bayName = (view: LineView, id: number) =>
  id === 0 ? 'the waste skip' : (view.plant.bays.find((bay) => bay.id === id)?.name ?? `bay ${id}`);

/** What the item is asked to do now, in words. */
export const askedOf = (id: ItemId, view: LineView): readonly string[] => {
  const o = view.plant.outputs;
  switch (id) {
    case 'bin1':
      return [openings[o.bin1Gate]];
    case 'bin2':
      return [openings[o.bin2Gate]];
    case 'bin3':
      return [openings[o.bin3Gate]];
    case 'bin4':
      return [openings[o.bin4Gate]];
    case 'hopper':
      if (o.hopperTo === 'shut') return ['Stay shut'];
      return [o.hopperTo === 'mixer' ? 'Empty into the pug mill' : 'Empty into the dryer'];
    case 'dryer':
      return [
        onOff('Drum drive', o.drumTurn),
        onOff('Dryer fan', o.drumFan),
        onOff('Pilot', o.burnerPilot),
        `Main fuel ${o.burnerMain === 'shut' ? 'shut' : `at ${o.burnerMain} fire`}`,
        o.drumDischarge ? 'Discharge into the holding bin' : 'Discharge shut',
      ];
    case 'holding':
      return [openings[o.holdingGate], onOff('Cooling fan', o.coolingFan)];
    case 'emulsion':
      return [onOff('Coil', o.emulsionCoil), onOff('Stirrer', o.emulsionStir)];
    case 'cutback':
      return [onOff('Coil', o.cutbackCoil), onOff('Stirrer', o.cutbackStir)];
    case 'oil':
      return [onOff('Oil pump', o.oilPump), onOff('Heater burner', o.oilBurner)];
    case 'bucket':
      return [
        `Emulsion feed: ${openings[o.emulsionFeed].toLowerCase()}`,
        `Cutback feed: ${openings[o.cutbackFeed].toLowerCase()}`,
      ];
    case 'valve':
      return [o.bucketValve ? 'Open' : 'Stay shut'];
    case 'mill':
      return [onOff('Pug mill drive', o.pugMill), o.mixerGate ? 'Gate open' : 'Gate shut'];
    case 'hood':
      return [onOff('Extraction fan', o.hoodFan)];
    case 'liquids':
      return [
        o.waterValve ? 'Water valve open' : 'Water valve shut',
        onOff('Anti-strip pump', o.antiStripPump),
      ];
    case 'bays':
      return [o.belt ? `Belt lays into ${bayName(view, o.beltToBay)}` : 'Belt stopped'];
  }
};

/** The drawing in sentences, for who cannot see it. */
export const describe = (view: LineView): string => {
  const { plant, interlock } = view;
  const parts = [
    `Pug mill: ${plant.mixerText}`,
    `weigh hopper ${kg(plant.readings.hopperKg)}`,
    `dryer: ${plant.burnerText}`,
    `holding bin ${kg(plant.readings.holdingBinKg)} at ${celsius(plant.readings.holdingBinC)}`,
    `binder valve ${plant.readings.bucketValveShut === 1 ? 'shut' : 'open'}`,
    `vapour at the hood ${figure(plant.readings.vapourLelPct, 1)} % LEL`,
  ];
  const held = interlock.held.map((each) => `${each.element}: ${each.because}`);
  const trip = interlock.tripped ? [`Tripped: ${interlock.tripCauses.join('; ') || 'cause not given'}`] : [];
  return `${[parts.join(', '), ...trip, ...held].join('. ')}.`;
};
