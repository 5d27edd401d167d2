/** Every mutation of the safety charts and of the gate. */
import { GATE_LINE_MUTATIONS } from './gate-line-mutations.ts';
import { GATE_LIST_MUTATIONS } from './gate-list-mutations.ts';
import { GUARD_MUTATIONS } from './guard-mutations.ts';
import { LOCKOUT_MUTATIONS } from './lockout-mutations.ts';
import type { Mutation } from './mutation.ts';
import { OUTPUT_MUTATIONS } from './output-mutations.ts';
import { PERMISSIVE_MUTATIONS } from './permissive-mutations.ts';
import { TRIP_MUTATIONS } from './trip-mutations.ts';

export const FAMILIES: readonly { readonly name: string; readonly mutations: readonly Mutation[] }[] = [
  { name: 'permissives', mutations: PERMISSIVE_MUTATIONS },
  { name: 'lists and tank causes', mutations: GATE_LIST_MUTATIONS },
  { name: 'lines of the gate', mutations: GATE_LINE_MUTATIONS },
  { name: 'trips', mutations: TRIP_MUTATIONS },
  { name: 'safeguards and lockouts', mutations: LOCKOUT_MUTATIONS },
  { name: 'named guards', mutations: GUARD_MUTATIONS },
  { name: 'outputs of states', mutations: OUTPUT_MUTATIONS },
];
