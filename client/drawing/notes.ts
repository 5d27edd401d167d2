/** What is abnormal about each item of equipment now, in a few words: the only reason for colour in the drawing. */
import { TAGS } from '../../machines/field/tags.ts';
import type { AlarmView, LineView, TempView, WeightView } from '../../machines/line/view.types.ts';
import { type Family, familyInUse } from './family.ts';
import type { Item, ItemId } from './items.ts';

export type Note = {
  readonly level: 'warn' | 'trip';
  /** A few words that fit beside the item. */
  readonly short: string;
  /** The whole sentence. */
  readonly words: string;
  /** What of the item it is about, when that is known. */
  readonly about?: 'temperature' | 'state';
};

const FAULT_WORDS: { readonly [fault: string]: string } = {
  stuck: 'stuck',
  dead: 'no signal',
  noisy: 'noisy',
  drift: 'drifts',
  span: 'reads off',
  hoodFanStopped: 'stopped',
  drumFanStopped: 'fan stopped',
  binderValveLeaking: 'leaking',
  fuelValveLeaking: 'fuel valve leaks',
  oilPumpStopped: 'oil pump stopped',
  flameWillNotLight: 'will not light',
};

/** An alarm in the few words that fit beside its item; "alarm" for one not listed. */
const ALARM_WORDS: { readonly [id: string]: string } = {
  'vapour-high': 'vapour high',
  'vapour-raised': 'raised',
  'extraction-lost': 'not proved',
  'vapour-detector': 'detector',
  'burner-locked-out': 'burner locked out',
  'drum-hot': 'far too hot',
  'weight-out': 'out of tolerance',
  'aggregate-hot': 'too hot',
  'aggregate-cooling-out': 'cooling',
  'mixed-too-long': 'mixed too long',
  'emulsion-cold': 'near freezing',
  'emulsion-hot': 'too hot',
  'cutback-hot': 'too hot',
  'oil-heater-locked-out': 'locked out',
  'bay-full': 'bay full',
};

const alarmWords = (id: string): string => (/^bin-\d-low$/.test(id) ? 'low' : (ALARM_WORDS[id] ?? 'alarm'));

/** Which item an alarm or a held element speaks of; the first row that matches wins. */
const SPEAKS_OF: readonly (readonly [RegExp, ItemId])[] = [
  [/vapour|extraction|hood/i, 'hood'],
  [/aggregate (is too hot|above its limit)|dry aggregate is/i, 'holding'],
  [/binder ?valve|bucketvalve|valve to (the )?(mixer|pug mill)/i, 'valve'],
  [/oil heater|thermal.?oil|\boil|oil(Pump|Burner|C)/i, 'oil'],
  [/burner|dryer|drum|fuel|flame|pilot/i, 'dryer'],
  [/holding/i, 'holding'],
  [/emulsion (tank|coil)|emulsion(Coil|Stir|Tank)/i, 'emulsion'],
  [/cutback (tank|coil)|cutback(Coil|Stir|Tank)/i, 'cutback'],
  [/bucket|binder weigh/i, 'bucket'],
  [/^(the )?cutback (is|above|outside)/i, 'cutback'],
  [/^(the )?emulsion (is|at|above|outside)/i, 'emulsion'],
  [/hopper|aggregate weigh/i, 'hopper'],
  [/pug ?mill|mixer|mix(ing|ed)?\b/i, 'mill'],
  [/water|anti-?strip/i, 'liquids'],
  [/bay|skip|belt/i, 'bays'],
  [/bin ?1/i, 'bin1'],
  [/bin ?2/i, 'bin2'],
  [/bin ?3/i, 'bin3'],
  [/bin ?4/i, 'bin4'],
];

export const itemSpokenOf = (text: string): ItemId | null =>
  SPEAKS_OF.find(([pattern]) => pattern.test(text))?.[1] ?? null;

const isStanding = (alarm: AlarmView): boolean =>
  alarm.state === 'unacknowledged' || alarm.state === 'acknowledged';

export const weightOf = (view: LineView, pattern: RegExp): WeightView | undefined =>
  view.weights.find((weight) => pattern.test(weight.id) || pattern.test(weight.label));

