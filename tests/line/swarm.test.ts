/**
 * Random histories of the whole yard: any command from anyone at any moment, faults coming and going.
 * The seed stands in the test's name; `SEED=n npx vitest run -c tests/vitest.config.ts tests/line/swarm.test.ts` repeats one.
 */
import { describe, expect, it } from 'vitest';
import type { Command } from '../../machines/line/commands.ts';
import { nextState, unitOf } from '../../machines/line/random.ts';
import { truthOf } from '../../machines/plant/truth.ts';
import type { Role } from '../../machines/scenario/people.schema.ts';
import { scenarioOf, TestYard } from './yard.ts';

const MINUTES = 60;
const first = Number(process.env.SEED ?? 20_260_413);
const seeds = process.env.SEED === undefined ? [first, first + 1, first + 2, first + 3] : [first];

/** Commands that push the work on come often; the rest are anybody's whims. */
const WORK: readonly Command[] = [
  { do: 'takeControls' },
  { do: 'chooseOrder', order: 2 },
  { do: 'startCampaign', batches: 2 },
  { do: 'acknowledgeCautions' },
  { do: 'lightBurner' },
  { do: 'start', batches: 2 },
  { do: 'restart' },
  { do: 'topUp' },
  { do: 'confirmLook' },
  { do: 'resetTrip' },
  { do: 'resetBurner' },
  { do: 'resetHeater' },
];
const WHIMS: readonly Command[] = [
  { do: 'chooseOrder', order: 1 },
  { do: 'hold' },
  { do: 'stop' },
  { do: 'abort' },
  { do: 'reset' },
  { do: 'extendMix' },
  { do: 'dump', reason: 'somebody said so' },
  { do: 'acceptWeight', reason: 'somebody said so' },
  { do: 'putOutBurner' },
  { do: 'endCampaign' },
  { do: 'heatTank', tank: 'cutback', on: false },
  { do: 'heatTank', tank: 'cutback', on: true },
  { do: 'heatTank', tank: 'emulsion', on: true },
  { do: 'takeSample' },
  { do: 'refillBin', bin: 2 },
  { do: 'emergencyStop' },
  { do: 'releaseEmergencyStop' },
  { do: 'injectFault', target: { equipment: 'hoodFanStopped' } },
  { do: 'clearFault', target: { equipment: 'hoodFanStopped' } },
  { do: 'injectFault', target: { equipment: 'binderValveLeaking' } },
  { do: 'clearFault', target: { equipment: 'binderValveLeaking' } },
  { do: 'injectFault', target: { equipment: 'drumFanStopped' } },
  { do: 'clearFault', target: { equipment: 'drumFanStopped' } },
  { do: 'injectFault', target: { tag: 'flameSeen', fault: 'stuck', perHour: 0 } },
  { do: 'clearFault', target: { tag: 'flameSeen' } },
  { do: 'injectFault', target: { tag: 'mixerMotorA', fault: 'stuck', perHour: 0 } },
  { do: 'injectFault', target: { tag: 'mixerMotorA', fault: 'drift', perHour: -600 } },
  { do: 'injectFault', target: { tag: 'bucketKg', fault: 'stuck', perHour: 0 } },
  { do: 'injectFault', target: { tag: 'bucketKg', fault: 'dead', perHour: 0 } },
  { do: 'injectFault', target: { tag: 'mixC', fault: 'dead', perHour: 0 } },
  { do: 'injectFault', target: { tag: 'holdingBinC', fault: 'stuck', perHour: 0 } },
  { do: 'injectFault', target: { tag: 'drumAggregateC', fault: 'dead', perHour: 0 } },
  { do: 'injectFault', target: { tag: 'hopperKg', fault: 'drift', perHour: 400 } },
  { do: 'clearFault', target: { tag: 'hopperKg' } },
];
const ROLES: readonly Role[] = [
  'operator',
  'operator',
  'operator',
  'supervisor',
  'trainer',
  'storekeeper',
  'auditor',
];

describe('a swarm of whims and faults', { timeout: 120_000 }, () => {
  it.each(seeds)('seed %i: no flame beside open cutback, books close, refusals have reasons', (seed) => {
    let state = seed >>> 0;
    const unit = (): number => {
      const drawn = unitOf(state);
      state = nextState(state);
      return drawn;
    };
    const pick = <T>(list: readonly T[]): T => list[Math.floor(unit() * list.length)] as T;
    const orders = [
      { mix: 'emulsion-patch', tonnes: 20, bay: 1 },
      { mix: 'cutback-patch', tonnes: 20, bay: 2 },
    ];
    const mixes = ['mixes/emulsion-patch.yaml', 'mixes/cutback-patch.yaml'];
    const yard = new TestYard(scenarioOf('cutback-day', { orders, mixes, seed }));
    const heals: { atTick: number; command: Command }[] = [];
    const check = (): void => {
      const { outputs, signals } = yard.line;
      const flame = outputs.burnerPilot || outputs.burnerMain !== 'shut';
      const way = outputs.cutbackFeed !== 'shut' || (outputs.bucketValve && signals.cutbackInBucket);
      if (flame && way) expect.fail(`flame and open cutback asked for at tick ${yard.world.tick}`);
      if (signals.tripped && (flame || outputs.bucketValve || outputs.cutbackFeed !== 'shut'))
        expect.fail(`something open in a trip at tick ${yard.world.tick}`);
      // The plant's own truth, whatever its instruments say: no flame beside cutback in mill or bucket.
      const { dryer, mill, bucket } = yard.world.plant;
      if (dryer.burner.mainLit && (mill.solventKg > 0.1 || bucket.cutbackKg > 0.1))
        expect.fail(`a flame burns beside cutback at tick ${yard.world.tick}`);
      if (yard.world.tick % 600 !== 0) return;
      yard.expectBooksToClose();
      expect(Math.abs(truthOf(yard.world.plant).errorKg)).toBeLessThan(1e-6);
    };
    for (let tick = 0; tick < MINUTES * 600; tick += 1) {
      const heal = heals[0] !== undefined && heals[0].atTick <= tick ? heals.shift() : undefined;
      if (heal !== undefined) yard.give(heal.command, 'trainer', 'console-3');
      else if (unit() < 1 / 50) {
        const whim = unit() < 0.08;
        const command = pick(whim ? WHIMS : WORK);
        const answer = yard.give(
          command,
          whim ? pick(ROLES) : 'operator',
          whim && unit() < 0.3 ? 'console-2' : 'console-1',
        );
        if (!answer.ok) expect(answer.because.every((reason) => reason.length > 8)).toBe(true);
        else if (command.do === 'injectFault')
          heals.push({
            atTick: tick + 1200,
            command: { do: 'clearFault', target: command.target } as Command,
          });
      } else yard.tick();
      check();
    }
    expect(yard.told('commandDone').length).toBeGreaterThan(8);

    // Liveness: with every fault mended and a sensible operator in the seat, the yard makes a batch again.
    for (const { command } of heals) yard.give(command, 'trainer', 'console-3');
    yard.give({ do: 'releaseEmergencyStop' });
    const { holder } = yard.line.seat;
    if (holder?.console === 'console-2') yard.give({ do: 'releaseControls' }, holder.role, 'console-2');
    yard.give({ do: 'takeControls' });
    yard.does(
      { do: 'standIn', skill: 'good' },
      yard.line.seat.holder?.role ?? 'operator',
      yard.line.seat.holder?.console,
    );
    const before = yard.line.batchesDone;
    yard.until((line) => {
      check();
      return line.batchesDone > before;
    }, 180);
  });
});
