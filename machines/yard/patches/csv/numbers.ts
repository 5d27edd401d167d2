/** Numbers as spreadsheets write them: which sign is the decimal one, and what a cell then says. */
export type Decimal = '.' | ',';

/** Spaces of all widths and apostrophes, which some countries group thousands with. */
const GROUPING = /[\s\u00a0\u2009\u202f'’]/gu;
const COMMA_SURE = /^[-+]?(\d{1,3}(\.\d{3})+,\d+|\d+,(\d{1,2}|\d{4,}))$/u;
const DOT_SURE = /^[-+]?(\d{1,3}(,\d{3})+\.\d+|\d+\.(\d{1,2}|\d{4,}))$/u;
const COMMA_MAYBE = /^[-+]?\d+,\d{3}$/u;
const DOT_MAYBE = /^[-+]?\d+\.\d{3}$/u;
/** A nought before the sign can group nothing: 0,125 is a decimal. */
const LEADING_NOUGHT = /^[-+]?0[.,]\d+$/u;

const bare = (text: string): string => text.replace(GROUPING, '').replace(/[a-z²]+$/iu, '');

export type DecimalGuess = {
  readonly decimal: Decimal;
  /** False when nothing in the cells decides it: a person should say. */
  readonly sure: boolean;
  /** A cell that decided it. */
  readonly example: string | null;
  /** Cells speak for both signs: one kind is wrong. */
  readonly mixed: boolean;
};

/** Which decimal sign these cells use, by the most of them; cells that are no numbers do not vote. */
export const guessDecimal = (cells: readonly string[]): DecimalGuess => {
  const votes: { readonly [D in Decimal]: string[] } = { ',': [], '.': [] };
  let doubtful = false;
  for (const cell of cells) {
    const text = bare(cell);
    const nought = LEADING_NOUGHT.test(text);
    if (COMMA_SURE.test(text) || (nought && text.includes(','))) votes[','].push(cell.trim());
    else if (DOT_SURE.test(text) || (nought && text.includes('.'))) votes['.'].push(cell.trim());
    else if (COMMA_MAYBE.test(text) || DOT_MAYBE.test(text)) doubtful = true;
  }
  const decimal = votes[','].length > votes['.'].length ? ',' : '.';
  const mixed = votes[','].length > 0 && votes['.'].length > 0;
  const [example = null] = votes[decimal];
  return { decimal, sure: !mixed && (example !== null || !doubtful), example, mixed };
};

export type ReadNumber =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly why: string };

const quoted = (text: string): string => `"${text.length > 24 ? `${text.slice(0, 24)}…` : text}"`;

/** A cell as a number with that decimal sign. "1.234,5" with a comma is 1234.5; with a point it is refused. */
export const readNumber = (cell: string, decimal: Decimal, unit: string): ReadNumber => {
  const text = cell.trim();
  if (text === '') return { ok: false, why: 'is empty: write a number' };
  const own = text.replace(GROUPING, '');
  const suffix = /[a-z²]+$/iu.exec(own)?.[0] ?? '';
  if (suffix !== '' && suffix !== own && suffix.toLowerCase() !== unit)
    return {
      ok: false,
      why: `says ${quoted(text)}, but the column is read in ${unit}: write the number alone, or choose another unit`,
    };
  const digits = suffix === '' ? own : own.slice(0, -suffix.length);
  const grouped = decimal === ',' ? /^[-+]?\d{1,3}(\.\d{3})+(,\d+)?$/u : /^[-+]?\d{1,3}(,\d{3})+(\.\d+)?$/u;
  const plain = decimal === ',' ? /^[-+]?\d+(,\d*)?$/u : /^[-+]?(\d+(\.\d*)?|\.\d+)$/u;
  if (!grouped.test(digits) && !plain.test(digits)) {
    const other = decimal === ',' ? '.' : ',';
    if (digits.includes(other) && /^[-+\d.,]+$/u.test(digits))
      return {
        ok: false,
        why: `says ${quoted(text)}, which is no number with the decimal sign "${decimal}": see whether "${other}" is meant`,
      };
    return { ok: false, why: `says ${quoted(text)}, which is no number` };
  }
  const groups = decimal === ',' ? /\./gu : /,/gu;
  return { ok: true, value: Number(digits.replace(groups, '').replace(',', '.')) };
};
