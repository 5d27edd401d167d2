/** Why a sample cannot be taken: nothing of it is due, or its batch has not left the mixer yet. */
import type { Command } from './commands.ts';
import type { Line, Lot } from './line.types.ts';
import { batchValue } from './lookup.ts';

type TakeSample = Extract<Command, { do: 'takeSample' }>;
type Sample = Lot['samples'][number];

/** A sample is taken from what lies in the bay or falls into it: never from a mixer that is still closed. */
export const isOutOfMixer = (line: Line, lot: Lot, sample: Sample): boolean => {
  if (sample.batch === null) return false;
  if (lot.batches.includes(sample.batch)) return true;
  return line.batch?.n !== sample.batch || batchValue(line).step === 'discharging';
};

export const sampleReasons = (line: Line, { lot: of, sample: n }: TakeSample): string[] => {
  const due = line.lots
    .filter((lot) => of === undefined || lot.id === of)
    .flatMap((lot) =>
      lot.samples
        .filter((sample) => sample.state === 'due' && (n === undefined || sample.n === n))
        .map((sample) => ({ lot, sample })),
    );
  const named = n === undefined ? 'The sample' : `Sample ${n}${of === undefined ? '' : ` of lot ${of}`}`;
  if (due.length === 0) return [n === undefined ? 'No sample is due.' : `${named} is not due.`];
  if (due.some(({ lot, sample }) => isOutOfMixer(line, lot, sample))) return [];
  return [`${named} is to come from the next discharge: take it when the batch leaves the mixer.`];
};
