/** Results over the lots, as the charts take them: plain rows in the order they were made. */

/** What was so when the lot was made; a label nobody knows is left out. */
export const LABELS = ['operator', 'bin', 'delivery', 'mixVersion', 'scaleZeroed', 'weather'] as const;
export type LabelName = (typeof LABELS)[number];

export const LABEL_WORDS: { readonly [L in LabelName]: string } = {
  operator: 'operator',
  bin: 'bin',
  delivery: 'binder delivery',
  mixVersion: 'mix version',
  scaleZeroed: 'last zeroing of the scale',
  weather: 'weather',
};

export type Point = {
  readonly lot: string;
  /** Plant's local clock. */
  readonly at: string;
  readonly value: number;
  readonly sample?: number;
} & { readonly [L in LabelName]?: string };

export type Series = readonly Point[];
