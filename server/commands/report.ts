/** `report`: one report from a record, on paper, as a table or as data. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { REPORT_KINDS, type ReportFilter, type ReportKind } from '../../machines/reports/filter.ts';
import { spanNamed } from '../export/export-shift.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';
import { FORMATS, type ReportFormat, renderReport, reportFrom } from '../reports/render.ts';
import { withStore } from '../store/look.ts';
import { numberOption, readOptions, textOption, UsageError } from './options.ts';

export const REPORT_HELP = `patchyard report <${REPORT_KINDS.join('|')}> --out FILE|- [options]

Makes a report from the record: as PDF, CSV or JSON, all three from one query. A server may be running on the
folder meanwhile. The same record gives the same file, to the last byte.

  shift      what was made of what, lots, batches, people, trips; whether the books close
  batch      sheet of one batch, one page              (--batch N)
  lot        file of one lot                           (--lot L)
  certificate
             of a lot somebody has decided about, one page  (--lot L)
  alarms     alarm performance against ISA-18.2 and EEMUA 191 figures
  refusals   refusals and trips, with their reasons

  --out FILE       the file to write, - for standard output
  --format F       ${FORMATS.join(', ')}; otherwise by the ending of FILE, or pdf
  --data FOLDER    data folder (.data)
  --shift N        the shift by its number, 1 for the first of the record; or # and the entry that opens it
  --from DATE      first day, YYYY-MM-DD (alarms and refusals take all shifts of these days)
  --to DATE        last day
  --lot L          a lot
  --batch N        number of a batch within its shift
  --person P       id of a person: only what that person did
  --material M     only what this material went into
  --table NAME     CSV only: one table of the report alone
  -h, --help       this text

Without shift or days the newest shift that fits is taken. In CSV, words a spreadsheet would take for a formula
have an apostrophe in front.`;

const DATE = /^\d{4}-\d{2}-\d{2}$/;

const formatFor = (asked: string | undefined, out: string): ReportFormat => {
  const wanted = asked ?? out.split('.').at(-1)?.toLowerCase() ?? '';
  const format = FORMATS.find((one) => one === wanted);
  if (format !== undefined) return format;
  if (asked === undefined) return 'pdf';
  throw new UsageError(`--format ${asked} is not one of ${FORMATS.join(', ')}.`);
};

const dayOption = (values: Parameters<typeof textOption>[0], name: string): string | undefined => {
  const day = textOption(values, name);
  if (day !== undefined && (!DATE.test(day) || Number.isNaN(Date.parse(day))))
    throw new UsageError(`--${name} ${day} is no day: write it as YYYY-MM-DD.`);
  return day;
};

const filterOf = (values: Parameters<typeof textOption>[0], shift: number | undefined): ReportFilter => ({
  ...Object.fromEntries(
    Object.entries({
      shift,
      from: dayOption(values, 'from'),
      to: dayOption(values, 'to'),
      lot: textOption(values, 'lot'),
      batch: numberOption(values, 'batch', 1, 1_000_000),
      person: textOption(values, 'person'),
      material: textOption(values, 'material'),
    }).filter(([, value]) => value !== undefined),
  ),
});

const write = (out: string, bytes: Buffer): void => {
  if (out === '-') {
    writeFileSync(1, bytes);
    return;
  }
  try {
    writeFileSync(out, bytes);
  } catch (error) {
    throw new PlainError(
      `${out} cannot be written (${codeOf(error) || messageOf(error)}): name another file with --out.`,
    );
  }
};

export const reportCommand = async (args: readonly string[]): Promise<number> => {
  const text = { type: 'string' } as const;
  const { values, files } = readOptions(args, {
    out: text,
    format: text,
    data: text,
    shift: text,
    from: text,
    to: text,
    lot: text,
    batch: text,
    person: text,
    material: text,
    table: text,
  });
  if (values.help === true) {
    console.log(REPORT_HELP);
    return 0;
  }
  const kind = REPORT_KINDS.find((one): one is ReportKind => one === files[0]);
  if (kind === undefined || files.length > 1)
    throw new UsageError(`report needs one of ${REPORT_KINDS.join(', ')}.`);
  const out = textOption(values, 'out');
  if (out === undefined) throw new UsageError('report needs --out FILE, or --out - for standard output.');
  const format = formatFor(textOption(values, 'format'), out);
  const table = textOption(values, 'table');
  if (table !== undefined && format !== 'csv') throw new UsageError('--table goes with --format csv.');
  const shift = textOption(values, 'shift');
  filterOf(values, undefined);
  return withStore(textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data'), async (store) => {
    const span = shift === undefined ? undefined : await spanNamed(store, shift);
    const envelope = await reportFrom(store, kind, filterOf(values, span?.shift));
    const bytes = await renderReport(envelope, format, table);
    write(out, bytes);
    if (out !== '-') console.log(`${envelope.id}: ${out}, ${(bytes.length / 1024).toFixed(0)} KiB`);
    return 0;
  });
};
