/** The requirements of the interlocks as Markdown tables, made from the data; the README beside it holds them. */
import {
  CAUSES,
  type InterlockCauseId,
  PERMISSIVES,
  SAFEGUARDS,
  TANK_CAUSES,
  TRIPS,
} from './flame-interlock.causes.ts';
import { UPKEEP } from './flame-interlock.upkeep.ts';
import { causeAndEffect, type Effect, MATRIX_COLUMNS } from './matrix.ts';

const row = (...cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
const ruled = (...heads: readonly string[]): readonly string[] => [
  row(...heads),
  row(...heads.map(() => '---')),
];

const requirement = (id: InterlockCauseId): string => {
  const { hazard, cause, mustNever, elements, clears, reset } = CAUSES[id];
  const { everyDays, inhibitMin, verifiedBy } = UPKEEP[id];
  const inhibit = inhibitMin === 0 ? 'never' : `${inhibitMin} min`;
  return row(
    id,
    hazard,
    cause,
    mustNever,
    elements,
    clears,
    reset,
    `${everyDays} d`,
    inhibit,
    verifiedBy.join(', '),
  );
};

const SECTIONS: readonly (readonly [title: string, ids: readonly InterlockCauseId[]])[] = [
  [
    'Permissives: what must be so before binder may flow, cutback or emulsion be fed, or a flame burn',
    PERMISSIVES.map((one) => one.id),
  ],
  ['Trips: what shuts everything and stays until a person resets it', TRIPS.map((one) => one.id)],
  [
    'Safeguards of the burner: purges, trial for ignition, response to a failed flame',
    SAFEGUARDS.map((one) => one.id),
  ],
  ['Tank heating', TANK_CAUSES.map((one) => one.id)],
];

/** The requirements, a table a group. */
export const requirementsTable = (): string =>
  SECTIONS.flatMap(([title, ids]) => [
    `### ${title}`,
    '',
    ...ruled(
      'ID',
      'Hazard',
      'Cause',
      'Must never be',
      'Final elements',
      'Cleared by',
      'Reset',
      'Proved every',
      'Inhibit',
      'Verified by',
    ),
    ...ids.map(requirement),
    '',
  ])
    .join('\n')
    .trimEnd();

const MARKS: { readonly [E in Effect]: string } = {
  shuts: 'S',
  'keeps shut': 'K',
  trips: 'T',
  'keeps running': 'R',
};

/** The cause-and-effect matrix. */
export const matrixTable = (): string =>
  [
    ...ruled('ID', ...MATRIX_COLUMNS.map((one) => one.name)),
    ...causeAndEffect.map(({ id, effects }) =>
      row(
        id,
        ...MATRIX_COLUMNS.map((one) => {
          const effect = effects[one.id];
          return effect === undefined ? '' : MARKS[effect];
        }),
      ),
    ),
  ].join('\n');
