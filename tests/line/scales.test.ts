/** Scales that lie: off their zero, or dead. What must fail safe does; what only hinders has a way out. */
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../machines/world/world.ts';
import { driedYard, seatedYard } from './yard.ts';

const asTrainer = ['trainer', 'console-3'] as const;

describe('a hopper scale off its zero', () => {
  it('raises an alarm when the hopper never reads empty, and the batch goes on once the scale is zeroed', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
    yard
      .untilStep('dropping')
      .does({ do: 'injectFault', target: { tag: 'hopperKg', fault: 'drift', perHour: 600 } }, ...asTrainer);
    yard.run(80);
    expect(yard.step()).toBe('dropping');
    expect(viewOf(yard.world).alarms.map((alarm) => alarm.id)).toContain('step-slow');
    expect(viewOf(yard.world).now.actions.map((one) => one.label)).toContain('Zero the hopper scale');
    yard.does({ do: 'zeroScale', scale: 'hopper' }).untilStep('preWetting', 1);
    yard.does({ do: 'clearFault', target: { tag: 'hopperKg' } }, ...asTrainer).untilStep('looking');
    yard.expectBooksToClose();
  });

  it('may be zeroed near zero only, and not while it weighs', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'zeroScale', scale: 'hopper' });
    expect(yard.told('scaleZeroed')).toHaveLength(1);
    yard.does({ do: 'start', batches: 1 }).until((line) => line.readings.hopperKg > 100, 2);
    expect(yard.refused({ do: 'zeroScale', scale: 'hopper' })[0]).toContain('in use');
  });
});

describe('a dead instrument', () => {
  it('in the bucket never passes for an empty bucket', () => {
    const yard = driedYard().does({ do: 'start', batches: 1 });
    yard
      .until((line) => line.signals.binderWeighed, 10)
      .does({ do: 'injectFault', target: { tag: 'bucketKg', fault: 'dead', perHour: 0 } }, ...asTrainer);
    yard.run(30);
    expect(yard.line.readings.bucketKg).toBeLessThan(0);
    expect(yard.line.signals.bucketEmpty).toBe(false);
    expect(yard.line.signals.cutbackInBucket).toBe(true);
    expect(yard.refused({ do: 'lightBurner' }).join(' ')).toContain('FI-1');
  });

  it('in the holding bin or the pug mill makes its aggregate count as too hot', () => {
    const yard = driedYard();
    expect(yard.line.signals.aggregateOverLimit).toBe(false);
    yard
      .does({ do: 'injectFault', target: { tag: 'holdingBinC', fault: 'dead', perHour: 0 } }, ...asTrainer)
      .run(3);
    expect(yard.line.signals.aggregateOverLimit).toBe(true);
  });
});
