/** Whole grams shared out so that nothing is lost and nothing made: largest remainder. */

/**
 * `grams` of a content made of `parts` (whole grams each), taken in proportion: whole grams a part, their sum exactly
 * `grams`, none more than the part has. What rounding leaves goes to the largest remainders, ties to the part named first.
 * Throws RangeError when more is asked for than there is, or for amounts that are not whole and at least 0.
 */
export const apportion = (parts: readonly number[], grams: number): number[] => {
  const bad = [grams, ...parts].find((n) => !Number.isSafeInteger(n) || n < 0);
  if (bad !== undefined) throw new RangeError(`${bad} is no whole number of grams`);
  const total = parts.reduce((sum, part) => sum + part, 0);
  if (grams > total) throw new RangeError(`${grams} g cannot be taken from ${total} g`);
  if (grams === 0) return parts.map(() => 0);
  // Products go past 2^53 for tonnes of grams, so they are taken as whole numbers of any size.
  const [whole, all] = [BigInt(grams), BigInt(total)];
  const shares = parts.map((part) => Number((BigInt(part) * whole) / all));
  const rests = parts.map((part, i) => ({ i, rest: (BigInt(part) * whole) % all }));
  let left = grams - shares.reduce((sum, share) => sum + share, 0);
  rests.sort((a, b) => (a.rest === b.rest ? a.i - b.i : a.rest < b.rest ? 1 : -1));
  for (const { i } of rests) {
    if (left === 0) break;
    shares[i] = (shares[i] as number) + 1;
    left -= 1;
  }
  return shares;
};
