/** Scoring: in time, late, far too late, out of order, not called for; things never done; the pass mark. */
import { describe, expect, it } from 'vitest';
import { type Drill, drillSchema } from '../../machines/drills/drill.schema.ts';
import { traineeOf } from '../../machines/drills/headless.ts';
import { advanceDrill, type DrillRun, debriefOf, openDrill } from '../../machines/drills/run.ts';
import type { Command } from '../../machines/line/commands.ts';
import { shipped } from './support/drills.ts';

const { scenario, drill } = shipped('first-emulsion-batch');

const made = (
  parts: Partial<Record<'expect' | 'never' | 'passMark' | 'endsWhen' | 'minutes', unknown>>,
): Drill => drillSchema.parse({ ...drill, incidents: [], never: [], endsWhen: [], minutes: 5, ...parts });

const start = {
  id: 'start',
  text: 'Start.',
  competency: 'batching',
  points: 10,
  withinS: 10,
  by: [{ what: 'command', do: 'start' }],
};
const hold = {
  id: 'hold',
  text: 'Hold.',
  competency: 'faults',
  points: 20,
  withinS: 30,
  by: [{ what: 'command', do: 'hold' }],
};

let given = 0;
/** Works a drill by the clock: commands at so many seconds, then on to `untilS`. */
const worked = (
  file: Drill,
  acts: readonly (readonly [atS: number, command: Command])[],
  untilS: number,
): DrillRun => {
  let run = openDrill(file, scenario, { seed: 1, trainee: traineeOf(scenario), hints: false });
  for (let tick = 0; tick < untilS * 10; tick += 1) {
    const now = acts.filter(([atS]) => atS * 10 === tick);
    const commands = now.map(([, command]) => {
      given += 1;
      return { id: `score-${given}-given`, by: run.options.trainee, command };
    });
    run = advanceDrill(run, commands, []).run;
  }
  return run;
};
const START: Command = { do: 'start', batches: 1 };
const HOLD: Command = { do: 'hold' };
const standings = (run: DrillRun) =>
  debriefOf(run).expected.map((one) => [one.id, one.standing, one.points, one.of]);

describe('hammering on the buttons', () => {
  it('costs a point for each refused command beyond the odd slip, with the reason', () => {
    const drill = made({ expect: [start] });
    const presses = (times: number) =>
      Array.from({ length: times }, (_, i): readonly [number, Command] => [6 + i, { do: 'restart' }]);
    const scored = (times: number) => debriefOf(worked(drill, [[5, START], ...presses(times)], 40));
    expect(scored(8).score).toBe(100);
    const { score, competencies } = scored(12);
    expect(score).toBe(60);
    expect(competencies.flatMap(({ reasons }) => reasons).join()).toMatch(/−4: 12 commands were refused/);
  });
});

describe('an expectation', () => {
  it.each([
    [5, 'in time', 10],
    [15, 'late', 5],
    [25, 'late', 0],
  ])('done after %i s of 10 is %s and brings %i of 10', (atS, standing, points) => {
    expect(standings(worked(made({ expect: [start] }), [[atS, START]], 30))).toEqual([
      ['start', standing, points, 10],
    ]);
  });

  it('never done is missed; what was never reached is missed too, unless it counts only when called for', () => {
    const never = { ...hold, from: [{ is: 'step', in: ['mixing'] }] };
    const run = worked(
      made({ expect: [start, never, { ...never, id: 'maybe', ifCalledFor: true }] }),
      [],
      15,
    );
    expect(standings(run)).toEqual([
      ['start', 'missed', 0, 10],
      ['hold', 'missed', 0, 20],
      ['maybe', 'not called for', 0, 0],
    ]);
    expect(debriefOf(run).score).toBe(0);
  });

  it('done before what should come first brings half', () => {
    const file = made({
      expect: [
        start,
        { ...hold, after: ['look'] },
        { ...start, id: 'look', by: [{ what: 'command', do: 'confirmLook' }] },
      ],
    });
    expect(
      standings(
        worked(
          file,
          [
            [1, START],
            [5, HOLD],
          ],
          12,
        ),
      ),
    ).toContainEqual(['hold', 'out of order', 10, 20]);
  });

  it('does not count a command that was refused, nor one given before it was called for', () => {
    const refused = worked(made({ expect: [hold] }), [[1, HOLD]], 40);
    expect(refused.did[0]?.because.length).toBeGreaterThan(0);
    expect(standings(refused)).toEqual([['hold', 'missed', 0, 20]]);
    const early = made({ expect: [{ ...hold, from: [{ is: 'after', seconds: 20 }] }] });
    expect(
      standings(
        worked(
          early,
          [
            [1, START],
            [5, HOLD],
          ],
          60,
        ),
      ),
    ).toEqual([['hold', 'missed', 0, 20]]);
  });

  it('is held to what its command is given with', () => {
    const file = made({
      expect: [{ ...start, by: [{ what: 'command', do: 'start', with: { batches: 3 } }] }],
    });
    expect(standings(worked(file, [[1, START]], 15))[0]?.[1]).toBe('missed');
    expect(standings(worked(file, [[1, { do: 'start', batches: 3 }]], 15))[0]?.[1]).toBe('in time');
  });
});

