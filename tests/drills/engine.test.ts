/** The drill engine: deterministic, saved and gone back to, different by seed, and silent about what it hides. */
import { describe, expect, it } from 'vitest';
import type { Drill } from '../../machines/drills/drill.schema.ts';
import { traineeOf } from '../../machines/drills/headless.ts';
import { planOf } from '../../machines/drills/plan.ts';
import {
  advanceDrill,
  type DrillRun,
  debriefOf,
  type Intervention,
  loadDrill,
  openDrill,
  saveDrill,
  seatOf,
} from '../../machines/drills/run.ts';
import { type StandInTrainee, startTrainee, traineeWorks } from '../../machines/drills/trainee.ts';
import type { Command } from '../../machines/line/commands.ts';
import { viewOf } from '../../machines/world/world.ts';
import { openedOf, runOf, SHIPPED, shipped } from './support/drills.ts';

const extraction = shipped('extraction-lost');

const opened = (seed = 1, hints = false, one = extraction): DrillRun =>
  ((start) => ({ ...start, options: { ...start.options, hints } }))(openedOf(one, seed));

const turned = (run: DrillRun, seconds: number, first: readonly Intervention[] = []): DrillRun => {
  let next = advanceDrill(run, [], first).run;
  for (let i = 1; i < seconds * 10; i += 1) next = advanceDrill(next, [], []).run;
  return next;
};

let given = 0;
const gives = (run: DrillRun, command: Command): DrillRun => {
  given += 1;
  return advanceDrill(run, [{ id: `test-${given}-given`, by: run.options.trainee, command }], []).run;
};

const worked = (run: DrillRun, trainee: StandInTrainee, ticks: number): [DrillRun, StandInTrainee] => {
  let state = trainee;
  let next = run;
  for (let i = 0; i < ticks && next.ended === null; i += 1) {
    const acts = traineeWorks(state, next);
    state = acts.trainee;
    next = advanceDrill(next, acts.commands, acts.interventions).run;
  }
  return [next, state];
};

describe('a drill', () => {
  it('is the same with the same seed and trainee', () => {
    const { drill, scenario } = extraction;
    const anew = openDrill(drill, scenario, { seed: 1, trainee: traineeOf(scenario), hints: false });
    const again = worked(anew, startTrainee('good', 1), 1e6)[0];
    expect(debriefOf(again)).toEqual(debriefOf(runOf(extraction, 'good', 1)));
  });

  it('goes on from a save as if it had never been saved, at any moment', () => {
    const [half, trainee] = worked(opened(), startTrainee('slow', 1), 1500);
    const saved = JSON.parse(JSON.stringify(saveDrill(half)));
    const loaded = loadDrill(extraction.drill, extraction.scenario, saved);
    expect(debriefOf(worked(loaded, trainee, 1e6)[0])).toEqual(debriefOf(worked(half, trainee, 1e6)[0]));
  });

  it('is not loaded from the save of another drill or another program', () => {
    const saved = saveDrill(opened()) as object;
    expect(() => loadDrill(shipped('scanner').drill, extraction.scenario, saved)).toThrow(
      /from drill extraction-lost/,
    );
    expect(() => loadDrill(extraction.drill, extraction.scenario, { ...saved, version: 0 })).toThrow(
      /this program reads/,
    );
  });

  it('differs by seed in timing and instruments', () => {
    const plans = (drill: Drill) => Array.from({ length: 12 }, (_, seed) => planOf(drill, seed));
    for (const { drill } of SHIPPED) {
      if (drill.incidents.length === 0) continue;
      const times = plans(drill).map((plan) => JSON.stringify(plan.map((one) => one.afterS)));
      expect(new Set(times).size, `${drill.id}: times`).toBeGreaterThan(4);
      drill.incidents.forEach((incident, i) => {
        if (incident.oneOf.length < 2) return;
        const kinds = plans(drill).map((plan) => JSON.stringify(plan[i]?.happening));
        expect(new Set(kinds).size, `${drill.id}: ${incident.id}`).toBeGreaterThan(1);
      });
    }
    const several = SHIPPED.filter(({ drill }) =>
      drill.incidents.some((incident) => incident.oneOf.length > 1),
    );
    expect(several.length).toBeGreaterThanOrEqual(5);
  });

  it('says why when its start is never reached', () => {
    const drill: Drill = {
      ...extraction.drill,
      start: {
        ...extraction.drill.start,
        until: [{ is: 'stage', in: ['flameLost'], on: true }],
        withinMin: 1,
      },
    };
    const { scenario } = extraction;
    expect(() => openDrill(drill, scenario, { seed: 1, trainee: traineeOf(scenario), hints: false })).toThrow(
      /extraction-lost: its start was not reached within 1 min/,
    );
  });
});

