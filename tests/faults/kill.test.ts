/**
 * The real server is killed during a batch with commands in flight, again and again on one record: nothing
 * it acknowledged or decided is missing afterwards, the chain is whole and the batch goes on or is held.
 * Of the plant time a console was shown, the readings of less than one second may be gone, at any speed:
 * they are written by the second, and nothing is shown before every whole second of it is written.
 * KILLS sets the number of rounds, SEED the moments.
 */
import { setTimeout as pause } from 'node:timers/promises';
import { io, type Socket } from 'socket.io-client';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Command } from '../../machines/line/commands.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Answer, ConsoleEvents, ServerEvents } from '../../machines/live/protocol.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { TICKS_PER_GROUP } from '../../machines/record/recorder.ts';
import { ticksOf } from '../../machines/record/replay.ts';
import { prepare } from '../../server/bin/support/prepare.mjs';
import { verifyFolder } from '../../server/store/sqlite.ts';
import { type Served, serve } from '../support/served.ts';
import { createPrng } from './support/prng.ts';
import { restartsOf, ticksLost } from './support/restarts.ts';

const KILLS = Number(process.env.KILLS ?? 6);
const SEED = Number(process.env.SEED ?? Math.floor(Math.random() * 1e9));
const SPEED = 60;
const LIMIT_MS = 60_000 + KILLS * 15_000;

let served: Served;
beforeAll(async () => {
  served = await serve(await prepare({ client: false }), [
    'scenarios/shifts/emulsion-day.yaml',
    '--speed',
    String(SPEED),
  ]);
});
afterAll(async () => served?.remove());

type Seen = {
  readonly answers: Map<string, { readonly command: Command; readonly answer: Answer }>;
  seq: number;
  head: string;
  view: LineView | null;
};

type Console = Socket<ServerEvents, ConsoleEvents>;

const openConsole = async (seen: Seen): Promise<Console> => {
  const socket: Console = io(served.url, {
    auth: { console: 'kill-console' },
    reconnection: false,
    forceNew: true,
  });
  socket.on('state', ({ view, run }) => Object.assign(seen, { view, seq: run.seq, head: run.head }));
  socket.on('change', ({ sections, run }) => {
    if (run !== null) Object.assign(seen, { seq: run.seq, head: run.head });
    if (seen.view !== null) seen.view = { ...seen.view, ...sections };
  });
  await new Promise<void>((ready) => socket.once('state', () => ready()));
  await socket.emitWithAck('iAm', { person: 'wrenna', console: 'kill-console' });
  return socket;
};

let counter = 0;
/** Sends without waiting; an answer that comes is kept. */
const send = (socket: Console, seen: Seen, command: Command): void => {
  const id = `kill-${String(++counter).padStart(6, '0')}`;
  socket.emit('command', { id, command }, (answer) => seen.answers.set(id, { command, answer }));
};

/** Sends and waits; what it was told is kept in `seen`, to be held against the record like the rest. */
const give = async (socket: Console, command: Command, seen?: Seen): Promise<Answer> => {
  const id = `give-${String(++counter).padStart(6, '0')}`;
  const answer: Answer = await socket.timeout(5000).emitWithAck('command', { id, command });
  seen?.answers.set(id, { command, answer });
  return answer;
};

const entriesAfter = async (from: number): Promise<Entry[]> => {
  const all: Entry[] = [];
  let after: number | null = from;
  while (after !== null) {
    const response: Response = await fetch(`${served.url}/api/record?after=${after}&limit=1000`);
    const page = (await response.json()) as { entries: Entry[]; next: number | null };
    all.push(...page.entries);
    after = page.next;
  }
  return all;
};

/** Commands a nervous operator might give; many are refused, and that too must be on record. */
const NERVOUS: readonly Command[] = [
  { do: 'hold' },
  { do: 'restart' },
  { do: 'restart' },
  { do: 'restart' },
  { do: 'extendMix' },
  { do: 'confirmLook' },
  { do: 'confirmLook' },
  { do: 'lightBurner' },
  { do: 'topUp' },
  { do: 'start', batches: 1 },
  { do: 'takeControls' },
];

const viewNow = async (): Promise<LineView> =>
  ((await (await fetch(`${served.url}/api/state`)).json()) as { view: LineView }).view;

const AT_WORK = ['running', 'holding', 'held', 'restarting'];