describe('a thing never done', () => {
  const light = {
    id: 'light',
    text: 'A flame.',
    competency: 'fire discipline',
    points: 15,
    by: [{ what: 'command', do: 'lightBurner', tried: true }],
  };
  const LIGHT: Command = { do: 'lightBurner' };

  it('costs points each time, three times at most, even when it was only tried', () => {
    const tried = (times: number) => {
      const acts = Array.from({ length: times }, (_, i) => [5 + i, LIGHT] as const);
      return debriefOf(
        worked(made({ expect: [start, hold], never: [light] }), [[1, START], [3, HOLD], ...acts], 30),
      );
    };
    expect(tried(0).score).toBe(100);
    expect(tried(1).score).toBe(50);
    expect(tried(1).unsafe).toMatchObject([{ kind: 'tried', times: 1, fails: false }]);
    expect(tried(5).unsafe).toMatchObject([{ times: 5 }]);
    expect(tried(5).score).toBe(0);
  });

  it('fails the drill whatever the score when it says so', () => {
    const file = made({ expect: [start, { ...hold, points: 80 }], never: [{ ...light, fails: true }] });
    const debrief = debriefOf(
      worked(
        file,
        [
          [1, START],
          [3, HOLD],
          [5, LIGHT],
        ],
        10,
      ),
    );
    expect(debrief.score).toBe(83);
    expect(debrief.passed).toBe(false);
    expect(debrief.verdict).toMatch(/Not passed, whatever the score: A flame\./);
  });

  it('counts a state once while it lasts, and only after it has lasted long enough', () => {
    const idle = {
      id: 'idle',
      text: 'Stood idle.',
      competency: 'batching',
      points: 5,
      while: [{ is: 'step', in: ['ready'] }],
      forS: 10,
    };
    const run = (untilS: number, acts: readonly (readonly [number, Command])[]) =>
      debriefOf(worked(made({ expect: [start], never: [idle] }), acts, untilS)).unsafe.map(
        (one) => one.times,
      );
    expect(run(9, [])).toEqual([]);
    expect(run(40, [])).toEqual([1]);
    expect(run(40, [[5, START]])).toEqual([]);
  });

  it('is not done while its condition does not hold', () => {
    const file = made({
      expect: [start],
      never: [{ ...light, while: [{ is: 'signal', signal: 'cutbackInMixer' }] }],
    });
    expect(
      debriefOf(
        worked(
          file,
          [
            [1, START],
            [3, LIGHT],
          ],
          10,
        ),
      ).unsafe,
    ).toEqual([]);
  });
});

describe('the pass mark', () => {
  it.each([
    [50, true],
    [51, false],
  ])('%i with a score of 50: passed is %s', (passMark, passed) => {
    const debrief = debriefOf(worked(made({ expect: [start], passMark }), [[15, START]], 20));
    expect([debrief.score, debrief.passed]).toEqual([50, passed]);
  });
});

describe('the end', () => {
  it('comes with the time, or with its conditions', () => {
    const byTime = worked(made({ expect: [start], minutes: 1 }), [], 62);
    expect(byTime.ended?.why).toBe('the time was over');
    const done = worked(made({ expect: [start], endsWhen: [{ is: 'met', id: 'start' }] }), [[3, START]], 10);
    expect(done.ended).toMatchObject({ why: 'done' });
  });
});
