/** Which sign separates the columns of a pasted or saved table. */
export const SEPARATORS = ['\t', ';', ',', '|'] as const;
export type Separator = (typeof SEPARATORS)[number];

export const SEPARATOR_WORDS: { readonly [S in Separator]: string } = {
  '\t': 'tab (as pasted from a spreadsheet)',
  ';': 'semicolon ;',
  ',': 'comma ,',
  '|': 'bar |',
};

/** How often a sign stands in a line outside of quotes. */
const countOf = (line: string, sign: string): number => {
  let count = 0;
  let quoted = false;
  for (const one of line) {
    if (one === '"') quoted = !quoted;
    else if (one === sign && !quoted) count += 1;
  }
  return count;
};

export type SeparatorGuess = { readonly separator: Separator; readonly sure: boolean };

/**
 * The sign that stands equally often in most of the first lines; a comma only when no other does, since it may be a
 * decimal comma. Not sure when no sign does so or two do equally well.
 */
export const guessSeparator = (text: string): SeparatorGuess => {
  const lines = text
    .slice(0, 20_000)
    .split(/\r\n|\r|\n/u)
    .filter((line) => line.trim() !== '')
    .slice(0, 30);
  const scored = SEPARATORS.map((separator) => {
    const counts = lines.map((line) => countOf(line, separator));
    const first = counts[0] ?? 0;
    const alike = counts.filter((count) => count === first && count > 0).length;
    return { separator, share: lines.length === 0 ? 0 : alike / lines.length, columns: first };
  }).filter(({ share, columns }) => share > 0 && columns > 0);
  const even = scored.filter(({ share }) => share > 0.99);
  const best = even[0] ?? [...scored].sort((a, b) => b.share - a.share)[0];
  if (best === undefined) return { separator: ',', sure: false };
  return { separator: best.separator, sure: even.length === 1 && best.share > 0.99 };
};
