/** Every requirement of the interlocks under its ID; charts, gate, matrix, screens, README and tests all read this. */
import { SAFEGUARDS, type Safeguard, type SafeguardId } from '../burner/burner.safeguards.ts';
import { TANK_CAUSES, type TankCause, type TankCauseId } from '../tank-interlock/tank-interlock.causes.ts';
import { PERMISSIVES, type Permissive } from './flame-interlock.permissives.ts';
import { TRIPS, type Trip } from './flame-interlock.trips.ts';

export { SAFEGUARDS, type Safeguard, type SafeguardId } from '../burner/burner.safeguards.ts';
export { TANK_CAUSES, type TankCause, type TankCauseId } from '../tank-interlock/tank-interlock.causes.ts';
export { PERMISSIVES, type Permissive, type PermissiveFor } from './flame-interlock.permissives.ts';
export { TRIPS, type Trip } from './flame-interlock.trips.ts';

export type PermissiveId = (typeof PERMISSIVES)[number]['id'];
export type TripId = (typeof TRIPS)[number]['id'];
export type InterlockCauseId = PermissiveId | TripId | SafeguardId | TankCauseId;

type Requirement = (Permissive | Trip | Safeguard | TankCause) & { readonly id: InterlockCauseId };

export const CAUSES = Object.fromEntries(
  [...PERMISSIVES, ...TRIPS, ...SAFEGUARDS, ...TANK_CAUSES].map((one): [string, Requirement] => [
    one.id,
    one as Requirement,
  ]),
) as Record<InterlockCauseId, Requirement> as { readonly [id in InterlockCauseId]: Requirement };

export const CAUSE_IDS = Object.keys(CAUSES) as readonly InterlockCauseId[];

export const isCauseId = (id: string): id is InterlockCauseId => Object.hasOwn(CAUSES, id);
