/**
 * The cause-and-effect matrix, made from the same tables the gate reads: a row a cause, a column a final
 * element. A test asks the gate for every cell; nothing is written down twice.
 */
import type { Outputs } from '../../field/outputs.ts';
import { isLockout, SAFEGUARDS, type Safeguard } from '../burner/burner.safeguards.ts';
import { TANK_CAUSES } from '../tank-interlock/tank-interlock.causes.ts';
import {
  CAUSES,
  type InterlockCauseId,
  PERMISSIVES,
  type PermissiveFor,
  TRIPS,
} from './flame-interlock.causes.ts';
import {
  CLOSED_BY_A_TRIP,
  type ElementKey,
  FUEL,
  HELD_BY_PERMISSIVE,
  KEPT_RUNNING,
  STOPPED_BY_EMERGENCY,
  STOPS_ALL,
} from './flame-interlock.elements.ts';

/**
 * shuts: closes it if it is open, and keeps it shut. keeps shut: is asked for only before it opens.
 * trips: closes it, and it stays so until a person resets. keeps running: it may not be stopped.
 */
export type Effect = 'shuts' | 'keeps shut' | 'trips' | 'keeps running';

export type MatrixColumn = {
  readonly id: string;
  readonly name: string;
  readonly keys: readonly ElementKey[];
};

const column = (id: string, name: string, ...keys: ElementKey[]): MatrixColumn => ({ id, name, keys });

/** Final elements, in the order of the way of the material; outputs that are always held together share a column. */
export const MATRIX_COLUMNS: readonly MatrixColumn[] = [
  column('pilot', 'Dryer pilot valve', 'burnerPilot'),
  column('main', 'Dryer main fuel valve', 'burnerMain'),
  column('binder', 'Binder valve to the pug mill', 'bucketValve'),
  column('cutbackFeed', 'Cutback feed to the bucket', 'cutbackFeed'),
  column('emulsionFeed', 'Emulsion feed to the bucket', 'emulsionFeed'),
  column(
    'aggregate',
    'Gates of bins, hopper and holding bin',
    'bin1Gate',
    'bin2Gate',
    'bin3Gate',
    'bin4Gate',
    'hopperTo',
    'holdingGate',
  ),
  column('water', 'Water and anti-strip', 'waterValve', 'antiStripPump'),
  column('motion', 'Drum, pug mill, their gates, belt', ...STOPPED_BY_EMERGENCY),
  column('hood', 'Hood fan', 'hoodFan'),
  column('oilBurner', 'Thermal-oil burner', 'oilBurner'),
  column('emulsionCoil', 'Coil of the emulsion tank', 'emulsionCoil'),
  column('cutbackCoil', 'Coil of the cutback tank', 'cutbackCoil'),
];

export type MatrixRow = {
  readonly id: InterlockCauseId;
  readonly group: 'permissive' | 'trip' | 'burner' | 'tank';
  readonly cause: string;
  readonly hazard: string;
  readonly clears: string;
  readonly reset: string;
  /** By column id; a column that is not there is not touched. */
  readonly effects: { readonly [column: string]: Effect };
};

type Acts = (key: ElementKey) => Effect | undefined;

const rowOf = (id: InterlockCauseId, group: MatrixRow['group'], acts: Acts): MatrixRow => {
  const { cause, hazard, clears, reset } = CAUSES[id];
  const effects: { [column: string]: Effect } = {};
  for (const { id: name, keys } of MATRIX_COLUMNS) {
    const effect = acts(keys[0] as ElementKey);
    if (effect !== undefined) effects[name] = effect;
  }
  return { id, group, cause, hazard, clears, reset, effects };
};

const permissiveActs = (purposes: readonly PermissiveFor[], onlyToLight: boolean): Acts => {
  const keys = purposes.flatMap((purpose) => HELD_BY_PERMISSIVE[purpose]);
  return (key) => (keys.includes(key) ? (onlyToLight ? 'keeps shut' : 'shuts') : undefined);
};

const tripActs =
  (stopsAll: boolean): Acts =>
  (key) => {
    if (CLOSED_BY_A_TRIP.includes(key)) return 'trips';
    if (KEPT_RUNNING.includes(key)) return 'keeps running';
    return stopsAll && STOPPED_BY_EMERGENCY.includes(key) ? 'trips' : undefined;
  };

/** Every cause and what it does to every final element. */
export const causeAndEffect: readonly MatrixRow[] = [
  ...PERMISSIVES.map((one) => {
    const acts = permissiveActs(one.for, one.onlyToLight);
    return rowOf(one.id, 'permissive', (key) =>
      one.id === 'FI-11' && KEPT_RUNNING.includes(key) ? 'keeps running' : acts(key),
    );
  }),
  ...TRIPS.map((one) => rowOf(one.id, 'trip', tripActs((STOPS_ALL as readonly string[]).includes(one.id)))),
  ...SAFEGUARDS.map((one) =>
    rowOf(one.id, 'burner', (key) =>
      FUEL.includes(key) ? (isLockout(one as Safeguard) ? 'trips' : 'keeps shut') : undefined,
    ),
  ),
  ...TANK_CAUSES.map((one) =>
    rowOf(one.id, 'tank', (key) => (one.holds.includes(key) ? 'shuts' : undefined)),
  ),
];

export type EffectNow = {
  readonly column: string;
  readonly effect: Effect;
  /** Causes that hold it at this moment. */
  readonly causes: readonly InterlockCauseId[];
};

const GRAVITY: readonly Effect[] = ['trips', 'shuts', 'keeps shut', 'keeps running'];

/** Which elements the causes that hold now act on, the gravest effect of each. `holding` and `latched` as in a view of the line. */
export const effectsNow = (holding: readonly string[], latched: readonly string[]): readonly EffectNow[] =>
  MATRIX_COLUMNS.flatMap(({ id: name }): EffectNow[] => {
    const rows = causeAndEffect.filter(
      (row) => row.effects[name] !== undefined && (holding.includes(row.id) || latched.includes(row.id)),
    );
    if (rows.length === 0) return [];
    const effect = GRAVITY.find((one) => rows.some((row) => row.effects[name] === one)) as Effect;
    return [{ column: name, effect, causes: rows.map((row) => row.id) }];
  });

/** What a set of outputs lets through a column: true when any of its elements is not at rest. */
export const isColumnLetThrough = (column: MatrixColumn, outputs: Outputs, atRest: Outputs): boolean =>
  column.keys.some((key) => outputs[key] !== atRest[key]);
