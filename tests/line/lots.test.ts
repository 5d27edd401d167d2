/** Lots: opened by a batch, filled, closed for a reason that is told, never mixed. */
import { describe, expect, it } from 'vitest';
import { scenarioOf, seatedYard, TestYard } from './yard.ts';

const makeBatch = (yard: TestYard): TestYard => {
  const before = yard.line.batchesDone;
  yard.does({ do: 'start', batches: 1 }).untilStep('looking').does({ do: 'confirmLook' });
  return yard.until((line) => line.batchesDone === before + 1, 3).until(() => yard.procedure() === 'idle', 1);
};

describe('a lot', () => {
  it('is closed short when the shift ends, and says so', () => {
    const yard = makeBatch(seatedYard('emulsion-day')).does({ do: 'endShift' });
    const [closed] = yard.told('lotClosed');
    expect(closed).toMatchObject({ short: true, why: 'the shift ended', batches: 1 });
    expect(yard.line.lots[0]?.state).toBe('closed short');
    expect(yard.refused({ do: 'start', batches: 1 })[0]).toContain('ended');
  });

  it('takes one mix version only: a batch of another mix closes it short and opens the next', () => {
    const scenario = scenarioOf('emulsion-day');
    const [first] = scenario.mixes;
    if (first === undefined) throw new Error('no mix');
    const second = { ...first, id: 'emulsion-patch-next', version: first.version + 1 };
    const yard = new TestYard({
      ...scenario,
      mixes: [first, second],
      shift: {
        ...scenario.shift,
        orders: [
          { mix: first.id, tonnes: 5, bay: 1 },
          { mix: second.id, tonnes: 5, bay: 1 },
        ],
      },
    });
    makeBatch(yard.does({ do: 'takeControls' }).run(5));
    yard.does({ do: 'chooseOrder', order: 2 }).does({ do: 'start', batches: 1 });
    expect(yard.told('lotClosed')[0]).toMatchObject({ short: true, why: 'the mix was changed' });
    expect(yard.told('lotOpened').map((fact) => fact.mix)).toEqual(['emulsion-patch', 'emulsion-patch-next']);
  });

  it('is closed full by the batch that takes it to its mass, which still belongs to it', () => {
    const yard = seatedYard('emulsion-day');
    // A lot one batch short of full, so that the story need not make thirteen.
    makeBatch(yard);
    const lots = yard.line.lots.map((lot) => ({ ...lot, ofKg: 1400 }));
    yard.world = { ...yard.world, line: { ...yard.line, lots } };
    makeBatch(yard);
    expect(yard.line.lots[0]).toMatchObject({ state: 'closed', batches: [1, 2] });
    makeBatch(yard);
    expect(yard.line.lots[1]).toMatchObject({ state: 'open', batches: [3] });
    yard.expectBooksToClose();
  });

  it('keeps its sampling tonnages, one in each half, out of sight until they fall due', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
    const [opened] = yard.told('lotOpened');
    const [first = -1, second = -1] = opened?.samplesAtKg ?? [];
    expect(first).toBeGreaterThanOrEqual(0);
    expect(first).toBeLessThanOrEqual(5000);
    expect(second).toBeGreaterThanOrEqual(5000);
    expect(second).toBeLessThanOrEqual(10_000);
    expect(yard.refused({ do: 'takeSample' }, 'quality officer', 'console-5')[0]).toContain('due');
  });
});
