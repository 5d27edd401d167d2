/** A load ticket on paper: one A4 page whatever stands on it. */

import { NOT_A_CONTROLLER } from '../../../machines/reports/words.ts';
import type { LoadTicket } from '../../../machines/yard/stock/ticket.ts';
import { COLOURS, PAGE, TEXT_W } from './look.ts';
import { Paper } from './paper.ts';
import { drawQr } from './qr.ts';

const QR = 104;
/** Rows that find room on the page; what is over is named by its number, the list itself goes along. */
const MOST_LOTS = 8;
const MOST_PATCHES = 22;
const ROW = 15;

const heading = (paper: Paper, words: string): void => {
  paper.y += 12;
  paper.mark('H2', () => paper.line(words, PAGE.left, paper.y, TEXT_W, { size: 11, bold: true }));
  paper.y += 16;
};

type Columns = readonly { readonly x: number; readonly w: number; readonly right?: boolean }[];

const rowOf = (paper: Paper, columns: Columns, cells: readonly string[], bold = false): void => {
  paper.group('TR', () => {
    columns.forEach(({ x, w, right }, i) => {
      const look = {
        size: 9,
        bold,
        tone: bold ? ('soft' as const) : ('ink' as const),
        align: right === true ? ('right' as const) : ('left' as const),
      };
      const [first = ''] = paper.wrap(cells[i] ?? '', w, look);
      paper.mark(bold ? 'TH' : 'TD', () => paper.line(first, PAGE.left + x, paper.y, w, look));
    });
  });
  paper.y += ROW;
  paper.artifact(() => {
    paper.doc
      .moveTo(PAGE.left, paper.y - 4)
      .lineTo(PAGE.left + TEXT_W, paper.y - 4)
      .lineWidth(0.4)
      .strokeColor(COLOURS.rule)
      .stroke();
  });
};

const pairs = (
  paper: Paper,
  rows: LoadTicket['facts'],
  x: number,
  w: number,
  look: { readonly size: number; readonly lead: number; readonly name: number },
): void => {
  for (const [name, value] of rows) {
    const [first = ''] = paper.wrap(value, w - look.name, { size: look.size, bold: true });
    paper.mark('P', () => {
      paper.line(name, x, paper.y, look.name, { size: look.size, tone: 'soft' });
      paper.line(first, x + look.name, paper.y, w - look.name, { size: look.size, bold: true });
    });
    paper.y += look.lead;
  }
};

const drawHead = (paper: Paper, ticket: LoadTicket): void => {
  paper.mark('H1', () =>
    paper.line(`Load ticket ${ticket.load}`, PAGE.left, paper.y, TEXT_W - QR, { size: 20, bold: true }),
  );
  paper.mark('P', () =>
    paper.line(ticket.plant, PAGE.left, paper.y + 26, TEXT_W - QR, { size: 10, tone: 'soft' }),
  );
  const qrX = PAGE.left + TEXT_W - QR;
  paper.mark(
    'Figure',
    () => drawQr(paper, ticket.code, qrX, paper.y, QR),
    `A square to scan that says: ${ticket.code}`,
  );
  paper.y += 46;
  if (ticket.draft) {
    paper.mark('P', () =>
      paper.line('NOT WEIGHED OUT: this load may not leave yet.', PAGE.left, paper.y - 6, TEXT_W - QR, {
        size: 10,
        bold: true,
        tone: 'warn',
      }),
    );
    paper.y += 12;
  }
  pairs(paper, ticket.facts, PAGE.left, TEXT_W - QR - 14, { size: 9.5, lead: 14.5, name: 74 });
};

const drawSigns = (paper: Paper): void => {
  const y = PAGE.h - PAGE.bottom - 22;
  const w = TEXT_W / 3 - 12;
  ['Weighed out by', 'Driver', 'Received by, place and time'].forEach((words, i) => {
    const x = PAGE.left + i * (w + 18);
    paper.artifact(() => {
      paper.doc
        .moveTo(x, y)
        .lineTo(x + w, y)
        .lineWidth(0.6)
        .strokeColor(COLOURS.edge)
        .stroke();
    });
    paper.mark('P', () => paper.line(words, x, y + 4, w, { size: 8, tone: 'soft' }));
  });
  paper.artifact(
    () =>
      paper.line(NOT_A_CONTROLLER, PAGE.left, PAGE.h - 40, TEXT_W, {
        size: 7,
        tone: 'soft',
        align: 'center',
      }),
    'Pagination',
  );
};

const over = (paper: Paper, all: number, shown: number, words: string): void => {
  if (all <= shown) return;
  paper.mark('P', () =>
    paper.line(`and ${all - shown} ${words}`, PAGE.left, paper.y, TEXT_W, { size: 9, tone: 'soft' }),
  );
  paper.y += ROW;
};

/** Bytes of the ticket. The same load in the same state gives the same bytes. */
export const loadTicketPdf = async (ticket: LoadTicket): Promise<Buffer> => {
  const paper = new Paper(
    { title: `Load ticket ${ticket.load}`, subject: ticket.mixName, dated: new Date(`${ticket.at}Z`) },
    1,
  );
  paper.newPage();
  drawHead(paper, ticket);
  heading(paper, 'Weights');
  pairs(paper, ticket.weights, PAGE.left, TEXT_W, { size: 12, lead: 17, name: 74 });
  heading(paper, 'Lots by mass');
  const lots: Columns = [
    { x: 0, w: 120 },
    { x: 130, w: 130 },
    { x: 270, w: 150 },
    { x: 420, w: TEXT_W - 420, right: true },
  ];
  rowOf(paper, lots, ['Lot', 'Drawn from', 'Released', 'kg'], true);
  if (ticket.lots.length === 0) rowOf(paper, lots, ['none yet', '', '', '']);
  for (const one of ticket.lots.slice(0, MOST_LOTS))
    rowOf(paper, lots, [one.lot, one.from, one.released, one.kg.toFixed(3)]);
  over(paper, ticket.lots.length, MOST_LOTS, 'more lots, in the books under this load');
  heading(paper, 'For');
  const cautions = ticket.cautions.flatMap((words) => paper.wrap(words, TEXT_W - 12, { size: 9 }));
  // Between here and the lines to sign: the head of the table, its rows, the cautions under their heading.
  const room = PAGE.h - PAGE.bottom - 42 - 28 - cautions.length * 12 - paper.y;
  const fit = Math.min(MOST_PATCHES, Math.max(0, Math.floor(room / ROW) - 1));
  const most = ticket.patches.length <= fit ? fit : Math.max(0, fit - 1);
  const patches: Columns = [
    { x: 0, w: 120 },
    { x: 130, w: 280 },
    { x: 420, w: TEXT_W - 420, right: true },
  ];
  rowOf(paper, patches, ['Patch', 'Where', 'kg'], true);
  if (ticket.patches.length === 0) rowOf(paper, patches, ['no patches named', '', '']);
  for (const one of ticket.patches.slice(0, most))
    rowOf(paper, patches, [one.patch, one.where, one.kg.toFixed(0)]);
  over(paper, ticket.patches.length, most, 'more, on the sheet of the patch list');
  heading(paper, 'Cautions');
  for (const caution of ticket.cautions)
    for (const [i, words] of paper.wrap(caution, TEXT_W - 12, { size: 9 }).entries()) {
      paper.mark('P', () =>
        paper.line(i === 0 ? `• ${words}` : `  ${words}`, PAGE.left, paper.y, TEXT_W, { size: 9 }),
      );
      paper.y += 12;
    }
  drawSigns(paper);
  return paper.bytes();
};
