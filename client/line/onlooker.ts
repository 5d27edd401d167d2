/** Why the buttons below are not for this console just now and what a person can do about it, in one sentence. */

import { mayGive } from '../../machines/people/permissions.ts';
import type { Role } from '../../machines/scenario/people.schema.ts';
import { holdsControls, type Standpoint } from '../live/may.ts';

const INSTEAD: { readonly [role in Role]?: string } = {
  'quality officer':
    'As quality officer you look on here. Take samples at the open lot when they fall due; all lots are under Lab.',
  storekeeper:
    'As storekeeper you look on here. Cold bins are refilled under Plant at the top; deliveries are under Interlock.',
  auditor: 'As auditor you look on here. Everything that was done is under Records and Lab.',
};

/** Null for who holds the controls. */
export function onlookerWords(at: Standpoint): string | null {
  const { me, seat } = at;
  if (me !== null && !mayGive(me.role, 'start')) return INSTEAD[me.role] ?? `As ${me.role} you look on here.`;
  if (holdsControls(at)) return null;
  const first = me === null ? 'say who you are, then ' : '';
  if (seat.standIn !== null)
    return `A stand-in runs the line. To run it yourself, ${first}press Take at the top.`;
  if (seat.holder === null) return `Nobody runs the line. To run it, ${first}press Take at the top.`;
  return `${seat.holder.name} runs the line. To run it yourself, ${first}press Ask at the top.`;
}
