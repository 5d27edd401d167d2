/** The shift report laid out. */
import type { ReportDocument, Section } from '../document.ts';
import { ribbonPicture } from '../pictures/ribbon.ts';
import { tracesPicture } from '../pictures/traces.ts';
import type { ShiftReport } from '../shift-report.ts';
import { placeWords, plural } from '../words.ts';
import { batchesTable, lotsTable, materialsTable, samplesTable } from './batches-table.ts';
import { basisSection, filterText, refusalsTable, sealSection, shiftLead, tripsTable } from './common.ts';

const madeSection = ({ made, head, openedBy }: ShiftReport): Section => ({
  is: 'figures',
  id: 'made',
  title: 'What was made',
  figures: [
    {
      label: 'Mix into lots',
      value: made.grams / 1000,
      unit: 'kg',
      digits: 3,
      remark: `${plural(made.batches, 'batch', 'batches')} in ${plural(made.lots, 'lot')}`,
    },
    {
      label: 'Pace',
      value: made.gramsPerHour === null ? null : made.gramsPerHour / 1e6,
      unit: 't/h',
      digits: 2,
    },
    { label: 'Batches dumped', value: made.dumped, unit: '', digits: 0, look: made.dumped > 0 },
    {
      label: 'Samples taken',
      value: made.samplesTaken,
      unit: '',
      digits: 0,
      remark: `${made.samplesMissed} missed`,
      look: made.samplesMissed > 0,
    },
    { label: 'Trips', value: made.trips, unit: '', digits: 0, look: made.trips > 0 },
    { label: 'Refusals', value: made.refusals, unit: '', digits: 0 },
    { label: 'Alarms', value: made.alarms, unit: '', digits: 0 },
    { label: 'Opened by', value: openedBy ?? 'the program', unit: '' },
    { label: 'Ended by', value: head.shifts[0]?.endedBy ?? 'not ended', unit: '' },
    { label: 'Filter', value: filterText(head), unit: '' },
  ],
});

const booksTable = ({ books }: ShiftReport): Section => ({
  is: 'table',
  id: 'books',
  title: 'Books of the whole shift',
  columns: [
    { key: 'account', label: 'Account', unit: '', wide: 40 },
    { key: 'massKg', label: 'Mass', unit: 'kg', digits: 3, wide: 20 },
    { key: 'remark', label: 'Remark', unit: '', wide: 40 },
  ],
  rows: [
    ...books.materialsIn.map((one) => [
      `in: ${one.material}`,
      one.grams / 1000,
      'from the stock, less what went back',
    ]),
    ['in, together', books.inGrams / 1000, ''],
    ['out: lots', books.lotsGrams / 1000, 'as the batches told it'],
    ['out: waste', books.wasteGrams / 1000, ''],
    ['out: water lost', books.waterLostGrams / 1000, 'steam and spray, by difference at the dryer'],
    ...books.held.map((one) => [`held: ${placeWords(one.where)}`, one.grams / 1000, '']),
    [
      'in less out less held',
      books.errorGrams / 1000,
      books.errorGrams === 0 ? 'the books close to the gram' : 'the books do not close',
    ],
  ],
  empty: 'Nothing was booked.',
  look: books.errorGrams === 0 ? [] : [books.materialsIn.length + 4 + books.held.length],
});

const peopleTable = ({ people }: ShiftReport): Section => ({
  is: 'table',
  id: 'people',
  title: 'People',
  columns: [
    { key: 'person', label: 'Person', unit: '', wide: 24 },
    { key: 'role', label: 'Role', unit: '', wide: 18 },
    { key: 'commands', label: 'Commands', unit: '', digits: 0, wide: 12 },
    { key: 'refused', label: 'Refused', unit: '', digits: 0, wide: 12 },
    { key: 'batchesStarted', label: 'Batches started', unit: '', digits: 0, wide: 14 },
    { key: 'samplesTaken', label: 'Samples taken', unit: '', digits: 0, wide: 14 },
  ],
  rows: people.map((one) => [
    one.person.name,
    one.person.role,
    one.commands,
    one.refused,
    one.batches,
    one.samples,
  ]),
  empty: 'Nobody gave a command.',
});

