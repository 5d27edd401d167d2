/** Verdicts of `verify`: exit code, words for people, one JSON object for programs. */
import type { ExportManifest, Finding } from '../../machines/record/export.types.ts';
import { fingerprintInGroups } from '../../machines/record/seal.ts';
import type { FactDifference } from '../../machines/world/redecide.ts';

export type RedecidedVerdict =
  | { readonly result: 'same'; readonly ticks: number; readonly facts: number; readonly commands: number }
  | {
      readonly result: 'different';
      readonly facts: number;
      readonly differing: number;
      readonly differences: readonly (FactDifference & { readonly clock: string })[];
    }
  | { readonly result: 'declined'; readonly why: string };

export type Verdict = {
  readonly result: 'intact' | 'not sealed' | 'altered' | 'unreadable';
  /** export, proof or record (a data folder). */
  readonly of: 'export' | 'proof' | 'record';
  readonly file: string;
  readonly shift?: ExportManifest['shift'];
  readonly about?: string;
  readonly entries?: number;
  readonly bytes?: number;
  readonly head?: string;
  readonly seals?: number;
  /** Shifts of a record whose entries lie in archive files, which are verified by themselves. */
  readonly archived?: number;
  /** What an auditor should know although nothing is wrong. */
  readonly remarks?: readonly string[];
  readonly root?: string;
  readonly key?: string;
  readonly keyPinned?: boolean;
  readonly countersigned?: readonly string[];
  readonly why?: string;
  readonly findings: readonly Finding[];
  readonly redecided?: RedecidedVerdict;
};

export const EXIT = { intact: 0, altered: 1, unreadable: 2, 'not sealed': 3 } as const;
export const EXIT_DECLINED = 4;

export const exitCode = ({ result, redecided }: Verdict): number => {
  if (result === 'altered' || result === 'unreadable') return EXIT[result];
  if (redecided?.result === 'different') return EXIT.altered;
  if (redecided?.result === 'declined') return EXIT_DECLINED;
  return EXIT[result];
};

const keyWords = ({ key, keyPinned }: Verdict): string[] =>
  key === undefined
    ? []
    : [
        `Key ${fingerprintInGroups(key)}`,
        keyPinned === true
          ? 'This is the key asked for, or one it was changed to or from on record.'
          : 'Compare it with the fingerprint you have from elsewhere (a printed report), or give that with --key.',
      ];

const redecidedWords = (redecided: RedecidedVerdict | undefined): string[] => {
  if (redecided === undefined) return [];
  if (redecided.result === 'declined') return [`Not decided again: ${redecided.why}.`];
  if (redecided.result === 'same')
    return [
      `Decided again: ${redecided.commands} commands over ${redecided.ticks} ticks lead to the same ${redecided.facts} facts.`,
    ];
  return [
    `DECIDED OTHERWISE: ${redecided.differing} facts differ from what the line decides.`,
    ...redecided.differences.map(
      ({ clock, tick, chart, fact, expected, recorded }) =>
        `  ${clock} (tick ${tick}) ${chart}: ${fact}\n    expected ${expected ?? 'no such fact'}\n    recorded ${recorded ?? 'no such fact'}`,
    ),
  ];
};

const headline = (verdict: Verdict): string => {
  const { file, of, entries = 0, shift, about, findings } = verdict;
  const name = shift === undefined ? '' : `, shift "${shift.name}" of ${shift.date}`;
  switch (verdict.result) {
    case 'intact':
      if (of === 'record')
        return `The record in ${file} is whole: ${entries} entries, head ${verdict.head}; ${verdict.seals} seals hold`;
      return of === 'proof'
        ? `INTACT: ${entries} entries were sealed as they stand in ${file}, which calls itself "${about}"; what they are of stands in them`
        : `INTACT: ${file}${name}, ${entries} entries`;
    case 'not sealed':
      return `NOT SEALED: ${file}${name}: its ${entries} entries follow each other, but no seal vouches for them`;
    case 'altered':
      return of === 'record'
        ? `The record in ${file} is not whole at entry ${findings[0]?.seq}: ${findings[0]?.detail}`
        : `ALTERED: ${file}: ${findings.length} ${findings.length === 1 ? 'finding' : 'findings'}`;
    case 'unreadable':
      return `UNREADABLE: ${file}: ${verdict.why}`;
  }
};

/** What is printed when --json is not given. */
export const inWords = (verdict: Verdict): string =>
  [
    headline(verdict),
    ...(verdict.remarks ?? []),
    ...verdict.findings
      .slice(verdict.of === 'record' ? 1 : 0)
      .map(({ kind, detail }) => `  ${kind}: ${detail}`),
    ...(verdict.root === undefined ? [] : [`Root ${verdict.root}`]),
    ...keyWords(verdict),
    ...(verdict.countersigned === undefined || verdict.countersigned.length === 0
      ? []
      : [`Countersigned by ${verdict.countersigned.join(', ')}`]),
    ...redecidedWords(verdict.redecided),
  ].join('\n');
