/** How a lot filled, and how warm its batches left the mill. */
import type { BatchLine, LotLine } from '../batches.ts';
import { cellText } from '../document.ts';
import {
  clockTicks,
  line,
  mark,
  PICTURE_W,
  type Picture,
  rect,
  type Shape,
  text,
  ticksOf,
} from '../picture.ts';

const LEFT = 34;
const RIGHT = 90;
const TOP = 10;

const madeIn = (batches: readonly BatchLine[]): BatchLine[] =>
  batches
    .filter((batch) => batch.grams > 0 && batch.toS !== null)
    .sort((a, b) => (a.toS ?? 0) - (b.toS ?? 0));

/** Tonnes in the lot over time, a step a batch; where samples were drawn by lot stands on the line. */
export const lotFillPicture = (lot: LotLine, batches: readonly BatchLine[], startsAt: string): Picture => {
  const made = madeIn(batches);
  const h = 140;
  const plotW = PICTURE_W - LEFT - RIGHT;
  const plotH = h - TOP - 18;
  const fromS = lot.fromS;
  const endS = Math.max(fromS + 1, lot.toS ?? 0, made.at(-1)?.toS ?? 0);
  // A little beyond its end, so that the last step is seen.
  const toS = endS + (endS - fromS) * 0.02;
  const totalT = lot.grams / 1e6;
  const mostT = Math.max((lot.ofKg ?? 0) / 1000, totalT) * 1.05;
  const x = (atS: number): number => LEFT + ((atS - fromS) / (toS - fromS)) * plotW;
  const y = (t: number): number => TOP + (1 - t / mostT) * plotH;
  const shapes: Shape[] = [];
  const points: [number, number][] = [[x(fromS), y(0)]];
  const moments: { t: number; atS: number }[] = [];
  let grams = 0;
  for (const batch of made) {
    const at = x(batch.toS ?? fromS);
    points.push([at, y(grams / 1e6)]);
    grams += batch.grams;
    points.push([at, y(grams / 1e6)]);
    moments.push({ t: grams / 1e6, atS: batch.toS ?? fromS });
  }
  points.push([x(toS), y(grams / 1e6)]);
  for (let i = 1; i < points.length; i += 2) {
    const [a, b] = [points[i], points[i + 1]];
    if (a !== undefined && b !== undefined)
      shapes.push(rect(b[0], b[1], (points[i + 2]?.[0] ?? b[0]) - b[0] + 0.4, TOP + plotH - b[1], 'band'));
  }
  shapes.push(line(points, 'mark', 1.2));
  for (const tick of ticksOf(0, mostT, 5)) {
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
  if (lot.ofKg !== null) {
    const full = y(lot.ofKg / 1000);
    shapes.push(
      line(
        [
          [LEFT, full],
          [LEFT + plotW, full],
        ],
        'ink',
        0.8,
        [4, 2],
      ),
    );
    shapes.push(
      text(LEFT + plotW + 5, full + 2.5, `full at ${cellText(lot.ofKg / 1000, 0)} t`, {
        size: 7,
        tone: 'ink',
      }),
    );
  }
  for (const sample of lot.samples) {
    // Its place in the lot is sealed until it falls due or the lot is closed.
    if (sample.atKg === null) continue;
    const t = sample.atKg / 1000;
    const reached = moments.find((moment) => moment.t >= t);
    const at = reached === undefined ? LEFT + plotW : x(reached.atS);
    const missed = sample.state === 'missed';
    const form = sample.state === 'taken' ? 'diamond' : missed ? 'triangle' : 'ring';
    shapes.push(
      line(
        [
          [LEFT, y(t)],
          [at, y(t)],
        ],
        missed ? 'warn' : 'soft',
        0.5,
        [1.5, 1.5],
      ),
    );
    shapes.push(mark(form, at, y(t), 3.4, missed ? 'warn' : 'ink'));
    shapes.push(
      text(LEFT + plotW + 5, y(t) + 2.5, `sample ${sample.sample} ${sample.state}`, {
        size: 7,
        tone: missed ? 'warn' : 'ink',
      }),
    );
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
  shapes.push(text(0, TOP + plotH + 11, 't', { size: 7 }));
  shapes.push({ is: 'rect', x: LEFT, y: TOP, w: plotW, h: plotH, tone: 'edge', bare: true });
  return {
    w: PICTURE_W,
    h,
    alt: `The lot filled to ${cellText(totalT, 3)} t${lot.ofKg === null ? '' : ` of ${cellText(lot.ofKg / 1000, 0)} t`} in ${made.length} batches. ${lot.samples
      .map(
        (sample) =>
          `Sample ${sample.sample}${sample.atKg === null ? '' : ` at ${cellText(sample.atKg / 1000, 2)} t`} ${sample.state}`,
      )
      .join('; ')}.`,
    shapes,
  };
};

/** Temperature of the mix as each batch was discharged; the band is the window its aggregate had to be in. */
export const mixTempsPicture = (
  batches: readonly BatchLine[],
  window: { readonly fromC: number; readonly toC: number } | null,
): Picture => {
  const made = madeIn(batches);
  const h = 86;
  const plotW = PICTURE_W - LEFT - RIGHT;
  const plotH = h - TOP - 16;
  const temps = made.flatMap((batch) => (batch.mixC === null ? [] : [batch.mixC]));
  const values = [...temps, ...(window === null ? [] : [window.fromC, window.toC])];
  const [low, high] = values.length === 0 ? [0, 100] : [Math.min(...values) - 2, Math.max(...values) + 2];
  const y = (tempC: number): number => TOP + (1 - (tempC - low) / (high - low)) * plotH;
  const shapes: Shape[] = [];
  if (window !== null) {
    shapes.push(rect(LEFT, y(window.toC), plotW, y(window.fromC) - y(window.toC), 'band'));
    shapes.push(
      text(
        LEFT + plotW + 5,
        y((window.fromC + window.toC) / 2) + 2.5,
        `aggregate ${window.fromC}–${window.toC} °C`,
        { size: 7 },
      ),
    );
  }
  for (const tick of ticksOf(low, high, 4)) {
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
  made.forEach((batch, i) => {
    const at = LEFT + ((i + 0.5) / Math.max(1, made.length)) * plotW;
    if (batch.mixC !== null) shapes.push(mark('dot', at, y(batch.mixC), 2.6, 'mark'));
    if (made.length <= 24 || i % 2 === 0)
      shapes.push(text(at, TOP + plotH + 10, String(batch.batch), { size: 7, anchor: 'middle' }));
  });
  shapes.push({ is: 'rect', x: LEFT, y: TOP, w: plotW, h: plotH, tone: 'edge', bare: true });
  shapes.push(text(0, TOP + plotH + 10, '°C', { size: 7 }));
  const range =
    temps.length === 0
      ? 'not measured'
      : `${cellText(Math.min(...temps), 1)} to ${cellText(Math.max(...temps), 1)} °C`;
  return { w: PICTURE_W, h, alt: `Mix at discharge, batch by batch: ${range}.`, shapes };
};
