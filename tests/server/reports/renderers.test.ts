/** One query, three forms: data, table and paper of every report must say the same; and the paper itself. */
import { describe, expect, it } from 'vitest';
import { canonical } from '../../../machines/record/canonical.ts';
import { neutralised, tablesOf } from '../../../machines/reports/csv.ts';
import { type Cell, cellText, columnHead } from '../../../machines/reports/document.ts';
import { documentOf } from '../../../machines/reports/documents/document-of.ts';
import { REPORT_KINDS, type ReportFilter, type ReportKind } from '../../../machines/reports/filter.ts';
import { makeReport, type ReportEnvelope, reportEnvelopeSchema } from '../../../machines/reports/report.ts';
import { sha256 } from '../../../server/digest.ts';
import { printable } from '../../../server/reports/pdf/look.ts';
import { envelopeOf, renderReport } from '../../../server/reports/render.ts';
import { LOT, labLife, labScenario, labWorkOfTold } from '../../reports/support/lab.ts';
import { parseCsv } from '../../reports/support/parse-csv.ts';
import { readPdf } from '../../reports/support/pdf-text.ts';
import {
  commandAt,
  emulsionBatch,
  lotOpened,
  raise,
  SEAL,
  shiftOf,
  sourceOf,
  type Told,
  WRENNA,
} from '../../reports/support/shift.ts';

const TOLD: Told[] = [
  commandAt(1, { do: 'start', batches: 12 }),
  lotOpened(2, '260414-1'),
  ...Array.from({ length: 12 }, (_, i) =>
    emulsionBatch(i + 1, 10 + i * 400, '260414-1', { chipsKg: 311 + (i % 4) * 2 }),
  ).flat(),
  ...Array.from({ length: 14 }, (_, i) => raise(5000 + i * 20, i % 2 === 0 ? 'step-slow' : 'bin-1-low')),
  [5100, { is: 'tripLatched', causes: ['FT-01'] }],
  [
    5200,
    {
      is: 'commandRefused',
      id: 'refused-1',
      command: 'lightBurner',
      by: WRENNA,
      because: ['=cmd() is no reason, but a spreadsheet must not run it', 'Łódź −5 °C ≤ 3'],
    },
  ],
  [5400, { is: 'alarmChanged', alarm: 'step-slow', state: 'shelved', by: WRENNA, reason: '@looked at' }],
  [5500, { is: 'shiftEnded', by: WRENNA }],
];
const SOURCE = sourceOf(shiftOf(TOLD, { seal: SEAL }));
const FILTERS: { readonly [K in ReportKind]: ReportFilter } = {
  shift: {},
  batch: { batch: 3 },
  lot: { lot: '260414-1' },
  certificate: { lot: LOT },
  alarms: {},
  refusals: {},
};

/** A lot that the lab has tested and accepted. */
const LIFE = labLife();
const LAB_SOURCE = sourceOf(shiftOf(LIFE, { seal: SEAL, scenario: labScenario(), lab: labWorkOfTold(LIFE) }));
const CASES = [...REPORT_KINDS, 'lot with its lab work'] as const;
type Case = (typeof CASES)[number];
const kindOf = (one: Case): ReportKind => (one === 'lot with its lab work' ? 'lot' : one);

const made = (one: Case): ReportEnvelope => {
  const kind = kindOf(one);
  const source = one === kind && kind !== 'certificate' ? SOURCE : LAB_SOURCE;
  const report = makeReport(kind, source, FILTERS[kind]);
  if (!report.ok) throw new Error(report.why);
  return envelopeOf(report.report);
};

const squeezed = (words: string): string => words.replace(/[\s\u00a0]/g, '');

