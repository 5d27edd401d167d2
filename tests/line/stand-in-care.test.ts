/** A stand-in copes with upkeep: it calibrates before it lights, ends a delivery in time, and never inhibits. */
import { describe, expect, it } from 'vitest';
import { decide } from '../../machines/standin/decide.ts';
import { scenarioOf, seatedYard, TestYard } from './yard.ts';

const supervisor = ['supervisor', 'console-2'] as const;

describe('a stand-in', () => {
  it('months past the calibration date, calibrates first and then works its campaign', () => {
    const yard = new TestYard(scenarioOf('cutback-day', { date: '2026-11-20' }));
    yard.does({ do: 'standIn', skill: 'good' });
    yard.until(() => yard.value('campaign') === 'drying', 15);
    expect(yard.told('causeProved').map((one) => one.cause)).toEqual(['FI-20']);
    expect(yard.line.trips).toBe(0);
  });

  it('ends a delivery once it is confirmed and in, and leaves one nobody confirmed to people', () => {
    const yard = seatedYard('emulsion-day');
    yard.does({ do: 'receiveDelivery', tank: 'emulsion', product: 'emulsion', kg: 600, ticket: 'T-9' });
    yard.run(70);
    expect(decide(yard.line, 'good')?.do).not.toBe('endDelivery');
    yard.does({ do: 'confirmDelivery', tank: 'emulsion', product: 'emulsion' }, ...supervisor);
    yard.does({ do: 'releaseControls' }).does({ do: 'standIn', skill: 'good' });
    yard.until((line) => line.tankMemos.emulsion.delivery === null, 5);
    expect(yard.line.signals.emulsionKnown).toBe(true);
  });
});
