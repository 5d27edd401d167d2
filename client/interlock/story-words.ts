/** What a step of a played story shows: where each chart stands, and what the gate made of what was asked. */
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import { ELEMENT_WORDS } from '../../machines/line/gate.ts';
import { type PlayedStep, type StoryStates, titlesOf } from '../../machines/line/story.ts';
import type { StoryChart } from '../../machines/scenario/story.schema.ts';

export const CHART_WORDS: { readonly [C in StoryChart]: string } = {
  interlock: 'Flame interlock',
  burner: 'Burner',
  oilHeater: 'Thermal-oil heater',
  emulsionTankInterlock: 'Interlock of the emulsion tank',
  cutbackTankInterlock: 'Interlock of the cutback tank',
  emulsionTank: 'Heater of the emulsion tank',
  cutbackTank: 'Heater of the cutback tank',
  alarm: 'Alarm',
  emulsionBatch: 'Emulsion batch',
  warmEmulsionBatch: 'Warmed emulsion batch',
  cutbackBatch: 'Cutback batch',
  campaign: 'Drying campaign',
  weigher: 'Weigher',
  lot: 'Lot',
  seat: 'Controls',
};

export type Line = { readonly text: string; readonly differs: boolean };
export type Side = { readonly chart: string; readonly lines: readonly Line[] };

/** Where the charts of one side stand; where they differ from the other side, or have just moved, is told; the rest is left out. */
export const sideOf = (states: StoryStates, other: StoryStates, before: StoryStates): readonly Side[] =>
  (Object.keys(states) as StoryChart[]).map((chart) => {
    const value = states[chart];
    const otherTitles = other[chart] === undefined ? [] : titlesOf(chart, other[chart]);
    const oldTitles = before[chart] === undefined ? [] : titlesOf(chart, before[chart]);
    const titles = value === undefined ? [] : titlesOf(chart, value);
    const told = titles.filter((title) => !otherTitles.includes(title) || !oldTitles.includes(title));
    const shown = told.length > 0 ? told : titles.length <= 2 ? titles : [];
    return {
      chart: CHART_WORDS[chart],
      lines: shown.map((text) => ({ text, differs: !otherTitles.includes(text) })),
    };
  });

const OPENS: { readonly [value: string]: string } = { full: ' full open', dribble: ' at dribble' };

/** Elements in words; "nothing" when all are at rest. */
export const elementsOf = (outputs: { readonly [key: string]: unknown } | Partial<Outputs>): string =>
  Object.entries(outputs)
    .filter(([key, value]) => value !== AT_REST[key as keyof Outputs])
    .map(([key, value]) => {
      const name = ELEMENT_WORDS[key as keyof Outputs] ?? key;
      if (key === 'hoodFan') return 'hood fan stopped';
      return `${name}${typeof value === 'string' ? (OPENS[value] ?? '') : ''}`;
    })
    .join(', ') || 'nothing';

/** Why the story ends otherwise here, in one sentence. */
export const whyStopped = (played: PlayedStep): string => {
  const { gateHolds, held, asksElse, parted } = played;
  if (gateHolds && held.length > 0)
    return `The gate holds it back: ${held
      .map(({ element, because }) => `${element}${because.length > 0 ? ` (${because.join(', ')})` : ''}`)
      .join('; ')}.`;
  if (gateHolds) return 'The gate lets something else through.';
  if (parted.length > 0)
    return `${parted.map((chart) => CHART_WORDS[chart]).join(' and ')} goes another way than the broken one.`;
  if (asksElse) return 'The chart as it is does not ask for that.';
  return '';
};
