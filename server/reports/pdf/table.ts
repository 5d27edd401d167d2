/** Tables and figures on paper. */
import {
  type Cell,
  cellText,
  columnHead,
  type Figure,
  type Table,
} from '../../../machines/reports/document.ts';
import { COLOURS, PAGE, printable, TEXT_W, WARN_TINT } from './look.ts';
import type { Paper, TextLook } from './paper.ts';

const SIZE = 8;
const HEAD: TextLook = { size: 7, tone: 'soft', bold: true };
const GAP = 8;

type Spot = { readonly x: number; readonly w: number; readonly right: boolean };

/** A column of numbers stands right, under its head. */
const spotsOf = ({ columns, rows }: Table, from: number, width: number): Spot[] => {
  const whole = columns.reduce((sum, column) => sum + column.wide, 0);
  let x = from;
  return columns.map((column, i) => {
    const w = (column.wide / whole) * width;
    const spot = {
      x,
      w: w - GAP,
      right: column.digits !== undefined && rows.some((row) => typeof row[i] === 'number'),
    };
    x += w;
    return spot;
  });
};

const rule = (paper: Paper, y: number, colour: string, width: number, x: number, w: number): void =>
  paper.artifact(() => {
    paper.doc
      .moveTo(x, y)
      .lineTo(x + w, y)
      .lineWidth(width)
      .strokeColor(colour)
      .stroke();
  });

const drawRow = (
  paper: Paper,
  cells: readonly string[],
  spots: readonly Spot[],
  look: TextLook,
  kind: 'TH' | 'TD' | null,
): number => {
  const lead = look.size * 1.22 * paper.scale;
  const lines = cells.map((cell, i) => paper.wrap(cell, spots[i]?.w ?? 0, look));
  const h = Math.max(1, ...lines.map((one) => one.length)) * lead;
  const top = paper.y;
  const draw = (i: number): void => {
    const spot = spots[i];
    if (spot === undefined) return;
    (lines[i] ?? []).forEach((text, k) => {
      paper.line(text, spot.x, top + k * lead, spot.w, { ...look, align: spot.right ? 'right' : 'left' });
    });
  };
  if (kind === null)
    paper.artifact(() => {
      cells.forEach((_, i) => {
        draw(i);
      });
    }, 'Pagination');
  else
    paper.group('TR', () => {
      cells.forEach((_, i) => {
        paper.mark(kind, () => draw(i));
      });
    });
  paper.y += h;
  return h;
};

const heightOf = (paper: Paper, cells: readonly string[], spots: readonly Spot[]): number =>
  Math.max(1, ...cells.map((cell, i) => paper.wrap(cell, spots[i]?.w ?? 0, { size: SIZE }).length)) *
  SIZE *
  1.22 *
  paper.scale;

const textsOf = (table: Table, row: readonly Cell[]): string[] =>
  table.columns.map((column, i) => cellText(row[i] ?? null, column.digits));

const tint = (paper: Paper, h: number, x: number, w: number): void =>
  paper.artifact(() => {
    const { doc, y, scale } = paper;
    doc
      .rect(x - 4, y - 1.6 * scale, w + 8, h + 2.6 * scale)
      .fillColor(WARN_TINT)
      .fill();
    const middle = y + (SIZE * 0.52 + 0.2) * scale;
    doc
      .polygon([x - 9, middle - 3], [x - 5.8, middle + 2.4], [x - 12.2, middle + 2.4])
      .fillColor(COLOURS.warn)
      .fill();
  });

/** Short rows laid side by side, so that a long list of small things stays on its page. */
const drawInColumns = (paper: Paper, table: Table, columns: number): void => {
  const each = Math.ceil(table.rows.length / columns);
  const width = (TEXT_W - (columns - 1) * 14) / columns;
  const top = paper.y;
  let lowest = top;
  for (let k = 0; k < columns; k += 1) {
    const rows = table.rows.slice(k * each, (k + 1) * each);
    if (rows.length === 0) continue;
    paper.y = top;
    const part = { ...table, rows };
    const x = PAGE.left + k * (width + 14);
    const spots = spotsOf(part, x, width);
    paper.group('Table', () => {
      drawRow(paper, table.columns.map(columnHead), spots, HEAD, 'TH');
      for (const row of rows) {
        paper.y += 1.5 * paper.scale;
        drawRow(paper, textsOf(table, row), spots, { size: SIZE }, 'TD');
      }
    });
    lowest = Math.max(lowest, paper.y);
  }
  paper.y = lowest;
};

