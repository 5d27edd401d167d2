/** Pictures of a report as plain shapes on paper measures: drawn alike by the paper and by the screen. */

export type Tone = 'ink' | 'soft' | 'rule' | 'edge' | 'fill' | 'band' | 'mark' | 'warn' | 'trip' | 'raised';

export type Shape =
  | {
      readonly is: 'rect';
      readonly x: number;
      readonly y: number;
      readonly w: number;
      readonly h: number;
      readonly tone: Tone;
      /** Outline only. */
      readonly bare?: true;
    }
  | {
      readonly is: 'line';
      readonly points: readonly (readonly [x: number, y: number])[];
      readonly tone: Tone;
      readonly width: number;
      readonly dash?: readonly number[];
    }
  | {
      readonly is: 'mark';
      readonly form: 'dot' | 'ring' | 'triangle' | 'diamond';
      readonly x: number;
      readonly y: number;
      readonly r: number;
      readonly tone: Tone;
    }
  | {
      readonly is: 'text';
      readonly x: number;
      /** Base line. */
      readonly y: number;
      readonly text: string;
      readonly size: number;
      readonly tone: Tone;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly bold?: true;
    };

export type Picture = {
  readonly w: number;
  readonly h: number;
  /** What it shows, for who cannot see it. */
  readonly alt: string;
  readonly shapes: readonly Shape[];
};

/** Width of the text column of the paper, points; every picture is drawn to it. */
export const PICTURE_W = 515;

export const text = (
  x: number,
  y: number,
  words: string,
  more: Partial<Pick<Extract<Shape, { is: 'text' }>, 'size' | 'tone' | 'anchor' | 'bold'>> = {},
): Shape => ({ is: 'text', x, y, text: words, size: 8, tone: 'soft', anchor: 'start', ...more });

export const rect = (x: number, y: number, w: number, h: number, tone: Tone): Shape => ({
  is: 'rect',
  x,
  y,
  w,
  h,
  tone,
});

export const line = (
  points: readonly (readonly [number, number])[],
  tone: Tone,
  width = 0.6,
  dash?: readonly number[],
): Shape => ({ is: 'line', points, tone, width, ...(dash === undefined ? {} : { dash }) });

export const mark = (
  form: 'dot' | 'ring' | 'triangle' | 'diamond',
  x: number,
  y: number,
  r: number,
  tone: Tone,
): Shape => ({ is: 'mark', form, x, y, r, tone });

/** Round steps (1, 2, 5 times a power of ten) that cut a range into about `wanted` parts. */
export const ticksOf = (from: number, to: number, wanted: number): number[] => {
  const span = to - from;
  if (!(span > 0)) return [from];
  const rough = span / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((n) => n * power >= rough) ?? 10) * power;
  const out: number[] = [];
  for (let i = Math.ceil(from / step); i * step <= to + step * 1e-9; i += 1) out.push(i * step);
  return out;
};

/** Steps of a clock, s: hours where they fit, minutes below. */
const CLOCK_STEPS_S = [60, 120, 300, 600, 900, 1800, 3600, 7200, 4 * 3600] as const;

/** Moments on the round of the clock between fromS and toS, at most about `most`. */
export const clockTicks = (
  startsAt: string,
  fromS: number,
  toS: number,
  most: number,
): { atS: number; words: string }[] => {
  const [h = 0, m = 0] = startsAt.split(':').map(Number);
  const baseS = h * 3600 + m * 60;
  const step = CLOCK_STEPS_S.find((one) => (toS - fromS) / one <= most) ?? 8 * 3600;
  const out: { atS: number; words: string }[] = [];
  for (let t = Math.ceil((fromS + baseS) / step) * step; t - baseS <= toS; t += step) {
    const minutes = Math.floor(t / 60) % 1440;
    const two = (n: number): string => String(n).padStart(2, '0');
    out.push({ atS: t - baseS, words: `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}` });
  }
  return out;
};
