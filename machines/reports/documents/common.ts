/** Sections most reports share: whose it is, the seal, refusals, trips. */
import { durationWords } from '../clock.ts';
import type { Cell, Section, Table } from '../document.ts';
import type { ReportHead, ShiftHead } from '../head.ts';
import type { RefusalLine, TripLine } from '../refusals.ts';
import { plainWords, plural, reasonsText } from '../words.ts';

const FILTER_WORDS: { readonly [key: string]: (value: string | number) => string } = {
  lot: (value) => `lot ${value}`,
  batch: (value) => `batch ${value}`,
  person: (value) => `person ${value}`,
  material: (value) => `material ${value}`,
  from: (value) => `from ${value}`,
  to: (value) => `to ${value}`,
  shift: (value) => `shift #${value}`,
};

export const filterText = (head: ReportHead): string => {
  const words = Object.entries(head.filter).flatMap(([key, value]) =>
    value === undefined ? [] : [FILTER_WORDS[key]?.(value) ?? `${key} ${value}`],
  );
  return words.length === 0 ? 'none' : words.join(', ');
};

const sealOf = (shift: ShiftHead): string => {
  if (shift.seal === null) return shift.ended ? 'not sealed' : 'not sealed: the shift had not ended';
  const by = shift.seal.countersigned.map((one) => one.by);
  return `sealed, entries ${shift.seal.first} to ${shift.seal.last}${by.length === 0 ? '' : `, countersigned by ${by.join(', ')}`}`;
};

/** Which shifts, how long, under which filter. */
export const shiftsTable = (head: ReportHead): Table => ({
  is: 'table',
  id: 'shifts',
  title: 'Shifts',
  columns: [
    { key: 'shift', label: 'Shift #', unit: '', wide: 8 },
    { key: 'name', label: 'Name', unit: '', wide: 16 },
    { key: 'from', label: 'From', unit: '', wide: 16 },
    { key: 'to', label: 'To', unit: '', wide: 16 },
    { key: 'runS', label: 'Ran for', unit: 'h', digits: 2, wide: 8 },
    { key: 'seal', label: 'Seal', unit: '', wide: 24 },
  ],
  rows: head.shifts.map((shift) => [
    shift.shift,
    shift.name,
    shift.from,
    shift.to,
    shift.runS / 3600,
    sealOf(shift),
  ]),
  empty: 'No shift.',
});

/** The seal as evidence: root, key, signature, countersignatures; or that there is none. */
export const sealSection = (head: ReportHead): Section => ({
  is: 'words',
  id: 'seal',
  title: 'Seal',
  lines: head.shifts.flatMap((shift) => {
    const many = head.shifts.length > 1 ? `Shift #${shift.shift}, ${shift.date}: ` : '';
    if (shift.seal === null)
      return [
        `${many === '' ? 'Not' : `${many}not`} sealed. ${
          shift.ended ? 'The shift has ended' : 'The shift had not ended when this was made'
        }: entries ${shift.firstSeq} to ${shift.lastSeq} stand in the hash chain, but nobody has signed for them.`,
      ];
    const { seal } = shift;
    return [
      `${many === '' ? 'Sealed' : `${many}sealed`} in entry ${seal.seq} over ${plural(seal.count, 'entry', 'entries')}, ${seal.first} to ${seal.last}.`,
      `Merkle root ${seal.root}`,
      `Signed (Ed25519) by the key with fingerprint ${seal.key}`,
      ...(head.shifts.length > 1 ? [] : [`Signature ${seal.signature}`]),
      ...(seal.countersigned.length === 0
        ? ['Not countersigned.']
        : seal.countersigned.map(
            (one) => `Countersigned by ${one.by}, ${one.wall}${one.remark === '' ? '' : `: ${one.remark}`}`,
          )),
    ];
  }),
});

export const basisSection = (lines: readonly string[]): Section => ({
  is: 'words',
  id: 'basis',
  title: 'How to read this',
  lines,
});

export const refusalsTable = (refusals: readonly RefusalLine[]): Table => ({
  is: 'table',
  id: 'refusals',
  title: 'Refusals',
  columns: [
    { key: 'at', label: 'Time', unit: '', wide: 18 },
    { key: 'command', label: 'Asked for', unit: '', wide: 14 },
    { key: 'by', label: 'By', unit: '', wide: 14 },
    { key: 'because', label: 'Refused because', unit: '', wide: 50 },
    { key: 'seq', label: 'Entry', unit: '', wide: 7 },
  ],
  rows: refusals.map((one): Cell[] => [
    one.at,
    plainWords(one.command),
    `${one.by.name}, ${one.by.role}`,
    reasonsText(one.because),
    one.seq,
  ]),
  empty: 'Nothing was refused.',
});

export const tripsTable = (trips: readonly TripLine[]): Table => ({
  is: 'table',
  id: 'trips',
  title: 'Trips of the flame interlock',
  columns: [
    { key: 'at', label: 'Time', unit: '', wide: 18 },
    { key: 'causes', label: 'Causes', unit: '', wide: 44 },
    { key: 'reset', label: 'Reset', unit: '', wide: 18 },
    { key: 'by', label: 'By', unit: '', wide: 14 },
    { key: 'stood', label: 'Stood for', unit: 's', digits: 1, wide: 9 },
  ],
  rows: trips.map((one) => [
    one.at,
    one.causes.map(({ id, words }) => `${id} ${words}`.trim()).join('; '),
    one.reset ?? 'not reset',
    one.resetBy ?? '',
    one.stoodS,
  ]),
  empty: 'The flame interlock did not trip.',
  look: trips.map((_, i) => i),
});

export const shiftLead = (shift: ShiftHead): string =>
  `${shift.plant}, ${shift.name}, ${shift.date}, ${shift.from.slice(11, 16)}–${shift.to.slice(11, 16)} (${durationWords(shift.runS)})`;
