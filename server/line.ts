/** The real line, as the server drives it. */
import { truthOf } from '../machines/plant/truth.ts';
import { truthOfSample } from '../machines/world/bench-truth.ts';
import {
  advance,
  createWorld,
  loadWorld,
  saveWorld,
  startOfSave,
  viewOf,
  type World,
} from '../machines/world/world.ts';
import type { LineEngine } from './runner/line-engine.ts';

export const line: LineEngine<World> = {
  createWorld,
  saveWorld,
  loadWorld,
  advance,
  viewOf,
  startOfSave,
  startAfter: ({ truths }) => ({ truths }),
  benchTruth: ({ truths }, lot, sample) => truthOfSample(truths, lot, sample),
  truthOf: ({ plant }) => ({ massErrorKg: truthOf(plant).errorKg }),
};
