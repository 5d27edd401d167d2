/** Books after batches and campaigns broken off at the worst moments. */
import { describe, expect, it } from 'vitest';
import { driedYard, seatedYard, type TestYard } from './yard.ts';

const trainer = ['trainer', 'console-3'] as const;
const stop = (equipment: string) => ({ do: 'injectFault', target: { equipment } }) as never;
const run = (equipment: string) => ({ do: 'clearFault', target: { equipment } }) as never;
const wasteTrue = (yard: TestYard) => yard.world.plant.books.laidKg;

describe('books', () => {
  it('flame lost while the drum empties: the whole charge is booked as dry aggregate', () => {
    const yard = seatedYard('cutback-day')
      .does({ do: 'startCampaign', batches: 1 })
      .does({ do: 'acknowledgeCautions' })
      .does({ do: 'lightBurner' });
    yard.until(() => yard.value('campaign') === 'emptying', 20).run(22);
    yard
      .does(stop('drumFanStopped'), ...trainer)
      .until((l) => l.signals.burnerLockedOut, 2)
      .does(run('drumFanStopped'), ...trainer);
    // What is dry needs no flame to be let out: the campaign goes on by itself.
    yard.does({ do: 'resetBurner' }).until(() => yard.told('chargeDried').length > 0, 20);
    const [d] = yard.told('chargeDried');
    expect((d?.outGrams ?? 0) / 1000).toBeGreaterThan(850);
  });

  it('broken off while the hopper drops: all of it is booked to waste', () => {
    const yard = seatedYard('emulsion-day')
      .does({ do: 'start', batches: 1 })
      .untilStep('dropping')
      .run(8)
      .does({ do: 'abort' })
      .run(3);
    yard.does({ do: 'dump', reason: 'broken off' }).until(() => yard.procedure() === 'idle', 6);
    expect(Math.abs((yard.line.books.waste ?? 0) / 1000 - (wasteTrue(yard)?.[0] ?? 0))).toBeLessThan(60);
  });

  it('broken off while drawing dry aggregate: what was drawn is booked', () => {
    const yard = driedYard()
      .does({ do: 'start', batches: 1 })
      .untilStep('charging')
      .run(15)
      .does({ do: 'abort' })
      .run(3);
    yard.does({ do: 'dump', reason: 'broken off' }).until(() => yard.procedure() === 'idle', 6);
    expect(Math.abs((yard.line.books.holdingBin ?? 0) / 1000 - yard.line.readings.holdingBinKg)).toBeLessThan(
      20,
    );
  });

  it('broken off while discharging: what lies in the bay belongs to the lot', () => {
    const yard = seatedYard('emulsion-day')
      .does({ do: 'start', batches: 1 })
      .untilStep('looking', 20)
      .does({ do: 'confirmLook' })
      .run(18)
      .does({ do: 'abort' })
      .run(20);
    yard.does({ do: 'dump', reason: 'broken off' }).until(() => yard.procedure() === 'idle', 6);
    expect((yard.line.lots[0]?.grams ?? 0) / 1000).toBeGreaterThan((wasteTrue(yard)?.[1] ?? 0) - 60);
  });

  it('a sample belongs to the batch it fell due from', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 14 });
    while (yard.told('sampleDue').length === 0) {
      yard.untilStep('looking', 20).run(1);
      if (yard.told('sampleDue').length) break;
      yard.does({ do: 'confirmLook' }).run(5);
    }
    const due = yard.line.batch?.n;
    yard.does({ do: 'confirmLook' }).untilStep('charging', 5).does({ do: 'takeSample' });
    expect(yard.told('sampleTaken')[0]?.batch).toBe(due);
  });
});
