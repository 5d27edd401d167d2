/** Live consoles: whole state first, then changes without a gap, answers with reasons, and no harm from garbage. */
import { connect } from 'node:net';
import { describe, expect, it } from 'vitest';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Change, State } from '../../machines/live/protocol.ts';
import { freePort, openConsole, serveFake, type TestConsole } from './support/serve-fake.ts';
import { commandOf, until } from './support/tools.ts';

/** The state a console has after taking in every change, as protocol.ts says it is done. */
const folded = ({ states, changes }: TestConsole): State => {
  let state = states.at(-1) as State;
  for (const change of changes as Change[]) {
    if (change.n <= state.n) continue;
    if (change.n !== state.n + 1) throw new Error(`gap: ${change.n} after ${state.n}`);
    const { blocks, marks } = state.view.ribbon;
    const ribbon =
      change.ribbon === null
        ? state.view.ribbon
        : {
            blocks: [...blocks.slice(0, change.ribbon.keepBlocks), ...change.ribbon.blocks],
            marks: [...marks.slice(0, change.ribbon.keepMarks), ...change.ribbon.marks],
          };
    const view: LineView = { ...state.view, ...change.sections, ribbon };
    state = { n: change.n, view, run: change.run ?? state.run };
  }
  return state;
};

describe('live console', () => {
  it('gets the people and the whole state at once', async () => {
    const { url } = await serveFake();
    const a = await openConsole(url, 'console-a');
    expect(a.hellos[0]).toMatchObject({ me: null, people: [{ id: 'kim' }, { id: 'noor' }, { id: 'ola' }] });
    expect(a.states[0]).toMatchObject({ run: { simulated: true, speed: 1, paused: false, trouble: null } });
    expect(a.states[0]?.view.shift.id).toBe('fake-day');
  });

  it('gets changes that add up to the whole state a newcomer gets', async () => {
    const { url } = await serveFake({ speed: 60 });
    const a = await openConsole(url, 'console-a');
    await a.iAm('kim');
    await a.give({ do: 'takeControls' });
    await a.give({ do: 'start', batches: 1 });
    await until('a dozen changes', () => a.changes.length >= 12);
    const answer = await a.socket.timeout(5000).emitWithAck('run', { do: 'pause' });
    expect(answer).toEqual({ ok: true });
    await until('the pause shows', () => folded(a).run.paused);
    const b = await openConsole(url, 'console-b');
    await until('both see the same change', () => folded(a).n === folded(b).n);
    expect(folded(a)).toEqual(folded(b));
    // More than one batch ran, so the ribbon really came in pieces.
    expect(folded(a).view.ribbon.blocks.length).toBeGreaterThan(2);
    expect(a.changes.some((change) => change.ribbon !== null && change.ribbon.keepBlocks > 0)).toBe(true);
  });

  it('sends only sections that changed, at most ten times a second', async () => {
    const { url } = await serveFake({ speed: 10 });
    const a = await openConsole(url, 'console-a');
    const [from, fromMs] = [a.changes.length, performance.now()];
    await until('ten changes', () => a.changes.length >= from + 10);
    expect(performance.now() - fromMs).toBeGreaterThan(800);
    for (const { sections } of a.changes) {
      expect(Object.keys(sections)).not.toContain('interlock');
      expect(Object.keys(sections)).not.toContain('ribbon');
    }
  });

  it('gets the whole state again when it asks', async () => {
    const { url } = await serveFake({ speed: 10 });
    const a = await openConsole(url, 'console-a');
    await until('some changes', () => a.changes.length > 3);
    a.socket.emit('again');
    await until('a second state', () => a.states.length === 2);
    expect((a.states[1] as State).n).toBeGreaterThan((a.states[0] as State).n);
  });

  it('must say who sits there before it may command', async () => {
    const { url } = await serveFake();
    const a = await openConsole(url, 'console-a');
    const who = 'Say who you are first: choose a person at this console.';
    expect(await a.give({ do: 'takeControls' })).toEqual({ ok: false, because: [who] });
    expect(await a.iAm('nobody')).toEqual({ ok: false, because: ['nobody is not on the list of people.'] });
    expect(await a.give({ do: 'takeControls' })).toEqual({ ok: false, because: [who] });
    expect(await a.iAm('kim')).toEqual({ ok: true });
    expect(a.hellos.at(-1)?.me?.id).toBe('kim');
    expect(await a.give({ do: 'takeControls' })).toEqual({ ok: true });
  });

  it('two consoles: one has the controls, the other is refused with the reason and sees who has them', async () => {
    const { url } = await serveFake();
    const [a, b] = [await openConsole(url, 'console-a'), await openConsole(url, 'console-b')];
    await a.iAm('kim');
    await b.iAm('noor');
    await a.give({ do: 'takeControls' });
    expect(await b.give({ do: 'start', batches: 1 })).toEqual({
      ok: false,
      because: ['Another console has the controls.'],
    });
    await until('b sees who has them', () => folded(b).view.seat.holder?.person === 'kim');
  });

  it('controls held by a console that has gone away pass to one that asks, and it is noted', async () => {
    const { url } = await serveFake({ awayMs: 600 });
    const [a, b] = [await openConsole(url, 'console-a'), await openConsole(url, 'console-b')];
    await a.iAm('kim');
    await b.iAm('noor');
    await a.give({ do: 'takeControls' });
    await b.give({ do: 'askForControls' });
    // As long as the holder is there it is the holder's to answer.
    await new Promise((go) => setTimeout(go, 900));
    expect(folded(b).view.seat.holder?.console).toBe('console-a');
    // A short absence costs nothing.
    a.socket.disconnect();
    await new Promise((go) => setTimeout(go, 200));
    a.socket.connect();
    await until('a is back', () => a.states.length === 2);
    await new Promise((go) => setTimeout(go, 700));
    expect(folded(b).view.seat.holder?.console).toBe('console-a');
    a.socket.disconnect();
    await until('b has the controls', () => folded(b).view.seat.holder?.console === 'console-b');
    const notes = async () => (await (await fetch(`${url}/api/record?kind=note`)).json()).entries;
    await until('the note', async () => (await notes()).length === 1);
    const entries = await notes();
    expect(entries[0].body).toMatchObject({
      what: 'controls handed over',
      detail: expect.stringMatching(
        /^by the server: the console of Kim has been away for \d+ s and Noor asked/,
      ),
    });
  });

  it('is known again after a reconnect, and an id sent twice is carried out once', async () => {
    const port = await freePort();
    const first = await serveFake({ port });
    const a = await openConsole(first.url, 'console-a');
    await a.iAm('kim');
    await a.give({ do: 'takeControls' });
    const id = commandOf({ do: 'hold' }).id;
    expect(await a.give({ do: 'start', batches: 1 }, id)).toEqual({ ok: true });
    a.socket.disconnect().connect();
    await until('a new state', () => a.states.length === 2);
    expect(a.hellos.at(-1)?.me?.id).toBe('kim');
    expect(await a.give({ do: 'start', batches: 1 }, id)).toEqual({ ok: true });
    await first.close();

    const second = await serveFake({ port, dataFolder: first.folder });
    await until('a state from the new server', () => a.states.length === 3);
    await a.iAm('kim');
    expect(await a.give({ do: 'start', batches: 1 }, id)).toEqual({ ok: true });
    const record = await (await fetch(`${second.url}/api/record?kind=command`)).json();
    expect(
      record.entries.filter((e: { body: { envelope: { id: string } } }) => e.body.envelope.id === id),
    ).toHaveLength(1);
    expect(folded(a).view.seat.holder?.person).toBe('kim');
  });

  it('is told in words when it asks too often', async () => {
    const { url } = await serveFake();
    const a = await openConsole(url, 'console-a');
    await a.iAm('kim');
    const answers = await Promise.all(Array.from({ length: 60 }, () => a.give({ do: 'takeControls' })));
    const refused = answers.filter((answer) => !answer.ok);
    expect(refused.length).toBeGreaterThan(30);
    expect(refused[0]).toEqual({
      ok: false,
      because: ['Too many commands from this console: at most 20 a second. Wait a moment.'],
    });
    // Another console is not held up by it.
    const b = await openConsole(url, 'console-b');
    await b.iAm('noor');
    expect((await b.give({ do: 'emergencyStop' })).ok).toBe(true);
  });

  it('answers or ignores garbage, and goes on', async () => {
    const { url, log } = await serveFake();
    const a = await openConsole(url, 'console-a');
    await a.iAm('kim');
    const raw = a.socket as unknown as { emit: (...args: unknown[]) => void };
    const ask = (...args: unknown[]) =>
      new Promise((answered) => raw.emit(...args, (answer: unknown) => answered(answer)));
    for (const garbage of [
      null,
      7,
      'hold',
      [],
      { id: 'x' },
      { id: 'long-enough', command: { do: 'explode' } },
    ])
      expect(await ask('command', garbage)).toMatchObject({
        ok: false,
        because: expect.arrayContaining([expect.any(String)]),
      });
    expect(await ask('command', { id: 'long-enough', command: { do: 'hold', more: 1 } })).toMatchObject({
      ok: false,
    });
    expect(await ask('run', { do: 'speed', speed: 1000 })).toMatchObject({ ok: false });
    expect(await ask('iAm', { person: { $ne: null }, console: 'console-a' })).toMatchObject({ ok: false });
    raw.emit('command');
    raw.emit('command', { id: 'long-enough', command: { do: 'hold' } }, 'no function');
    raw.emit('no such event', Buffer.alloc(1000));
    raw.emit('iAm', undefined, undefined, undefined);
    expect(await a.give({ do: 'takeControls' })).toEqual({ ok: true });
    // The scenario of this engine has no bins: the book of mixes says so, and the line goes on.
    expect(log.filter((line) => !line.startsWith('The books went on without'))).toEqual([]);
  });

  it('is dropped when it sends more than a command can be, and the rest go on', async () => {
    const { url } = await serveFake();
    const [a, b] = [await openConsole(url, 'console-a'), await openConsole(url, 'console-b')];
    await b.iAm('kim');
    let dropped = false;
    a.socket.on('disconnect', () => {
      dropped = true;
    });
    (a.socket as unknown as { emit: (...args: unknown[]) => void }).emit('command', 'x'.repeat(100_000));
    await until('a is dropped', () => dropped);
    expect(await b.give({ do: 'takeControls' })).toEqual({ ok: true });
  });

  it('bytes that are no protocol at all do no harm', async () => {
    const { url } = await serveFake();
    const port = Number(new URL(url).port);
    for (const bytes of [
      '\x00\x01\x02\x03',
      'GET /socket.io/?EIO=4&transport=websocket HTTP/1.1\r\n\r\n',
      'POST / HTTP/9\r\n\r\n',
    ])
      await new Promise<void>((done) => {
        const socket = connect(port, '127.0.0.1', () => socket.end(bytes));
        socket.on('close', () => done());
        socket.on('error', () => done());
        socket.resume();
      });
    const a = await openConsole(url, 'console-a');
    await a.iAm('kim');
    expect(await a.give({ do: 'takeControls' })).toEqual({ ok: true });
  });

  it("is refused from another site's page and under another name", async () => {
    const { url } = await serveFake();
    const poll = (headers: { [name: string]: string }) =>
      fetch(`${url}/socket.io/?EIO=4&transport=polling`, { headers }).then((r) => r.status);
    expect(await poll({})).toBe(200);
    expect(await poll({ origin: url })).toBe(200);
    expect(await poll({ origin: 'http://other.test' })).toBe(403);
    expect(await poll({ origin: 'null' })).toBe(403);
  });
});
