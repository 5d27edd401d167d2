/** Dried aggregate that cannot be used any more, and drums cut short: there is always a way on. */
import { describe, expect, it } from 'vitest';
import { truthOf } from '../../machines/plant/truth.ts';
import { seatedYard } from './yard.ts';

describe('aggregate in the holding bin that is below its window', () => {
  const yard = seatedYard('cutback-day');
  yard
    .does({ do: 'startCampaign', batches: 2 })
    .does({ do: 'acknowledgeCautions' })
    .does({ do: 'lightBurner' });
  yard.until(() => yard.value('campaign') === 'drying', 10).does({ do: 'putOutBurner' });
  yard.until((line) => yard.value('campaign') === 'available' && !line.signals.drumLoaded, 10);

  it('starts no batch, and says what to do instead', () => {
    expect(yard.refused({ do: 'start', batches: 1 })).toContain(
      'The dry aggregate has cooled below its window and nothing warms it again: run the holding bin out, then dry again.',
    );
  });

  it('is run out to the waste heap, to the gram, and a new campaign may begin', () => {
    const held = yard.line.readings.holdingBinKg;
    const wasted = yard.line.books.waste ?? 0;
    yard.does({ do: 'endCampaign' }).until(() => yard.value('campaign') === 'idle', 2);
    expect((yard.line.books.waste ?? 0) - wasted).toBe(Math.round(held * 1000));
    yard.run(20);
    expect(yard.line.readings.holdingBinKg).toBe(0);
    yard.expectBooksToClose();
    expect(Math.abs(truthOf(yard.world.plant).errorKg)).toBeLessThan(1e-6);
    yard.does({ do: 'startCampaign', batches: 2 });
  });
});

describe('a drum interrupted while it empties', () => {
  it('goes on emptying once the emergency stop is released, and needs no flame for that', () => {
    const yard = seatedYard('cutback-day');
    yard
      .does({ do: 'startCampaign', batches: 2 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.until(() => yard.value('campaign') === 'emptying', 30).run(30);
    yard.does({ do: 'emergencyStop' }).run(60).expectToBeIn('campaign', 'emptying');
    expect(yard.told('chargeDried')).toEqual([]);
    yard.does({ do: 'releaseEmergencyStop' }).run(2).does({ do: 'resetTrip' });
    yard.until(() => yard.told('chargeDried').length === 1, 5);
    const [dried] = yard.told('chargeDried');
    expect(dried?.outGrams).toBeGreaterThan(850_000);
    expect(truthOf(yard.world.plant).drumMoisturePct).toBeLessThan(1);
    // The second charge needs the flame again.
    yard.until(() => yard.value('campaign') === 'flameLost', 2);
  });
});
