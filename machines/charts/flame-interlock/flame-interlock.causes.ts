/** Every requirement of the flame interlock under its ID; chart, gate, screens, README and tests all read this. */
import { PERMISSIVES, type Permissive } from './flame-interlock.permissives.ts';
import { TRIPS, type Trip } from './flame-interlock.trips.ts';

export { PERMISSIVES, type Permissive, type PermissiveFor } from './flame-interlock.permissives.ts';
export { TRIPS, type Trip } from './flame-interlock.trips.ts';

export type PermissiveId = (typeof PERMISSIVES)[number]['id'];
export type TripId = (typeof TRIPS)[number]['id'];
export type InterlockCauseId = PermissiveId | TripId;

type Requirement = (Permissive | Trip) & { readonly id: InterlockCauseId };

export const CAUSES = Object.fromEntries(
  [...PERMISSIVES, ...TRIPS].map((one): [string, Requirement] => [one.id, one]),
) as Record<InterlockCauseId, Requirement> as { readonly [id in InterlockCauseId]: Requirement };

export const CAUSE_IDS = Object.keys(CAUSES) as readonly InterlockCauseId[];
