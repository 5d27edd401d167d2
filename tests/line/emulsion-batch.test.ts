/** Stories of emulsion batches, from the operator's seat. */
import { describe, expect, it } from 'vitest';
import { viewOf } from '../../machines/world/world.ts';
import { seatedYard } from './yard.ts';

describe('an emulsion batch', () => {
  it('is weighed, wetted, mixed, looked at and laid into a lot, and its books close to the gram', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
    yard.untilStep('looking');
    expect(yard.line.readings.sightCoatedPct).toBeGreaterThanOrEqual(95);
    yard.does({ do: 'confirmLook' }).until((line) => line.batchesDone === 1, 3);
    const [discharged] = yard.told('batchDischarged');
    const lot = yard.line.lots[0];
    expect(discharged?.lot).toBe(lot?.id);
    expect(lot?.grams).toBe(discharged?.grams);
    expect(Math.abs((discharged?.grams ?? 0) / 1000 - 750)).toBeLessThan(8);
    expect(discharged?.parts.map((part) => part.material).sort()).toEqual(
      ['Chips', 'Fines', 'Grit', 'emulsion', 'water'].sort(),
    );
    const [sheet] = viewOf(yard.world).batches;
    expect(sheet).toMatchObject({ n: 1, lot: lot?.id, dumped: null, massKg: (lot?.grams ?? 0) / 1000 });
    expect(sheet?.parts.map((part) => part.weighedKg)).toEqual(
      discharged?.parts.map((part) => part.weighedKg),
    );
    yard.expectBooksToClose();
  });

  it('adds only the pre-wet water the aggregate does not already hold', () => {
    const wet = seatedYard('emulsion-day', { moisture: [] })
      .does({ do: 'start', batches: 1 })
      .untilStep('looking');
    const dry = seatedYard('emulsion-day').does({ do: 'start', batches: 1 }).untilStep('looking');
    expect(wet.line.batch?.waterTargetL).toBe(0);
    expect(dry.line.batch?.waterTargetL).toBeGreaterThan(3);
    const water = dry.line.batch?.parts.find((part) => part.material === 'water');
    expect(Math.abs((water?.weighedKg ?? 0) - (water?.targetKg ?? 0))).toBeLessThan(0.5);
  });

  it('mixes on when asked, as often as asked', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 }).untilStep('looking');
    yard.does({ do: 'extendMix' }).untilStep('looking', 1).does({ do: 'extendMix' }).untilStep('looking', 1);
    expect(yard.told('mixExtended')).toHaveLength(2);
  });

  it('runs one after the other when several were asked for', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 2 });
    yard.untilStep('looking').does({ do: 'confirmLook' });
    yard.until((line) => line.batch?.n === 2, 4);
    expect(yard.told('batchStarted').map((fact) => fact.batch)).toEqual([1, 2]);
  });
});

