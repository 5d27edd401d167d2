/** What matters now in the lab, in one sentence. Pure. */
import type { LabView } from '../../machines/lab/view.ts';
import { plural } from '../format/format.ts';

type Seen = Pick<LabView, 'prompts' | 'tasks' | 'lots'>;

const DECIDING: readonly string[] = ['decide', 'hold', 'concession', 'plan'];

/** `toTest`: samples that are logged and have no sheet yet. */
export function labNow({ prompts, tasks, lots }: Seen, toTest: number): string {
  const take = prompts.filter(({ level }) => level === 'due' || level === 'overdue').length;
  const missed = prompts.filter(({ level }) => level === 'missed').length;
  const log = prompts.filter(({ level }) => level === 'log').length;
  const decide = new Set(tasks.filter(({ what }) => DECIDING.includes(what)).map(({ lot }) => lot)).size;
  const words = [
    ...(take > 0 ? [`${plural(take, 'sample')} to take`] : []),
    ...(missed > 0 ? [`${plural(missed, 'missed sample')} to make good`] : []),
    ...(log > 0 ? [`${plural(log, 'sample')} to log`] : []),
    ...(toTest > 0 ? [`${plural(toTest, 'sample')} to test`] : []),
    ...(decide > 0 ? [`${plural(decide, 'lot')} to decide about`] : []),
  ];
  if (words.length > 0) return `Now: ${words.join(', ')}.`;
  return lots.length === 0
    ? 'The first batch opens a lot and draws its samples.'
    : 'Nothing waits for the lab at this moment.';
}

export function lotsNow({ lots }: Pick<LabView, 'lots'>): string {
  const count = (...states: string[]): number => lots.filter(({ state }) => states.includes(state)).length;
  const ready = lots.filter(
    ({ state, proposal }) =>
      proposal === 'accept' && state !== 'accepted' && state !== 'released by concession',
  ).length;
  const held = count('on hold');
  const working = count('open', 'closed', 'sampling', 'testing');
  const words = [
    ...(ready > 0 ? [`${plural(ready, 'lot')} may be accepted`] : []),
    ...(held > 0 ? [`${plural(held, 'lot is', 'lots are')} on hold`] : []),
    ...(working > ready ? [`${plural(working - ready, 'lot is', 'lots are')} not tested through`] : []),
  ];
  const rule = 'A lot leaves the yard only when it is accepted or released by concession.';
  return words.length === 0 ? rule : `${words.join(', ')}. ${rule}`;
}
