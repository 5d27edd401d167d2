/** A drill without a plant behind it: quick to open, and it tells what was put into it. */
import type { Intervention } from '../../../machines/drills/run.types.ts';
import { PlainError } from '../../../server/plain-error.ts';
import type { DrillEngine } from '../../../server/training/engine.ts';
import { type FakeWorld, fakeLine } from './fake-line.ts';
import { fakeScenario } from './fake-scenario.ts';

export type FakeRun = {
  readonly world: FakeWorld;
  readonly scenario: ReturnType<typeof fakeScenario>;
  /** "12 message hello", "15 start" */
  readonly put: readonly string[];
  readonly ended: string | null;
};

const wordsOf = (one: Intervention): string => (one.do === 'message' ? `message ${one.text}` : one.do);

export const fakeDrill: DrillEngine<FakeRun> = {
  cards: () => [
    { id: 'fake', name: 'Fake drill', teaches: 'Nothing.', level: 1, minutes: 5, cutback: false },
  ],
  digestOf: () => 'fake-digest',
  open: (drill, { seed }) => {
    if (drill !== 'fake') throw new PlainError(`there is no drill ${drill}: there are fake`);
    const scenario = fakeScenario();
    return {
      world: fakeLine.createWorld({ ...scenario, shift: { ...scenario.shift, seed } }),
      scenario,
      put: [],
      ended: null,
    };
  },
  scenarioOf: ({ scenario }) => scenario,
  tickOf: ({ world }) => world.tick,
  advance: (run, commands, interventions) => {
    const next = fakeLine.advance(run.world, commands);
    const { tick } = run.world;
    const put = [...commands.map((one) => one.command.do), ...interventions.map(wordsOf)];
    const ends = interventions.find((one) => one.do === 'end');
    return {
      run: {
        ...run,
        world: next.world,
        put: put.length === 0 ? run.put : [...run.put, ...put.map((words) => `${tick} ${words}`)],
        ended: run.ended ?? (ends === undefined ? null : `ended by ${ends.do === 'end' ? ends.by : ''}`),
      },
      answers: next.answers,
      because: interventions.some((one) => one.do === 'hint') ? ['There is no hint just now.'] : [],
    };
  },
  viewOf: ({ world }) => fakeLine.viewOf(world),
  seatOf: ({ ended }) => ({
    name: 'Fake drill',
    brief: 'Do nothing.',
    leftS: 300,
    ended,
    messages: [],
    hints: [],
    hintsAllowed: true,
    hintReady: false,
    mayCall: ['fitter'],
  }),
  faultsOf: () => [],
  plannedOf: () => [],
  standingsOf: () => ({ score: null, unsafe: 0 }),
  debriefOf: (run) => ({
    outcome: { score: run.put.length, passed: true, unsafe: 0, competencies: [] },
    debrief: { put: run.put },
  }),
};
