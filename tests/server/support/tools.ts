/** What server tests share: folders that go away, stores that fail on demand, a line under test. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { onTestFinished } from 'vitest';
import type { Command, CommandEnvelope } from '../../../machines/line/commands.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { openRunner, type Runner, type RunnerOptions } from '../../../server/runner/runner.ts';
import { openSqliteStore } from '../../../server/store/sqlite.ts';
import type { Store } from '../../../server/store/store.ts';
import { type FakeWorld, fakeLine } from './fake-line.ts';
import { fakeScenario } from './fake-scenario.ts';

/** A fresh folder, removed when the test is over. */
export const scratchFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'patchyard-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

/** Waits until `holds`, at most `limitMs`; fails with `what` otherwise. */
export const until = async (
  what: string,
  holds: () => boolean | Promise<boolean>,
  limitMs = 15_000,
): Promise<void> => {
  const endMs = performance.now() + limitMs;
  while (!(await holds())) {
    if (performance.now() > endMs) throw new Error(`waited ${limitMs} ms in vain: ${what}`);
    await pause(10);
  }
};

export type FailingStore = Store & { failWith: (error: Error | null) => void };

/** The same store, whose appends fail while an error is set. */
export const failing = (store: Store): FailingStore => {
  let error: Error | null = null;
  return Object.assign(Object.create(store) as Store, {
    where: store.where,
    cut: store.cut,
    tail: () => store.tail(),
    append: async (batch: Parameters<Store['append']>[0]) => {
      if (error !== null) throw error;
      await store.append(batch);
    },
    read: (query: Parameters<Store['read']>[0]) => store.read(query),
    inputsAfter: (after: number) => store.inputsAfter(after),
    answerTo: (id: string) => store.answerTo(id),
    saveCheckpoint: (c: Parameters<Store['saveCheckpoint']>[0]) => store.saveCheckpoint(c),
    loadCheckpoint: (shift: number) => store.loadCheckpoint(shift),
    saveScenario: (d: string, s: unknown) => store.saveScenario(d, s),
    loadScenario: (d: string) => store.loadScenario(d),
    verify: () => store.verify(),
    texts: (first: number, last: number) => store.texts(first, last),
    shifts: () => store.shifts(),
    find: (query: Parameters<Store['find']>[0]) => store.find(query),
    mentions: (kind: Parameters<Store['mentions']>[0], shift: number) => store.mentions(kind, shift),
    naming: (mention: Parameters<Store['naming']>[0]) => store.naming(mention),
    packNext: () => store.packNext(),
    keeping: () => store.keeping(),
    books: () => store.books(),
    traces: store.traces,
    close: () => store.close(),
    failWith: (next: Error | null) => {
      error = next;
    },
  });
};

export type UnderTest = {
  readonly runner: Runner;
  readonly store: Store;
  readonly close: () => Promise<void>;
};

/** A running fake line on a data folder; closed when the test is over, if not before. */
export const startLine = async (
  folder: string,
  more: Partial<RunnerOptions<FakeWorld>> & { scenario?: Scenario } = {},
): Promise<UnderTest> => {
  const store = more.store ?? openSqliteStore(folder);
  let open = true;
  const runner = await openRunner({ engine: fakeLine, scenario: fakeScenario(), ...more, store }).catch(
    async (error) => {
      await store.close();
      throw error;
    },
  );
  const close = async () => {
    if (!open) return;
    open = false;
    await runner.stop();
    await store.close();
  };
  onTestFinished(close);
  await runner.begin();
  return { runner, store, close };
};

let counter = 0;
export const commandOf = (command: Command, console = 'console-a', id?: string): CommandEnvelope => ({
  id: id ?? `command-${String(++counter).padStart(6, '0')}`,
  by: { person: 'kim', role: 'operator', console },
  command,
});
