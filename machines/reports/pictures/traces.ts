/** Temperatures over time in their windows. */
import { cellText } from '../document.ts';
import {
  clockTicks,
  line,
  PICTURE_W,
  type Picture,
  rect,
  type Shape,
  type Tone,
  text,
  ticksOf,
} from '../picture.ts';
import type { Trace } from '../traces.ts';

export type Window = {
  readonly tag: string;
  readonly words: string;
  readonly fromC: number;
  readonly toC: number;
};

const LEFT = 30;
const RIGHT = 128;
const TOP = 8;

/** Told apart by dash and by the words at their end, never by colour alone. */
const LOOKS: readonly { readonly tone: Tone; readonly dash?: readonly number[] }[] = [
  { tone: 'mark' },
  { tone: 'ink', dash: [4, 2] },
  { tone: 'soft', dash: [1.5, 1.5] },
];

/** Labels pushed apart so that none lies on another. */
const spread = (wanted: readonly number[], apart: number): number[] => {
  const order = wanted.map((y, i) => ({ y, i })).sort((a, b) => a.y - b.y);
  let last = Number.NEGATIVE_INFINITY;
  const out = [...wanted];
  for (const { y, i } of order) {
    last = Math.max(y, last + apart);
    out[i] = last;
  }
  return out;
};

export const tracesPicture = (
  traces: readonly Trace[],
  windows: readonly Window[],
  startsAt: string,
  fromS: number,
  toS: number,
  h = 130,
): Picture => {
  const shown = traces.filter((trace) => trace.points.length > 0);
  const values = [
    ...shown.flatMap((trace) => trace.points.map(([, value]) => value)),
    ...windows.flatMap((span) => [span.fromC, span.toC]),
  ];
  const [low, high] = values.length === 0 ? [0, 100] : [Math.min(...values) - 3, Math.max(...values) + 3];
  const plotW = PICTURE_W - LEFT - RIGHT;
  const plotH = h - TOP - 18;
  const x = (atS: number): number => LEFT + ((atS - fromS) / Math.max(1, toS - fromS)) * plotW;
  const y = (tempC: number): number => TOP + (1 - (tempC - low) / (high - low)) * plotH;
  const shapes: Shape[] = [];
  for (const span of windows)
    shapes.push(rect(LEFT, y(span.toC), plotW, Math.max(0.5, y(span.fromC) - y(span.toC)), 'band'));
  for (const span of windows) {
    shapes.push(
      line(
        [
          [LEFT, y(span.toC)],
          [LEFT + plotW, y(span.toC)],
        ],
        'mark',
        0.5,
      ),
    );
    shapes.push(
      line(
        [
          [LEFT, y(span.fromC)],
          [LEFT + plotW, y(span.fromC)],
        ],
        'mark',
        0.5,
      ),
    );
  }
  for (const tick of ticksOf(low, high, 5)) {
    shapes.push(
      line(
        [
          [LEFT - 3, y(tick)],
          [LEFT, y(tick)],
        ],
        'edge',
      ),
    );
    shapes.push(text(LEFT - 5, y(tick) + 2.5, cellText(tick, 0), { size: 7, anchor: 'end' }));
  }
  for (const tick of clockTicks(startsAt, fromS, toS, 9)) {
    shapes.push(
      line(
        [
          [x(tick.atS), TOP + plotH],
          [x(tick.atS), TOP + plotH + 3],
        ],
        'edge',
      ),
    );
    shapes.push(text(x(tick.atS), TOP + plotH + 11, tick.words, { size: 7, anchor: 'middle' }));
  }
  shapes.push({ is: 'rect', x: LEFT, y: TOP, w: plotW, h: plotH, tone: 'edge', bare: true });
  const labels: { y: number; words: string; tone: Tone }[] = [];
  shown.forEach((trace, i) => {
    const look = LOOKS[i % LOOKS.length] as (typeof LOOKS)[number];
    const points: [number, number][] = [];
    // A value holds until the next one is read: steps, not slopes, as nothing was seen between.
    for (const [atS, value] of trace.points) {
      const last = points.at(-1);
      if (last !== undefined) points.push([x(atS), last[1]]);
      points.push([x(atS), y(value)]);
    }
    const end = points.at(-1);
    if (end !== undefined) points.push([x(toS), end[1]]);
    shapes.push(line(points, look.tone, 1, look.dash));
    const last = trace.points.at(-1);
    if (last !== undefined)
      labels.push({ y: y(last[1]), words: `${trace.label}, ${cellText(last[1], 1)} °C`, tone: look.tone });
  });
  for (const span of windows)
    labels.push({
      y: y((span.fromC + span.toC) / 2),
      words: `window ${cellText(span.fromC, 0)}–${cellText(span.toC, 0)} °C, ${span.words}`,
      tone: 'soft',
    });
  const at = spread(
    labels.map((label) => label.y),
    9,
  );
  const over = Math.max(0, Math.max(0, ...at) - (TOP + plotH));
  labels.forEach((label, i) => {
    const labelY = (at[i] ?? label.y) - over;
    shapes.push(
      text(LEFT + plotW + 5, labelY + 2.5, shorten(label.words, 34), { size: 7, tone: label.tone }),
    );
  });
  shapes.push(text(0, TOP + plotH + 11, '°C', { size: 7 }));
  const ranges = shown.map((trace) => {
    const all = trace.points.map(([, value]) => value);
    return `${trace.label} ${cellText(Math.min(...all), 1)} to ${cellText(Math.max(...all), 1)} °C`;
  });
  return {
    w: PICTURE_W,
    h,
    alt: `Temperatures: ${ranges.join('; ') || 'no reading in this stretch'}. ${windows
      .map((span) => `Window of ${span.words} ${span.fromC} to ${span.toC} °C`)
      .join('; ')}.`,
    shapes,
  };
};

const shorten = (words: string, most: number): string =>
  words.length <= most ? words : `${words.slice(0, most - 1).trimEnd()}…`;
