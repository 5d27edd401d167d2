/** What the flame interlock allows, as pure questions about the state its chart is in. */
import {
  type InterlockCauseId,
  PERMISSIVES,
  type PermissiveFor,
  type PermissiveId,
  TRIPS,
  type TripId,
} from './flame-interlock.causes.ts';
import type { Condition, Region, Situation } from './flame-interlock.regions.ts';

/** A chart's state value as it comes out of a snapshot. */
export type ChartValue = string | { readonly [key: string]: ChartValue | undefined };

/** The state a region is in; a region that is missing is in no state, so no permissive of it is met. */
export const regionState = (value: ChartValue, region: Region): string => {
  const part = typeof value === 'string' ? undefined : value[region];
  if (part === undefined) return '';
  if (typeof part === 'string') return part;
  for (const key in part) return key;
  return '';
};

type Parts = readonly (readonly [region: Region, states: readonly string[]])[];
/** Each situation of the data taken apart once: the gate asks ten times a second. */
const partsOf = new WeakMap<Situation, Parts>();

const isSituation = (value: ChartValue, situation: Situation): boolean => {
  let parts = partsOf.get(situation);
  if (parts === undefined) {
    parts = Object.entries(situation) as [Region, readonly string[]][];
    partsOf.set(situation, parts);
  }
  for (const [region, states] of parts) if (!states.includes(regionState(value, region))) return false;
  return true;
};

/** True when any of the condition's situations is the present one. */
export const holds = (value: ChartValue, condition: Condition): boolean => {
  for (const situation of condition) if (isSituation(value, situation)) return true;
  return false;
};

export type PermissiveStanding = {
  readonly id: PermissiveId;
  readonly met: boolean;
  /** Not asked for once the burner fires. */
  readonly onlyToLight: boolean;
};

const listOf = (purpose: PermissiveFor) =>
  PERMISSIVES.filter((one) => (one.for as readonly PermissiveFor[]).includes(purpose));
const FOR_BINDER = listOf('binder');
const FOR_FEED = listOf('feed');
const TO_LIGHT = listOf('flame');
const FOR_EMULSION = listOf('emulsion');
const TO_FIRE = TO_LIGHT.filter((one) => !one.onlyToLight);

type Listed = readonly (typeof PERMISSIVES)[number][];
const standings = (list: Listed, value: ChartValue): readonly PermissiveStanding[] =>
  list.map((one) => ({ id: one.id, met: holds(value, one.metWhen), onlyToLight: one.onlyToLight }));
const all = (list: Listed, value: ChartValue): boolean => {
  for (const one of list) if (!holds(value, one.metWhen)) return false;
  return true;
};
const unmet = (list: Listed, value: ChartValue): readonly PermissiveId[] =>
  list.filter((one) => !holds(value, one.metWhen)).map((one) => one.id);

/** Permissives for solvent-bearing binder to go from the bucket into the pug mill. */
export const binderPermissives = (value: ChartValue) => standings(FOR_BINDER, value);
/** Permissives for cutback to go from its tank into the bucket. */
export const feedPermissives = (value: ChartValue) => standings(FOR_FEED, value);
/** Permissives for a dryer flame; those marked onlyToLight are not asked for once it burns. */
export const flamePermissives = (value: ChartValue) => standings(TO_LIGHT, value);

/** Permissives for emulsion to go from its tank into the bucket. */
export const emulsionPermissives = (value: ChartValue) => standings(FOR_EMULSION, value);

/** Solvent-bearing binder may go from the bucket into the pug mill. */
export const binderMayFlow = (value: ChartValue): boolean => all(FOR_BINDER, value);
/** Cutback may go from its tank into the bucket. */
export const cutbackMayFeed = (value: ChartValue): boolean => all(FOR_FEED, value);
/** Emulsion, known to be emulsion, may go from its tank into the bucket. */
export const emulsionMayFeed = (value: ChartValue): boolean => all(FOR_EMULSION, value);
/** The burner may be asked to light now. */
export const burnerMayLight = (value: ChartValue): boolean => all(TO_LIGHT, value);
/** The burner, lighting or lit, may go on: what the signal flamePermitted says. */
export const burnerMayFire = (value: ChartValue): boolean => all(TO_FIRE, value);

const VALVE_SHUT = TO_LIGHT.filter((one) => one.id === 'FI-13');
/** The pilot may be open: FI-13, which is asked for to light, holds as long as the pilot does. */
export const pilotMayOpen = (value: ChartValue): boolean => all(VALVE_SHUT, value);

export const binderBlockedBy = (value: ChartValue): readonly PermissiveId[] => unmet(FOR_BINDER, value);
export const feedBlockedBy = (value: ChartValue): readonly PermissiveId[] => unmet(FOR_FEED, value);
export const emulsionBlockedBy = (value: ChartValue): readonly PermissiveId[] => unmet(FOR_EMULSION, value);
export const lightingBlockedBy = (value: ChartValue): readonly PermissiveId[] => unmet(TO_LIGHT, value);
export const flameBlockedBy = (value: ChartValue): readonly PermissiveId[] => unmet(TO_FIRE, value);

export const isTripped = (value: ChartValue): boolean => regionState(value, 'trip') === 'tripped';

/**
 * The cause that latched the trip first, or the emergency stop if it was pressed since; empty when not tripped.
 * Other later ones show in standingCauses.
 */
export const latchedCauses = (value: ChartValue): readonly InterlockCauseId[] => {
  const trip = typeof value === 'string' ? undefined : value.trip;
  const cause = typeof trip === 'object' ? trip.tripped : undefined;
  return typeof cause === 'string' ? [cause as TripId] : [];
};

/** Trip causes that hold at this moment, latched or not. */
export const standingCauses = (value: ChartValue): readonly TripId[] =>
  TRIPS.filter((one) => holds(value, one.tripsWhen)).map((one) => one.id);

/** Every permissive that is not met at this moment, whatever it is for. */
export const unmetPermissives = (value: ChartValue): readonly PermissiveId[] => unmet(PERMISSIVES, value);

/** What is stopped by the emergency stop or a lost supply stays stopped: either stands, or either is latched. */
export const allIsStopped = (value: ChartValue): boolean => {
  if (regionState(value, 'emergencyStop') !== 'released' || regionState(value, 'power') !== 'healthy')
    return true;
  const latched = latchedCauses(value)[0];
  return latched === 'FT-07' || latched === 'FT-11';
};

/** What keeps a reset of the trip from being accepted; empty when it would be, or when nothing is tripped. */
export const resetBlockedBy = (value: ChartValue): readonly TripId[] =>
  isTripped(value) ? standingCauses(value) : [];

/** The bucket may hold solvent-bearing binder: it does, or it is not known that it does not. */
export const bucketMayHoldCutback = (value: ChartValue): boolean =>
  regionState(value, 'bucket') !== 'noCutback';
/** The pug mill may hold solvent-bearing binder: it does, or it is not known that it does not. */
export const mixerMayHoldCutback = (value: ChartValue): boolean =>
  regionState(value, 'mixer') !== 'noCutback';
