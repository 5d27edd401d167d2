/** The look of a report on paper: the console's paper and ink, on A4. */
import type { Tone } from '../../../machines/reports/picture.ts';

export const PAGE = { w: 595.28, h: 841.89, left: 40, right: 40, top: 40, bottom: 74 } as const;
export const TEXT_W = PAGE.w - PAGE.left - PAGE.right;

/** As in the console's tokens; the sheet itself stays white, for printing. */
export const COLOURS: { readonly [T in Tone]: string } = {
  ink: '#24272b',
  soft: '#5a5e62',
  rule: '#cfcdc6',
  edge: '#80827f',
  fill: '#dcdad3',
  band: '#aec5c9',
  mark: '#2d5560',
  warn: '#96490a',
  trip: '#a81f18',
  raised: '#f6f5f2',
};
export const WARN_TINT = '#f8ecdd';

export const FONT = 'Helvetica';
export const BOLD = 'Helvetica-Bold';

/** Signs the standard fonts of PDF lack, as the nearest they have. */
const NEAREST: { readonly [sign: string]: string } = {
  '−': '–',
  '≤': '<=',
  '≥': '>=',
  '≈': '~',
  '→': '->',
  '▲': '!',
  Ł: 'L',
  ł: 'l',
  Đ: 'D',
  đ: 'd',
  ı: 'i',
  '\u2009': ' ',
  '\u202f': ' ',
};
const CP1252_EXTRA = new Set('€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ');

/** A number stays beside its unit. */
const NUMBER_AND_UNIT = /(\d) (?=(?:°C|%|kg|t|L|s|min|h|mm)(?![a-z]))/g;

const isPrintable = (sign: string): boolean => {
  const code = sign.codePointAt(0) ?? 0;
  return (code >= 0x20 && code <= 0x7e) || (code >= 0xa0 && code <= 0xff) || CP1252_EXTRA.has(sign);
};

/**
 * Words in the signs of the standard fonts (Windows-1252): what they lack is written with its nearest
 * Latin letter, else as "?". Table and data form carry every sign whole.
 */
export const printable = (words: string): string =>
  [...words.replace(NUMBER_AND_UNIT, '$1\u00a0')]
    .map((sign) => {
      if (isPrintable(sign)) return sign;
      const nearest = NEAREST[sign];
      if (nearest !== undefined) return nearest;
      if (/\s/.test(sign)) return ' ';
      const bare = sign.normalize('NFD').replace(/\p{M}/gu, '');
      return bare !== '' && [...bare].every(isPrintable) ? bare : '?';
    })
    .join('');
