/** The burner chart as stories and as a table of what each state asks for. */
import { describe, expect, it } from 'vitest';
import {
  burnerDemands,
  burnerIsLockedOut,
  burnerIsOff,
  burnerIsRunning,
  burnerMayAdmitFuel,
  purgeCountHeld,
} from '../../machines/charts/burner/burner.guards.ts';
import { burnerMachine } from '../../machines/charts/burner/burner.machine.ts';
import { burnerTable } from '../explore/charts.ts';
import { drive } from './drive.ts';

const at = (...events: string[]) => drive(burnerMachine, events);
const TO_AIRING = ['operator.lightBurner', 'on.drumFanProved', 'off.purged'];
const TO_PILOT = [...TO_AIRING, 'on.purged'];
const TO_MAIN = [...TO_PILOT, 'on.flameSeen'];
const TO_RUNNING = [...TO_MAIN, 'xstate.after.mainTrial.burner.mainTrial'];
const OUT = ['operator.putOutBurner', 'on.fuelShut', 'off.flameSeen', 'off.purged', 'on.purged'];
const FLAME_FAILS = ['off.flameSeen', 'xstate.after.flameFailure.burner.running.flame.lost'];

describe('burner', () => {
  it('purges, lights the pilot, lights the main, runs, goes out, purges again and is off', () => {
    expect(at()).toBe('off');
    expect(at('operator.lightBurner')).toEqual({ purging: 'startingFan' });
    expect(at(...TO_AIRING)).toEqual({ purging: 'airing' });
    expect(at(...TO_PILOT)).toBe('pilotTrial');
    expect(at(...TO_MAIN)).toBe('mainTrial');
    expect(at(...TO_RUNNING)).toEqual({ running: { fire: 'low', flame: 'seen' } });
    expect(at(...TO_RUNNING, 'line.fireHigh')).toEqual({ running: { fire: 'high', flame: 'seen' } });
    expect(at(...TO_RUNNING, 'line.fireHigh', 'line.fireLow')).toEqual({
      running: { fire: 'low', flame: 'seen' },
    });
    expect(at(...TO_RUNNING, ...OUT.slice(0, 1))).toEqual({ postPurging: 'closingFuel' });
    expect(at(...TO_RUNNING, ...OUT.slice(0, 4))).toEqual({ postPurging: 'airing' });
    expect(at(...TO_RUNNING, ...OUT)).toBe('off');
  });

  it('an old purge does not light it: the count must be heard to have gone', () => {
    expect(at('operator.lightBurner', 'on.drumFanProved', 'on.purged')).toEqual({
      purging: 'restartingCount',
    });
  });

  it('a fan lost while purging begins the purge again', () => {
    expect(at(...TO_AIRING, 'off.drumFanProved')).toEqual({ purging: 'startingFan' });
    expect(at(...TO_AIRING, 'off.drumFanProved', 'on.purged')).toEqual({ purging: 'startingFan' });
  });

  const PILOT_FAILS = 'xstate.after.trialForIgnition.burner.pilotTrial';
  it.each([
    [
      'the fan is not proved in time',
      ['operator.lightBurner', 'xstate.after.fanStarts.burner.purging.startingFan'],
      'airLost',
    ],
    ['the pilot does not light within its trial', [...TO_PILOT, PILOT_FAILS], 'noPilotFlame'],
    ['the flame goes while the main lights', [...TO_MAIN, 'off.flameSeen'], 'noMainFlame'],
    ['the main flame fails', [...TO_RUNNING, ...FLAME_FAILS], 'flameFailed'],
    ['the fan is lost while it burns', [...TO_RUNNING, 'off.drumFanProved'], 'airLost'],
    ['a flame is seen while off', ['on.flameSeen'], 'flameUnexpected'],
    ['a flame is seen while purging', [...TO_AIRING, 'on.flameSeen'], 'flameUnexpected'],
    ['the fuel valve loses its proof while off', ['off.fuelShut'], 'fuelNotShut'],
    [
      'the fuel is not proved shut after putting out',
      [...TO_RUNNING, 'operator.putOutBurner', 'xstate.after.fuelCloses.burner.postPurging.closingFuel'],
      'fuelNotShut',
    ],
    [
      'the flame does not die with the fuel shut',
      [
        ...TO_RUNNING,
        'operator.putOutBurner',
        'on.fuelShut',
        'xstate.after.flameDies.burner.postPurging.flameDying',
      ],
      'flameUnexpected',
    ],
  ])('locks out when %s; a reset leads through a purge', (_when, events, why) => {
    expect(at(...events)).toEqual({ lockedOut: why });
    expect(at(...events, 'operator.lightBurner')).toEqual({ lockedOut: why });
    expect(at(...events, 'operator.resetBurner')).toEqual({ postPurging: 'closingFuel' });
  });

  it('a flame lost for less than the flame failure time does not stop it, nor its high fire', () => {
    expect(at(...TO_RUNNING, 'line.fireHigh', 'off.flameSeen', 'on.flameSeen')).toEqual({
      running: { fire: 'high', flame: 'seen' },
    });
  });

  it.each(['off.flamePermitted', 'on.tripped', 'operator.putOutBurner', 'line.putOutBurner'])(
    '%s puts it out from any fire, and ends a purge that has not led to one',
    (event) => {
      for (const fire of [TO_PILOT, TO_MAIN, TO_RUNNING, [...TO_RUNNING, 'off.flameSeen']])
        expect(at(...fire, event)).toEqual({ postPurging: 'closingFuel' });
      expect(at(...TO_AIRING, event)).toBe('off');
    },
  );

  it('goes back to closing the fuel when its proof is lost again, and locks out on a flame come back', () => {
    const dying = [...TO_RUNNING, 'operator.putOutBurner', 'on.fuelShut'];
    expect(at(...dying, 'off.fuelShut')).toEqual({ postPurging: 'closingFuel' });
    expect(at(...dying, 'off.flameSeen', 'off.purged', 'on.flameSeen')).toEqual({
      lockedOut: 'flameUnexpected',
    });
  });
});

