/** The sealed sampling plan at the line: given by no person, hidden until due, not passed unseen, whole over a restart. */
import { describe, expect, it } from 'vitest';
import type { Command } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import { samplePrompts } from '../../machines/line/view/sample-prompts.ts';
import { ROLES } from '../../machines/scenario/people.schema.ts';
import {
  advance,
  createWorld,
  loadWorld,
  saveWorld,
  startOfSave,
  viewOf,
  type World,
} from '../../machines/world/world.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { TestYard } from './yard.ts';

/** Lots of three batches, so that every story is short. */
const scenario = (() => {
  const shift = scenarioOrError('scenarios/shifts/lab-day.yaml');
  return { ...shift, mixes: shift.mixes.map((mix) => ({ ...mix, lotKg: 2250 })) };
})();
const yardWith = () => new TestYard(scenario).does({ do: 'takeControls' }).run(5);

const toLook = (yard: TestYard) => yard.untilStep('looking', 20).run(0.1);
const upToSample = (yard: TestYard): TestYard => {
  yard.does({ do: 'start', batches: 6 });
  for (let i = 0; i < 4 && yard.told('sampleDue').length === 0; i += 1) {
    toLook(yard).run(0.2);
    if (yard.told('sampleDue').length > 0) return yard;
    yard.does({ do: 'confirmLook' }).run(5);
  }
  return yard;
};

describe('a lot of a mix with a specification', () => {
  it('has its plan committed as it opens, and shows no tonnage before it is due', () => {
    const yard = yardWith().does({ do: 'start', batches: 1 }).run(1);
    const [opened] = yard.told('lotOpened');
    const [planned] = yard.told('samplesPlanned');
    expect(opened).not.toHaveProperty('samplesAtKg');
    expect(planned?.commitment).toMatch(/^[0-9a-f]{64}$/);
    expect((planned?.tick ?? 99) - (opened?.tick ?? 0)).toBeLessThanOrEqual(1);
    expect(yard.line.lots[0]?.samples.map((one) => one.atKg)).toEqual(Array(7).fill(null));
    expect(viewOf(yard.world).lots[0]?.samples.map((one) => one.atKg)).toEqual(Array(7).fill(null));
    // Neither what the console is sent nor what the record holds tells the secret.
    const { secret } = yard.world.sampler;
    expect(JSON.stringify([yard.facts, viewOf(yard.world)])).not.toContain(secret);
  });

  it.each(ROLES)('takes no command of its plan from a person: %s', (role) => {
    const yard = yardWith().does({ do: 'start', batches: 1 }).run(1);
    const lot = yard.line.lots[0]?.id ?? '';
    for (const command of [
      { do: 'commitPlan', lot, specification: 'emulsion-patch', commitment: '0'.repeat(64), samples: [] },
      { do: 'callSample', lot, n: 1, atKg: 1 },
      { do: 'openPlan', lot, nonce: '0'.repeat(64), atKg: [] },
    ] as Command[])
      expect(yard.refused(command, role, 'sampling-plan')[0]).toContain('The sampling plan alone says');
    expect(yard.told('commandRefused')).toHaveLength(3);
    expect(yard.told('samplesPlanned')).toHaveLength(1);
  });

  it('calls a sample from the batch that reaches it, which is asked for louder and louder and then missed', () => {
    const yard = upToSample(yardWith());
    const [due] = yard.told('sampleDue');
    expect(due?.batch).toBe(yard.line.batch?.n);
    const levelOf = () => samplePrompts(yard.line).find((one) => one.sample === due?.sample);
    expect(levelOf()).toMatchObject({ level: 'due' });
    expect(levelOf()?.words).toMatch(/^Take sample \d \([a-z ]+\) from the next discharge$/);
    yard.does({ do: 'confirmLook' }).run(2);
    expect(levelOf()?.level).toBe('now');
    yard.untilStep('charging', 5);
    expect(levelOf()).toMatchObject({ level: 'overdue' });
    toLook(yard).does({ do: 'confirmLook' }).untilStep('charging', 5);
    expect(levelOf()).toMatchObject({ level: 'missed' });
    expect(yard.told('sampleMissed').find((one) => one.sample === due?.sample)?.batch).toBe(due?.batch);
    expect(yard.refused({ do: 'takeSample', sample: due?.sample ?? 0 })[0]).toContain('not due');
  });

  it('lets a person say which of several samples was taken', () => {
    const yard = upToSample(yardWith());
    const due = yard.told('sampleDue').at(-1);
    expect(yard.refused({ do: 'takeSample', lot: due?.lot, sample: 49 })[0]).toContain('Sample 49');
    const take: Command = { do: 'takeSample', lot: due?.lot, sample: due?.sample };
    expect(yard.refused(take, 'quality officer', 'console-7')[0]).toContain(
      'when the batch leaves the mixer',
    );
    yard.does({ do: 'confirmLook' }).untilStep('discharging', 5);
    yard.does(take, 'quality officer', 'console-7');
    expect(yard.told('sampleTaken')[0]).toMatchObject({
      sample: due?.sample,
      batch: due?.batch,
      by: { person: 'isolde' },
    });
    yard.run(3);
    expect(yard.world.truths.lots[due?.lot ?? '']?.residualBinderMixPct).toBeGreaterThan(3);
  });

  it('calls a sample again from the next batch when its own goes to waste', () => {
    const yard = upToSample(yardWith());
    const [due] = yard.told('sampleDue');
    yard.does({ do: 'hold' }).run(1).does({ do: 'abort' }).run(5);
    yard
      .does({ do: 'dump', reason: 'for the story' })
      .until(() => yard.procedure() === 'idle', 10)
      .run(5);
    yard.does({ do: 'start', batches: 1 });
    toLook(yard).run(0.2);
    const again = yard.told('sampleDue').filter((one) => one.sample === due?.sample);
    expect(again).toHaveLength(2);
    expect(again[1]?.batch).toBe(yard.line.batch?.n);
    expect(again[1]?.atKg).toBe(due?.atKg);
  });

  it('opens its plan in the moment the shift ends, and what was due is missed', () => {
    const yard = upToSample(yardWith());
    yard.does({ do: 'confirmLook' }).untilStep('charging', 5).does({ do: 'stop' }).run(10);
    yard.does({ do: 'dump', reason: 'end of the day' }).until(() => yard.procedure() === 'idle', 10);
    yard.does({ do: 'endShift' });
    const [opened] = yard.told('samplePlanOpened');
    expect(opened?.tick).toBe(yard.told('shiftEnded')[0]?.tick);
    expect(opened?.atKg).toHaveLength(7);
    expect(yard.told('sampleMissed').length).toBe(yard.told('sampleDue').length);
  });
});

