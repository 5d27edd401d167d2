/**
 * What a person must be told about samples: one that is due stands on every page until it is taken or missed.
 *
 * Not an alarm: nothing is wrong, it is work that waits. It grows more urgent as its chance passes.
 */
import { type Line, type Lot, TICK_MS } from '../line.types.ts';
import { batchValue } from '../lookup.ts';
import type { SamplePrompt } from './sample-prompt.types.ts';

/** A missed sample stands this long, in case nobody was looking, s; afterwards the lab's list has it. */
const MISSED_STANDS_S = 900;

const ORDER: readonly SamplePrompt['level'][] = ['overdue', 'now', 'missed', 'due'];

type Sample = Lot['samples'][number];

const levelOf = (line: Line, lot: Lot, sample: Sample): SamplePrompt['level'] | null => {
  if (sample.state === 'missed')
    return sample.dueTick !== null && line.tick - sample.dueTick < MISSED_STANDS_S * 10 ? 'missed' : null;
  if (sample.state !== 'due') return null;
  if (sample.batch !== null && lot.batches.includes(sample.batch)) return 'overdue';
  return line.batch?.n === sample.batch && batchValue(line).step === 'discharging' ? 'now' : 'due';
};

const nameOf = ({ n, test }: Sample): string => (test === '' ? `sample ${n}` : `sample ${n} (${test})`);

const wordsOf = (lot: Lot, sample: Sample, level: SamplePrompt['level']): string => {
  const name = nameOf(sample);
  switch (level) {
    case 'due':
      return `Take ${name} from the next discharge`;
    case 'now':
      return `Take ${name} now: batch ${sample.batch} is being discharged`;
    case 'overdue':
      return `Take ${name} from the bay now: batch ${sample.batch} lies on top of lot ${lot.id} until the next discharge buries it`;
    default:
      return `Sample ${sample.n} of lot ${lot.id}${sample.test === '' ? '' : ` (${sample.test})`} was missed: the lab puts one in its place, with a reason`;
  }
};

export const samplePrompts = (line: Line): readonly SamplePrompt[] => {
  const prompts: SamplePrompt[] = [];
  for (const lot of line.lots)
    for (const sample of lot.samples) {
      const level = sample.dueTick === null ? null : levelOf(line, lot, sample);
      if (level === null) continue;
      prompts.push({
        lot: lot.id,
        sample: sample.n,
        test: sample.test,
        batch: sample.batch,
        sinceMs: (sample.dueTick ?? 0) * TICK_MS,
        level,
        words: wordsOf(lot, sample, level),
      });
    }
  return prompts.sort((a, b) => ORDER.indexOf(a.level) - ORDER.indexOf(b.level));
};
