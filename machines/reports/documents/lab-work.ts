/** What the lab did with a lot, laid out: the tables the certificate and the lot file share, and those of the lot file. */

import { onAggregatePct } from '../../mix/residue.ts';
import type { Cell, Section, Table } from '../document.ts';
import type { LabLine, LabSheetPrint, LabWork } from '../lab-work.ts';
import { capital } from '../words.ts';

/** kgf/cm² to MPa (standard gravity, 9.80665 m/s²). */
const MPA_PER_KG_CM2 = 0.0980665;

/** What was judged, also in the other unit or on the other basis people ask for. */
const judgedWords = (line: LabLine): string => {
  const { property, judged, decimals, unit, rule } = line;
  if (rule === 'share within') return `${judged.toFixed(decimals)} % of the lot within`;
  if (property === 'workable') return judged === 1 ? 'yes' : 'no';
  const value = `${judged.toFixed(decimals)}${unit === '' ? '' : ` ${unit}`}${rule === 'mean' ? ' mean' : ''}`;
  if (property === 'bondKgCm2') return `${value} (${(judged * MPA_PER_KG_CM2).toFixed(3)} MPa)`;
  if (property === 'residualBinderMixPct')
    return `${value} (${onAggregatePct(judged).toFixed(decimals)} % of aggregate)`;
  return value;
};

const yesNo = (values: string): string => values.replaceAll('1', 'yes').replaceAll('0', 'no');

/** Results against limits; what lies outside is marked and said. */
export const labLinesTable = (lines: readonly LabLine[]): Table => ({
  is: 'table',
  id: 'results',
  title: 'Results against limits',
  columns: [
    { key: 'property', label: 'Property', unit: '', wide: 22 },
    { key: 'values', label: 'By sample', unit: '', wide: 14 },
    { key: 'judged', label: 'Judged', unit: '', wide: 21 },
    { key: 'limit', label: 'Limit', unit: '', wide: 15 },
    { key: 'within', label: 'Within', unit: '', wide: 8 },
    { key: 'source', label: 'Limit from', unit: '', wide: 34 },
  ],
  rows: lines.map((line): Cell[] => [
    line.property === 'workable' ? 'Workable in the cold' : capital(line.words),
    line.property === 'workable' ? yesNo(line.values) : line.values,
    judgedWords(line),
    line.property === 'workable' ? 'yes' : line.limit,
    line.within ? 'yes' : 'no',
    `${line.source} (${line.status})`,
  ]),
  empty: 'No result that a limit speaks of.',
  look: lines.flatMap((line, i) => (line.within ? [] : [i])),
});

const custodyTable = ({ samples }: LabWork): Table => ({
  is: 'table',
  id: 'lab-samples',
  title: 'Samples in the lab',
  columns: [
    { key: 'n', label: 'Sample', unit: '', wide: 10 },
    { key: 'test', label: 'Test', unit: '', wide: 16 },
    { key: 'label', label: 'Label', unit: '', wide: 17 },
    { key: 'taken', label: 'Taken', unit: '', wide: 17 },
    { key: 'by', label: 'By', unit: '', wide: 13 },
    { key: 'batch', label: 'Batch', unit: '', wide: 9 },
    { key: 'massKg', label: 'Mass', unit: 'kg', digits: 3, wide: 9 },
    { key: 'retained', label: 'Kept back', unit: 'kg', digits: 3, wide: 10 },
    { key: 'discard', label: 'Until', unit: '', wide: 14 },
    { key: 'remark', label: 'Remark', unit: '', wide: 18 },
  ],
  rows: samples.map((sample): Cell[] => [
    sample.sample,
    sample.test,
    sample.label,
    sample.taken,
    sample.takenBy,
    sample.batch,
    sample.massKg,
    sample.retainedKg,
    sample.discarded ? 'thrown away' : (sample.retainedKg ?? 0) > 0 ? sample.discardOn : null,
    [
      sample.substitute ?? (sample.taken === null ? sample.state : ''),
      ...sample.corrections.map((one) => `corrected by ${one.by}, ${one.at}: ${one.changes} (${one.reason})`),
    ]
      .filter((words) => words !== '')
      .join('; '),
  ]),
  empty: 'No sample.',
});

const handovers = ({ samples }: LabWork): Table => ({
  is: 'table',
  id: 'custody',
  title: 'In whose hands',
  columns: [
    { key: 'n', label: 'Sample', unit: '', wide: 8 },
    { key: 'at', label: 'Time', unit: '', wide: 18 },
    { key: 'from', label: 'From', unit: '', wide: 20 },
    { key: 'to', label: 'To', unit: '', wide: 20 },
    { key: 'remark', label: 'Remark', unit: '', wide: 34 },
  ],
  rows: samples.flatMap((sample) =>
    sample.custody.map((one): Cell[] => [sample.sample, one.at, one.from, one.to, one.remark]),
  ),
  empty: 'Nothing was handed over.',
});

const sheetHead = (sheet: LabSheetPrint): string =>
  `${sheet.id}: ${sheet.title}${sheet.sample === null ? '' : `, sample ${sheet.sample}`}${sheet.retest ? ', retest' : ''}`;