describe(`${KILLS} kills (SEED=${SEED})`, () => {
  it(
    'lose nothing that was acknowledged, and less than a second of what was shown',
    async () => {
      const random = createPrng(SEED);
      let accepted = 0;
      let killedAtWork = 0;
      for (let round = 1; round <= KILLS; round++) {
        const at = `round ${round}`;
        const seen: Seen = { answers: new Map(), seq: 0, head: '', view: null };
        const socket = await openConsole(seen);
        await give(socket, { do: 'takeControls' }, seen);
        // A batch that a nervous hand left held is taken up again; one that is finished is followed by another.
        await give(socket, { do: 'restart' }, seen);
        await give(socket, { do: 'start', batches: 2 }, seen);
        const untilMs = performance.now() + 200 + random() * 1500;
        while (performance.now() < untilMs) {
          send(socket, seen, NERVOUS[Math.floor(random() * NERVOUS.length)] as Command);
          await pause(random() * 120);
        }
        // The last ones are still on their way when the power goes.
        send(socket, seen, { do: 'hold' });
        send(socket, seen, { do: 'restart' });
        await pause(random() * 30);
        await served.cutPower();
        // What the server had sent before it died is still on its way to this console.
        await pause(20);
        socket.close();
        for (const { answer } of seen.answers.values()) if (answer.ok) accepted += 1;
        const atWork = AT_WORK.includes((seen.view as LineView).now.procedure);
        if (atWork) killedAtWork += 1;

        await served.startAgain();
        expect(verifyFolder(served.dataDir), at).toMatchObject({ ok: true });
        const entries = await entriesAfter(0);
        const shown = entries[seen.seq - 1];
        expect(shown?.hash, `${at}: the newest entry a console knew of`).toBe(seen.head);

        const given = new Set(entries.flatMap((e) => (e.kind === 'command' ? [e.body.envelope.id] : [])));
        const decided = new Map<string, Answer>();
        for (const entry of entries) {
          if (entry.kind !== 'fact') continue;
          const { fact } = entry.body;
          if (fact.is === 'commandDone') decided.set(fact.id, { ok: true });
          if (fact.is === 'commandRefused') decided.set(fact.id, { ok: false, because: fact.because });
        }
        for (const [id, { command, answer }] of seen.answers) {
          // Refused at the desk for coming too fast: never reached the line, and says so.
          if (!answer.ok && answer.because[0]?.startsWith('Too many')) continue;
          expect(given.has(id), `${at}: ${command.do} ${id} is on record`).toBe(true);
          expect(decided.get(id), `${at}: what became of ${command.do} ${id}`).toEqual(answer);
        }

        // Every tick is there once, and running them again came out the same.
        const ticks = [...ticksOf(entries)].map((t) => t.tick);
        expect(ticks, at).toEqual(ticks.map((_, i) => i + 1));
        const differently = entries.filter(
          (e) => e.kind === 'note' && e.body.what === 'restored differently',
        );
        expect(differently, at).toEqual([]);

        const now = await viewNow();
        const before = seen.view as LineView;
        // What the restart itself says it went on from: by the time a state is asked for, the line has run on.
        const restarts = restartsOf(entries);
        expect(restarts.length, `${at}: restarts on record`).toBe(round);
        expect(ticksLost(before.shift.atMs, restarts.at(-1)), at).toBeLessThan(TICKS_PER_GROUP);
        expect(now.shift.batchesDone, at).toBeGreaterThanOrEqual(before.shift.batchesDone);
        // The batch goes on or is held; it may by now have ended in good order, but it has not vanished.
        if (atWork && !AT_WORK.includes(now.now.procedure))
          expect(now.shift.batchesDone, at).toBeGreaterThan(before.shift.batchesDone);
        const after = await openConsole({ ...seen });
        for (const [id, { command, answer }] of [...seen.answers].slice(-3)) {
          if (!answer.ok && answer.because[0]?.startsWith('Too many')) continue;
          expect(
            await after.timeout(5000).emitWithAck('command', { id, command }),
            `${at}: asked again`,
          ).toEqual(answer);
        }
        after.close();
      }
      expect(accepted, 'commands accepted in all rounds').toBeGreaterThan(KILLS);
      expect(killedAtWork, 'rounds in which a batch was at work').toBeGreaterThan(KILLS / 2);
    },
    LIMIT_MS,
  );

  it('and the batch left behind can be finished', async () => {
    const seen: Seen = { answers: new Map(), seq: 0, head: '', view: null };
    const socket = await openConsole(seen);
    const { batchesDone } = (await viewNow()).shift;
    expect(await give(socket, { do: 'standIn', skill: 'good' })).toEqual({ ok: true });
    const deadlineMs = performance.now() + 60_000;
    while ((await viewNow()).shift.batchesDone === batchesDone) {
      if (performance.now() > deadlineMs)
        throw new Error(`no batch was finished: ${JSON.stringify((await viewNow()).now)}`);
      await pause(100);
    }
    socket.close();
  });
});
