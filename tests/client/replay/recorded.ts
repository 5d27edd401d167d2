/** A stretch of a shift worked by the stand-in, with the entries it leaves and the views a console had of it. */

import type { CommandEnvelope } from '../../../machines/line/commands.ts';
import type { LineView } from '../../../machines/line/view.types.ts';
import { CHAIN_START, sealEntry } from '../../../machines/record/chain.ts';
import type { Entry, EntryContent } from '../../../machines/record/entry.ts';
import { type Draft, flush, recorderAfter, recordTick } from '../../../machines/record/recorder.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { advance, createWorld, viewOf } from '../../../machines/world/world.ts';
import { sha256 } from '../../../server/digest.ts';
import { openingFor } from '../../../server/runner/opening.ts';
import { scenarioOrError } from '../../../server/scenarios/load.ts';

export type Recorded = {
  readonly scenario: Scenario;
  readonly entries: readonly Entry[];
  readonly views: ReadonlyMap<number, LineView>;
};

const STAND_IN: CommandEnvelope = {
  id: 'stand-in-on',
  by: { person: 'wrenna', role: 'operator', console: 'test-console' },
  command: { do: 'standIn', skill: 'good' },
};

/** Runs a shipped shift for `ticks`, keeping the view after each of `viewsAt`. */
export const record = (
  file: string,
  ticks: number,
  viewsAt: readonly number[],
  commandsAt: ReadonlyMap<number, readonly CommandEnvelope[]> = new Map(),
): Recorded => {
  const scenario = scenarioOrError(file, {});
  const entries: Entry[] = [];
  let end = CHAIN_START;
  const put = (content: EntryContent, atMs: number): void => {
    const { entry } = sealEntry(end, content, atMs, '2026-05-12T04:00:00.000Z', sha256);
    end = { seq: entry.seq, hash: entry.hash };
    // As a reader of an export gets it: through text and back.
    entries.push(JSON.parse(JSON.stringify(entry)) as Entry);
  };
  put({ kind: 'opening', body: openingFor(scenario) }, 0);
  const recorder = recorderAfter(0);
  const views = new Map<number, LineView>();
  let world = createWorld(scenario);
  const drafts: Draft[] = [];
  for (let tick = 1; tick <= ticks; tick++) {
    const commands = tick === 2 ? [STAND_IN] : (commandsAt.get(tick) ?? []);
    const next = advance(world, commands);
    world = next.world;
    recordTick(recorder, tick, next.changes, next.commands, next.facts, drafts);
    if (viewsAt.includes(tick)) views.set(tick, viewOf(world));
  }
  flush(recorder, drafts);
  for (const { content, atMs } of drafts) put(content, atMs);
  return { scenario, entries, views };
};