const sheetSections = (sheet: LabSheetPrint): Section[] => [
  {
    is: 'table',
    id: `sheet-${sheet.id}`,
    title: sheetHead(sheet),
    columns: [
      { key: 'what', label: 'Reading or figure', unit: '', wide: 40 },
      { key: 'how', label: 'Worked out', unit: '', wide: 44 },
      { key: 'value', label: 'Value', unit: '', wide: 16 },
      { key: 'unit', label: 'Unit', unit: '', wide: 10 },
    ],
    rows: [
      ...sheet.readings.map((one): Cell[] => [one.label, '', one.value, one.unit]),
      ...sheet.working.map((one): Cell[] => [
        one.label,
        one.numbers,
        one.value.toFixed(one.decimals),
        one.unit,
      ]),
      ...sheet.results.map((one): Cell[] => [
        `Result: ${one.words}`,
        '',
        one.value.toFixed(one.decimals),
        one.unit,
      ]),
    ],
    empty: 'No reading.',
  },
  {
    is: 'words',
    id: `sheet-${sheet.id}-about`,
    title: `About ${sheet.id}`,
    lines: [
      `Tested by ${sheet.testedBy}, ${sheet.tested}; entered by ${sheet.enteredBy}, ${sheet.entered}${sheet.balance === '' ? '' : `; balance ${sheet.balance}`}.`,
      ...(sheet.simulated ? ['Readings of the simulated bench.'] : []),
      ...(sheet.aside === null ? [] : [`Set aside, does not count: ${sheet.aside}`]),
      ...sheet.departures.map((one) => `Departure from the method: ${one}`),
      ...sheet.notes,
      ...(sheet.remark === '' ? [] : [`Remark: ${sheet.remark}`]),
      ...sheet.corrections.map(
        (one) =>
          `Corrected by ${one.by}, ${one.at}: ${one.changes}. Reason: ${one.reason}. Results before: ${one.was}`,
      ),
      ...sheet.photos.map(
        (one) =>
          `Photograph by ${one.by}, ${one.at}: ${one.caption}${one.aside === null ? '' : ` (set aside: ${one.aside})`}. SHA-256 ${one.sha256}`,
      ),
    ],
  },
];

const planLines = ({ plan }: LabWork): string[] => {
  if (plan === null) return ['No sampling plan was sealed for this lot.'];
  const sealed = `Sealed at opening with the SHA-256 ${plan.commitment}`;
  if (plan.text === null) return [sealed, 'The plan has not been opened yet.'];
  return [
    sealed,
    'The plan, as one line. Written to a file without a line end, sha256sum of it must give that hash:',
    plan.text,
    ...(plan.findings === null
      ? []
      : plan.findings.length === 0
        ? ['The program has checked it: the hash holds and the samples were called where the plan says.']
        : plan.findings),
  ];
};

/** Everything the lab did, for the lot file. */
export const labSections = (lab: LabWork): Section[] => [
  {
    is: 'figures',
    id: 'lab',
    title: 'In the lab',
    figures: [
      {
        label: 'State',
        value: lab.state,
        unit: '',
        remark: lab.done ?? '',
        look: lab.state === 'rejected' || lab.state === 'on hold',
      },
      {
        label: 'Verdict',
        value: { pass: 'meets its specification', fail: 'does not meet it', incomplete: 'incomplete' }[
          lab.verdict
        ],
        unit: '',
        look: lab.verdict === 'fail',
      },
      {
        label: 'Specification',
        value:
          lab.specification === null
            ? 'none named by the mix'
            : `${lab.specification.name}, version ${lab.specification.version}`,
        unit: '',
      },
      {
        label: 'Decided',
        value:
          lab.decision === null
            ? 'not yet'
            : `${lab.decision.what} by ${lab.decision.by}, ${lab.decision.role}`,
        unit: '',
        remark: lab.decision?.at ?? '',
      },
      {
        label: 'Worksheets',
        value: lab.sheets.length,
        unit: '',
        digits: 0,
        remark: `${lab.sheets.filter((sheet) => sheet.aside !== null).length} set aside`,
      },
      { label: 'Use until', value: lab.keepsUntil, unit: '' },
    ],
  },
  labLinesTable(lab.lines),
  {
    is: 'words',
    id: 'lab-open',
    title: 'Missing, failing, contradicting',
    lines: [
      ...(lab.missing.length === 0 ? ['Nothing is missing.'] : lab.missing.map((one) => `Missing: ${one}`)),
      ...(lab.failing.length === 0 ? ['Nothing fails.'] : lab.failing.map((one) => `Fails: ${one}`)),
      ...lab.contradictions.map((one) => `Contradiction: ${one}`),
      ...lab.notes,
    ],
  },
  custodyTable(lab),
  handovers(lab),
  { is: 'words', id: 'plan', title: 'The sampling plan and its seal', lines: planLines(lab) },
  ...lab.sheets.flatMap(sheetSections),
  {
    is: 'table',
    id: 'lab-events',
    title: 'Decisions and what led to them',
    columns: [
      { key: 'at', label: 'Time', unit: '', wide: 18 },
      { key: 'by', label: 'By', unit: '', wide: 16 },
      { key: 'what', label: 'What', unit: '', wide: 26 },
      { key: 'reason', label: 'Reason or remark', unit: '', wide: 40 },
    ],
    rows: lab.events.map((one): Cell[] => [one.at, one.by, capital(one.what), one.reason]),
    empty: 'No decision yet.',
  },
];