describe('the trainee', () => {
  it('has the controls from the first moment, and is not told what will go wrong', () => {
    const one = shipped('vapour-and-detector');
    const run = turned(opened(1, true, one), 20);
    expect(run.world.line.seat.holder).toEqual(run.options.trainee);
    expect(run.incidents.filter((incident) => incident.fromTick !== null).length).toBeGreaterThanOrEqual(2);
    expect(run.world.plant.instruments.faults.length).toBeGreaterThanOrEqual(2);
    expect(viewOf(run.world).plant.faults).toEqual([]);
    const seen = JSON.stringify([seatOf(run), viewOf(run.world)]);
    for (const incident of one.drill.incidents) expect(seen).not.toContain(incident.text);
  });

  it('gets a hint only when hints are allowed, late enough, and at a cost', () => {
    const first = shipped('first-emulsion-batch');
    const refused = advanceDrill(opened(1, false, first), [], [{ do: 'hint' }]);
    expect(refused.because).toEqual(['Hints are not allowed in this drill.']);
    const soon = turned(opened(1, true, first), 2);
    expect(seatOf(soon).hintReady).toBe(false);
    expect(advanceDrill(soon, [], [{ do: 'hint' }]).because).toEqual(['There is no hint just now.']);
    const late = turned(soon, 12);
    expect(seatOf(late).hintReady).toBe(true);
    const hinted = advanceDrill(late, [], [{ do: 'hint' }]).run;
    expect(hinted.hints).toMatchObject([{ expectation: 'start' }]);
    const { competencies, hints } = debriefOf(hinted);
    expect(hints).toHaveLength(1);
    expect(competencies.find((one) => one.name === 'batching')?.reasons.join()).toMatch(
      /−2: a hint for “Start the batch\.”/,
    );
  });

  it('gets no hint when the drill keeps them for another role', () => {
    const first = shipped('first-emulsion-batch');
    const start = opened(1, true, first);
    const hints = { ...first.drill.hints, for: ['operator' as const] };
    const run = turned({ ...start, drill: { ...first.drill, hints } }, 15);
    expect(seatOf(run)).toMatchObject({ hintsAllowed: false, hintReady: false });
    expect(advanceDrill(run, [], [{ do: 'hint' }]).because).toEqual(['Hints are not allowed in this drill.']);
  });

  it('answers a message once, with one of its answers', () => {
    const one = shipped('relight-over-charged-mixer');
    const run = turned(opened(1, false, one), 30);
    const [message] = run.messages;
    expect(message?.from).toMatch(/supervisor/);
    const reply = (answer: string): Intervention => ({ do: 'reply', message: message?.id ?? '', answer });
    expect(advanceDrill(run, [], [reply('maybe')]).because[0]).toMatch(/^Answer with one of: /);
    expect(advanceDrill(run, [], [{ do: 'reply', message: 'm99', answer: 'wait' }]).because).toEqual([
      'There is no such message.',
    ]);
    const answered = advanceDrill(run, [], [reply('wait')]);
    expect(answered.because).toEqual([]);
    expect(answered.run.expected[0]).toMatchObject({ id: 'first', early: false });
    expect(answered.run.expected[0]?.metTick).not.toBeNull();
    expect(advanceDrill(answered.run, [], [reply('lit')]).because).toEqual(['It has been answered already.']);
  });
});

