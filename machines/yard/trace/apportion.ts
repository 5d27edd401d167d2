/** Whole grams shared out so that nothing is lost and nothing made: largest remainder. */

type Divided = { readonly shares: number[]; readonly rests: readonly (number | bigint)[] };

/** Rounded down, and what is left over of each division. No product may go past 2^53: the remainder is then exact. */
const exact = (parts: readonly number[], grams: number, total: number): Divided => {
  const rests = parts.map((part) => (part * grams) % total);
  return { rests, shares: parts.map((part, i) => (part * grams - (rests[i] as number)) / total) };
};

/** The same in whole numbers of any size, for products of many tonnes in grams. */
const wide = (parts: readonly number[], grams: number, total: number): Divided => {
  const [whole, all] = [BigInt(grams), BigInt(total)];
  return {
    shares: parts.map((part) => Number((BigInt(part) * whole) / all)),
    rests: parts.map((part) => (BigInt(part) * whole) % all),
  };
};

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
  if (grams === total) return [...parts];
  const { shares, rests } =
    total * grams <= Number.MAX_SAFE_INTEGER ? exact(parts, grams, total) : wide(parts, grams, total);
  let left = grams - shares.reduce((sum, share) => sum + share, 0);
  if (left === 0) return shares;
  const order = rests.map((rest, i) => ({ i, rest }));
  order.sort((a, b) => (a.rest === b.rest ? a.i - b.i : a.rest < b.rest ? 1 : -1));
  for (const { i } of order) {
    if (left === 0) break;
    shares[i] = (shares[i] as number) + 1;
    left -= 1;
  }
  return shares;
};
