/** The shipped 8 h shifts, led by their stand-ins: lots, balanced masses, no trip, and refusals where they belong. */
import { describe, expect, it } from 'vitest';
import { line } from '../../server/line.ts';
import { runHeadless } from '../../server/runner/headless.ts';
import { createTally } from '../../server/runner/report.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';
import { openChainOnlyStore } from '../../server/store/chain-only.ts';

const runShift = async (name: string) => {
  const tally = createTally();
  const result = await runHeadless({
    engine: line,
    scenario: scenarioOrError(`scenarios/shifts/${name}.yaml`),
    store: openChainOnlyStore(),
    onFact: tally.add,
  });
  return { ...result, report: tally.report(result.view) };
};

describe.each(['emulsion-day', 'cutback-day', 'reckless-day'])('%s', (name) => {
  it('ends with whole lots, masses that balance to the gram and no trip', async () => {
    const { report, ended, view } = await runShift(name);
    expect(ended).toBe(true);
    expect(report.trips).toBe(0);
    expect(report.massBalanceErrorKg).toBe(0);
    expect(report.batches).toBeGreaterThan(30);
    for (const lot of report.lots) {
      expect(lot.state).not.toBe('open');
      // A lot closes at 10 t or more; below that it says that it is short.
      expect(lot.massKg >= 10_000).toBe(lot.state === 'closed');
    }
    expect(report.lots.some((lot) => lot.state === 'closed')).toBe(true);
    // What lies in the bays is what the lots say, counted another way.
    const inLots = report.lots.reduce((kg, lot) => kg + lot.massKg, 0);
    const inBays = view.plant.bays.reduce((kg, bay) => kg + bay.massKg, 0);
    // A view shows whole kilograms.
    expect(Math.abs(inBays - inLots)).toBeLessThanOrEqual(0.5 * view.plant.bays.length);

    const lighting = report.refusals.filter((refusal) => refusal.command === 'lightBurner');
    if (name === 'reckless-day') expect(lighting.length).toBeGreaterThan(3);
    else expect(report.refusals).toEqual([]);
    for (const refusal of lighting) expect(refusal.because.join()).toContain('FI-');
  }, 180_000);
});
