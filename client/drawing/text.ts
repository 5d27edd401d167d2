/** Fits words into a drawing: estimates text width and elides or wraps before anything can overlap. */

/**
 * Advance widths in thousandths of the font size, of a wide sans serif: a text that fits
 * by these figures fits in every common system font, which are narrower.
 */
const NARROW = new Set([...'ijlI.,:;|\'!·´`']);
const SLIM = new Set([...'ftr()[]-/ °"']);
const WIDE = new Set([...'mwMW%@–—▲■●…']);

const advance = (char: string): number => {
  if (NARROW.has(char)) return 318;
  if (SLIM.has(char)) return 402;
  if (WIDE.has(char)) return 945;
  if (char >= 'A' && char <= 'Z') return 720;
  return 630;
};

const BOLD_SHARE = 1.11;

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
