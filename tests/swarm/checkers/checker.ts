/** What a checker of a random history is: it looks after every tick and at the end, and says what is wrong. */
import type { CommandEnvelope } from '../../../machines/line/commands.ts';
import type { Advanced, World } from '../../../machines/world/world.ts';

export type Looked = {
  readonly before: World;
  readonly handed: readonly CommandEnvelope[];
  readonly advanced: Advanced;
};

export type Checker = {
  readonly name: string;
  /** What is wrong after this tick, in words; null when nothing is. */
  readonly look: (looked: Looked) => string | null;
  /** What is wrong with the history as a whole; called once, before the faults are healed. */
  readonly close?: () => string | null;
};
