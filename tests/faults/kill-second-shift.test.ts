/** The real server is killed in a shift that was opened at a console: that shift goes on, not the one named at the start. */
import { setTimeout as pause } from 'node:timers/promises';
import { io, type Socket } from 'socket.io-client';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Command } from '../../machines/line/commands.ts';
import type { Answer, ConsoleEvents, ServerEvents, State } from '../../machines/live/protocol.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { TICKS_PER_GROUP } from '../../machines/record/recorder.ts';
import { prepare } from '../../server/bin/support/prepare.mjs';
import { verifyFolder } from '../../server/store/sqlite.ts';
import { type Served, serve } from '../support/served.ts';
import { restartsOf, ticksLost } from './support/restarts.ts';

let served: Served;
beforeAll(async () => {
  const args = ['scenarios/shifts/emulsion-day.yaml', '--speed', '60'];
  served = await serve(await prepare({ client: false }), args);
});
afterAll(async () => served?.remove());

const stateNow = async (): Promise<State> => (await (await fetch(`${served.url}/api/state`)).json()) as State;

const entriesOf = async (query: string): Promise<Entry[]> =>
  ((await (await fetch(`${served.url}/api/record?limit=1000&${query}`)).json()) as { entries: Entry[] })
    .entries;

it('the second shift of a record survives a power cut', async () => {
  const socket: Socket<ServerEvents, ConsoleEvents> = io(served.url, {
    auth: { console: 'second-console' },
    reconnection: false,
  });
  await new Promise<void>((ready) => socket.once('state', () => ready()));
  let n = 0;
  const give = (command: Command): Promise<Answer> =>
    socket.timeout(5000).emitWithAck('command', { id: `second-${++n}`, command });
  expect(await socket.emitWithAck('iAm', { person: 'wrenna', console: 'second-console' })).toEqual({
    ok: true,
  });
  expect(await give({ do: 'takeControls' })).toEqual({ ok: true });
  expect(await give({ do: 'endShift' })).toEqual({ ok: true });
  const next = { do: 'nextShift', shift: 'cutback-day' } as const;
  expect(await socket.timeout(5000).emitWithAck('run', next)).toEqual({ ok: true });
  expect(await give({ do: 'standIn', skill: 'good' })).toEqual({ ok: true });
  // Past a checkpoint of the second shift, so that one of the first would show if it were taken.
  await pause(4000);
  const before = (await stateNow()).view;
  await served.cutPower();
  socket.close();

  await served.startAgain();
  expect(verifyFolder(served.dataDir)).toMatchObject({ ok: true });
  const { view } = await stateNow();
  expect(view.shift).toMatchObject({ id: 'cutback-day', ended: false });
  const noted = await entriesOf('kind=note');
  expect(ticksLost(before.shift.atMs, restartsOf(noted).at(-1))).toBeLessThan(TICKS_PER_GROUP);
  expect(view.seat.standIn).toBe('good');
  const openings = await entriesOf('kind=opening');
  expect(openings.map((e) => (e.kind === 'opening' ? e.body.scenario : ''))).toEqual([
    'emulsion-day',
    'cutback-day',
  ]);
  const notes = noted.flatMap((e) => (e.kind === 'note' ? [e.body] : []));
  expect(notes.filter((note) => note.what === 'restored differently')).toEqual([]);
  expect(notes.find((note) => note.what === 'restored')?.detail).toContain('opened at a console, goes on');
});
