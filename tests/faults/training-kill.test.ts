/** The real server is killed while drills are under way: what was acknowledged is there when they come back, frozen. */
import { appendFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { io } from 'socket.io-client';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import type { SessionAsk, SessionDetail, SessionTile } from '../../machines/live/training.ts';
import { prepare } from '../../server/bin/support/prepare.mjs';
import { until } from '../server/support/tools.ts';
import { type Served, serve } from '../support/served.ts';

const KILLS = Number(process.env.KILLS ?? 2);

let served: Served;
beforeAll(async () => {
  served = await serve(await prepare({ client: false }), ['scenarios/shifts/emulsion-day.yaml']);
});
afterAll(async () => served?.remove());

const get = async <T>(path: string): Promise<T> => (await (await fetch(served.url + path)).json()) as T;
const post = async <T>(path: string, body: unknown): Promise<T> =>
  (await (
    await fetch(served.url + path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    })
  ).json()) as T;
const BY = { person: 'corvin', console: 'console-of-corvin' };
const ask = (session: string, what: SessionAsk) =>
  post<Answer>(`/api/training/sessions/${session}`, { by: BY, ask: what });
const tiles = async () =>
  (await get<{ sessions: readonly SessionTile[] }>('/api/training/sessions?person=corvin')).sessions;
const detail = (session: string) => get<SessionDetail>(`/api/training/sessions/${session}?person=corvin`);

/** Gives the line of a drill a command, as its trainee. */
const give = async (session: string, id: string, command: object): Promise<Answer> => {
  const console = `drill-${session}-jessamy`;
  const socket = io(`${served.url}/training/${session}`, {
    auth: { console },
    forceNew: true,
    reconnection: false,
  });
  try {
    await socket.timeout(5000).emitWithAck('iAm', { person: 'jessamy', console });
    return (await socket.timeout(5000).emitWithAck('command', { id, command })) as Answer;
  } finally {
    socket.close();
  }
};

it('brings its drills back, and the history with them', async () => {
  const begun = await post<{ ok: boolean; session: string }>('/api/training/sessions', {
    by: BY,
    drill: 'first-emulsion-batch',
    trainee: 'jessamy',
    seed: 3,
    speed: 60,
  });
  expect(begun.ok).toBe(true);
  const { session } = begun;
  expect(await give(session, 'start-the-batch', { do: 'start', batches: 1 })).toEqual({ ok: true });
  for (let kill = 1; kill <= KILLS; kill++) {
    expect(await ask(session, { do: 'message', text: `before kill ${kill}` })).toEqual({ ok: true });
    const isFrozen = kill % 2 === 0;
    if (isFrozen) expect(await ask(session, { do: 'freeze' })).toEqual({ ok: true });
    const before = await detail(session);
    const tick = before.tile.atMs / 100;
    const wasThere = isFrozen ? await viewAt(session, tick) : null;
    await served.cutPower();
    // What a write that was cut short leaves.
    const log = join(served.dataDir, 'training', 'under-way', `${session}.log.ndjson`);
    appendFileSync(log, '{"is":"heard","tick":');
    await served.startAgain();
    await until('the drill is back', async () => (await tiles()).length === 1);
    const [tile] = await tiles();
    expect(tile).toMatchObject({
      session,
      state: 'frozen',
      seed: 3,
      over: expect.stringMatching(/^Batch 1/),
    });
    const after = await detail(session);
    expect(after.messages.map(({ text }) => text)).toContain(`before kill ${kill}`);
    // A frozen drill is where it was; one that ran may lag by a second of its clock, a minute of plant time at this speed.
    if (isFrozen) expect(after.tile.atMs).toBe(before.tile.atMs);
    else expect(after.tile.atMs).toBeGreaterThan(before.tile.atMs - 61_000);
    if (isFrozen) expect(await viewAt(session, tick)).toEqual(wasThere);
    expect(await ask(session, { do: 'speed', speed: 60 })).toEqual({ ok: true });
    expect(await ask(session, { do: 'goOn' })).toEqual({ ok: true });
  }
  expect(await ask(session, { do: 'finish' })).toEqual({ ok: true });
  const attempts = async () =>
    (await get<{ attempts: readonly { session: string }[] }>('/api/training/history?person=corvin')).attempts;
  await until('the debrief is kept', async () => (await attempts()).length === 1);
  await served.cutPower();
  await served.startAgain();
  await until('the history is back', async () => (await attempts()).length === 1);
  expect(await tiles()).toEqual([]);
  const text = readFileSync(join(served.dataDir, 'training', 'ended', `${session}.log.ndjson`), 'utf8');
  expect(text.trimEnd().split('\n').at(-1)).toMatch(/"is":"ended"/);
});

const viewAt = async (session: string, tick: number): Promise<LineView> =>
  (await get<{ view: LineView }>(`/api/training/sessions/${session}/view?person=corvin&tick=${tick}`)).view;