describe('holding', () => {
  it('freezes the step and its timer, feeds nothing, and goes on where it was', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 }).untilStep('preWetMixing');
    yard
      .run(20)
      .does({ do: 'hold' })
      .until(() => yard.procedure() === 'held', 1);
    const timer = () => yard.line.timers.find((one) => one.chart === 'batch')?.leftTicks;
    const left = timer();
    yard.run(30);
    expect(timer()).toBe(left);
    expect(yard.step()).toBe('preWetMixing');
    expect(yard.line.outputs.pugMill).toBe(true);
    yard.does({ do: 'restart' }).untilStep('looking');
  });

  it('stops the feed of a scale half-way and still meets the weight after the restart', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
    yard.until((line) => line.readings.hopperKg > 100, 2).does({ do: 'hold' });
    yard.until(() => yard.procedure() === 'held', 1).run(5);
    const { outputs } = yard.line;
    expect([outputs.bin1Gate, outputs.bin2Gate, outputs.bin3Gate, outputs.emulsionFeed]).toEqual(
      Array(4).fill('shut'),
    );
    yard.does({ do: 'restart' }).untilStep('dropping', 4);
    for (const part of yard.told('partWeighed'))
      expect(Math.abs(part.part.weighedKg - part.part.targetKg)).toBeLessThan(6);
  });

  it('comes by itself over a weight out of tolerance, and offers top up, accept by a supervisor, and dump', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
    // The hopper's cell sticks early in the first part: the gate runs on until the person acts.
    yard.until((line) => line.readings.hopperKg > 40, 1);
    yard.world = {
      ...yard.world,
      line: {
        ...yard.line,
        weighers: {
          ...yard.line.weighers,
          aggregateWeigher: { ...yard.line.weighers.aggregateWeigher, inFlightKg: { Chips: 40 } },
        },
      },
    };
    yard.until(() => yard.procedure() === 'held', 2);
    expect(yard.told('weightOut')).toHaveLength(1);
    expect(yard.refused({ do: 'restart' })[0]).toContain('tolerance');
    expect(yard.refused({ do: 'acceptWeight', reason: 'close enough today' })[0]).toContain('operator');
    yard
      .does({ do: 'topUp' })
      .until(
        () => yard.value('aggregateWeigher') === 'weighed' || yard.line.weighers.aggregateWeigher.at > 0,
        2,
      );
    yard.does({ do: 'restart' }).untilStep('dropping', 4);
  });

  it('lets a supervisor accept a weight with a reason, which stands in the record', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 });
    yard.world = {
      ...yard.world,
      line: {
        ...yard.line,
        weighers: {
          ...yard.line.weighers,
          aggregateWeigher: { ...yard.line.weighers.aggregateWeigher, inFlightKg: { Chips: 30 } },
        },
      },
    };
    yard.until(() => yard.procedure() === 'held', 3);
    yard.does({ do: 'acceptWeight', reason: 'chips run short, blend allows it' }, 'supervisor', 'console-2');
    yard.does({ do: 'restart' }).untilStep('dropping', 4);
    const chips = yard.line.batch?.parts.find((part) => part.material === 'Chips');
    expect(chips?.accepted?.reason).toBe('chips run short, blend allows it');
  });
});

describe('stopping, aborting and dumping', () => {
  it('stop leaves the charge in place and only a dump, booked as waste, clears it', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 3 }).untilStep('preWetMixing');
    yard.does({ do: 'stop' }).until(() => yard.procedure() === 'stopped', 1);
    expect(yard.refused({ do: 'reset' })[0]).toContain('dump');
    yard.does({ do: 'dump', reason: 'rain came in' }).until(() => yard.step() === 'ready', 4);
    expect(yard.told('batchDumped')[0]?.reason).toBe('rain came in');
    expect(viewOf(yard.world).batches[0]?.dumped).toBe('rain came in');
    expect(yard.line.books.waste).toBeGreaterThan(600_000);
    expect(yard.line.batchesAhead).toBe(0);
    yard.expectBooksToClose();
    yard.until(() => yard.procedure() === 'idle', 1).does({ do: 'start', batches: 1 });
  });

  it('abort stands everything still at once', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 }).untilStep('mixing');
    yard.does({ do: 'abort' });
    expect(yard.line.outputs.pugMill).toBe(false);
    yard.until(() => yard.procedure() === 'aborted', 1);
  });

  it('the emergency stop aborts the batch, trips the interlock, and holds until released and reset', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'start', batches: 1 }).untilStep('mixing');
    yard.does({ do: 'emergencyStop' }, 'storekeeper', 'console-9').run(3);
    expect(yard.procedure()).toBe('aborted');
    expect(yard.line.outputs.pugMill).toBe(false);
    expect(yard.refused({ do: 'resetTrip' })[0]).toContain('FT-07');
    yard.does({ do: 'releaseEmergencyStop' }).run(1);
    yard.does({ do: 'resetTrip' });
    expect(yard.told('tripLatched')[0]?.causes).toEqual(['FT-07']);
  });
});