describe.each(CASES)('%s', (kind) => {
  const envelope = made(kind);
  const document = documentOf(envelope.report);

  it('as data keeps its schema, and its digest is that of its canonical form', async () => {
    const data = JSON.parse((await renderReport(envelope, 'json')).toString());
    expect(reportEnvelopeSchema.parse(data)).toEqual(data);
    expect(data.sha256).toBe(sha256(canonical(data.report)));
    // What is laid out from the data read back is what is laid out from the report itself.
    expect(documentOf(data.report)).toEqual(document);
  });

  it('as a table holds every figure of the data', async () => {
    const [heads = [], ...rows] = parseCsv((await renderReport(envelope, 'csv')).toString());
    for (const table of tablesOf(document)) {
      const own = rows.filter((row) => row[0] === table.id);
      expect(own).toHaveLength(table.rows.length);
      table.rows.forEach((row, i) => {
        table.columns.forEach((column, k) => {
          const cell = own[i]?.[heads.indexOf(columnHead(column))];
          const value: Cell = row[k] ?? null;
          if (typeof value === 'number')
            expect(Number(cell)).toBe(
              column.digits === undefined ? value : Number(value.toFixed(column.digits)),
            );
          else expect(cell).toBe(value === null ? '' : neutralised(value));
        });
      });
    }
  });

  it('on paper shows every figure of the data', async () => {
    const { pages } = readPdf(await renderReport(envelope, 'pdf'));
    const pieces = new Set(pages.flat().map(squeezed));
    const whole = squeezed(pages.flat().join(''));
    let numbers = 0;
    for (const section of document.sections) {
      if (section.is === 'table')
        for (const row of section.rows)
          row.forEach((value, k) => {
            const digits = section.columns[k]?.digits;
            if (typeof value === 'number') {
              numbers += 1;
              // A number stands alone in its cell, whole.
              expect(pieces).toContain(squeezed(printable(cellText(value, digits))));
            } else if (value !== null) {
              if (/\d/.test(value)) numbers += 1;
              for (const word of printable(value).split(/\s+/)) expect(whole).toContain(squeezed(word));
            }
          });
      if (section.is === 'figures')
        for (const { value, digits } of section.figures)
          for (const word of printable(cellText(value, digits)).split(/\s+/))
            expect(whole).toContain(squeezed(word));
    }
    expect(numbers).toBeGreaterThan(5);
  });

  it('on paper says on every page what it is not, what it rests on, whose key, and its own digest', async () => {
    const { pages } = readPdf(await renderReport(envelope, 'pdf'));
    pages.forEach((page, i) => {
      const words = page.join('\n');
      expect(words).toContain('not a safety-rated controller');
      expect(words).toContain(envelope.report.head.record.hash);
      expect(words).toContain(envelope.report.head.plantKey);
      expect(words).toContain(envelope.sha256);
      expect(words).toContain(`Page ${i + 1} of ${pages.length}`);
    });
  });

  it('is the same to the last byte when made again', async () => {
    for (const format of ['pdf', 'csv', 'json'] as const)
      expect((await renderReport(made(kind), format)).equals(await renderReport(envelope, format))).toBe(
        true,
      );
  });

  it('is tagged, in a language, and every picture has its words', async () => {
    const { dicts } = readPdf(await renderReport(envelope, 'pdf'));
    const all = dicts.join('\n');
    expect(all).toContain('/MarkInfo');
    expect(all).toMatch(/\/Lang \(en-GB\)/);
    const figures = dicts.filter((dict) => dict.includes('/S /Figure'));
    expect(figures).toHaveLength(
      document.sections.filter((section) => section.is === 'picture' || section.is === 'code').length,
    );
    for (const figure of figures) expect(figure).toMatch(/\/Alt \(/);
    expect(dicts.filter((dict) => dict.includes('/S /H1'))).toHaveLength(1);
    expect(all).toContain('/S /TH');
  });
});

describe('paper', () => {
  it('a batch sheet is one page', async () => {
    expect(readPdf(await renderReport(made('batch'), 'pdf')).pages).toHaveLength(1);
  });

  it('a certificate is one page', async () => {
    expect(readPdf(await renderReport(made('certificate'), 'pdf')).pages).toHaveLength(1);
  });

  it('prints the seal, and that a shift is not sealed', async () => {
    const sealed = readPdf(await renderReport(made('shift'), 'pdf'))
      .pages.flat()
      .join('');
    expect(squeezed(sealed)).toContain(SEAL.root);
    expect(sealed).toContain('Halvard Quill');
    const open = makeReport('shift', sourceOf(shiftOf(TOLD)), {});
    if (!open.ok) throw new Error(open.why);
    expect(
      readPdf(await renderReport(envelopeOf(open.report), 'pdf'))
        .pages.flat()
        .join(''),
    ).toContain('Not sealed.');
  });

  it('writes signs its fonts lack with their nearest', () => {
    expect(printable('Łódź −5 °C ≤ 3 → 漢')).toBe('Lódz –5\u00a0°C <= 3 -> ?');
    expect(printable('65 °C and 3 kg')).toBe('65\u00a0°C and 3\u00a0kg');
  });

  it('runs no formula that somebody wrote as a reason', async () => {
    const csv = (await renderReport(made('refusals'), 'csv')).toString();
    expect(csv).toContain("'=cmd() is no reason");
    expect((await renderReport(made('alarms'), 'csv')).toString()).toContain("'@looked at");
  });
});
