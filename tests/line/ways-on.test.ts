/** There is always a way on, and nothing starts or feeds on by itself. */
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../machines/world/world.ts';
import { driedYard, seatedYard, type TestYard } from './yard.ts';

const fault = (tag: string, kind: string, perHour = 0) =>
  ({ do: 'injectFault', target: { tag, fault: kind, perHour } }) as never;
const mend = (tag: string) => ({ do: 'clearFault', target: { tag } }) as never;
const trainer = ['trainer', 'console-3'] as const;
const stop = (equipment: string) => ({ do: 'injectFault', target: { equipment } }) as never;
const run = (equipment: string) => ({ do: 'clearFault', target: { equipment } }) as never;
const acts = (yard: TestYard) =>
  viewOf(yard.world).now.actions.map((one) => `${one.command.do}${one.because.length > 0 ? ' barred' : ''}`);

describe('a way on', () => {
  it('broken off while dumping: it can be dumped again', () => {
    const yard = seatedYard('emulsion-day')
      .does({ do: 'start', batches: 1 })
      .untilStep('mixing')
      .does({ do: 'hold' })
      .run(3);
    yard
      .does({ do: 'dump', reason: 'no good' })
      .run(2)
      .does({ do: 'emergencyStop' })
      .run(5)
      .does({ do: 'releaseEmergencyStop' })
      .run(2)
      .does({ do: 'resetTrip' })
      .run(2);
    expect(yard.give({ do: 'dump', reason: 'go on' }).ok).toBe(true);
  });

  it('extraction lost while the burner purges: the campaign says the flame is lost and can be lit again', () => {
    const yard = seatedYard('cutback-day')
      .does({ do: 'startCampaign', batches: 2 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' })
      .run(8);
    yard
      .does(stop('hoodFanStopped'), ...trainer)
      .run(15)
      .does(run('hoodFanStopped'), ...trainer)
      .run(1200);
    expect(yard.value('campaign') === 'lighting' && yard.value('burner') === 'off').toBe(false);
  });

  it('a drying charge out of tolerance offers the buttons that help', () => {
    const yard = seatedYard('cutback-day')
      .does({ do: 'startCampaign', batches: 2 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard
      .until(() => yard.value('aggregateWeigher') === 'coarse', 3)
      .run(5)
      .does(fault('hopperKg', 'drift', 36000 * 4), ...trainer);
    yard.until(() => yard.value('aggregateWeigher') === 'settling', 3).does(mend('hopperKg'), ...trainer);
    yard.run(300);
    expect(acts(yard).some((a) => a.startsWith('acceptWeight') || a.startsWith('topUp'))).toBe(true);
  });

  it('a run of batches left waiting does not start another order by itself', () => {
    const yard = seatedYard('emulsion-day', {
      orders: [
        { mix: 'emulsion-patch', tonnes: 20, bay: 1 },
        { mix: 'emulsion-patch', tonnes: 20, bay: 2 },
      ],
    });
    yard
      .does({ do: 'start', batches: 5 })
      .untilStep('looking', 20)
      .does(fault('hopperKg', 'drift', 3600), ...trainer)
      .run(6)
      .does({ do: 'confirmLook' });
    yard.until((l) => l.batchesDone === 1, 5).run(10);
    yard.does({ do: 'chooseOrder', order: 2 }).does(mend('hopperKg'), ...trainer);
    const before = yard.told('batchStarted').length;
    yard.run(30);
    expect(yard.told('batchStarted').length).toBe(before);
  });

  it('the stand-in zeroes a hopper scale that drifts and goes on', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'standIn', skill: 'good' });
    yard
      .until((l) => l.batchesDone === 2, 30)
      .does(fault('hopperKg', 'drift', 60), ...trainer)
      .run(2 * 3600);
    expect(yard.line.batchesDone).toBeGreaterThan(8);
  });

  it('put out while the hopper drops: what is in the drum is let out and booked', () => {
    const yard = seatedYard('cutback-day')
      .does({ do: 'startCampaign', batches: 2 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard
      .until((l) => l.outputs.hopperTo === 'dryer', 5)
      .run(10)
      .does({ do: 'putOutBurner' })
      .run(120);
    expect(yard.world.plant.dryer.load.stoneKg > 50 && !yard.line.outputs.drumTurn).toBe(false);
  });
});

describe('no unexpected start', () => {
  it('the emergency stop is heard after the shift has ended, and no shift ends over a burner at work', () => {
    const yard = seatedYard('cutback-day').does(
      { do: 'injectFault', target: { equipment: 'flameWillNotLight' } },
      ...trainer,
    );
    yard
      .does({ do: 'startCampaign', batches: 2 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.until((l) => l.signals.burnerLockedOut, 4).run(1);
    yard.does({ do: 'clearFault', target: { equipment: 'flameWillNotLight' } }, ...trainer);
    yard
      .does({ do: 'resetBurner' })
      .until(() => yard.value('burner') === 'off', 3)
      .does({ do: 'lightBurner' })
      .run(2);
    expect(yard.refused({ do: 'endShift' })[0]).toContain('burner');
    yard.does({ do: 'putOutBurner' }).until(() => yard.value('burner') === 'off', 3);
    yard.until(() => yard.give({ do: 'endShift' }).ok, 3);
    expect(yard.line.ended).toBe(true);
    yard.does({ do: 'emergencyStop' }).run(3);
    expect(yard.line.signals.tripped).toBe(true);
  });

  it('a reset after an emergency stop starts nothing', () => {
    const yard = seatedYard('emulsion-day')
      .does({ do: 'start', batches: 3 })
      .untilStep('looking', 20)
      .does({ do: 'confirmLook' });
    yard.until((l) => l.batchesDone === 1, 5);
    yard.does({ do: 'emergencyStop' }).run(20).does({ do: 'releaseEmergencyStop' }).run(3);
    const before = yard.told('batchStarted').length;
    yard.does({ do: 'resetTrip' }).run(4);
    expect(yard.told('batchStarted').length).toBe(before);
  });

  it('a top-up stops when the batch is aborted', () => {
    const yard = driedYard().does({ do: 'start', batches: 1 }).untilStep('charging');
    yard.until(() => yard.value('binderWeigher') === 'coarse').run(3);
    yard.does(fault('bucketKg', 'drift', 36000), ...trainer);
    yard.until(() => yard.value('binderWeigher') === 'settling', 3).does(mend('bucketKg'), ...trainer);
    yard.until(() => ['light', 'heavy', 'weighed'].includes(yard.value('binderWeigher') as string), 3).run(4);
    yard.does({ do: 'topUp' }).run(1).does({ do: 'abort' }).run(3);
    expect(yard.line.outputs.cutbackFeed).toBe('shut');
  });
});
