/** Masses, times and names as the tracing pages write them. */
import type { NodeKind } from '../../../machines/yard/trace/edges.ts';
import { formatDayTime } from '../../format/format.ts';

/** "1.234 t" from 1 t on, "56.700 kg" below: tracing is to the gram. */
export const massWords = (grams: number): string =>
  grams >= 1_000_000 ? `${(grams / 1e6).toFixed(3)} t` : `${(grams / 1000).toFixed(3)} kg`;

export const timeWords = formatDayTime;

export const NODE_WORDS: { readonly [K in NodeKind]: string } = {
  delivery: 'delivery',
  batch: 'batch',
  lot: 'lot',
  load: 'load',
  returned: 'returned',
  patch: 'patch',
  waste: 'waste',
  air: 'lost to the air',
  adjustment: 'adjustment',
};

/** Where what is not in a patch lies. */
export const LEFT_WORDS: { readonly [K in NodeKind]: string } = {
  delivery: 'delivery',
  batch: 'batch under way',
  lot: 'in its bay',
  load: 'on the vehicle',
  returned: 'returned, in a bay',
  patch: 'patch',
  waste: 'gone to waste',
  air: 'lost to the air',
  adjustment: 'taken off by a count',
};

export const nodeName = ({ kind, id }: { readonly kind: NodeKind; readonly id: string }): string =>
  kind === 'delivery' && id.startsWith('OPENING:')
    ? `${id.slice(8)} (opening)`
    : kind === 'delivery' && id === 'MAINS'
      ? 'water'
      : kind === 'returned'
        ? `back: ${id.slice(id.indexOf('/') + 1)}`
        : id;
