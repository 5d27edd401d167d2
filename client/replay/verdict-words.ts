/** What the check of a file came to, in a word for the header and in sentences for the page. */
import { plural } from '../format/format.ts';
import type { Shape } from '../parts/mark.tsx';
import type { ReplayState } from './replay.types.ts';

export type Standing = {
  readonly tone: 'busy' | 'good' | 'plain' | 'bad';
  readonly shape: Shape;
  /** Two or three words. */
  readonly short: string;
  readonly sentence: string;
};

const percentOf = (share: number): string => `${Math.floor(share * 100)} %`;

const differs = (state: ReplayState): Standing | null => {
  const count = state.soFar?.differing ?? 0;
  if (state.stuck !== null)
    return {
      tone: 'bad',
      shape: 'triangle',
      short: 'Charts stopped',
      sentence: `The charts could not be run again beyond this point: ${state.stuck.why}`,
    };
  if (count === 0) return null;
  return {
    tone: 'bad',
    shape: 'triangle',
    short: plural(count, 'difference'),
    sentence: `Run again over the recorded inputs, the charts decided otherwise at ${plural(count, 'moment')}: the screens from the first of them on are what this program shows, not what the record says happened.`,
  };
};

/** The one thing to be said about an open file; what is wrong comes before what is still going on. */
export const standingOf = (state: ReplayState): Standing => {
  const { check, opened, soFar } = state;
  const verdict = check?.is === 'done' ? check.verdict : null;
  if (verdict?.result === 'altered')
    return {
      tone: 'bad',
      shape: 'triangle',
      short: 'Altered',
      sentence: `This file was altered after it was written: ${verdict.findings[0]?.detail ?? 'see the list'}.`,
    };
  if (verdict?.result === 'unreadable')
    return {
      tone: 'bad',
      shape: 'triangle',
      short: 'Not checked',
      sentence: `The file could not be checked to its end: ${verdict.detail}`,
    };
  const wrong = differs(state);
  if (wrong !== null) return wrong;
  if (opened !== null && opened.declined === null && soFar !== null && !soFar.done) {
    const done = percentOf(soFar.tick / Math.max(1, opened.lastTick));
    return {
      tone: 'busy',
      shape: 'ring',
      short: `Running again ${done}`,
      sentence: `The charts are run again over the record: ${done}`,
    };
  }
  if (check?.is !== 'done') {
    const done = percentOf(check?.share ?? 0);
    return {
      tone: 'busy',
      shape: 'ring',
      short: `Checking ${done}`,
      sentence: `Every entry is checked against its hash and the seal: ${done}`,
    };
  }
  if (verdict?.result === 'intact' && verdict.seal === null)
    return {
      tone: 'plain',
      shape: 'dot',
      short: 'Intact, unsealed',
      sentence:
        'Every entry follows the one before it, but the shift had not been sealed when it was exported: entries may have been added since, and who wrote it cannot be proved.',
    };
  return {
    tone: 'good',
    shape: 'check',
    short: 'Intact',
    sentence: 'Nothing was changed, removed or added since the shift was sealed.',
  };
};
