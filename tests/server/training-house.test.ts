/** Training sessions by themselves, over a drill without a plant: kept, brought back, turned back, refused in words. */
import { appendFileSync, cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import {
  SESSIONS_LIMIT,
  type SessionAsk,
  sessionAskSchema,
  startSchema,
} from '../../machines/live/training.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { interventionOf } from '../../server/training/acts.ts';
import { openTrainingFiles } from '../../server/training/files.ts';
import { TrainingHouse } from '../../server/training/house.ts';
import { type LogLine, readLog, storyOf } from '../../server/training/log.ts';
import { consoleIn, rerun } from '../../server/training/rerun.ts';
import { TrainingSession } from '../../server/training/session.ts';
import { type FakeRun, fakeDrill } from './support/fake-drill.ts';
import { scratchFolder, until } from './support/tools.ts';

const TRAINEES: readonly Person[] = Array.from({ length: SESSIONS_LIMIT + 1 }, (_, i) => ({
  id: `trainee-${i}`,
  name: `Trainee ${i}`,
  role: 'trainee',
}));
const TRAINER: Person = { id: 'tess', name: 'Tess', role: 'trainer' };
const AUDITOR: Person = { id: 'ola', name: 'Ola', role: 'auditor' };
const STORE: Person = { id: 'pim', name: 'Pim', role: 'storekeeper' };
const PEOPLE = [...TRAINEES, TRAINER, AUDITOR, STORE];
const [FIRST, SECOND] = TRAINEES as [Person, Person];

type House = TrainingHouse<FakeRun>;
const openHouse = async (folder: string, log: string[] = []): Promise<House> => {
  const files = openTrainingFiles(folder);
  const house = new TrainingHouse({
    engine: fakeDrill,
    files,
    people: () => PEOPLE,
    log: (line) => log.push(line),
  });
  onTestFinished(() => house.close());
  await house.restore();
  return house;
};

const start = async (house: House, trainee: Person, more: object = {}, by = TRAINER): Promise<string> => {
  const ask = startSchema.parse({
    by: { person: by.id, console: 'console-x' },
    drill: 'fake',
    trainee: trainee.id,
    seed: 5,
    speed: 60,
    ...more,
  });
  const { answer, session } = await house.start(ask, by);
  if (session === null) throw new Error(`not begun: ${JSON.stringify(answer)}`);
  return session;
};

let ids = 0;
const give = (
  house: House,
  session: string,
  person: Person,
  command: { do: string; [key: string]: unknown },
) =>
  house.session(session)?.command({
    id: `command-${String(++ids).padStart(6, '0')}`,
    by: { person: person.id, role: person.role, console: consoleIn(session, person.id) },
    command: command as never,
  });
const message = (text: string): SessionAsk => ({ do: 'message', text });
const ticked = (house: House, session: string, tick: number) =>
  until(`tick ${tick}`, () => (house.session(session)?.course.tick ?? 0) >= tick);
const copyOf = (folder: string): string => {
  const copy = scratchFolder();
  cpSync(folder, copy, { recursive: true });
  return copy;
};
const logOf = (folder: string, session: string) =>
  join(folder, 'training', 'under-way', `${session}.log.ndjson`);

describe('a fault put in by hand', () => {
  it('may be an instrument off by a share, and is taken away again', () => {
    const fault = (text: object) =>
      interventionOf(sessionAskSchema.parse({ do: 'fault', fault: text }) as never, TRAINER);
    const hood = { of: 'instrument', tag: 'vapourLelPct' };
    expect(fault({ ...hood, fault: 'span', offPct: -40 })).toEqual({
      do: 'ask',
      by: 'Tess',
      ask: { ask: 'instrumentFault', tag: 'vapourLelPct', fault: { fault: 'span', offPct: -40 } },
    });
    expect(fault({ ...hood, fault: null })).toMatchObject({ ask: { fault: null } });
    expect(() => fault({ ...hood, fault: 'span', offPct: 400 })).toThrow();
  });
});

describe('a training session', () => {
  it('has on its disk what it has answered', async () => {
    const folder = scratchFolder();
    const house = await openHouse(folder);
    const session = await start(house, FIRST);
    expect(await house.ask(session, message('hello'), TRAINER)).toEqual({ ok: true });
    expect(await give(house, session, FIRST, { do: 'takeControls' })).toEqual({ ok: true });
    const story = storyOf(readLog(logOf(folder, session)).lines);
    expect(story.heard.flatMap(({ acts }) => acts)).toEqual([{ do: 'message', by: 'Tess', text: 'hello' }]);
    expect(story.heard.flatMap(({ commands }) => commands.map((one) => one.command.do))).toEqual([
      'takeControls',
    ]);
  });

  it('comes back frozen where it was when the server is gone without a word', async () => {
    const folder = scratchFolder();
    const house = await openHouse(folder);
    const session = await start(house, FIRST);
    await house.ask(session, message('before'), TRAINER);
    await ticked(house, session, 700);
    await house.ask(session, { do: 'keepMoment', name: 'here' }, TRAINER);
    await house.ask(session, message('after'), TRAINER);
    const was = house.session(session);
    // What a kill leaves behind: the files as they are now, and nobody to close them.
    const other = await openHouse(copyOf(folder));
    const back = other.session(session);
    expect(back?.state).toBe('frozen');
    expect(back?.band().frozenBy).toBe('the restart of the server');
    expect(back?.course.run.put).toEqual(was?.course.run.put);
    expect(back?.course.moments().map(({ name }) => name)).toContain('here');
    expect(back?.course.tick).toBeGreaterThanOrEqual(700);
    expect(back?.shown().view).toEqual(await house.viewAt(session, back?.course.tick ?? 0));
  });

  it('leaves out a last line that was being written, and sets a garbled log aside', async () => {
    const folder = scratchFolder();
    const house = await openHouse(folder);
    const [good, bad] = [await start(house, FIRST), await start(house, SECOND)];
    await house.ask(good, message('kept'), TRAINER);
    await house.ask(bad, message('kept'), TRAINER);
    const copy = copyOf(folder);
    appendFileSync(logOf(copy, good), '{"is":"heard","tick":9,"comm');
    writeFileSync(logOf(copy, bad), readFileSync(logOf(copy, bad), 'utf8').replace('"acts"', '"acs"'));
    const said: string[] = [];
    const other = await openHouse(copy, said);
    expect(other.session(good)?.course.run.put.join()).toMatch(/message kept/);
    expect(other.session(bad)).toBeNull();
    expect(said.join()).toMatch(new RegExp(`${bad} could not be brought back.*line \\d cannot be read`));
    expect(existsSync(join(copy, 'training', 'set-aside', `${bad}.log.ndjson`))).toBe(true);
    // It can be gone on with: what follows stands behind the sound part.
    expect(await other.ask(good, message('more'), TRAINER)).toEqual({ ok: true });
    expect(storyOf(readLog(logOf(copy, good)).lines).heard).toHaveLength(2);
  });

  it('of another plant physics or another drill file is declined in words, not done again differently', async () => {
    const folder = scratchFolder();
    const house = await openHouse(folder);
    const [older, changed] = [await start(house, FIRST), await start(house, SECOND)];
    const copy = copyOf(folder);
    const rewrite = (session: string, from: RegExp, to: string) => {
      const text = readFileSync(logOf(copy, session), 'utf8');
      expect(text).toMatch(from);
      writeFileSync(logOf(copy, session), text.replace(from, to));
    };
    rewrite(older, /"physics":\d+,/, '');
    rewrite(changed, /fake-digest/, 'other-digest');
    const said: string[] = [];
    const other = await openHouse(copy, said);
    expect(other.sessions()).toEqual([]);
    expect(said.find((line) => line.includes(older))).toMatch(/made by patchyard .* before they were noted/);
    expect(said.find((line) => line.includes(changed))).toMatch(
      /drill fake or the shift .* has been changed/,
    );
    expect(existsSync(join(copy, 'training', 'set-aside', `${older}.log.ndjson`))).toBe(true);
  });

  it('of another plant physics is not gone on from, and its moments are not shown', async () => {
    const folder = scratchFolder();
    const house = await openHouse(folder);
    const session = await start(house, FIRST);
    await ticked(house, session, 100);
    await house.ask(session, { do: 'finish' }, TRAINER);
    await until('its outcome', () => house.attempt(session) !== null && house.sessions().length === 0);
    const copy = copyOf(folder);
    const log = join(copy, 'training', 'ended', `${session}.log.ndjson`);
    writeFileSync(log, readFileSync(log, 'utf8').replace(/"physics":\d+/, '"physics":0'));
    const other = await openHouse(copy);
    await expect(start(other, FIRST, { from: { session, tick: 50 } })).rejects.toThrow(
      /cannot be gone on from: .*physics 0/,
    );
    await expect(other.viewAt(session, 50)).rejects.toThrow(/moments cannot be shown: .*physics 0/);
    expect(other.debrief(session)).not.toBeNull();
  });

  it('turned back, is what it was, and what came after is undone for good', async () => {
    const folder = scratchFolder();
    const house = await openHouse(folder);
    const session = await start(house, FIRST);
    await house.ask(session, message('one'), TRAINER);
    await ticked(house, session, 650);
    const view = await house.viewAt(session, 600);
    await house.ask(session, message('two'), TRAINER);
    expect(await house.ask(session, { do: 'returnTo', tick: 600 }, TRAINER)).toEqual({ ok: true });
    const there = house.session(session);
    expect([there?.course.tick, there?.state, there?.course.returns]).toEqual([600, 'frozen', 1]);
    expect(there?.shown().view).toEqual(view);
    expect(there?.course.run.put.join()).not.toMatch(/two/);
    expect(await house.ask(session, { do: 'returnTo', tick: 601 }, TRAINER)).toMatchObject({
      because: [expect.stringMatching(/not in this drill/)],
    });
    const other = await openHouse(copyOf(folder));
    expect(other.session(session)?.course.tick).toBe(600);
    expect(other.session(session)?.course.run.put).toEqual(there?.course.run.put);
  });

  it('while frozen takes no commands but the emergency stop, and says who froze it', async () => {
    const house = await openHouse(scratchFolder());
    const session = await start(house, FIRST);
    await house.ask(session, { do: 'freeze' }, TRAINER);
    expect(await give(house, session, FIRST, { do: 'hold' })).toEqual({
      ok: false,
      because: ['Tess has frozen the drill: wait until it goes on.'],
    });
    const tick = house.session(session)?.course.tick ?? 0;
    expect(await give(house, session, FIRST, { do: 'emergencyStop' })).toEqual({ ok: true });
    expect(house.session(session)?.course.tick).toBe(tick + 1);
  });

  it('carries out the same id once', async () => {
    const house = await openHouse(scratchFolder());
    const session = await start(house, FIRST);
    const envelope = {
      id: 'the-same-id',
      by: { person: FIRST.id, role: FIRST.role, console: consoleIn(session, FIRST.id) },
      command: { do: 'takeControls' },
    } as const;
    const there = house.session(session);
    const answers = await Promise.all([there?.command(envelope), there?.command(envelope)]);
    expect(answers).toEqual([{ ok: true }, { ok: true }]);
    expect(there?.course.run.put).toHaveLength(1);
    expect(await there?.command({ ...envelope, command: { do: 'hold' } })).toMatchObject({
      because: [expect.stringMatching(/used before, for takeControls/)],
    });
  });

  it('finished, is kept with its outcome and refuses what comes later', async () => {
    const folder = scratchFolder();
    const house = await openHouse(folder);
    const session = await start(house, FIRST);
    await house.ask(session, message('hello'), TRAINER);
    const there = house.session(session);
    expect(await house.ask(session, { do: 'finish' }, TRAINER)).toEqual({ ok: true });
    await until('it is over', () => there?.state === 'over');
    expect(house.attempt(session)).toMatchObject({ score: 2, passed: true, returns: 0, from: null, seed: 5 });
    expect(house.history(TRAINER, FIRST.id)).toHaveLength(1);
    expect(existsSync(logOf(folder, session))).toBe(false);
    expect(await give(house, session, FIRST, { do: 'hold' })).toMatchObject({
      because: [expect.stringMatching(/drill is over/)],
    });
    expect(await house.ask(session, message('late'), TRAINER)).toMatchObject({ ok: false });
    const other = await openHouse(copyOf(folder));
    expect(other.sessions()).toEqual([]);
    expect(other.history(TRAINER, null)).toEqual(house.history(TRAINER, null));
    expect(other.debrief(session)).toMatchObject({
      put: expect.arrayContaining([expect.stringMatching(/hello/)]),
    });
  });

  it('goes on from a moment of an earlier attempt as a new one', async () => {
    const house = await openHouse(scratchFolder());
    const earlier = await start(house, FIRST);
    await give(house, earlier, FIRST, { do: 'takeControls' });
    await ticked(house, earlier, 100);
    await house.ask(earlier, message('later'), TRAINER);
    await house.ask(earlier, { do: 'finish' }, TRAINER);
    await until('it is over', () => house.attempt(earlier) !== null);
    const again = await start(house, FIRST, { from: { session: earlier, tick: 90 }, frozen: true });
    const there = house.session(again);
    expect(there?.course.run.put.join()).toMatch(/takeControls/);
    expect(there?.course.run.put.join()).not.toMatch(/later/);
    expect(there?.course.heard[0]?.commands[0]?.by.console).toBe(consoleIn(again, FIRST.id));
    expect(there?.course.tick).toBe(90);
    await expect(start(house, SECOND, { from: { session: earlier, tick: 90 } })).rejects.toThrow(
      /only the same person/,
    );
  });

  it('stands still with words when its log cannot be written, and goes on when it can', async () => {
    let full = true;
    const written: LogLine[] = [];
    const log = {
      write: (lines: readonly LogLine[]) => {
        if (full) throw Object.assign(new Error('no space left'), { code: 'ENOSPC' });
        written.push(...lines);
      },
      close: () => undefined,
    };
    const opened = {
      is: 'opened',
      format: 1,
      program: 'test',
      session: 'abcdef0123',
      drill: 'fake',
      seed: 1,
      hints: true,
      trainee: FIRST,
      by: TRAINER,
      wall: '2026-01-01T00:00:00.000Z',
      from: null,
    } as const;
    const { run, minutes } = await rerun(fakeDrill, opened, [], 0);
    const [card] = fakeDrill.cards();
    if (card === undefined) throw new Error('no card');
    const story = { opened, heard: [], kept: [], tick: 0, returns: 0, ended: null };
    const parts = {
      engine: fakeDrill,
      card,
      story,
      log,
      run,
      minutes,
      say: () => undefined,
      onOver: () => undefined,
    };
    const session = new TrainingSession(parts);
    onTestFinished(() => session.stop());
    await session.begin(60);
    const lost = await session.act({ do: 'message', by: 'Tess', text: 'lost' });
    expect(lost).toMatchObject({
      ok: false,
      because: [expect.stringMatching(/log of this drill cannot be written/)],
    });
    expect(session.course.run.put).toEqual([]);
    expect(session.shown().run).toMatchObject({
      paused: true,
      trouble: expect.stringMatching(/cannot be written/),
    });
    expect(session.goOn()).toMatchObject({ ok: false });
    full = false;
    expect(session.goOn()).toEqual({ ok: true });
    expect(await session.act({ do: 'message', by: 'Tess', text: 'kept' })).toEqual({ ok: true });
    expect(written.some((line) => line.is === 'heard')).toBe(true);
  });
});

describe('who may', () => {
  it('begin drills, and how many at once, is said in words', async () => {
    const house = await openHouse(scratchFolder());
    await expect(start(house, SECOND, {}, FIRST)).rejects.toThrow(
      /drills for others are begun by: trainer, supervisor/,
    );
    await expect(start(house, FIRST, {}, AUDITOR)).rejects.toThrow(/is an auditor/);
    await expect(start(house, STORE)).rejects.toThrow(/does not work the line/);
    await expect(start(house, FIRST, { drill: 'none' })).rejects.toThrow(/there is no drill none/);
    await start(house, FIRST, {}, FIRST);
    await expect(start(house, FIRST)).rejects.toThrow(/Trainee 0 is in “Fake drill” already/);
    for (const trainee of TRAINEES.slice(1, SESSIONS_LIMIT)) await start(house, trainee, { speed: 1 });
    await expect(start(house, TRAINEES[SESSIONS_LIMIT] as Person)).rejects.toThrow(/12 drills are under way/);
    expect(house.tiles()).toHaveLength(SESSIONS_LIMIT);
  });

  it.each([
    [FIRST, 'freeze', /Tess leads this drill/],
    [FIRST, 'returnTo', /Tess leads this drill/],
    [FIRST, 'fault', /Tess leads this drill/],
    [SECOND, 'freeze', /a drill is led by: trainer, supervisor/],
    [AUDITOR, 'finish', /is an auditor; a drill is led by/],
    [TRAINER, 'hint', /are for Trainee 0/],
  ] as const)('%o may not %s', async (person, what, words) => {
    const house = await openHouse(scratchFolder());
    const session = await start(house, FIRST);
    const answer = await house.ask(session, { do: what, tick: 0, fault: {} } as never, person);
    expect(answer).toMatchObject({ ok: false, because: [expect.stringMatching(words)] });
  });

  it.each([
    [FIRST, 'standIn', /work the line yourself/],
    [FIRST, 'endShift', /press Finish/],
    [SECOND, 'hold', /you look on here/],
    [TRAINER, 'takeControls', /controls are Trainee 0’s/],
    [TRAINER, 'injectFault', /from the trainer’s seat/],
  ] as const)('%o may not command %s', async (person, command, words) => {
    const house = await openHouse(scratchFolder());
    const session = await start(house, FIRST);
    const answer = await give(house, session, person, { do: command });
    expect(answer).toMatchObject({ ok: false, because: [expect.stringMatching(words)] });
    expect(house.session(session)?.course.run.put).toEqual([]);
  });

  it('see an attempt: its trainee, trainers and auditors, and nobody else', async () => {
    const house = await openHouse(scratchFolder());
    const session = await start(house, FIRST);
    await house.ask(session, { do: 'finish' }, TRAINER);
    await until('it is over', () => house.attempt(session) !== null);
    const seen = [FIRST, SECOND, TRAINER, AUDITOR, STORE].map((person) => house.history(person, null).length);
    expect(seen).toEqual([1, 0, 1, 1, 0]);
  });
});
