/** Fits words into a drawing: estimates text width and elides or wraps before anything can overlap. */

/**
 * Advance widths in thousandths of the font size, measured of a wide sans serif: a text that
 * fits by these figures fits in the other common system fonts, which are narrower.
 */
const ADVANCES: readonly (readonly [chars: string, thousandths: number])[] = [
  ['ijl', 278],
  ['IJ', 295],
  [" .,·’'", 318],
  [':;/|', 337],
  ['f', 352],
  ['-', 361],
  ['()t²³', 400],
  ['r', 411],
  ['–°', 500],
  ['sz', 525],
  ['c', 550],
  ['FLk', 579],
  ['vxy', 592],
  ['PTYao', 612],
  ['ehn0123456789bdgpquES', 636],
  ['ABRVXZK', 690],
  ['CUNH', 740],
  ['DGOQ▲', 787],
  ['wM', 860],
  ['%m■●', 974],
  ['W…—@', 1000],
];

const OTHER = 700;
const WIDTHS = new Map(
  ADVANCES.flatMap(([chars, width]) => [...chars].map((char) => [char, width] as const)),
);

const advance = (char: string): number => WIDTHS.get(char) ?? OTHER;

const BOLD_SHARE = 1.125;

/** Estimated width in px of a text at a font size in px; never less than it takes in a wide sans serif. */
export const textWidthPx = (text: string, sizePx: number, bold = false): number => {
  let thousandths = 0;
  for (const char of text) thousandths += advance(char);
  return (thousandths / 1000) * sizePx * (bold ? BOLD_SHARE : 1);
};

/** The text, or as much of it as fits followed by "…"; empty when not even one letter fits. */
export const elide = (text: string, maxPx: number, sizePx: number, bold = false): string => {
  if (textWidthPx(text, sizePx, bold) <= maxPx) return text;
  const chars = [...text];
  while (chars.length > 0) {
    chars.pop();
    const short = `${chars.join('').trimEnd()}…`;
    if (chars.length > 0 && textWidthPx(short, sizePx, bold) <= maxPx) return short;
  }
  return '';
};

/** Breaks a text at spaces into at most `maxLines` lines; what does not fit on the last one is elided. */
export const wrap = (
  text: string,
  maxPx: number,
  sizePx: number,
  maxLines: number,
  bold = false,
): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || textWidthPx(longer, sizePx, bold) <= maxPx) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  if (line !== '') lines.push(line);
  const kept = lines.slice(0, maxLines);
  if (lines.length > maxLines) kept[maxLines - 1] = lines.slice(maxLines - 1).join(' ');
  return kept.map((each) => elide(each, maxPx, sizePx, bold));
};
