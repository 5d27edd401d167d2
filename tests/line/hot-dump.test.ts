/** Hot stone in the pug mill and cutback in the bucket: what was broken off comes out without tripping over itself. */
import { describe, expect, it } from 'vitest';
import { driedYard } from './yard.ts';

describe('a dump of hot stone with cutback in the bucket', () => {
  it('waits until the stone is cool enough for the binder to come, then ends without a trip (FI-05, FT-08)', () => {
    const yard = driedYard();
    // The bin's thermometer lies: stone far above the limit comes into the pug mill.
    yard.does({ do: 'injectFault', target: { tag: 'holdingBinC', fault: 'stuck', perHour: 0 } }, 'trainer');
    yard.world = {
      ...yard.world,
      plant: {
        ...yard.world.plant,
        holdingBin: {
          ...yard.world.plant.holdingBin,
          heap: { ...yard.world.plant.holdingBin.heap, tempC: 95 },
        },
      },
    };
    yard.does({ do: 'start', batches: 1 });
    yard.untilStep('waitingForBinder').run(60);
    expect(yard.line.readings.mixC).toBeGreaterThan(65);
    expect(yard.line.outputs.bucketValve).toBe(false);
    yard.does({ do: 'hold' }).run(5).does({ do: 'dump', reason: 'the stone is too hot' });
    yard.until((line) => line.signals.allEmpty && yard.step() === 'ready', 180);
    expect(yard.told('tripLatched')).toEqual([]);
  });
});
