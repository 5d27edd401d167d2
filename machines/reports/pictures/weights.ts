/** Weights against their targets: the middle is the target, the band its tolerance. */
import type { BatchLine, MaterialTotal } from '../batches.ts';
import { cellText } from '../document.ts';
import type { Part } from '../parts.ts';
import { line, mark, PICTURE_W, type Picture, rect, type Shape, text } from '../picture.ts';
import { capital } from '../words.ts';

const ROW_H = 17;
const FROM_X = 110;
const TO_X = 330;
/** The band of a tolerance reaches so far to each side of the middle. */
const BAND = (TO_X - FROM_X) / 4;

const digitsOf = (part: Part): number => (part.material === 'anti-strip' ? 3 : part.weighedKg < 100 ? 1 : 0);

const rowText = (part: Part): string => {
  const d = digitsOf(part);
  if (part.targetKg === null) return `${cellText(part.weighedKg, d)} kg`;
  const pct = part.offPct === null ? '' : ` (${part.offPct > 0 ? '+' : ''}${cellText(part.offPct, 2)} %)`;
  return `${cellText(part.weighedKg, d)} of ${cellText(part.targetKg, d)} kg${pct}`;
};

export const weightsPicture = (parts: readonly Part[]): Picture => {
  const middle = (FROM_X + TO_X) / 2;
  const shapes: Shape[] = [];
  parts.forEach((part, i) => {
    const y = i * ROW_H + 14;
    shapes.push(text(0, y + 3, capital(part.material), { size: 8.5, tone: 'ink' }));
    if (part.toleranceKg !== null && part.toleranceKg > 0 && part.offKg !== null) {
      shapes.push(rect(middle - BAND, y - 5, 2 * BAND, 10, 'band'));
      const out = part.within === false;
      const share = Math.max(-1.9, Math.min(1.9, part.offKg / part.toleranceKg));
      shapes.push(
        line(
          [
            [FROM_X, y],
            [TO_X, y],
          ],
          'edge',
        ),
      );
      shapes.push(
        line(
          [
            [middle, y - 6],
            [middle, y + 6],
          ],
          'ink',
          0.8,
        ),
      );
      shapes.push(mark(out ? 'triangle' : 'dot', middle + share * BAND, y, 3.4, out ? 'warn' : 'mark'));
    } else shapes.push(text(FROM_X, y + 3, 'no tolerance given', { size: 7.5 }));
    const verdict =
      part.within === false ? (part.acceptedBy === null ? '  out of tolerance' : '  out, accepted') : '';
    shapes.push(
      text(TO_X + 8, y + 3, rowText(part) + verdict, {
        size: 8,
        tone: part.within === false ? 'warn' : 'ink',
      }),
    );
  });
  const foot = parts.length * ROW_H + 16;
  shapes.push(
    text(middle - BAND, foot, '− tolerance', { size: 7, anchor: 'middle' }),
    text(middle, foot, 'target', { size: 7, anchor: 'middle' }),
    text(middle + BAND, foot, '+ tolerance', { size: 7, anchor: 'middle' }),
  );
  return {
    w: PICTURE_W,
    h: foot + 4,
    alt: `Weights against targets: ${parts.map((part) => `${part.material} ${rowText(part)}${part.within === false ? ', out of tolerance' : ''}`).join('; ')}.`,
    shapes,
  };
};

const STRIP_H = 34;

/** How far each batch was off, material by material, in the order the batches were made. */
export const driftPicture = (
  batches: readonly BatchLine[],
  materials: readonly MaterialTotal[],
  tolerances: readonly { readonly material: string; readonly pct: number }[],
): Picture => {
  const made = batches.filter((batch) => batch.grams > 0);
  const x0 = 110;
  const width = PICTURE_W - x0 - 60;
  const shapes: Shape[] = [];
  materials.forEach(({ material }, row) => {
    const y = row * STRIP_H + 18;
    const pct = tolerances.find((one) => one.material === material)?.pct ?? null;
    const offs = made.map((batch) => batch.parts.find((part) => part.material === material)?.offPct ?? null);
    const most = Math.max(pct ?? 0, ...offs.map((off) => Math.abs(off ?? 0)), 0.5) * 1.15;
    const yOf = (off: number): number => y - (off / most) * (STRIP_H / 2 - 3);
    if (pct !== null) shapes.push(rect(x0, yOf(pct), width, yOf(-pct) - yOf(pct), 'band'));
    shapes.push(
      line(
        [
          [x0, y],
          [x0 + width, y],
        ],
        'edge',
      ),
    );
    shapes.push(text(0, y + 3, capital(material), { size: 8.5, tone: 'ink' }));
    shapes.push(
      text(x0 + width + 5, y + 3, pct === null ? 'no tolerance' : `±${cellText(pct, 1)} %`, { size: 7.5 }),
    );
    offs.forEach((off, i) => {
      if (off === null) return;
      const out = made[i]?.parts.find((part) => part.material === material)?.within === false;
      const x = x0 + ((i + 0.5) / made.length) * width;
      shapes.push(mark(out ? 'triangle' : 'dot', x, yOf(off), 2.6, out ? 'warn' : 'mark'));
    });
  });
  const foot = materials.length * STRIP_H + 12;
  made.forEach((batch, i) => {
    if (made.length > 24 && i % 2 === 1) return;
    shapes.push(
      text(x0 + ((i + 0.5) / made.length) * width, foot, String(batch.batch), { size: 7, anchor: 'middle' }),
    );
  });
  shapes.push(text(0, foot, 'Batch', { size: 7 }));
  const outs = made.flatMap((batch) => batch.parts).filter((part) => part.within === false).length;
  return {
    w: PICTURE_W,
    h: foot + 4,
    alt: `How far ${made.length} batches were off their targets, for ${materials.length} materials: ${outs} weights outside their tolerance.`,
    shapes,
  };
};
