/** Word and mark for each sort of entry, the same wherever entries are listed. */
import type { Shape } from '../parts/mark.tsx';
import type { Sort } from './entries.ts';

export const SORT_WORD: { readonly [K in Sort]: string } = {
  command: 'asked',
  refusal: 'refused',
  fact: 'happened',
  note: 'note',
};
export const SORT_SHAPE: { readonly [K in Sort]: Shape } = {
  command: 'ring',
  refusal: 'triangle',
  fact: 'dot',
  note: 'square',
};