describe('the trainer', () => {
  it('puts faults in by hand without the console showing them, and the debrief shows their truth', () => {
    const one = shipped('first-emulsion-batch');
    const asks: Intervention[] = [
      {
        do: 'ask',
        by: 'corvin',
        ask: { ask: 'instrumentFault', tag: 'emulsionTankC', fault: { fault: 'drift', perHour: 600 } },
      },
      { do: 'ask', by: 'corvin', ask: { ask: 'equipmentFault', equipment: 'hoodFanStopped', on: true } },
    ];
    const run = turned(opened(1, false, one), 60, asks);
    expect(run.world.plant.faults.hoodFanStopped).toBe(true);
    expect(viewOf(run.world).plant.faults).toEqual([]);
    expect(run.interventions).toHaveLength(2);
    const [trace] = debriefOf(run).truth;
    expect(trace).toMatchObject({ tag: 'emulsionTankC', lied: [{ fault: 'drift', toMs: null }] });
    const last = trace?.samples.at(-1);
    expect((last?.reading ?? 0) - (last?.truth ?? 0)).toBeGreaterThan(5);
  });

  it('sends messages and ends the drill; after that nothing counts any more', () => {
    const one = shipped('first-emulsion-batch');
    const told = advanceDrill(
      opened(1, false, one),
      [],
      [{ do: 'message', by: 'Corvin Dray', text: 'Go on.' }],
    ).run;
    expect(told.messages).toMatchObject([
      { from: 'Corvin Dray', text: 'Go on.', answers: [], incident: null },
    ]);
    expect(advanceDrill(told, [], [{ do: 'message', by: 'x', text: '  ' }]).because[0]).toMatch(/empty/);
    const ended = advanceDrill(told, [], [{ do: 'end', by: 'Corvin Dray' }]).run;
    expect(ended.ended?.why).toBe('ended by Corvin Dray');
    const after = gives(ended, { do: 'start', batches: 1 });
    expect(after.did).toEqual(ended.did);
    expect(after.expected).toEqual(ended.expected);
    expect(debriefOf(after).ended).toBe('ended by Corvin Dray');
  });
});

describe('a call', () => {
  it('brings the fitter, who mends what he can and says so', () => {
    const one = shipped('vapour-and-detector');
    const run = turned(opened(1, false, one), 20);
    const called = advanceDrill(run, [], [{ do: 'call', who: 'fitter' }]).run;
    expect(called.calls).toHaveLength(1);
    const mended = turned(called, 125);
    expect(mended.incidents.find((incident) => incident.id === 'flow')?.toTick).not.toBeNull();
    expect(mended.messages.some((message) => message.from === 'Fitter')).toBe(true);
    const unmended = turned(run, 125);
    expect(unmended.incidents.find((incident) => incident.id === 'flow')?.toTick).toBeNull();
  });

  it('is answered, whoever was called', () => {
    const run = turned(opened(1, false, shipped('first-emulsion-batch')), 1);
    const called = turned(advanceDrill(run, [], [{ do: 'call', who: 'fitter' }]).run, 50);
    expect(called.messages).toMatchObject([
      { from: 'Fitter', text: 'I have looked, and find nothing more to mend.', answers: [] },
    ]);
  });

  it('of somebody who cannot help mends nothing', () => {
    const one = shipped('vapour-and-detector');
    const run = turned(opened(1, false, one), 20);
    const called = turned(advanceDrill(run, [], [{ do: 'call', who: 'laboratory' }]).run, 125);
    expect(called.incidents.every((incident) => incident.toTick === null)).toBe(true);
  });
});

describe('the truth', () => {
  it('lists dangers that were in the plant whatever was scored: the wrong binder, and how much of it', () => {
    const one = shipped('wrong-binder');
    expect(debriefOf(runOf(one, 'good')).unsafe).toEqual([]);
    const { unsafe, score } = debriefOf(runOf(one, 'slow'));
    expect(score).toBeGreaterThan(30);
    expect(unsafe).toMatchObject([{ kind: 'physical', fails: false }]);
    expect(unsafe[0]?.text).toMatch(/^Up to \d+ kg of the other binder got into a tank\.$/);
  });
});
