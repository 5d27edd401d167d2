/** What a shift leaves open is there when the next begins: no doubt is cleared by ending a shift. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../machines/line/facts.ts';
import { firstMaintenance, isCalibrated } from '../../machines/line/maintenance.ts';
import { firstTankMemos, isTankKnown } from '../../machines/line/tank-care.ts';
import { carriedOn } from '../../server/runner/carried-on.ts';
import { fakeScenario } from './support/fake-scenario.ts';

const { shift } = fakeScenario();
const by = { person: 'kim', role: 'operator' } as const;
const wrong: Fact = { is: 'tankDoubted', tank: 'emulsion', why: 'The other binder was delivered into it' };
const identified: Fact = {
  is: 'tankIdentified',
  tank: 'emulsion',
  product: 'emulsion',
  reason: 'sampled by the laboratory',
  by,
};
const opened: Fact = { is: 'hotWorkOpened', permit: 1, where: 'stair', reason: 'weld', minutes: 60, by };
const begun: Fact = { is: 'deliveryBegun', tank: 'cutback', product: 'cutback', kg: 900, ticket: 'C1', by };

describe('what one shift leaves to the next', () => {
  it('is nothing when nothing was left', () => {
    expect(carriedOn(shift, shift, [])).toEqual({});
    expect(carriedOn(shift, shift, [wrong, identified])).toEqual({});
    expect(carriedOn(shift, shift, [opened, { is: 'hotWorkClosed', permit: 1, by }])).toEqual({});
    expect(carriedOn(shift, shift, [begun, { is: 'deliveryEnded', tank: 'cutback', by }])).toEqual({});
  });

  it('FI-23 a tank in doubt stays in doubt, also over a shift in which nobody looked', () => {
    const next = carriedOn(shift, shift, [wrong]);
    expect(next.tanks).toEqual({ emulsion: { confirmed: false } });
    expect(carriedOn(shift, { ...shift, ...next }, []).tanks).toEqual(next.tanks);
    const scenario = { ...fakeScenario(), shift: { ...shift, ...next } };
    expect(isTankKnown(firstTankMemos(scenario).emulsion, 'emulsion')).toBe(false);
  });

  it('FI-22 a delivery that was not ended leaves a doubt', () => {
    expect(carriedOn(shift, shift, [begun]).tanks).toEqual({ cutback: { confirmed: false } });
  });

  it('FI-20 a detector seen to drift is not believed by the next shift until it was calibrated', () => {
    const lost: Fact = { is: 'calibrationLost', why: 'It shows vapour in clean air.' };
    const next = carriedOn(shift, shift, [lost]);
    expect(next.proofs).toMatchObject([{ cause: 'FI-20', result: 'failed', on: shift.date }]);
    const scenario = { ...fakeScenario(), shift: { ...shift, ...next } };
    expect(isCalibrated({ scenario, maintenance: firstMaintenance(scenario) } as never)).toBe(false);
  });

  it('FI-21 a hot work permit left open holds binder back until a person closes it', () => {
    const { hotWork } = carriedOn(shift, shift, [opened]);
    expect(hotWork).toEqual({ where: 'stair', reason: 'weld', by: 'kim' });
    const scenario = { ...fakeScenario(), shift: { ...shift, ...(hotWork && { hotWork }) } };
    expect(firstMaintenance(scenario).permit).toMatchObject({ where: 'stair', untilTick: 0 });
  });
});
