/** Emulsion on a cold day: aggregate and emulsion warmed into 50–85 °C, never above. */
import { describe, expect, it } from 'vitest';
import { seatedYard } from './yard.ts';

describe('a warmed emulsion batch', () => {
  it('is refused until aggregate has been dried and warmed', () => {
    const yard = seatedYard('cold-day');
    expect(yard.refused({ do: 'start', batches: 1 })[0]).toContain('dried aggregate');
  });

  it('takes warm aggregate from the holding bin, wets it, and mixes it inside its window', () => {
    const yard = seatedYard('cold-day');
    yard
      .does({ do: 'startCampaign', batches: 2 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.until(() => yard.value('campaign') === 'available', 60).does({ do: 'start', batches: 1 });
    yard.untilStep('addingBinder', 10);
    expect(yard.line.readings.mixC).toBeGreaterThan(50);
    expect(yard.line.readings.mixC).toBeLessThanOrEqual(85);
    yard
      .untilStep('looking')
      .does({ do: 'confirmLook' })
      .until((line) => line.batchesDone === 1, 3);
    const water = yard.told('batchDischarged')[0]?.parts.find((part) => part.material === 'water');
    expect(water?.targetKg).toBeGreaterThan(10);
    expect(yard.line.signals.cutbackInMixer).toBe(false);
    yard.expectBooksToClose();
  });

  it('never has its tank heated above 85 °C', () => {
    const yard = seatedYard('cold-day', { tanksC: { emulsion: 83 } });
    let hottest = 0;
    for (let minute = 0; minute < 60; minute += 1) {
      yard.run(60);
      hottest = Math.max(hottest, yard.line.readings.emulsionTankC);
    }
    expect(hottest).toBeLessThanOrEqual(85);
    expect(yard.line.outputs.emulsionCoil).toBe(false);
  });
});
