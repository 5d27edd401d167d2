/** The shift ribbon on paper: what was done when, lots below, marks above. */
import {
  clockTicks,
  line,
  mark,
  PICTURE_W,
  type Picture,
  rect,
  type Shape,
  type Tone,
  text,
} from '../picture.ts';
import type { Ribbon } from '../ribbon.ts';

type Group = {
  readonly words: string;
  readonly tone: Tone;
  readonly steps: readonly string[];
  readonly tall?: true;
};

/** Steps that look alike on paper; the last takes whatever is named nowhere. */
const GROUPS: readonly Group[] = [
  { words: 'weigh, wet', tone: 'band', steps: ['charge', 'wet'] },
  { words: 'binder, mix', tone: 'mark', steps: ['binder', 'mix'] },
  { words: 'look, discharge', tone: 'soft', steps: ['look', 'discharge'] },
  { words: 'dry, cool, purge', tone: 'edge', steps: ['dry', 'cool', 'purge'] },
  { words: 'held, dumped', tone: 'warn', steps: ['hold', 'dump'], tall: true },
  { words: 'wait', tone: 'fill', steps: ['wait', 'other'] },
];

const groupOf = (step: string): Group =>
  GROUPS.find((group) => group.steps.includes(step)) ?? (GROUPS.at(-1) as Group);

const MARKS = {
  trip: { form: 'diamond', tone: 'trip', y: 10, words: 'trip' },
  alarm: { form: 'triangle', tone: 'warn', y: 10, words: 'alarm' },
  refusal: { form: 'ring', tone: 'warn', y: 20, words: 'refused' },
  sample: { form: 'dot', tone: 'mark', y: 20, words: 'sample' },
  person: { form: 'dot', tone: 'soft', y: 20, words: 'person' },
} as const;

const BAND_H = 18;

/** Draws fromS..ribbon.toS; `fromS` is where the stretch begins. */
export const ribbonPicture = (ribbon: Ribbon, startsAt: string, fromS = 0): Picture => {
  const spanS = Math.max(1, ribbon.toS - fromS);
  const x = (atS: number): number => ((atS - fromS) / spanS) * PICTURE_W;
  // Without marks nothing stands above the band.
  const bandY = ribbon.marks.length === 0 ? 6 : 28;
  const hasLots = ribbon.lots.length > 0;
  const lotsY = bandY + BAND_H + 16;
  const legendY = lotsY + (hasLots ? 22 : 8);
  const shapes: Shape[] = [rect(0, bandY, PICTURE_W, BAND_H, 'raised')];
  for (const block of ribbon.blocks) {
    const group = groupOf(block.step);
    const up = group.tall === true ? 4 : 0;
    const w = Math.max(0.4, x(block.toS) - x(block.fromS) - 0.2);
    shapes.push(rect(x(block.fromS), bandY - up, w, BAND_H + up, group.tone));
  }
  shapes.push({ is: 'rect', x: 0, y: bandY, w: PICTURE_W, h: BAND_H, tone: 'edge', bare: true });
  const used = new Set<keyof typeof MARKS>();
  for (const one of ribbon.marks) {
    const look = MARKS[one.mark];
    used.add(one.mark);
    shapes.push(mark(look.form, x(one.atS), look.y, 2.6, look.tone));
  }
  for (const tick of clockTicks(startsAt, fromS, ribbon.toS, 13)) {
    const at = x(tick.atS);
    shapes.push(
      line(
        [
          [at, bandY + BAND_H],
          [at, bandY + BAND_H + 3],
        ],
        'edge',
      ),
    );
    if (at > 12 && at < PICTURE_W - 12)
      shapes.push(text(at, bandY + BAND_H + 11, tick.words, { size: 7, anchor: 'middle' }));
  }
  for (const lot of ribbon.lots) {
    const [a, b] = [x(lot.fromS), x(lot.toS)];
    shapes.push(
      line(
        [
          [a + 0.5, lotsY],
          [a + 0.5, lotsY + 3],
          [b - 0.5, lotsY + 3],
          [b - 0.5, lotsY],
        ],
        'ink',
        0.8,
      ),
    );
    if (b - a > 48)
      shapes.push(text((a + b) / 2, lotsY + 12, lot.lot, { size: 7, anchor: 'middle', tone: 'ink' }));
    else if (b - a > 16)
      shapes.push(
        text((a + b) / 2, lotsY + 12, lot.lot.replace(/^.*-/, '…-'), {
          size: 7,
          anchor: 'middle',
          tone: 'ink',
        }),
      );
  }
  let at = 0;
  const steps = new Set(ribbon.blocks.map((block) => groupOf(block.step).words));
  for (const group of GROUPS.filter((one) => steps.has(one.words))) {
    shapes.push(rect(at, legendY, 8, 8, group.tone), text(at + 11, legendY + 7, group.words, { size: 7 }));
    at += 22 + group.words.length * 3.6;
  }
  for (const kind of Object.keys(MARKS) as (keyof typeof MARKS)[]) {
    if (!used.has(kind)) continue;
    const look = MARKS[kind];
    shapes.push(
      mark(look.form, at + 4, legendY + 4, 2.6, look.tone),
      text(at + 10, legendY + 7, look.words, { size: 7 }),
    );
    at += 20 + look.words.length * 3.6;
  }
  const marks = [...used].map(
    (kind) => `${ribbon.marks.filter((one) => one.mark === kind).length} × ${MARKS[kind].words}`,
  );
  return {
    w: PICTURE_W,
    h: legendY + 12,
    alt: `Ribbon of what was done from ${startsAt}, over ${Math.round(spanS / 60)} minutes: ${ribbon.blocks.length} stretches of work${
      hasLots ? `, ${ribbon.lots.length} lots` : ''
    }. Marks: ${marks.join(', ') || 'none'}.`,
    shapes,
  };
};
