/** A flow meter that goes on showing air with the dryer's fan stopped purges nothing (FB-01, FI-02). */
import { describe, expect, it } from 'vitest';
import { seatedYard } from './yard.ts';

describe('the dryer flow meter stuck at full flow', () => {
  const yard = seatedYard('cutback-day');
  yard
    .does({ do: 'startCampaign', batches: 2 })
    .does({ do: 'acknowledgeCautions' })
    .does({ do: 'lightBurner' });
  yard.until((line) => line.signals.drumFanProved, 5).run(5);
  yard.does({ do: 'injectFault', target: { tag: 'drumAirM3S', fault: 'stuck', perHour: 0 } }, 'trainer');
  yard.does({ do: 'injectFault', target: { equipment: 'drumFanStopped' } }, 'trainer');
  yard.does({ do: 'putOutBurner' }).until(() => yard.value('burner') === 'off', 10);

  it('is not believed once the fan has been off for half a minute, and raises an alarm', () => {
    yard.run(40);
    expect(yard.line.readings.drumAirM3S).toBeGreaterThan(1.2);
    expect(yard.line.signals.drumFanProved).toBe(false);
    expect(yard.told('alarmChanged').some((one) => one.alarm === 'drum-flow-meter')).toBe(true);
  });

  it('lets no purge be counted and no burner light until it has shown the fan at rest', () => {
    yard.until(() => yard.value('campaign') === 'idle' || yard.value('campaign') === 'available', 30);
    if (yard.value('campaign') !== 'idle') yard.does({ do: 'endCampaign' });
    yard.until(() => yard.value('campaign') === 'idle', 5);
    yard
      .does({ do: 'startCampaign', batches: 2 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.run(180);
    expect(yard.value('burner')).not.toBe('running');
    expect(yard.line.outputs.burnerPilot).toBe(false);
    expect(yard.line.signals.burnerRunning).toBe(false);
    expect(yard.line.readings.flameSeen).toBe(0);
    // Mended, fan and meter: its proof on record, the meter is believed again.
    yard.does({ do: 'clearFault', target: { tag: 'drumAirM3S' } }, 'trainer');
    yard.does({ do: 'clearFault', target: { equipment: 'drumFanStopped' } }, 'trainer').run(30);
    yard.expectToBeIn('burner', { lockedOut: 'airLost' });
    yard.does({ do: 'proveCause', cause: 'FB-01', result: 'passed', remark: 'Meter mended, purge timed' });
    yard.run(1).does({ do: 'resetBurner' }).does({ do: 'endCampaign' });
    yard.until(() => yard.value('burner') === 'off' && yard.line.signals.purged, 10);
  });
});
