/** Refusals and trips laid out. */
import { durationWords } from '../clock.ts';
import type { ReportDocument, Table } from '../document.ts';
import { barsPicture, refusalsPicture } from '../pictures/counts.ts';
import type { RefusalsReport } from '../refusals-report.ts';
import { capital, plainWords, plural } from '../words.ts';
import {
  basisSection,
  filterText,
  refusalsTable,
  sealSection,
  shiftLead,
  shiftsTable,
  tripsTable,
} from './common.ts';

/** More shifts than this are shown as a bar each. */
const DRAWN = 6;

const countsTable = (
  id: string,
  title: string,
  label: string,
  rows: readonly { readonly words: string; readonly times: number }[],
): Table => ({
  is: 'table',
  id,
  title,
  columns: [
    {
      key: id === 'by-reason' ? 'reason' : id === 'by-person' ? 'person' : 'command',
      label,
      unit: '',
      wide: 80,
    },
    { key: 'times', label: 'Times', unit: '', digits: 0, wide: 20 },
  ],
  rows: rows.map((one) => [one.words, one.times]),
  empty: 'None.',
});

export const refusalsDocument = (report: RefusalsReport): ReportDocument => {
  const [shift] = report.head.shifts;
  const counts = `${plural(report.refusals.length, 'refusal')} and ${plural(report.trips.length, 'trip')}`;
  return {
    kind: 'refusals',
    title: 'Refusals and trips',
    lead:
      report.head.shifts.length === 1 && shift !== undefined
        ? `${counts}. ${shiftLead(shift)}`
        : `${counts} in ${plural(report.head.shifts.length, 'shift')}, ${durationWords(report.runS)} of running. ${report.head.plant}`,
    onePage: false,
    sections: [
      report.shifts.length > DRAWN
        ? {
            is: 'picture',
            id: 'per-shift',
            title: 'Refusals of each shift',
            picture: barsPicture(
              report.shifts.map((one) => ({ words: `${one.date} ${one.name}`, value: one.refusedS.length })),
              'Refusals of each shift',
            ),
          }
        : { is: 'picture', id: 'along', title: 'Along the shift', picture: refusalsPicture(report.shifts) },
      countsTable('by-reason', 'By reason', 'Reason, figures left out', report.byReason),
      countsTable(
        'by-command',
        'By what was asked for',
        'Asked for',
        report.byCommand.map((one) => ({ ...one, words: plainWords(one.words) })),
      ),
      countsTable('by-person', 'By person', 'Person', report.byPerson),
      tripsTable(report.trips),
      refusalsTable(report.refusals),
      {
        is: 'table',
        id: 'held',
        title: 'Held back between line and plant',
        columns: [
          { key: 'element', label: 'Element', unit: '', wide: 20 },
          { key: 'causes', label: 'Causes', unit: '', wide: 68 },
          { key: 'times', label: 'Times', unit: '', digits: 0, wide: 12 },
        ],
        rows: report.held.map((one) => [capital(plainWords(one.element)), one.causes.join('; '), one.times]),
        empty: 'Nothing was held back.',
      },
      {
        is: 'table',
        id: 'stops',
        title: 'Emergency stops',
        columns: [
          { key: 'at', label: 'Time', unit: '', wide: 40 },
          { key: 'what', label: 'What', unit: '', wide: 30 },
          { key: 'by', label: 'By', unit: '', wide: 30 },
        ],
        rows: report.stops.map((one) => [one.at, one.what, one.by]),
        empty: 'The emergency stop was not pressed.',
        look: report.stops.flatMap((one, i) => (one.what === 'pressed' ? [i] : [])),
      },
      shiftsTable(report.head),
      sealSection(report.head),
      basisSection([
        `Filter: ${filterText(report.head)}. A refusal is an answer to a person with its reasons; nothing was done.`,
        'A trip that gains causes before it is reset is one trip. Trips are listed whatever the person filter says.',
      ]),
    ],
  };
};