export const drawTable = (paper: Paper, table: Table, inColumns = 1): void => {
  if (table.rows.length === 0) {
    paper.paragraph(table.empty, { size: SIZE + 0.5, tone: 'soft' });
    return;
  }
  if (inColumns > 1) {
    drawInColumns(paper, table, inColumns);
    return;
  }
  const spots = spotsOf(table, PAGE.left, TEXT_W);
  const heads = table.columns.map(columnHead);
  const look = new Set(table.look ?? []);
  const { scale } = paper;
  paper.group('Table', () => {
    drawRow(paper, heads, spots, HEAD, 'TH');
    paper.y += 2 * scale;
    rule(paper, paper.y, COLOURS.edge, 0.7, PAGE.left, TEXT_W);
    table.rows.forEach((row, i) => {
      const cells = textsOf(table, row);
      const h = heightOf(paper, cells, spots);
      if (paper.room(h + 4 * scale)) {
        // Heads again on the new page: for the eye only, the table itself goes on.
        drawRow(paper, heads, spots, HEAD, null);
        paper.y += 2 * scale;
        rule(paper, paper.y, COLOURS.edge, 0.7, PAGE.left, TEXT_W);
      }
      paper.y += 2.6 * scale;
      if (look.has(i)) tint(paper, h, PAGE.left, TEXT_W);
      drawRow(paper, cells, spots, { size: SIZE }, 'TD');
      paper.y += 1.4 * scale;
      rule(paper, paper.y, COLOURS.rule, 0.4, PAGE.left, TEXT_W);
    });
  });
};

const figureText = ({ value, unit, digits }: Figure): string =>
  unit === '' || value === null ? cellText(value, digits) : `${cellText(value, digits)} ${unit}`;

/** Figures in two columns: label, value with its unit, remark. */
export const drawFigures = (paper: Paper, figures: readonly Figure[]): void => {
  const { scale } = paper;
  const width = (TEXT_W - 20) / 2;
  const labelW = width * 0.36;
  paper.group('L', () => {
    for (let i = 0; i < figures.length; i += 2) {
      const pair = figures.slice(i, i + 2).map((figure) => {
        const words = `${figureText(figure)}${(figure.remark ?? '') === '' ? '' : `, ${figure.remark}`}`;
        return {
          figure,
          lines: paper.wrap(words, width - labelW - 6, { size: 8.5, bold: typeof figure.value === 'number' }),
        };
      });
      const lead = 8.5 * 1.24 * scale;
      const h = Math.max(...pair.map((one) => one.lines.length)) * lead + 3 * scale;
      paper.room(h);
      const top = paper.y;
      pair.forEach(({ figure, lines }, k) => {
        const x = PAGE.left + k * (width + 20);
        if (figure.look === true)
          paper.artifact(() => {
            const m = top + 4.6 * scale;
            paper.doc
              .polygon([x - 7, m - 3], [x - 3.8, m + 2.4], [x - 10.2, m + 2.4])
              .fillColor(COLOURS.warn)
              .fill();
          });
        paper.mark('LI', () => {
          paper.line(figure.label, x, top, labelW, { size: 8.5, tone: 'soft' });
          const tone = figure.look === true ? 'warn' : 'ink';
          lines.forEach((text, n) => {
            const at = top + n * lead;
            const bold = n === 0 && typeof figure.value === 'number' ? figureText(figure) : '';
            const shown = text.startsWith(printable(bold)) ? printable(bold) : '';
            if (shown !== '') paper.line(shown, x + labelW, at, width, { size: 8.5, tone, bold: true });
            const from = paper.widthOf(shown, { size: 8.5, bold: true });
            paper.line(text.slice(shown.length), x + labelW + from, at, width, { size: 8.5, tone });
          });
        });
      });
      paper.y = top + h;
    }
  });
};
