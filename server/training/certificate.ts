/** One page to print about an attempt: who, which drill, how it went, and plainly what this paper is not. */
import PDFDocument from 'pdfkit';
import type { Debrief } from '../../machines/drills/debrief.types.ts';
import type { Attempt } from '../../machines/live/training.ts';
import { PROGRAM } from '../../machines/record/version.ts';

const INK = '#24272b';
const SOFT = '#5a5e62';
const RULE = '#cfcdc6';
const MARK = '#2d5560';
const WARN = '#a81f18';
const FILL = '#dcdad3';
const LEFT = 56;
const RIGHT = 539;
const WIDTH = RIGHT - LEFT;

export const NOT_A_CERTIFICATE =
  'Training only. This page records an exercise on a simulated plant. It does not replace licensed instruction, ' +
  'and it is no certificate of competence: it gives nobody the right to run a burner, a tank heater or a plant. ' +
  'Local codes, the binder supplier’s sheet and licensed practice come first.';

/** The built-in faces hold Latin letters only: what they lack is written the nearest way. */
const latin = (text: string): string =>
  text
    .replaceAll('−', '–')
    .replaceAll('≥', 'at least ')
    .replaceAll('≤', 'at most ')
    .replace(/[^\u0020-\u007e\u00a0-\u00ff–—‘’“”•…€]/gu, '?');

type Doc = InstanceType<typeof PDFDocument>;

/** Text of at most so many lines; the rest is cut with an ellipsis so that the page stays one. */
const put = (
  doc: Doc,
  text: string,
  x: number,
  y: number,
  { size = 10, width = WIDTH, lines = 1, color = INK, bold = false, align = 'left' as 'left' | 'right' } = {},
): void => {
  doc
    .font(bold ? 'Helvetica-Bold' : 'Helvetica')
    .fontSize(size)
    .fillColor(color);
  const height = doc.currentLineHeight(true) * lines + 1;
  doc.text(latin(text), x, y, {
    width,
    height,
    ellipsis: true,
    align,
    lineBreak: lines > 1 || width < WIDTH,
  });
};

const rule = (doc: Doc, y: number): void => {
  doc.moveTo(LEFT, y).lineTo(RIGHT, y).lineWidth(0.7).strokeColor(RULE).stroke();
};

const minutes = (ms: number): string => {
  const s = Math.round(ms / 1000);
  return `${Math.floor(s / 60)}:${String(s % 60).padStart(2, '0')}`;
};

const facts = (doc: Doc, attempt: Attempt, debrief: Debrief, y: number): void => {
  const inTime = debrief.expected.filter(({ standing }) => standing === 'in time').length;
  const called = debrief.expected.filter(({ of }) => of > 0).length;
  const cells: readonly (readonly [string, string])[] = [
    ['Date', attempt.endedWall.slice(0, 10)],
    ['Led by', attempt.by.id === attempt.trainee.id ? 'nobody, practised alone' : attempt.by.name],
    ['Time in the drill', `${minutes(debrief.endMs - debrief.startMs)} min`],
    ['Seed', String(attempt.seed)],
    ['Done in time', `${inTime} of ${called} expected`],
    ['Hints', attempt.hints ? `allowed, ${debrief.hints.length} taken` : 'not allowed'],
    ['Turned back', attempt.from === null && attempt.returns === 0 ? 'never' : turned(attempt)],
    ['Unsafe acts or states', attempt.unsafe === 0 ? 'none' : String(attempt.unsafe)],
  ];
  cells.forEach(([label, value], i) => {
    const x = LEFT + (i % 4) * (WIDTH / 4);
    const top = y + Math.floor(i / 4) * 38;
    put(doc, label, x, top, { size: 8, width: WIDTH / 4 - 8, color: SOFT });
    put(doc, value, x, top + 11, { size: 10, width: WIDTH / 4 - 8, lines: 2 });
  });
};

const turned = ({ returns, from }: Attempt): string => {
  const times = returns === 1 ? 'once' : `${returns} times`;
  if (from === null) return times;
  return returns === 0 ? 'begun from an earlier attempt' : `${times}, begun from an earlier one`;
};

const competencies = (doc: Doc, debrief: Debrief, y: number): number => {
  put(doc, 'By competency', LEFT, y, { size: 12, bold: true });
  let top = y + 20;
  for (const { name, score, points, of } of debrief.competencies) {
    put(doc, `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`, LEFT, top, { width: 130 });
    doc
      .rect(LEFT + 140, top, 240, 9)
      .fillColor(FILL)
      .fill();
    doc
      .rect(LEFT + 140, top, (240 * Math.min(100, score)) / 100, 9)
      .fillColor(MARK)
      .fill();
    const x = LEFT + 140 + (240 * debrief.passMark) / 100;
    doc
      .moveTo(x, top - 2)
      .lineTo(x, top + 11)
      .lineWidth(1)
      .strokeColor(INK)
      .stroke();
    put(doc, of === 0 ? 'points lost' : `${Math.round(points * 10) / 10} of ${of} points`, LEFT + 392, top, {
      width: WIDTH - 392,
      align: 'right',
    });
    top += 19;
  }
  put(doc, `The upright stroke marks the ${debrief.passMark} needed over all.`, LEFT + 140, top, {
    size: 8,
    color: SOFT,
    width: 300,
  });
  return top + 22;
};

const EXPECTED_SHOWN = 9;
const UNSAFE_SHOWN = 4;
const UNSAFE_X = LEFT + 300;

