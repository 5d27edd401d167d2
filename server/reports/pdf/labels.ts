/** Labels on paper: A4, two by five, 99 by 57 mm each, with fine lines to cut along. */
import type { Label, LabelSheet } from '../../../machines/reports/labels.ts';
import { NOT_A_CONTROLLER } from '../../../machines/reports/words.ts';
import { COLOURS, PAGE } from './look.ts';
import { Paper } from './paper.ts';
import { drawQr } from './qr.ts';

const MM = 72 / 25.4;
const W = 99 * MM;
const H = 57 * MM;
const COLUMNS = 2;
const ROWS = 5;
const LEFT = (PAGE.w - COLUMNS * W) / 2;
const TOP = 5 * MM;
const PAD = 9;
const QR = 74;
const LINE = 11.4;

const drawFrame = (paper: Paper, x: number, y: number): void =>
  paper.artifact(() => {
    paper.doc.rect(x, y, W, H).lineWidth(0.3).strokeColor(COLOURS.rule).stroke();
  });

const drawLabel = (paper: Paper, label: Label, plant: string, x: number, y: number): void => {
  const left = x + PAD;
  const right = x + W - PAD;
  drawFrame(paper, x, y);
  paper.group('Sect', () => {
    paper.mark('H2', () => {
      paper.line(label.title, left, y + PAD, W, { size: 13, bold: true });
    });
    const w = paper.widthOf(label.title, { size: 13, bold: true });
    if (label.mark !== '')
      paper.mark('P', () =>
        paper.line(label.mark.toUpperCase(), left + w + 8, y + PAD + 3.4, W, {
          size: 8.5,
          bold: true,
          tone: 'warn',
        }),
      );
    paper.mark('P', () =>
      paper.line(plant, left, y + PAD, W - 2 * PAD, { size: 7, tone: 'soft', align: 'right' }),
    );
    const top = y + PAD + 20;
    const qrX = right - QR;
    const nameW = 46;
    const valueW = qrX - left - nameW - 8;
    label.lines.forEach(([name, value], i) => {
      const at = top + i * LINE;
      paper.mark('P', () => {
        paper.line(name, left, at, nameW, { size: 8, tone: 'soft' });
        if (value === null) return;
        const [first = ''] = paper.wrap(value, valueW, { size: 8.5, bold: true });
        paper.line(first, left + nameW, at - 0.4, valueW, { size: 8.5, bold: true });
      });
      if (value === null)
        paper.artifact(() => {
          paper.doc
            .moveTo(left + nameW, at + 8.6)
            .lineTo(qrX - 8, at + 8.6)
            .lineWidth(0.5)
            .strokeColor(COLOURS.edge)
            .stroke();
        });
    });
    paper.mark(
      'Figure',
      () => drawQr(paper, label.code, qrX, top, QR),
      `A square to scan that says: ${label.code}`,
    );
    paper.mark('P', () =>
      paper.line(label.code, qrX, top + QR + 4, QR, { size: 8.5, bold: true, align: 'center' }),
    );
    paper.mark('P', () =>
      paper.line(label.caution, left, y + H - PAD - 7.5, W - 2 * PAD, {
        size: 7.5,
        tone: 'warn',
        bold: true,
      }),
    );
  });
};

const drawFoot = (paper: Paper): void =>
  paper.artifact(
    () =>
      paper.line(NOT_A_CONTROLLER, LEFT, PAGE.h - 10, COLUMNS * W, {
        size: 5.5,
        tone: 'soft',
        align: 'center',
      }),
    'Pagination',
  );

/** Bytes of the sheet; ten labels a page. */
export const labelsPdf = async (sheet: LabelSheet): Promise<Buffer> => {
  const title = `Labels of lot ${sheet.lot}`;
  const paper = new Paper(
    {
      title,
      subject: `${sheet.labels.length} labels, ${sheet.plant}`,
      dated: new Date(Number.isNaN(Date.parse(sheet.dated)) ? 0 : sheet.dated),
    },
    1,
  );
  const perPage = COLUMNS * ROWS;
  sheet.labels.forEach((label, i) => {
    if (i % perPage === 0) {
      paper.newPage();
      drawFoot(paper);
    }
    const place = i % perPage;
    drawLabel(paper, label, sheet.plant, LEFT + (place % COLUMNS) * W, TOP + Math.floor(place / COLUMNS) * H);
  });
  return paper.bytes();
};