export const tempOf = (view: LineView, pattern: RegExp): TempView | undefined =>
  view.temps.find((temp) => pattern.test(temp.id) || pattern.test(temp.label));

const tripNote = (item: ItemId, view: LineView): Note | null => {
  if (!view.interlock.tripped || (item !== 'valve' && item !== 'dryer')) return null;
  const causes = view.interlock.tripCauses.join('; ');
  return {
    level: 'trip',
    short: item === 'valve' ? 'shut by trip' : 'locked out by trip',
    words: causes === '' ? 'Tripped' : `Tripped: ${causes}`,
  };
};

const RANGE = /([−-]?\d+(?:\.\d+)?)\s*–\s*([−-]?\d+(?:\.\d+)?)/;

/** Too hot or too cold for a wanted range such as "25–55 °C"; "not yet" when the range says neither. */
export const offRange = (valueC: number, wanted: string): string => {
  const [, from, to] = RANGE.exec(wanted.replaceAll('−', '-')) ?? [];
  if (to !== undefined && valueC > Number(to)) return 'too hot';
  return from !== undefined && valueC < Number(from) ? 'too cold' : 'not yet';
};

/** Where a line that the work waits for is to be seen in the plant. */
const waitedAt = (id: string, text: string, family: Family | null): ItemId | null => {
  if (id === 'aggregate') return family === 'cutback' ? 'holding' : 'hopper';
  if (id === 'binder') return family;
  return id.startsWith('FI-') ? itemSpokenOf(text) : null;
};

const waitNotes = (item: ItemId, view: LineView): readonly Note[] => {
  const family = familyInUse(view);
  const { holdingBinC, hopperC, emulsionTankC, cutbackTankC } = view.plant.readings;
  const tempsC: { readonly [K in ItemId]?: number } = {
    holding: holdingBinC,
    hopper: hopperC,
    emulsion: emulsionTankC,
    cutback: cutbackTankC,
  };
  return view.now.waitingFor
    .filter((line) => line.standing !== 'met' && waitedAt(line.id, line.text, family) === item)
    .map((line) => {
      const tempC = tempsC[item];
      return {
        level: 'warn',
        about: tempC === undefined ? 'state' : 'temperature',
        short: tempC === undefined ? 'not proved' : offRange(tempC, line.wanted),
        words: `The batch waits for this: ${line.text}${line.wanted === '' ? '' : `, wanted ${line.wanted}`}`,
      };
    });
};

/** Everything abnormal about an item, worst first. */
export const notesOf = (item: Item, view: LineView): readonly Note[] => {
  const notes: Note[] = [];
  const trip = tripNote(item.id, view);
  if (trip !== null) notes.push(trip);
  for (const { target, fault } of view.plant.faults) {
    const tag = item.tags.find((each) => each === target);
    if (tag !== undefined && fault !== 'on') {
      const short = FAULT_WORDS[fault] ?? fault;
      notes.push({ level: 'warn', short, words: `${TAGS[tag].label}: reading ${short}` });
    } else if (item.faults.some((each) => each === target)) {
      const short = FAULT_WORDS[target] ?? 'faulty';
      notes.push({ level: 'warn', short, words: `${item.name}: ${short}` });
    }
  }
  for (const held of view.interlock.held)
    if (itemSpokenOf(held.element) === item.id)
      notes.push({
        level: 'warn',
        short: /kept running/.test(held.element) ? 'kept running' : 'held shut',
        words: `${held.element}: ${held.because}`,
      });
  notes.push(...waitNotes(item.id, view));
  for (const alarm of view.alarms)
    if (
      isStanding(alarm) &&
      alarm.id !== 'interlock-tripped' &&
      itemSpokenOf(`${alarm.text} ${alarm.id}`) === item.id
    )
      notes.push({ level: 'warn', short: alarmWords(alarm.id), words: `${alarm.text}. ${alarm.action}` });
  return notes;
};

export type Notes = { readonly [K in ItemId]?: readonly Note[] };

export const allNotes = (items: readonly Item[], view: LineView): Notes =>
  Object.fromEntries(items.map((item) => [item.id, notesOf(item, view)]));