const expected = (doc: Doc, debrief: Debrief, y: number): void => {
  put(doc, 'What was expected', LEFT, y, { size: 12, bold: true, width: 280 });
  const called = debrief.expected.filter(({ standing }) => standing !== 'not called for');
  called.slice(0, EXPECTED_SHOWN).forEach(({ text, standing }, i) => {
    const top = y + 19 + i * 14;
    put(doc, text, LEFT, top, { size: 9, width: 206 });
    put(doc, standing, LEFT + 212, top, { size: 9, width: 72, color: standing === 'in time' ? MARK : WARN });
  });
  const more = called.length - EXPECTED_SHOWN;
  if (more > 0)
    put(doc, `and ${more} more, see the debrief`, LEFT, y + 19 + EXPECTED_SHOWN * 14, {
      size: 8,
      color: SOFT,
      width: 280,
    });
};

const unsafe = (doc: Doc, debrief: Debrief, y: number): void => {
  const width = RIGHT - UNSAFE_X;
  put(doc, 'Unsafe', UNSAFE_X, y, { size: 12, bold: true, width });
  if (debrief.unsafe.length === 0)
    put(doc, 'Nothing unsafe was done, tried or found in the plant.', UNSAFE_X, y + 19, {
      size: 9,
      width,
      lines: 2,
    });
  debrief.unsafe.slice(0, UNSAFE_SHOWN).forEach(({ text, kind, times }, i) => {
    const often = times > 1 ? `, ${times} times` : '';
    const words = `${kind === 'tried' ? 'Tried' : kind === 'done' ? 'Done' : 'In the plant'}${often}: ${text}`;
    put(doc, words, UNSAFE_X, y + 19 + i * 34, { size: 9, width, lines: 3 });
  });
  const more = debrief.unsafe.length - UNSAFE_SHOWN;
  if (more > 0)
    put(doc, `and ${more} more, see the debrief`, UNSAFE_X, y + 19 + UNSAFE_SHOWN * 34, {
      size: 8,
      color: SOFT,
      width,
    });
};

/** Bytes of the page; the same attempt gives the same bytes. */
export const certificatePdf = async (attempt: Attempt, debrief: Debrief): Promise<Buffer> => {
  const doc = new PDFDocument({
    size: 'A4',
    margin: 0,
    lang: 'en',
    info: {
      Title: `Training drill: ${latin(attempt.drillName)}`,
      Author: PROGRAM,
      Subject: 'Training only; no certificate of competence',
      CreationDate: new Date(attempt.endedWall),
      ModDate: new Date(attempt.endedWall),
    },
  });
  const parts: Buffer[] = [];
  const whole = new Promise<Buffer>((done, fail) => {
    doc.on('data', (part: Buffer) => parts.push(part));
    doc.on('end', () => done(Buffer.concat(parts)));
    doc.on('error', fail);
  });

  doc.rect(0, 0, 595.28, 10).fillColor(MARK).fill();
  put(doc, 'Patchyard · training on a simulated plant', LEFT, 34, { size: 9, color: SOFT });
  put(doc, 'Record of a drill', LEFT, 52, { size: 26, bold: true });
  put(doc, attempt.trainee.name, LEFT, 98, { size: 18, width: 330 });
  put(doc, 'worked the drill', LEFT, 122, { size: 9, color: SOFT });
  put(doc, attempt.drillName, LEFT, 136, { size: 15, bold: true, width: 330, lines: 2 });
  put(doc, debrief.drill.teaches, LEFT, 176, { size: 9.5, width: 330, lines: 4, color: SOFT });

  doc
    .roundedRect(420, 92, RIGHT - 420, 100, 6)
    .lineWidth(1.4)
    .strokeColor(attempt.passed ? MARK : WARN)
    .stroke();
  put(doc, String(debrief.score), 428, 102, { size: 40, bold: true, width: 103, align: 'right' });
  put(doc, `of 100, ${debrief.passMark} needed`, 428, 150, {
    size: 9,
    color: SOFT,
    width: 103,
    align: 'right',
  });
  put(doc, attempt.passed ? 'Drill passed' : 'Drill not passed', 428, 166, {
    size: 12,
    bold: true,
    color: attempt.passed ? MARK : WARN,
    width: 103,
    align: 'right',
  });

  rule(doc, 236);
  facts(doc, attempt, debrief, 248);
  rule(doc, 332);
  let y = competencies(doc, debrief, 344);
  rule(doc, y);
  put(doc, 'Verdict', LEFT, y + 12, { size: 12, bold: true });
  put(doc, debrief.verdict, LEFT, y + 29, { lines: 2 });
  y += 66;
  expected(doc, debrief, y);
  unsafe(doc, debrief, y);

  doc.rect(LEFT, 716, WIDTH, 62).fillColor('#f6f5f2').fill();
  doc.rect(LEFT, 716, 4, 62).fillColor(WARN).fill();
  put(doc, 'What this page is not', LEFT + 14, 723, { size: 9.5, bold: true, width: WIDTH - 24 });
  put(doc, NOT_A_CERTIFICATE, LEFT + 14, 737, { size: 8.5, width: WIDTH - 24, lines: 3 });
  put(
    doc,
    `${PROGRAM} · attempt ${attempt.session} · basis of times and limits: ${debrief.drill.basis}`,
    LEFT,
    792,
    {
      size: 7.5,
      color: SOFT,
      lines: 2,
    },
  );
  doc.end();
  return whole;
};
