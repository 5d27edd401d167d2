/** Safeguards of the burner under their IDs: in which state each holds fuel back, and what lets it go. */
import { describe, expect, it } from 'vitest';
import { burnerMayAdmitFuel } from '../../machines/charts/burner/burner.guards.ts';
import { burnerMachine } from '../../machines/charts/burner/burner.machine.ts';
import { isLockout, SAFEGUARDS, standingSafeguards } from '../../machines/charts/burner/burner.safeguards.ts';
import { burnerTable } from '../explore/charts.ts';
import { drive } from './drive.ts';

const LIT = ['operator.lightBurner', 'on.drumFanProved', 'off.purged', 'on.purged', 'on.flameSeen'];
const RUNNING = [...LIT, 'xstate.after.mainTrial.burner.mainTrial'];

const CASES: readonly (readonly [name: string, events: readonly string[]])[] = [
  ['FB-01 purge before lighting incomplete', LIT.slice(0, 3)],
  [
    'FB-02 no pilot flame within the trial',
    [...LIT.slice(0, 4), 'xstate.after.trialForIgnition.burner.pilotTrial'],
  ],
  ['FB-03 flame lost while the main lights', [...LIT, 'off.flameSeen']],
  [
    'FB-04 main flame failed',
    [...RUNNING, 'off.flameSeen', 'xstate.after.flameFailure.burner.running.flame.lost'],
  ],
  ['FB-05 air lost', [...RUNNING, 'off.drumFanProved']],
  ['FB-06 flame where there should be none', ['on.flameSeen']],
  ['FB-07 fuel not proved shut', ['off.fuelShut']],
  ['FB-08 purge after the flame incomplete', [...RUNNING, 'operator.putOutBurner']],
];

describe('burner safeguards', () => {
  it.each(CASES)('%s', (name, events) => {
    const value = drive(burnerMachine, events);
    expect(standingSafeguards(value)).toEqual([name.slice(0, 5)]);
    expect(burnerMayAdmitFuel(value)).toBe(false);
    const reset = drive(burnerMachine, ['operator.resetBurner'], value);
    const lockout = isLockout(SAFEGUARDS.find((one) => one.id === name.slice(0, 5)) as never);
    expect(standingSafeguards(reset)).toEqual(lockout ? ['FB-08'] : [name.slice(0, 5)]);
  });

  it('in every state of the burner: fuel may be admitted, or the burner rests, or a safeguard says why not', () => {
    for (const value of burnerTable().values)
      expect(
        Number(burnerMayAdmitFuel(value)) + Number(value === 'off') + standingSafeguards(value).length,
      ).toBe(1);
  });
});