describe('burner and binder valve', () => {
  it('a binder valve not proved shut ends the purge for lighting, but not a fire that burns', () => {
    expect(at(...TO_AIRING, 'off.binderValveShut')).toBe('off');
    expect(at(...TO_RUNNING, 'off.binderValveShut')).toEqual({ running: { fire: 'low', flame: 'seen' } });
  });
});

describe('what the burner asks for', () => {
  it('in each of its states', () => {
    const asked = Object.fromEntries(
      burnerTable().values.map((value, index) => {
        const { drumFan, burnerPilot, burnerMain } = burnerDemands(value);
        const words = [
          drumFan ? 'fan' : '',
          burnerPilot ? 'pilot' : '',
          burnerMain === 'shut' ? '' : burnerMain,
        ];
        return [burnerTable().names[index], words.filter(Boolean).join(' ')];
      }),
    );
    expect(asked).toEqual({
      '"off"': '',
      '{"purging":"startingFan"}': 'fan',
      '{"purging":"restartingCount"}': 'fan',
      '{"purging":"airing"}': 'fan',
      '"pilotTrial"': 'fan pilot',
      '"mainTrial"': 'fan pilot low',
      '{"running":{"fire":"low","flame":"seen"}}': 'fan low',
      '{"running":{"fire":"low","flame":"lost"}}': 'fan low',
      '{"running":{"fire":"high","flame":"seen"}}': 'fan high',
      '{"running":{"fire":"high","flame":"lost"}}': 'fan high',
      '{"postPurging":"closingFuel"}': 'fan',
      '{"postPurging":"flameDying"}': 'fan',
      '{"postPurging":"restartingCount"}': 'fan',
      '{"postPurging":"airing"}': 'fan',
      '{"lockedOut":"airLost"}': 'fan',
      '{"lockedOut":"noPilotFlame"}': 'fan',
      '{"lockedOut":"noMainFlame"}': 'fan',
      '{"lockedOut":"flameFailed"}': 'fan',
      '{"lockedOut":"flameUnexpected"}': 'fan',
      '{"lockedOut":"fuelNotShut"}': 'fan',
    });
  });

  it('holds the purge count at zero wherever a purge has still to begin', () => {
    for (const value of burnerTable().values) {
      const airing = JSON.stringify(value).includes('airing');
      const resting = burnerIsOff(value) || burnerIsLockedOut(value);
      expect(purgeCountHeld(value), JSON.stringify(value)).toBe(!airing && !resting);
      if (burnerMayAdmitFuel(value)) expect(purgeCountHeld(value)).toBe(true);
    }
  });

  it('says where it is', () => {
    expect(burnerIsRunning(at(...TO_RUNNING))).toBe(true);
    expect(burnerIsRunning(at(...TO_MAIN))).toBe(false);
    expect(burnerIsLockedOut(at('on.flameSeen'))).toBe(true);
    expect(burnerIsOff('off')).toBe(true);
    expect(burnerDemands('no such state')).toEqual({
      drumFan: false,
      burnerPilot: false,
      burnerMain: 'shut',
    });
  });
});
