/** The real line, as the server drives it. */
import { truthOf } from '../machines/plant/truth.ts';
import { advance, createWorld, loadWorld, saveWorld, viewOf, type World } from '../machines/world/world.ts';
import type { LineEngine } from './runner/line-engine.ts';

export const line: LineEngine<World> = {
  createWorld,
  saveWorld,
  loadWorld,
  advance,
  viewOf,
  truthOf: ({ plant }) => ({ massErrorKg: truthOf(plant).errorKg }),
};
