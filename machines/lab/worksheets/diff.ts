/** What a correction changed: field by field, the reading that was and the one that is. */
import { isEmpty } from './fields.ts';
import type { Readings } from './sheet.types.ts';

export type Change = {
  readonly field: string;
  readonly was: string | number | null;
  readonly now: string | number | null;
};

/** Every field whose reading differs, in the order the old sheet and then the new one name them; empty counts as null. */
export const diff = (was: Readings, now: Readings): readonly Change[] => {
  const of = (readings: Readings, field: string): string | number | null => {
    const reading = readings[field];
    return reading === undefined || isEmpty(reading) ? null : reading;
  };
  return [...new Set([...Object.keys(was), ...Object.keys(now)])]
    .map((field) => ({ field, was: of(was, field), now: of(now, field) }))
    .filter((change) => change.was !== change.now);
};
