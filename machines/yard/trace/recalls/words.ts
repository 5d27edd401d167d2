/** Facts of the book of recalls in plain words, one sentence each. */
import type { RecallFact } from './facts.ts';

const because = (words: string): string => (words === '' ? '' : `: ${words}`);

export const recallsWords = (fact: RecallFact): string => {
  switch (fact.is) {
    case 'recallOpened':
      return `Recall ${fact.recall} opened, ${fact.words}: ${fact.reason}`;
    case 'patchTicked':
      return `Recall ${fact.recall}, patch ${fact.patch}: ${fact.what}${because(fact.note)}`;
    case 'tickTakenBack':
      return `Recall ${fact.recall}, patch ${fact.patch}: "${fact.what}" taken back: ${fact.reason}`;
    case 'recallClosed':
      return `Recall ${fact.recall} closed: ${fact.remark}`;
    case 'recallReopened':
      return `Recall ${fact.recall} opened again: ${fact.reason}`;
    case 'recallDrillDone':
      return `Recall drill, ${fact.words}: ${fact.truth.length - fact.missed.length} of ${fact.truth.length} patches found in ${Math.round(fact.seconds)} s, ${fact.wrong.length} wrong, score ${fact.score}`;
  }
};
