/** Where a value lies on an axis of a lesson's picture, straight or logarithmic. */

export type Axis = {
  readonly min: number;
  readonly max: number;
  readonly log?: boolean;
  readonly label: string;
  readonly ticks: readonly number[];
};

/** Share from 0 (min) to 1 (max); held at the ends. */
export const shareOn = ({ min, max, log = false }: Axis, value: number): number => {
  const held = Math.min(max, Math.max(min, value));
  return log ? Math.log(held / min) / Math.log(max / min) : (held - min) / (max - min);
};

/** A figure as short as it can be read: 0.4, 12, 1 500. */
export const shortFigure = (value: number): string => {
  const size = Math.abs(value);
  const text =
    size >= 100 || size === 0
      ? value.toFixed(0)
      : size >= 10
        ? value.toFixed(1)
        : size >= 1
          ? value.toFixed(2)
          : Number(value.toPrecision(2)).toString();
  const [whole = '', part = ''] = text.split('.');
  const decimals = part.replace(/0+$/, '');
  const grouped = whole.replace(/(\d)(?=(\d{3})+$)/g, '$1\u00a0').replace('-', '−');
  return decimals === '' ? grouped : `${grouped}.${decimals}`;
};
