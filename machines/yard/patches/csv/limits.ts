/** How large a table may be, looked at before it is read. */
import { MOST_PATCHES } from '../limits.ts';

export const MOST_BYTES = 8 * 1024 * 1024;

/** Lines of a text, counted without reading it as a table; a last empty line does not count. */
export const linesOf = (text: string): number => {
  let lines = 0;
  let at = -1;
  do {
    lines += 1;
    at = text.indexOf('\n', at + 1);
  } while (at >= 0);
  return text.endsWith('\n') ? lines - 1 : lines;
};

const spaced = (n: number): string => String(n).replace(/\B(?=(\d{3})+$)/g, ' ');

/** Why a text is not read at all, or null. Head and blank lines are allowed for. */
export const tooLarge = (text: string): string | null => {
  if (text.length > MOST_BYTES)
    return `This is larger than ${MOST_BYTES / 1024 / 1024} MB: split it, for instance by route. Nothing was read.`;
  const lines = linesOf(text);
  if (lines > MOST_PATCHES * 2 + 1)
    return `This has ${spaced(lines)} rows; a list holds at most ${spaced(MOST_PATCHES)} patches. Split it, for instance by route. Nothing was read.`;
  return null;
};

export const withoutMark = (text: string): string => text.replace(/^\uFEFF/u, '');