const campaignsTable = ({ campaigns }: ShiftReport): Section => ({
  is: 'table',
  id: 'campaigns',
  title: 'Drying campaigns',
  columns: [
    { key: 'campaign', label: 'Campaign', unit: '', wide: 10 },
    { key: 'from', label: 'From', unit: '', wide: 20 },
    { key: 'charges', label: 'Charges', unit: '', digits: 0, wide: 9 },
    { key: 'inKg', label: 'In', unit: 'kg', digits: 3, wide: 13 },
    { key: 'outKg', label: 'Out', unit: 'kg', digits: 3, wide: 13 },
    { key: 'waterKg', label: 'Water driven off', unit: 'kg', digits: 3, wide: 15 },
    { key: 'outC', label: 'Out at, mean', unit: '°C', digits: 1, wide: 12 },
    { key: 'fuelS', label: 'Fuel on', unit: 's', digits: 0, wide: 9 },
  ],
  rows: campaigns.map((one) => [
    one.campaign,
    one.from,
    one.charges,
    one.inGrams / 1000,
    one.outGrams / 1000,
    one.waterGrams / 1000,
    one.meanOutC,
    one.fuelS,
  ]),
  empty: 'Nothing was dried.',
});

const safetyTable = ({ safety }: ShiftReport): Section => ({
  is: 'table',
  id: 'safety',
  title: 'Proof tests, inhibits, hot work, deliveries',
  columns: [
    { key: 'at', label: 'Time', unit: '', wide: 20 },
    { key: 'what', label: 'What', unit: '', wide: 60 },
    { key: 'by', label: 'By', unit: '', wide: 20 },
  ],
  rows: safety.map((one) => [one.at, one.what, one.by]),
  empty: 'None.',
  look: safety.flatMap((one, i) => (one.look ? [i] : [])),
});

const orNone = (lines: readonly string[], none: string): readonly string[] =>
  lines.length === 0 ? [none] : lines;

const handoverSection = ({ handover, books }: ShiftReport): Section => ({
  is: 'words',
  id: 'handover',
  title: 'Handed over',
  lines:
    handover === null
      ? ['Nothing was handed over: nobody has closed this shift with notes.']
      : [
          handover.notes === '' ? 'No notes.' : `Notes: ${handover.notes}`,
          ...orNone(
            handover.alarms.map((one) => `Alarm left: ${one.words}, ${one.state}`),
            'No alarm was left.',
          ),
          ...orNone(
            handover.inhibits.map((one) => `Inhibit left by ${one.by}: ${one.cause} (${one.reason})`),
            'No inhibit was left.',
          ),
          ...orNone(
            handover.permits.map(
              (one) => `Hot work permit ${one.permit} left open by ${one.by}: ${one.where}`,
            ),
            'No hot work permit was left open.',
          ),
          handover.inGrams === books.inGrams && handover.differenceGrams === 0
            ? 'The count told when the shift was closed agrees with these books to the gram.'
            : `The count told when the shift was closed does not agree: ${handover.inGrams} g taken in, ${handover.differenceGrams} g left over.`,
        ],
});

const remarksTable = ({ remarks }: ShiftReport): Section => ({
  is: 'table',
  id: 'remarks',
  title: 'Controls, faults and notes',
  columns: [
    { key: 'at', label: 'Time', unit: '', wide: 20 },
    { key: 'what', label: 'What', unit: '', wide: 60 },
    { key: 'by', label: 'By', unit: '', wide: 20 },
  ],
  rows: remarks.map((one) => [one.at, one.what, one.by]),
  empty: 'Nothing to remark.',
});

export const shiftDocument = (report: ShiftReport): ReportDocument => {
  const [shift] = report.head.shifts;
  const startsAt = shift?.from.slice(11, 16) ?? '00:00';
  const narrowed =
    filterText({ ...report.head, filter: { ...report.head.filter, shift: undefined } }) !== 'none';
  return {
    kind: 'shift',
    title: 'Shift report',
    lead: shift === undefined ? '' : shiftLead(shift),
    onePage: false,
    sections: [
      { is: 'picture', id: 'ribbon', title: 'The shift', picture: ribbonPicture(report.ribbon, startsAt) },
      madeSection(report),
      booksTable(report),
      materialsTable(report.materials),
      ...(report.traces.length === 0
        ? []
        : [
            {
              is: 'picture' as const,
              id: 'temperatures',
              title: 'Temperatures in their windows',
              picture: tracesPicture(report.traces, report.windows, startsAt, 0, report.ribbon.toS),
            },
          ]),
      lotsTable(report.lots),
      samplesTable(report.lots),
      batchesTable(report.batches),
      ...(report.campaigns.length === 0 ? [] : [campaignsTable(report)]),
      handoverSection(report),
      safetyTable(report),
      tripsTable(report.trips),
      refusalsTable(report.refusals),
      peopleTable(report),
      remarksTable(report),
      sealSection(report.head),
      basisSection([
        ...(narrowed
          ? [
              'Lists and weights follow the filter; the figures of what was made, the books, trips and remarks are of the whole shift.',
            ]
          : []),
        'Masses are whole grams as the line booked them. Times are the plant’s own clock.',
        'Lots are counted from what each batch told when it was discharged, everything else from the moves between accounts: two ways of counting that must meet.',
      ]),
    ],
  };
};
