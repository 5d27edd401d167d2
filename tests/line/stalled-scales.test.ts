/** A scale that is fed and gains nothing: the feed is cut, the batch held, and a person can go on. */
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../machines/world/world.ts';
import { driedYard, scenarioOf, seatedYard, TestYard } from './yard.ts';

const trainer = ['trainer', 'console-3'] as const;

describe('a scale that does not gain', () => {
  it('stuck while filling: cut within half a minute, held, told, fed again once mended', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
    yard
      .until((line) => line.readings.hopperKg > 60, 1)
      .does({ do: 'injectFault', target: { tag: 'hopperKg', fault: 'stuck', perHour: 0 } }, ...trainer);
    yard.until(() => yard.value('aggregateWeigher') === 'stalled', 1).run(3);
    expect(yard.procedure()).toBe('held');
    expect(yard.line.outputs.bin1Gate).toBe('shut');
    expect(viewOf(yard.world).now.title).toContain('does not gain');
    yard.does({ do: 'clearFault', target: { tag: 'hopperKg' } }, ...trainer).run(2);
    yard.does({ do: 'topUp' });
    expect(yard.value('aggregateWeigher')).not.toBe('stalled');
  });

  it('an empty tank: the binder stalls, and a dump clears the way', () => {
    const base = scenarioOf('emulsion-day');
    const emulsion = { ...base.plant.tanks.emulsion, startMassKg: 20 };
    const yard = new TestYard({
      ...base,
      plant: { ...base.plant, tanks: { ...base.plant.tanks, emulsion } },
    });
    yard.does({ do: 'takeControls' }).run(5).does({ do: 'start', batches: 1 });
    yard.until(() => yard.value('binderWeigher') === 'stalled', 2).run(3);
    expect(yard.line.outputs.emulsionFeed).toBe('shut');
    yard.does({ do: 'dump', reason: 'the tank is empty' }).until(() => yard.procedure() === 'idle', 6);
    yard.expectBooksToClose();
  });

  it('a meter that does not count: the water is cut before the mix is soaked', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 }).untilStep('dropping');
    yard.does({ do: 'injectFault', target: { tag: 'waterMeterL', fault: 'stuck', perHour: 0 } }, ...trainer);
    yard.until(() => yard.procedure() === 'held', 3);
    expect(yard.world.plant.water.totalKg).toBeLessThan(40);
    expect(yard.line.outputs.waterValve).toBe(false);
  });

  it('an anti-strip meter likewise', () => {
    const yard = driedYard().does(
      { do: 'injectFault', target: { tag: 'antiStripMeterKg', fault: 'stuck', perHour: 0 } },
      ...trainer,
    );
    yard.does({ do: 'start', batches: 1 }).until(() => yard.procedure() === 'held', 5);
    expect(yard.world.plant.antiStrip.totalKg).toBeLessThan(2);
  });
});
