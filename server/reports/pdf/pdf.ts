/** A report on paper: A4, tagged, the same bytes for the same record. */
import type { ReportDocument, Section } from '../../../machines/reports/document.ts';
import { documentOf } from '../../../machines/reports/documents/document-of.ts';
import type { ReportEnvelope } from '../../../machines/reports/report.ts';
import { NOT_A_CONTROLLER } from '../../../machines/reports/words.ts';
import { breathe } from '../breathe.ts';
import { COLOURS, PAGE, TEXT_W } from './look.ts';
import { Paper } from './paper.ts';
import { drawPicture } from './picture.ts';
import { drawQr } from './qr.ts';
import { drawFigures, drawTable } from './table.ts';

/** How much smaller a sheet that is meant for one page may be set before it takes a second one. */
const SCALES = [1, 0.94, 0.88, 0.82, 0.76] as const;
const LEAST_TABLE_H = 44;
const QR_SIDE = 46;

const headHeight = (paper: Paper): number => 17 * paper.scale;

/** What must stay together with a section's heading. */
const keepWith = (paper: Paper, section: Section): number => {
  if (section.is === 'picture') return section.picture.h * paper.scale;
  if (section.is === 'code') return CODE_SIDE * paper.scale;
  if (section.is === 'table') return Math.min(LEAST_TABLE_H, 14 + section.rows.length * 14);
  return 26;
};

const drawSection = (paper: Paper, section: Section, onePage: boolean): void => {
  const { scale } = paper;
  paper.group('Sect', () => {
    paper.room(headHeight(paper) + keepWith(paper, section) + 8 * scale);
    paper.y += 9 * scale;
    const top = paper.y;
    paper.mark('H2', () => paper.line(section.title, PAGE.left, top, TEXT_W, { size: 10, bold: true }));
    paper.y += 15 * scale;
    if (section.is === 'picture') drawPicture(paper, section.picture, PAGE.left);
    else if (section.is === 'figures') drawFigures(paper, section.figures);
    else if (section.is === 'code') drawCode(paper, section);
    else if (section.is === 'table')
      drawTable(paper, section, onePage && section.columns.length <= 3 && section.rows.length > 6 ? 3 : 1);
    else for (const words of section.lines) paper.paragraph(words, { size: 8, tone: 'soft' });
  });
};

const CODE_SIDE = 96;

/** The square left, its words right of it. */
const drawCode = (paper: Paper, { code, lines }: Extract<Section, { is: 'code' }>): void => {
  const { scale } = paper;
  const side = CODE_SIDE * scale;
  const top = paper.y;
  paper.mark(
    'Figure',
    () => drawQr(paper, code, PAGE.left, top, side),
    `A square to scan that says: ${code}`,
  );
  const x = PAGE.left + side + 12;
  const w = TEXT_W - side - 12;
  const look = { size: 8, tone: 'soft' } as const;
  const lead = look.size * 1.28 * scale;
  let y = top;
  for (const words of [...lines, code]) {
    const wrapped = paper.wrap(words, w, look);
    const from = y;
    paper.mark('P', () => {
      wrapped.forEach((text, i) => {
        paper.line(text, x, from + i * lead, w, look);
      });
    });
    y += wrapped.length * lead + 2 * scale;
  }
  paper.y = Math.max(top + side, y);
};

const drawTitle = (paper: Paper, document: ReportDocument, plant: string): void => {
  const { scale } = paper;
  paper.mark('P', () => paper.line(plant, PAGE.left, paper.y, TEXT_W, { size: 9, tone: 'soft' }));
  paper.y += 13 * scale;
  const top = paper.y;
  paper.mark('H1', () => paper.line(document.title, PAGE.left, top, TEXT_W, { size: 20, bold: true }));
  paper.y += 26 * scale;
  paper.paragraph(document.lead, { size: 9.5 });
  paper.y += 4 * scale;
  paper.artifact(() => {
    paper.doc
      .moveTo(PAGE.left, paper.y)
      .lineTo(PAGE.left + TEXT_W, paper.y)
      .lineWidth(1)
      .strokeColor(COLOURS.ink)
      .stroke();
  });
  paper.y += 2 * scale;
};

/** On every page: what this is not, which record it rests on, whose key, its own number and digest. */
const drawFoot = (
  paper: Paper,
  { id, sha256, report }: ReportEnvelope,
  page: number,
  pages: number,
): void => {
  const { record, plantKey } = report.head;
  const top = PAGE.h - PAGE.bottom + 14;
  const w = TEXT_W - QR_SIDE - 10;
  const look = { size: 6.4 / paper.scale, tone: 'soft' } as const;
  paper.artifact(() => {
    paper.doc
      .moveTo(PAGE.left, top - 5)
      .lineTo(PAGE.left + TEXT_W, top - 5)
      .lineWidth(0.5)
      .strokeColor(COLOURS.edge)
      .stroke();
    paper.line(NOT_A_CONTROLLER, PAGE.left, top, w, {
      ...look,
      size: 7 / paper.scale,
      tone: 'ink',
      bold: true,
    });
    paper.line(`Page ${page} of ${pages}`, PAGE.left, top, w, {
      ...look,
      size: 7 / paper.scale,
      tone: 'ink',
      align: 'right',
    });
    paper.line(`Record up to entry ${record.seq}, hash ${record.hash}`, PAGE.left, top + 11, w, look);
    paper.line(
      plantKey === null
        ? 'Plant’s key: none has been made in this data folder yet'
        : `Plant’s key, fingerprint ${plantKey}`,
      PAGE.left,
      top + 20,
      w,
      look,
    );
    paper.line(`Report ${id}`, PAGE.left, top + 29, w, look);
    paper.line(`SHA-256 of its data ${sha256}`, PAGE.left, top + 38, w, look);
    drawQr(paper, `patchyard report ${id} sha256 ${sha256}`, PAGE.left + TEXT_W - QR_SIDE, top, QR_SIDE);
  }, 'Pagination');
};

const write = async (envelope: ReportEnvelope, document: ReportDocument, scale: number): Promise<Paper> => {
  const { head } = envelope.report;
  const paper = new Paper(
    {
      title: `${document.title}, ${head.plant}`,
      subject: document.lead,
      dated: new Date(Number.isNaN(Date.parse(head.record.wall)) ? 0 : head.record.wall),
    },
    scale,
  );
  paper.onPage(() => {
    paper.artifact(() => {
      paper.line(`${document.title} · ${head.plant}`, PAGE.left, PAGE.top - 8, TEXT_W, {
        size: 8,
        tone: 'soft',
      });
    }, 'Pagination');
    paper.y = PAGE.top + 10;
  });
  paper.newPage();
  drawTitle(paper, document, head.plant);
  for (const section of document.sections) {
    await breathe();
    drawSection(paper, section, document.onePage);
  }
  return paper;
};

/** Bytes of the paper form. A sheet meant for one page is set smaller until it fits; past the least size it takes two. */
export const pdfOf = async (envelope: ReportEnvelope): Promise<Buffer> => {
  const document = documentOf(envelope.report);
  const scales = document.onePage ? SCALES : [1];
  let paper = await write(envelope, document, 1);
  for (const scale of scales.slice(1)) {
    if (paper.pages <= 1) break;
    paper = await write(envelope, document, scale);
  }
  const { start, count } = paper.doc.bufferedPageRange();
  for (let i = 0; i < count; i += 1) {
    paper.doc.switchToPage(start + i);
    drawFoot(paper, envelope, i + 1, count);
  }
  return paper.bytes();
};
