/** Training on a whole server with real drills: sessions apart from each other and from the plant's record, and no harm from garbage. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { io, type Socket } from 'socket.io-client';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import type { Debrief } from '../../machines/drills/debrief.types.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Answer, Hello, State } from '../../machines/live/protocol.ts';
import type {
  Attempt,
  DrillBand,
  SessionAsk,
  SessionDetail,
  SessionTile,
} from '../../machines/live/training.ts';
import { line } from '../../server/line.ts';
import { type Serving, serve } from '../../server/main.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { certificatePdf, NOT_A_CERTIFICATE } from '../../server/training/certificate.ts';
import { consoleIn } from '../../server/training/rerun.ts';
import { until } from './support/tools.ts';

let serving: Serving;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'patchyard-training-'));
  const scenario = scenarioOrError('scenarios/shifts/emulsion-day.yaml');
  const unstaffed = { ...scenario, shift: { ...scenario.shift, incidents: [] } };
  serving = await serve({
    engine: line,
    scenario: unstaffed,
    host: '127.0.0.1',
    port: 0,
    dataFolder: folder,
    speed: 1,
    newShift: false,
    log: () => undefined,
  });
});
afterAll(async () => {
  await serving?.close();
  rmSync(folder, { recursive: true, force: true });
});

const get = async <T>(path: string): Promise<T> => (await (await fetch(serving.url + path)).json()) as T;
const post = async <T>(path: string, body: unknown): Promise<T> => {
  const response = await fetch(serving.url + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  return (await response.json()) as T;
};
const by = (person: string) => ({ person, console: `console-of-${person}` });
const begin = async (trainee: string, more: object = {}): Promise<string> => {
  const begun = await post<{ ok: boolean; session: string; because?: string[] }>('/api/training/sessions', {
    by: by('corvin'),
    drill: 'first-emulsion-batch',
    trainee,
    seed: 11,
    ...more,
  });
  if (!begun.ok) throw new Error(String(begun.because));
  return begun.session;
};
const ask = (session: string, what: SessionAsk, person = 'corvin') =>
  post<Answer>(`/api/training/sessions/${session}`, { by: by(person), ask: what });
const finish = async (session: string): Promise<void> => {
  await ask(session, { do: 'finish' });
  await until('the debrief is there', async () => {
    const { attempts } = await get<{ attempts: Attempt[] }>('/api/training/history?person=corvin');
    return attempts.some((one) => one.session === session);
  });
};

type Seat = {
  readonly socket: Socket;
  readonly hellos: Hello[];
  readonly states: State[];
  readonly bands: DrillBand[];
  readonly changes: unknown[];
  readonly iAm: (person: string) => Promise<Answer>;
  readonly give: (command: { do: string; [key: string]: unknown }) => Promise<Answer>;
};
let ids = 0;
const sit = async (session: string, person: string): Promise<Seat> => {
  const console = consoleIn(session, person);
  const socket = io(`${serving.url}/training/${session}`, { auth: { console }, forceNew: true });
  onTestFinished(() => {
    socket.close();
  });
  const seat = {
    hellos: [] as Hello[],
    states: [] as State[],
    bands: [] as DrillBand[],
    changes: [] as unknown[],
  };
  socket.on('hello', (hello) => seat.hellos.push(hello));
  socket.on('state', (state) => seat.states.push(state));
  socket.on('drill', (band) => seat.bands.push(band));
  socket.on('change', (change) => seat.changes.push(change));
  await until('a greeting', () => seat.hellos.length > 0);
  return {
    ...seat,
    socket,
    iAm: (id) => socket.timeout(5000).emitWithAck('iAm', { person: id, console }),
    give: (command) =>
      socket
        .timeout(5000)
        .emitWithAck('command', { id: `live-command-${++ids}`, command }) as Promise<Answer>,
  };
};
const viewAt = async (session: string, tick: number) =>
  (await get<{ view: LineView }>(`/api/training/sessions/${session}/view?person=corvin&tick=${tick}`)).view;

describe('two drills at once', () => {
  it('touch neither each other nor the record of the plant', async () => {
    await until(
      'the plant has opened its shift',
      async () => (await get<{ plantMs: number }>('/api/health')).plantMs >= 1000,
    );
    const before = await get<{ seq: number }>('/api/record/head');
    const [one, two] = [await begin('jessamy'), await begin('wrenna')];
    const [jessamy, wrenna] = [await sit(one, 'jessamy'), await sit(two, 'wrenna')];
    expect([await jessamy.iAm('jessamy'), await wrenna.iAm('wrenna')]).toEqual([{ ok: true }, { ok: true }]);
    await until('both see their line', () => jessamy.states.length > 0 && wrenna.states.length > 0);
    expect(jessamy.states[0]?.view.seat.holder?.name).toBe('Jessamy Thole');
    expect(jessamy.bands[0]).toMatchObject({ drillName: 'First emulsion batch', hintsAllowed: true });

    expect(await jessamy.give({ do: 'start', batches: 1 })).toEqual({ ok: true });
    await ask(one, { do: 'message', text: 'Well begun.' });
    await ask(one, { do: 'fault', fault: { of: 'equipment', equipment: 'hoodFanStopped', on: true } });
    await until(
      'the message is in the band',
      () => jessamy.bands.at(-1)?.messages.at(-1)?.text === 'Well begun.',
    );

    const detail = (id: string) => get<SessionDetail>(`/api/training/sessions/${id}?person=corvin`);
    expect((await detail(one)).faults).toEqual([{ target: 'hoodFanStopped', fault: 'on' }]);
    expect((await detail(two)).faults).toEqual([]);
    expect((await detail(one)).tile.over).toMatch(/^Batch 1/);
    expect((await detail(two)).tile.over).not.toMatch(/^Batch 1/);
    expect((await detail(two)).messages).toEqual([]);

    // The plant went on by itself: nothing of the drills is in its record.
    const since = () =>
      get<{ entries: { kind: string; seq: number }[] }>(`/api/record?after=${before.seq}&limit=1000`);
    await expect.poll(async () => (await since()).entries.length, { timeout: 10_000 }).toBeGreaterThan(0);
    const { entries } = await since();
    expect(entries.filter(({ kind }) => kind === 'command')).toEqual([]);
    expect(JSON.stringify(entries)).not.toMatch(
      /jessamy|wrenna|corvin|batchStarted|faultInjected|Well begun/i,
    );
    const { view } = await get<{ view: LineView }>('/api/state');
    expect(view.batches).toEqual([]);
    expect(view.plant.faults).toEqual([]);
    expect(view.alarms).toEqual([]);
    await Promise.all([finish(one), finish(two)]);
  });
});

describe('a console of a drill', () => {
  it('shows nothing to another trainee, all to an auditor, and lets neither act', async () => {
    const session = await begin('jessamy', { drill: 'wet-aggregate' });
    const other = await sit(session, 'wrenna');
    expect(await other.iAm('wrenna')).toMatchObject({
      ok: false,
      because: [expect.stringMatching(/drill of Jessamy Thole: it is seen by that person and by: trainer/)],
    });
    const auditor = await sit(session, 'ansel');
    expect(await auditor.iAm('ansel')).toEqual({ ok: true });
    await until('the auditor sees it', () => auditor.states.length > 0 && auditor.changes.length > 2);
    expect([other.states.length, other.changes.length, other.bands.length]).toEqual([0, 0, 0]);
    expect(await auditor.give({ do: 'hold' })).toMatchObject({
      because: [expect.stringMatching(/you look on here/)],
    });
    expect(await other.give({ do: 'hold' })).toMatchObject({
      because: [expect.stringMatching(/Say who you are/)],
    });
    const secret = await get<SessionDetail>(`/api/training/sessions/${session}?person=jessamy`);
    expect([secret.planned, secret.faults, secret.tile.score]).toEqual([[], [], null]);
    await finish(session);
  });

  it('is not harmed by garbage, on its own line or on the list of drills', async () => {
    const session = await begin('jessamy');
    const seat = await sit(session, 'jessamy');
    const list = io(`${serving.url}/training`, { forceNew: true });
    onTestFinished(() => {
      list.close();
    });
    const garbage = [
      undefined,
      null,
      0,
      '',
      'x'.repeat(5000),
      [],
      {},
      { do: 7 },
      { id: {}, command: [] },
      () => 1,
    ];
    for (const socket of [seat.socket, list])
      for (const event of ['iAm', 'command', 'run', 'again', 'drill', 'sessions', 'constructor'])
        for (const sent of garbage) socket.emit(event, sent, sent);
    // Too many at once are refused with words, so the sound one is repeated.
    await until('a sound answer', async () => (await seat.iAm('jessamy')).ok);
    expect(await seat.give({ do: 'nothing' })).toMatchObject({ ok: false });
    const tiles: SessionTile[][] = [];
    list.on('sessions', (told) => tiles.push(told));
    await until('the list answers', async () => {
      const answer = await list.timeout(5000).emitWithAck('iAm', { person: 'corvin', console: 'console-x' });
      return answer.ok && tiles.length > 0;
    });
    expect(tiles.at(-1)?.map((tile) => tile.session)).toEqual([session]);
    for (const body of [
      null,
      [],
      { by: 1 },
      { by: by('corvin'), ask: { do: 'jump' } },
      { by: by('corvin'), ask: { do: 'returnTo', tick: -1 } },
    ])
      expect(await post<{ because: string[] }>(`/api/training/sessions/${session}`, body)).toMatchObject({
        because: expect.any(Array),
      });
    expect(
      (await fetch(`${serving.url}/api/training/sessions/..%2f..%2fetc/debrief?person=corvin`)).status,
    ).toBe(400);
    expect(
      (await fetch(`${serving.url}/api/training/sessions/aaaaaaaaaa/debrief?person=corvin`)).status,
    ).toBe(404);
    expect(
      (await fetch(`${serving.url}/api/training/sessions/${session}/debrief?person=wrenna`)).status,
    ).toBe(403);
    await finish(session);
  });
});

describe('an attempt', () => {
  it('can be looked at, printed, and gone on with from any moment', async () => {
    const session = await begin('jessamy', { speed: 60 });
    const seat = await sit(session, 'jessamy');
    await seat.iAm('jessamy');
    expect(await seat.give({ do: 'start', batches: 1 })).toEqual({ ok: true });
    await until('a minute has passed', async () => {
      const { tile } = await get<SessionDetail>(`/api/training/sessions/${session}?person=corvin`);
      return tile.elapsedS > 65;
    });
    await finish(session);
    const debrief = await get<Debrief & { attempt: Attempt; startTick: number }>(
      `/api/training/sessions/${session}/debrief?person=jessamy`,
    );
    expect(debrief).toMatchObject({ seed: 11, trainee: { name: 'Jessamy Thole' }, passed: false });
    expect(debrief.done.map(({ text }) => text).join()).toMatch(/Start/);
    const tick = debrief.startTick + 600;
    const then = await viewAt(session, tick);
    expect(then.shift.atMs).toBe(tick * 100);
    expect(then.now.over).toMatch(/^Batch 1/);

    const again = await begin('jessamy', { from: { session, tick }, frozen: true });
    const now = await viewAt(again, tick);
    // The same moment, at the console of another attempt.
    const seatless = ({ seat: _, ...rest }: LineView) => rest;
    expect(seatless(now)).toEqual(seatless(then));
    expect(now.seat.holder?.console).toBe(consoleIn(again, 'jessamy'));
    await finish(again);
    const { attempts } = await get<{ attempts: Attempt[] }>(
      '/api/training/history?person=jessamy&trainee=jessamy',
    );
    expect(attempts.find((one) => one.session === again)?.from).toEqual({ session, tick });

    const pdf = await fetch(`${serving.url}/api/training/sessions/${session}/certificate.pdf?person=jessamy`);
    expect(pdf.headers.get('content-type')).toBe('application/pdf');
    const bytes = Buffer.from(await pdf.arrayBuffer());
    expect(bytes.equals(await certificatePdf(debrief.attempt, debrief))).toBe(true);
    const words = wordsOfPdf(bytes).replace(/\s+/g, '');
    expect(bytes.toString('latin1').match(/\/Type \/Page\b/g)).toHaveLength(1);
    expect(words).toContain('JessamyThole');
    expect(words).toContain('Drillnotpassed');
    expect(words).toContain(NOT_A_CERTIFICATE.replace(/[\s’]+/g, '').slice(0, 100));
  });
});

/** Text of a PDF with built-in faces: the hexadecimal strings of its page streams. */
const wordsOfPdf = (bytes: Buffer): string => {
  const text = bytes.toString('latin1');
  const streams = [...text.matchAll(/stream\n([\s\S]*?)\nendstream/g)].map(([, body]) => {
    try {
      return inflateSync(Buffer.from(body ?? '', 'latin1')).toString('latin1');
    } catch {
      return '';
    }
  });
  return [...streams.join('\n').matchAll(/<([0-9a-f]+)>/g)]
    .map(([, hex]) => Buffer.from(hex ?? '', 'hex').toString('latin1'))
    .join('');
};
