/** What happened on the desk between two moments, in sentences. */
import { CAUSES } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import { latchedCauses } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import type { Outputs } from '../../machines/field/outputs.ts';
import { ELEMENT_WORDS } from '../../machines/line/gate.ts';
import { type Desk, stateOfChart } from './desk.ts';
import { causesOf, titleOf } from './desk-view.ts';

const WATCHED: readonly (keyof Outputs)[] = [
  'burnerPilot',
  'burnerMain',
  'bucketValve',
  'cutbackFeed',
  'cutbackCoil',
  'oilBurner',
];

const isOpen = (value: Outputs[keyof Outputs]): boolean => value !== false && value !== 'shut' && value !== 0;

const words = (id: keyof typeof CAUSES): string => `${id}: ${CAUSES[id].words.unmet.toLowerCase()}`;

/** Sentences in the order a person would tell them; empty when nothing worth telling happened. */
export const storyBetween = (before: Desk, after: Desk): readonly string[] => {
  const story: string[] = [];
  const [latchedBefore] = latchedCauses(stateOfChart(before, 'interlock'));
  const [latched] = latchedCauses(stateOfChart(after, 'interlock'));
  if (latched !== undefined && latched !== latchedBefore) story.push(`Tripped by ${words(latched)}.`);
  if (latched === undefined && latchedBefore !== undefined)
    story.push('The trip is reset; the interlock watches again.');
  for (const key of WATCHED) {
    const [was, is] = [isOpen(before.outputs[key]), isOpen(after.outputs[key])];
    if (was === is) continue;
    const held = after.held.find((one) => one.key === key);
    const why = held === undefined ? '' : ` The gate holds it: ${held.because.join(', ')}.`;
    story.push(`${ELEMENT_WORDS[key] ?? key}: ${is ? 'open' : 'shut'}.${why}`);
  }
  if (before.charts.burner !== after.charts.burner)
    story.push(`Burner: ${titleOf(after, 'burner').toLowerCase()}.`);
  const had = causesOf(before).holding;
  const has = causesOf(after).holding;
  const fresh = has.filter((id) => !had.includes(id));
  const gone = had.filter((id) => !has.includes(id));
  if (fresh.length > 0) story.push(`Holds now: ${fresh.join(', ')}.`);
  if (gone.length > 0) story.push(`Clear again: ${gone.join(', ')}.`);
  return story;
};
