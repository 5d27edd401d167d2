/** A shift opens: the yard as its files have it, and levels brought to where the shift begins. */
import type { Scenario } from '../../../scenario/shift.schema.ts';
import { openingSource, sourceNode } from '../nodes.ts';
import { gramsOf, sumOf } from '../parts.ts';
import { ruleFor } from '../rules.ts';
import type { StoreId, TankName } from '../state.types.ts';
import { yardOf } from '../yard-shape.ts';
import { pruned } from './prune.ts';
import { dateOf, edge, newPeriod, partsTo, putIn, takeOut, type Work } from './work.ts';

const TANKS: readonly TankName[] = ['emulsion', 'cutback'];
/** Days of weather the bays remember: more than the longest shelf life. */
const WEATHER_DAYS = 400;

const bringTo = (work: Work, id: StoreId, material: string, grams: number): void => {
  const store = work.s.stores[id];
  const { at } = work.heard;
  if (store === undefined) {
    work.s.stores = {
      ...work.s.stores,
      [id]: {
        id,
        material,
        parts: grams > 0 ? [{ source: openingSource(material), grams }] : [],
        period: newPeriod(at, grams),
        use: [],
        uncoveredGrams: 0,
        measured: null,
      },
    };
    work.s.rules = { ...work.s.rules, [id]: ruleFor(id) };
    return;
  }
  const more = grams - sumOf(store.parts);
  const source = `${openingSource(material)}:${dateOf(work)}`;
  if (more > 0) putIn(work, id, source, more, true);
  if (more < 0) {
    const to = { kind: 'adjustment' as const, id: `A-${source}` };
    partsTo(work, takeOut(work, id, -more, true), to, material);
  }
};

/** A level that is not carried on (heaps, shelves) begins once and is then the book's alone. */
const beginOnce = (work: Work, id: StoreId, material: string, grams: number): void => {
  if (work.s.stores[id] === undefined) bringTo(work, id, material, grams);
};

/** The line begins every shift empty: what it still held when the last one ended has been run out. */
const runOut = (work: Work): void => {
  for (const account of Object.keys(work.s.line))
    for (const { source, grams } of work.s.line[account] ?? []) {
      edge(work, sourceNode(source), { kind: 'waste', id: source }, grams, account);
      work.s.wasteGrams += grams;
    }
  work.s.line = {};
  work.s.batch = null;
  // A lot its shift did not close gets nothing more.
  const left = Object.entries(work.s.filling).flatMap(([lot, made]) => {
    const known = work.s.lots[lot];
    return known === undefined ? [] : [[lot, { ...known, ...made }] as const];
  });
  if (left.length > 0) work.s.lots = { ...work.s.lots, ...Object.fromEntries(left) };
  work.s.filling = {};
};

const noteWeather = (work: Work, { shift }: Scenario): void => {
  const { startC, warmestC, rain } = shift.weather;
  const rainMm = rain.reduce((sum, spell) => sum + (spell.mmH * (spell.toMin - spell.fromMin)) / 60, 0);
  const day = { date: shift.date, startC, warmestC, rainMm: Math.round(rainMm * 10) / 10 };
  work.s.day = day;
  work.s.weather = [...work.s.weather.filter((one) => one.date !== day.date), day].slice(-WEATHER_DAYS);
};

export const hearOpening = (work: Work, scenario: Scenario): void => {
  const { plant, shift } = scenario;
  // A record of a line without equipment, as some tests keep, has no yard.
  if (plant.bins === undefined || plant.tanks === undefined) return;
  runOut(work);
  work.s = { ...work.s, ...pruned(work.s) };
  work.s.yard = yardOf(scenario);
  noteWeather(work, scenario);
  for (const tank of TANKS)
    bringTo(
      work,
      `tank:${tank}`,
      tank,
      gramsOf(shift.levels?.tanksKg?.[tank] ?? plant.tanks[tank].startMassKg),
    );
  plant.bins.forEach((bin, i) => {
    const carried = shift.levels?.binsKg?.[i];
    bringTo(work, `bin:${i + 1}`, bin.name, gramsOf(Math.min(carried ?? bin.startKg, bin.capacityKg)));
    beginOnce(work, `pile:${i + 1}`, bin.name, gramsOf(plant.yard?.pilesKg[i] ?? 0));
  });
  beginOnce(work, 'additive:anti-strip', 'anti-strip', gramsOf(plant.yard?.antiStripKg ?? 0));
};
