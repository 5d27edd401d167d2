/** Stories of cutback: dried first, flame out, cooled, then binder through the interlock. */
import { describe, expect, it } from 'vitest';
import { driedYard, seatedYard } from './yard.ts';

describe('a drying campaign', () => {
  it('asks for the cautions to be read before anything is lit, and records who read them', () => {
    const yard = seatedYard('cutback-day').does({ do: 'startCampaign', batches: 2 });
    yard.expectToBeIn('campaign', 'cautions');
    expect(yard.refused({ do: 'lightBurner' })[0]).toContain('cautions');
    yard.does({ do: 'acknowledgeCautions' });
    expect(yard.told('cautionsAcknowledged')[0]?.by.person).toBe('wrenna');
  });

  it('purges before it lights, dries, puts the flame out, purges again, and cools', () => {
    const yard = driedYard();
    const states = yard.told('burnerEntered').map((fact) => fact.state);
    const order = ['purging.airing', 'pilotTrial', 'mainTrial', 'postPurging.airing', 'off'];
    expect(order.map((state) => states.indexOf(state))).toEqual(
      order.map((state) => states.indexOf(state)).sort((a, b) => a - b),
    );
    expect(order.every((state) => states.includes(state))).toBe(true);
    expect(yard.line.readings.holdingBinC).toBeLessThanOrEqual(50);
    const lost = yard.line.books.waterLost ?? 0;
    expect(lost).toBeGreaterThan(20_000);
    yard.expectBooksToClose();
  });

  it('refuses cutback batches while the flame is lit', () => {
    const yard = seatedYard('cutback-day').does({ do: 'startCampaign', batches: 2 });
    yard.does({ do: 'acknowledgeCautions' }).does({ do: 'lightBurner' });
    yard.until(() => yard.line.signals.burnerRunning, 3);
    expect(yard.refused({ do: 'start', batches: 1 })[0]).toContain('flame is out');
  });

  it('ended early still books what is in the drum, once it has run empty', () => {
    const yard = seatedYard('cutback-day').does({ do: 'startCampaign', batches: 2 });
    yard.does({ do: 'acknowledgeCautions' }).does({ do: 'lightBurner' });
    yard.until(() => yard.value('campaign') === 'drying', 5).does({ do: 'putOutBurner' });
    expect(yard.line.books.dryer).toBeGreaterThan(900_000);
    yard.until(() => yard.value('burner') === 'off', 5).until((line) => line.books.dryer === 0, 2);
    expect(yard.line.books.holdingBin).toBeGreaterThan(800_000);
    yard.expectBooksToClose();
  });

  it('survives a burner that will not light: lockout, reset, purge again', () => {
    const yard = seatedYard('cutback-day').does(
      { do: 'injectFault', target: { equipment: 'flameWillNotLight' } },
      'trainer',
      'console-3',
    );
    yard
      .does({ do: 'startCampaign', batches: 2 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.until((line) => line.signals.burnerLockedOut, 4).run(1);
    yard.expectToBeIn('campaign', 'flameLost');
    expect(yard.refused({ do: 'lightBurner' })[0]).toContain('locked out');
    yard.does({ do: 'clearFault', target: { equipment: 'flameWillNotLight' } }, 'trainer', 'console-3');
    yard.does({ do: 'resetBurner' }).until(() => yard.value('burner') === 'off', 3);
    yard.does({ do: 'lightBurner' }).until(() => yard.line.signals.burnerRunning, 3);
  });
});

describe('a cutback batch', () => {
  it('is drawn, dosed, mixed and laid with the vapour at the hood low', () => {
    const yard = driedYard().does({ do: 'start', batches: 1 });
    let worst = 0;
    yard.until((line) => {
      worst = Math.max(worst, line.readings.vapourLelPct);
      return yard.step() === 'looking';
    });
    expect(worst).toBeGreaterThan(0.5);
    // A normal mix of about 52 °C under a ventilated hood: 1 to 3 % LEL (a size to hold against), with some play.
    expect(worst).toBeLessThan(4);
    yard
      .does({ do: 'confirmLook' })
      .until((line) => line.batchesDone === 1, 3)
      .expectBooksToClose();
    expect(yard.line.trips).toBe(0);
    expect(yard.line.lots[0]?.family).toBe('cutback');
  });

  it('never lets the burner be lit while cutback is in bucket or mixer, and says why', () => {
    const yard = driedYard().does({ do: 'start', batches: 1 }).untilStep('mixing');
    const because = yard.refused({ do: 'lightBurner' }).join(' ');
    expect(because).toContain('pug mill');
    expect(yard.line.outputs.burnerPilot).toBe(false);
    expect(yard.told('commandRefused')[0]?.command).toBe('lightBurner');
  });

  it('waits for its aggregate to cool, with a forecast that comes true within a tenth', () => {
    const yard = seatedYard('cutback-day').does({ do: 'startCampaign', batches: 3 });
    yard.does({ do: 'acknowledgeCautions' }).does({ do: 'lightBurner' });
    yard.until(() => yard.value('campaign') === 'cooling', 40).does({ do: 'start', batches: 1 });
    expect(yard.step()).toBe('waitingForAggregate');
    const began = yard.world.tick;
    yard.run(5);
    const forecastS = yard.forecastS();
    yard.untilStep('charging', 60);
    const tookS = (yard.world.tick - began) / 10;
    expect(Math.abs(tookS - forecastS) / tookS).toBeLessThan(0.1);
  });

  it('FT-03: the hood fan lost over cutback trips, closes the binder way, keeps the fan asked on, and needs a reset', () => {
    const yard = driedYard().does({ do: 'start', batches: 1 }).untilStep('mixing');
    yard.does({ do: 'injectFault', target: { equipment: 'hoodFanStopped' } }, 'trainer', 'console-3');
    yard.until((line) => line.signals.tripped, 1).run(3);
    expect(yard.line.outputs.bucketValve).toBe(false);
    expect(yard.line.outputs.cutbackFeed).toBe('shut');
    expect(yard.line.outputs.hoodFan).toBe(true);
    expect(yard.procedure()).toBe('held');
    expect(yard.refused({ do: 'resetTrip' }).join(' ')).toContain('FT-03');
    yard.run(240);
    expect(yard.line.readings.vapourLelPct).toBeGreaterThan(20);
    yard.does({ do: 'clearFault', target: { equipment: 'hoodFanStopped' } }, 'trainer', 'console-3');
    yard.until((line) => line.signals.extractionProved && line.signals.vapourLow, 5);
    yard.does({ do: 'resetTrip' }).does({ do: 'restart' }).untilStep('looking', 5);
  });
});
