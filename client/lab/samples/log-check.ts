/** What is wrong with a sample as it is being logged, at the field and in words, before anything is sent. Pure. */

/** A plain number, or null. A comma is not guessed at. */
export const numberIn = (text: string): number | null => {
  const typed = text.trim();
  return /^[+-]?(\d+(\.\d+)?|\.\d+)$/.test(typed) ? Number(typed) : null;
};

const MOST_KG = 500;

export type LogProblems = {
  readonly mass?: string;
  readonly container?: string;
  readonly retained?: string;
  readonly reason?: string;
};

const massProblem = (text: string, zeroToo: boolean): string | null => {
  const kg = numberIn(text);
  if (text.trim() === '') return 'Write the mass in kg.';
  if (kg === null)
    return `“${text.trim()}” is not a number of kg: write it like 4.2, without a unit or a comma.`;
  if (kg < 0) return `A mass is never negative (${kg} kg): tare the scale and weigh again.`;
  if (kg === 0 && !zeroToo) return 'Nothing was taken: weigh the sample.';
  if (kg > MOST_KG) return `${kg} kg is no sample: were these grams?`;
  return null;
};

export function logProblems(of: {
  readonly massText: string;
  readonly container: string;
  readonly retainedText: string;
  /** Null where no reason is wanted. */
  readonly reason: string | null;
}): LogProblems {
  const mass = massProblem(of.massText, false);
  const kept = massProblem(of.retainedText, true);
  const massKg = numberIn(of.massText);
  const keptKg = numberIn(of.retainedText);
  const retained =
    kept ??
    (mass === null && massKg !== null && keptKg !== null && keptKg > massKg
      ? `${keptKg} kg kept back is more than the ${massKg} kg taken: weigh both again.`
      : null);
  return {
    ...(mass === null ? {} : { mass }),
    ...(of.container.trim() === '' ? { container: 'Say what it is kept in.' } : {}),
    ...(retained === null ? {} : { retained }),
    ...(of.reason !== null && of.reason.trim().length < 3
      ? { reason: 'Say why, in at least 3 letters: it is kept in the record.' }
      : {}),
  };
}
