/** The real server is killed while a sampling plan is sealed: the secret survives, the plan is opened later and holds. */
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { io, type Socket } from 'socket.io-client';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Command } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { Answer, ConsoleEvents, ServerEvents } from '../../machines/live/protocol.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { prepare } from '../../server/bin/support/prepare.mjs';
import { verifyRecord } from '../../server/verify/verify-record.ts';
import { type Served, serve } from '../support/served.ts';

/** Lots of two batches, so that one is filled in ten minutes of plant time. */
const LOT_KG = 1500;
const folder = mkdtempSync(join(tmpdir(), 'patchyard-sealed-'));
let served: Served;

beforeAll(async () => {
  for (const name of ['shifts', 'mixes']) mkdirSync(join(folder, name));
  copyFileSync('scenarios/shifts/lab-day.yaml', join(folder, 'shifts/lab-day.yaml'));
  const mix = readFileSync('scenarios/mixes/emulsion-patch-open.yaml', 'utf8');
  writeFileSync(
    join(folder, 'mixes/emulsion-patch-open.yaml'),
    mix.replace(/^lotKg: \d+/m, `lotKg: ${LOT_KG}`),
  );
  served = await serve(await prepare({ client: false }), [
    join(folder, 'shifts/lab-day.yaml'),
    '--speed',
    '60',
  ]);
});
afterAll(async () => {
  await served?.remove();
  rmSync(folder, { recursive: true, force: true });
});

const entriesOf = async (query: string): Promise<Entry[]> =>
  ((await (await fetch(`${served.url}/api/record?limit=1000&${query}`)).json()) as { entries: Entry[] })
    .entries;

const told = async <N extends Fact['is']>(name: N): Promise<Extract<Fact, { is: N }>[]> =>
  (await entriesOf('kind=fact')).flatMap((entry) =>
    entry.kind === 'fact' && entry.body.fact.is === name ? [entry.body.fact as Extract<Fact, { is: N }>] : [],
  );

const untilTold = async (name: Fact['is'], limitMs: number): Promise<void> => {
  const endMs = performance.now() + limitMs;
  while ((await told(name)).length === 0) {
    if (performance.now() > endMs) throw new Error(`${name} was not told within ${limitMs} ms`);
    await pause(200);
  }
};

it('a plan committed before the kill is called and opened after it, and holds against its commitment', async () => {
  const socket: Socket<ServerEvents, ConsoleEvents> = io(served.url, {
    auth: { console: 'sealed-console' },
    reconnection: false,
  });
  await new Promise<void>((ready) => socket.once('state', () => ready()));
  await socket.emitWithAck('iAm', { person: 'wrenna', console: 'sealed-console' });
  const give = (id: string, command: Command): Promise<Answer> =>
    socket.timeout(5000).emitWithAck('command', { id, command });
  expect(await give('sealed-0001', { do: 'standIn', skill: 'good' })).toEqual({ ok: true });
  await untilTold('samplesPlanned', 20_000);
  const before = await told('samplesPlanned');
  const opened = (await told('samplePlanOpened')).length;
  await served.cutPower();
  socket.close();

  await served.startAgain();
  await untilTold('samplePlanOpened', 60_000);
  const notes = (await entriesOf('kind=note')).flatMap((entry) =>
    entry.kind === 'note' ? [entry.body.what] : [],
  );
  expect(notes).toContain('restored');
  expect(notes).not.toContain('restored differently');
  const after = await told('samplesPlanned');
  expect(opened).toBe(0);
  expect(after[0]).toEqual(before[0]);
  expect((await told('samplePlanOpened'))[0]?.lot).toBe(before[0]?.lot);
  expect(await told('commandRefused')).toEqual([]);
  const verdict = await verifyRecord(served.dataDir);
  expect(verdict).toMatchObject({ result: 'intact', findings: [] });
  expect(verdict.remarks?.join()).toMatch(/sampling plans? (was|were) opened and holds?/);
});
