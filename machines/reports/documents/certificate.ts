/** The certificate of a lot laid out on one page. */
import type { Certificate } from '../certificate.ts';
import type { ReportDocument } from '../document.ts';
import { capital, plural } from '../words.ts';
import { basisSection } from './common.ts';
import { labLinesTable } from './lab-work.ts';

/** What the square on a certificate says: enough to find and check the decision in the record. */
export const certificateCode = ({ lot, lab }: Certificate): string =>
  `patchyard lot ${lot.lot} ${lab.decision.what} entry ${lab.decision.seq} sha256 ${lab.decision.hash}`;

const leadOf = ({ lot, lab }: Certificate): string => {
  const spec =
    lab.specification === null
      ? 'no specification'
      : `specification ${lab.specification.name}, version ${lab.specification.version}`;
  const name = `${lab.simulated ? 'For training, from a simulated bench: lot' : 'Lot'} ${lot.lot}`;
  if (lab.decision.what === 'accepted') return `${name} is accepted: it meets ${spec}.`;
  if (lab.decision.what === 'rejected')
    return `${name} is rejected against ${spec}: it must not leave the yard.`;
  return `${name} does not meet ${spec} and is released by concession: ${lab.decision.reason}`;
};

/** What was released in spite of its results is not certified. */
const titleOf = ({ lot, lab }: Certificate): string => {
  if (lab.decision.what === 'accepted') return `Certificate of lot ${lot.lot}`;
  return lab.decision.what === 'rejected'
    ? `Rejection of lot ${lot.lot}`
    : `Release of lot ${lot.lot} by concession`;
};

const cautions = ({ lot, lab }: Certificate): string[] => [
  ...(lab.simulated
    ? [
        'Results come from the simulated bench of a training program: this is no certificate of real material.',
      ]
    : []),
  lot.family === 'cutback'
    ? 'Caution: cutback mix gives off solvent that burns. No flame, spark or smoking near bags, heaps and the open patch; gloves and fresh air.'
    : 'Caution: fresh emulsion mix irritates skin and eyes. Gloves; keep it out of drains and from frost.',
];

export const certificateDocument = (report: Certificate): ReportDocument => {
  const { lot, lab } = report;
  const { decision } = lab;
  return {
    kind: 'certificate',
    title: titleOf(report),
    lead: leadOf(report),
    onePage: true,
    sections: [
      {
        is: 'figures',
        id: 'lot',
        title: 'The lot',
        figures: [
          { label: 'Mix', value: `${report.mixName ?? lot.mix}, version ${lot.mixVersion}`, unit: '' },
          {
            label: 'Binder',
            value: report.binder,
            unit: '',
            remark: report.binder?.includes(lot.family) === true ? '' : lot.family,
          },
          {
            label: 'Mass',
            value: lot.grams / 1000,
            unit: 'kg',
            digits: 3,
            remark: plural(lot.batches.length, 'batch', 'batches'),
          },
          { label: 'Bay', value: lot.bay, unit: '' },
          { label: 'Opened', value: lot.opened, unit: '' },
          { label: 'Closed', value: lot.closed, unit: '' },
          // Nobody may use what was rejected.
          ...(decision.what === 'rejected'
            ? []
            : [
                {
                  label: 'Use until',
                  value: lab.keepsUntil,
                  unit: '',
                  remark:
                    lab.specification === null ? '' : `${lab.specification.shelfLifeDays} days from closing`,
                },
              ]),
          {
            label: 'Samples taken',
            value: lab.samplesTaken,
            unit: '',
            digits: 0,
            remark: lab.retests === 0 ? 'no retest' : plural(lab.retests, 'retest'),
          },
        ],
      },
      {
        is: 'figures',
        id: 'decision',
        title: 'The decision',
        figures: [
          {
            label: 'Verdict',
            value: {
              pass: 'meets its specification',
              fail: 'does not meet its specification',
              incomplete: 'not all results are there',
            }[lab.verdict],
            unit: '',
            look: lab.verdict !== 'pass',
          },
          {
            label: 'Decided',
            value: capital(decision.what),
            unit: '',
            remark: lab.done ?? '',
            look: decision.what !== 'accepted',
          },
          { label: 'By', value: decision.by, unit: '', remark: decision.role },
          { label: 'On', value: decision.at, unit: '' },
          ...(decision.askedBy === null
            ? []
            : [
                { label: 'Concession asked by', value: decision.askedBy, unit: '' },
                { label: 'Reason', value: decision.reason, unit: '' },
              ]),
          ...(decision.askedBy === null && decision.reason !== ''
            ? [
                {
                  label: decision.what === 'rejected' ? 'Reason' : 'Remark',
                  value: decision.reason,
                  unit: '',
                },
              ]
            : []),
        ],
      },
      labLinesTable(lab.lines),
      ...(lab.failing.length === 0 && lab.missing.length === 0
        ? []
        : [
            {
              is: 'words' as const,
              id: 'against',
              title: 'What speaks against it',
              lines: [...lab.failing.map(capital), ...lab.missing.map((one) => `Missing: ${one}`)],
            },
          ]),
      {
        is: 'code',
        id: 'check',
        title: 'How to check it',
        code: certificateCode(report),
        lines: [
          `The decision is entry ${decision.seq} of the plant’s record, with the hash`,
          decision.hash,
          'Find it on the Records page, or take the export of its shift and run “patchyard verify” on it: the hash must be there, letter for letter. The square says the same. The lot file has every sample, worksheet, reading and correction behind these figures.',
        ],
      },
      basisSection([
        ...cautions(report),
        ...lab.notes,
        ...(lab.departures.length === 0
          ? []
          : [`Departures from the methods: ${lab.departures.join('; ')}.`]),
        ...(lab.aside === 0
          ? []
          : [`${plural(lab.aside, 'worksheet')} set aside with reasons; they stay in the lot file.`]),
        ...(lab.specification === null ? [] : [`Limits: ${lab.specification.source}`]),
      ]),
    ],
  };
};