describe('a secret', () => {
  type Turned = { world: World; facts: Fact[]; commands: ReturnType<typeof advance>['commands'][] };
  const by = { person: 'wrenna', role: 'operator', console: 'console-1' } as const;
  const seat = { id: 'standin-begins', by, command: { do: 'standIn', skill: 'good' } } as const;
  const turn = (from: World, minutes: number, given: readonly (readonly (typeof seat)[])[] = []): Turned => {
    let world = from;
    const [facts, commands]: [Fact[], Turned['commands']] = [[], []];
    for (let i = 0; i < minutes * 600; i += 1) {
      const advanced = advance(world, given[i] ?? (world.tick === 20 ? [seat] : []));
      world = advanced.world;
      facts.push(...advanced.facts);
      commands.push(advanced.commands);
    }
    return { world, facts, commands };
  };

  it('is kept by a save: the world goes on as if it had never been stopped', () => {
    const half = turn(createWorld(scenario, { secret: 'ee'.repeat(32) }), 9);
    const straight = turn(half.world, 6);
    const saved = JSON.parse(JSON.stringify(saveWorld(half.world)));
    expect(turn(loadWorld(scenario, saved), 6).facts).toEqual(straight.facts);
    expect(startOfSave({ ...saved, version: 1 }).secret).toBe('ee'.repeat(32));
    expect(straight.facts.filter((fact) => fact.is === 'sampleDue').length).toBeGreaterThan(0);
  });

  it('that was lost changes nothing of what is on record; its plan stays sealed and the next lot has a new one', () => {
    const first = turn(createWorld(scenario, { secret: 'ee'.repeat(32) }), 15);
    const recorded = first.commands.map((tick) => tick.filter(({ by: who }) => who.console !== 'stand-in'));
    const again = turn(createWorld(scenario, { secret: 'dd'.repeat(32) }), 15, recorded as never);
    expect(again.facts).toEqual(first.facts);
    const on = turn(again.world, 12);
    const opened = on.facts.filter((fact) => fact.is === 'samplePlanOpened').map((fact) => fact.lot);
    const plans = [...again.facts, ...on.facts]
      .filter((fact) => fact.is === 'samplesPlanned')
      .map((fact) => fact.lot);
    expect(plans.length).toBeGreaterThan(1);
    expect(on.facts.some((fact) => fact.is === 'commandRefused')).toBe(false);
    expect(opened).not.toContain(plans[0]);
  });

  it('of a run nobody plays against comes from the seed', () => {
    const secret = (seed: number) =>
      createWorld({ ...scenario, shift: { ...scenario.shift, seed } }).sampler.secret;
    expect(secret(1)).toBe(secret(1));
    expect(secret(1)).not.toBe(secret(2));
  });
});
