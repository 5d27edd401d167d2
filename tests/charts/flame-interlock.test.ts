/** The flame interlock, requirement by requirement. */
import { describe, expect, it } from 'vitest';
import {
  CAUSE_IDS,
  CAUSES,
  PERMISSIVES,
  SAFEGUARDS,
  TANK_CAUSES,
  TRIPS,
} from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import {
  binderBlockedBy,
  binderMayFlow,
  burnerMayFire,
  burnerMayLight,
  type ChartValue,
  cutbackMayFeed,
  emulsionBlockedBy,
  emulsionMayFeed,
  feedBlockedBy,
  flameBlockedBy,
  isTripped,
  latchedCauses,
  lightingBlockedBy,
  resetBlockedBy,
  standingCauses,
} from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { flameInterlockMachine } from '../../machines/charts/flame-interlock/flame-interlock.machine.ts';
import { drive } from './drive.ts';

/** All signals at their safe side, nothing of cutback anywhere. */
const HEARD = [
  'off.flameSeen',
  'on.fuelShut',
  'off.purged',
  'on.purged',
  'on.extractionProved',
  'off.vapourHigh',
  'on.vapourLow',
  'on.detectorOk',
  'off.aggregateOverLimit',
  'on.cutbackInWindow',
  'off.cutbackInBucket',
  'off.cutbackInMixer',
  'on.binderValveShut',
  'off.emergencyStop',
  'on.powerOk',
  'off.cutbackOverLimit',
  'on.detectorCalibrated',
  'off.hotWorkOpen',
  'on.cutbackKnown',
  'on.emulsionKnown',
] as const;
const READY = [...HEARD, 'line.signalsKnown'];
const having = (...events: string[]): ChartValue => drive(flameInterlockMachine, [...READY, ...events]);

const FLAME_DIES = 'xstate.after.flameDies.flameInterlock.dryer.flameUnexplained';
const FLAME_MISSING = 'xstate.after.flameMissing.flameInterlock.dryer.fuelOpen';
const VALVE_CLOSES = 'xstate.after.valveCloses.flameInterlock.valve.closing';
const BINDER_OPEN = ['on.cutbackInBucket', 'on.binderValveAskedOpen', 'off.binderValveShut'] as const;

describe('flame interlock at the start', () => {
  it('knows nothing, so allows nothing and has not tripped', () => {
    const value = drive(flameInterlockMachine, []);
    expect([
      binderMayFlow(value),
      cutbackMayFeed(value),
      burnerMayFire(value),
      burnerMayLight(value),
    ]).toEqual([false, false, false, false]);
    expect(isTripped(value)).toBe(false);
    expect(resetBlockedBy(value)).toEqual([]);
  });

  it('is ready once everything was heard safe', () => {
    const value = having();
    expect([
      binderMayFlow(value),
      cutbackMayFeed(value),
      burnerMayFire(value),
      burnerMayLight(value),
    ]).toEqual([true, true, true, true]);
  });

  it.each(HEARD.map((type) => [type]))(
    'without having heard %s something is forbidden or tripped',
    (unheard) => {
      const value = drive(
        flameInterlockMachine,
        READY.filter((type) => type !== unheard),
      );
      expect(
        binderMayFlow(value) && cutbackMayFeed(value) && burnerMayLight(value) && emulsionMayFeed(value),
      ).toBe(false);
    },
  );
});

describe('what binder waits for', () => {
  const cases: readonly (readonly [name: string, id: string, events: readonly string[], feedToo: boolean])[] =
    [
      ['FI-01 dryer flame proven out', 'FI-01', ['off.fuelShut', 'on.flameSeen'], true],
      ['FI-02 post-purge done, after a flame', 'FI-02', ['on.flameSeen', 'off.flameSeen'], true],
      ['FI-02 post-purge done, after fuel alone', 'FI-02', ['off.fuelShut', 'on.fuelShut'], true],
      ['FI-02 post-purge done, once the burner begins a new count', 'FI-02', ['off.purged'], true],
      ['FI-03 hood extraction proven', 'FI-03', ['off.extractionProved'], false],
      ['FI-04 vapour below the warning level', 'FI-04', ['off.vapourLow'], false],
      ['FI-05 aggregate at or below its limit', 'FI-05', ['on.aggregateOverLimit'], false],
      ['FI-06 cutback in its window', 'FI-06', ['off.cutbackInWindow'], false],
      ['FI-07 vapour detector healthy', 'FI-07', ['off.detectorOk'], false],
      ['FI-08 dryer fuel proved shut', 'FI-08', ['off.fuelShut'], true],
      ['FI-08 dryer fuel not asked for', 'FI-08', ['on.fuelAskedOpen'], true],
      ['FI-09 no trip latched', 'FI-09', ['on.emergencyStop', 'off.emergencyStop'], true],
      ['FI-19 cutback below its limit', 'FI-19', ['on.cutbackOverLimit'], true],
      ['FI-20 vapour detector in calibration', 'FI-20', ['off.detectorCalibrated'], false],
      ['FI-21 no hot work permit open', 'FI-21', ['on.hotWorkOpen'], true],
      ['FI-22 contents of the cutback tank confirmed', 'FI-22', ['off.cutbackKnown'], true],
    ];
  it.each(cases)('%s', (_name, id, events, feedToo) => {
    const value = having(...events);
    expect(binderBlockedBy(value)).toContain(id);
    expect(binderMayFlow(value)).toBe(false);
    expect(feedBlockedBy(value).includes(id as never)).toBe(feedToo);
    expect(cutbackMayFeed(value)).toBe(!feedToo);
  });

  it('FI-10 binder valve proved shut before cutback is weighed; asking it open for binder alone is not yet open', () => {
    expect(feedBlockedBy(having('off.binderValveShut'))).toEqual(['FI-10']);
    expect(feedBlockedBy(having('on.binderValveAskedOpen'))).toEqual([]);
    expect(binderMayFlow(having('on.binderValveAskedOpen', 'off.binderValveShut'))).toBe(true);
  });

  it('FI-02 an old purge does not count after a new flame: its count must be heard to go first', () => {
    const burnt = ['off.fuelShut', 'on.flameSeen', 'off.flameSeen', 'on.fuelShut'];
    expect(binderMayFlow(having(...burnt, 'on.purged'))).toBe(false);
    expect(binderMayFlow(having(...burnt, 'off.purged'))).toBe(false);
    expect(binderMayFlow(having(...burnt, 'off.purged', 'on.purged'))).toBe(true);
  });
});

describe('what a flame waits for', () => {
  const cases: readonly (readonly [name: string, id: string, event: string, onlyToLight: boolean])[] = [
    ['FI-11 no solvent-bearing binder in the pug mill', 'FI-11', 'on.cutbackInMixer', false],
    ['FI-12 no solvent-bearing binder in the bucket', 'FI-12', 'on.cutbackInBucket', false],
    ['FI-13 binder valve proved shut, to light', 'FI-13', 'off.binderValveShut', true],
    ['FI-14 vapour low', 'FI-14', 'off.vapourLow', false],
    ['FI-15 vapour detector healthy', 'FI-15', 'off.detectorOk', false],
    ['FI-16 extraction proven', 'FI-16', 'off.extractionProved', false],
    ['FI-17 no trip latched', 'FI-17', 'on.emergencyStop', false],
    ['FI-20 vapour detector in calibration, for a flame too', 'FI-20', 'off.detectorCalibrated', false],
    ['FI-18 fuel proved shut, to light', 'FI-18', 'off.fuelShut', true],
  ];
  it.each(cases)('%s', (_name, id, event, onlyToLight) => {
    const value = having(event);
    expect(lightingBlockedBy(value)).toEqual([id]);
    expect(burnerMayLight(value)).toBe(false);
    expect(flameBlockedBy(value)).toEqual(onlyToLight ? [] : [id]);
    expect(burnerMayFire(value)).toBe(onlyToLight);
  });

  it('a burning burner may go on while binder (an emulsion) runs, and neither lights nor feeds cutback', () => {
    const value = having('off.fuelShut', 'on.flameSeen', 'on.binderValveAskedOpen', 'off.binderValveShut');
    expect(burnerMayFire(value)).toBe(true);
    expect(burnerMayLight(value)).toBe(false);
    expect(cutbackMayFeed(value)).toBe(false);
    expect(isTripped(value)).toBe(false);
  });
});

describe('what emulsion waits for', () => {
  it('FI-23 contents of the emulsion tank confirmed: cutback pumped into it would meet the flame as emulsion', () => {
    const value = having('off.emulsionKnown');
    expect(emulsionBlockedBy(value)).toEqual(['FI-23']);
    expect(emulsionMayFeed(value)).toBe(false);
    expect([binderMayFlow(value), cutbackMayFeed(value), burnerMayLight(value)]).toEqual([true, true, true]);
    expect(emulsionMayFeed(having('off.emulsionKnown', 'on.emulsionKnown'))).toBe(true);
  });
});

/** How each trip comes about, and what clears its cause. */
const STORIES: readonly (readonly [
  name: string,
  id: string,
  comes: readonly string[],
  clears: readonly string[],
])[] = [
  [
    'FT-01 flame with cutback in the pug mill',
    'FT-01',
    ['on.cutbackInMixer', 'on.flameSeen'],
    ['off.flameSeen'],
  ],
  [
    'FT-01 flame with cutback in the bucket',
    'FT-01',
    ['off.fuelShut', 'on.flameSeen', 'on.cutbackInBucket'],
    ['off.cutbackInBucket'],
  ],
  [
    'FT-10 fuel open and no flame seen for longer than a flame may fail',
    'FT-10',
    ['off.fuelShut', FLAME_MISSING],
    ['on.fuelShut'],
  ],
  ['FT-11 supply lost', 'FT-11', ['off.powerOk'], ['on.powerOk']],
  ['FT-02 vapour at the trip level', 'FT-02', ['on.vapourHigh'], ['off.vapourHigh']],
  [
    'FT-03 extraction lost with cutback in the pug mill',
    'FT-03',
    ['on.cutbackInMixer', 'off.extractionProved'],
    ['on.extractionProved'],
  ],
  [
    'FT-03 extraction lost with cutback open to the pug mill',
    'FT-03',
    [...BINDER_OPEN, 'off.extractionProved'],
    ['on.extractionProved'],
  ],
  [
    'FT-04 detector fault with cutback in the pug mill',
    'FT-04',
    ['on.cutbackInMixer', 'off.detectorOk'],
    ['on.detectorOk'],
  ],
  [
    'FT-04 detector fault with cutback open to the pug mill',
    'FT-04',
    [...BINDER_OPEN, 'off.detectorOk'],
    ['on.detectorOk'],
  ],
  ['FT-05 flame seen although fuel is proved shut', 'FT-05', ['on.flameSeen', FLAME_DIES], ['off.flameSeen']],
  [
    'FT-06 binder valve not proved shut with cutback in the bucket',
    'FT-06',
    [...BINDER_OPEN, 'off.binderValveAskedOpen', VALVE_CLOSES],
    ['on.binderValveShut'],
  ],
  [
    'FT-06 binder valve lost its proof unasked',
    'FT-06',
    ['on.cutbackInBucket', 'off.binderValveShut', VALVE_CLOSES],
    ['off.cutbackInBucket'],
  ],
  ['FT-07 emergency stop', 'FT-07', ['on.emergencyStop'], ['off.emergencyStop']],
  [
    'FT-08 aggregate too hot with binder open',
    'FT-08',
    [...BINDER_OPEN, 'on.aggregateOverLimit'],
    ['off.aggregateOverLimit'],
  ],
  [
    'FT-09 fuel not proved shut with cutback in the pug mill',
    'FT-09',
    ['on.cutbackInMixer', 'off.fuelShut'],
    ['on.fuelShut'],
  ],
  [
    'FT-09 fuel not proved shut with cutback in the bucket',
    'FT-09',
    ['on.cutbackInBucket', 'off.fuelShut'],
    ['off.cutbackInBucket'],
  ],
];

describe('trips', () => {
  it.each(STORIES)(
    '%s: latches, holds after its cause is gone, and leaves by reset alone',
    (_name, id, comes, clears) => {
      expect(isTripped(having(...comes.slice(0, -1)))).toBe(false);
      const tripped = having(...comes);
      expect(latchedCauses(tripped)).toEqual([id]);
      expect(standingCauses(tripped)).toContain(id);
      expect(resetBlockedBy(tripped)).toContain(id);
      expect([binderMayFlow(tripped), cutbackMayFeed(tripped), burnerMayFire(tripped)]).toEqual([
        false,
        false,
        false,
      ]);

      expect(latchedCauses(having(...comes, 'operator.resetTrip'))).toEqual([id]);
      const cleared = having(...comes, ...clears);
      expect(latchedCauses(cleared)).toEqual([id]);
      expect(resetBlockedBy(cleared)).toEqual([]);
      expect(isTripped(having(...comes, ...clears, 'operator.resetTrip'))).toBe(false);
    },
  );

  it('emulsion work never trips on extraction, detector, hot aggregate or an open valve', () => {
    const value = having(
      'on.binderValveAskedOpen',
      'off.binderValveShut',
      'off.extractionProved',
      'off.detectorOk',
      'on.aggregateOverLimit',
      'off.binderValveAskedOpen',
      VALVE_CLOSES,
    );
    expect(isTripped(value)).toBe(false);
  });

  it('keeps the first cause and shows a later one as standing; both must clear', () => {
    const both = ['on.vapourHigh', 'on.flameSeen', FLAME_DIES];
    expect(latchedCauses(having(...both))).toEqual(['FT-02']);
    expect(standingCauses(having(...both))).toEqual(['FT-02', 'FT-05']);
    expect(isTripped(having(...both, 'off.vapourHigh', 'operator.resetTrip'))).toBe(true);
    expect(isTripped(having(...both, 'off.vapourHigh', 'off.flameSeen', 'operator.resetTrip'))).toBe(false);
  });

  it('FT-07 takes over from a trip before it, so letting the button go starts nothing', () => {
    const value = having('on.vapourHigh', 'on.emergencyStop', 'off.emergencyStop');
    expect(latchedCauses(value)).toEqual(['FT-07']);
  });

  it('a lost supply takes over the latch of an earlier trip, but not that of the emergency stop', () => {
    expect(latchedCauses(having('on.vapourHigh', 'off.powerOk', 'on.powerOk'))).toEqual(['FT-11']);
    expect(latchedCauses(having('on.emergencyStop', 'off.powerOk', 'on.powerOk'))).toEqual(['FT-07']);
    expect(latchedCauses(having('off.powerOk', 'on.emergencyStop', 'off.emergencyStop'))).toEqual(['FT-07']);
  });

  it('fuel open with its flame seen in time is no trip', () => {
    expect(isTripped(having('off.fuelShut', 'on.flameSeen', FLAME_MISSING))).toBe(false);
  });

  it('a dying flame after the fuel is shut is no trip', () => {
    expect(isTripped(having('off.fuelShut', 'on.flameSeen', 'on.fuelShut', 'off.flameSeen'))).toBe(false);
  });
});

describe('the data', () => {
  it('every ID once, every field filled', () => {
    const ids = [...PERMISSIVES, ...TRIPS, ...SAFEGUARDS, ...TANK_CAUSES].map((one) => one.id as string);
    expect(new Set(ids).size).toBe(ids.length);
    expect(CAUSE_IDS).toEqual(ids);
    for (const id of CAUSE_IDS) {
      const { hazard, cause, mustNever, elements, clears, reset, words } = CAUSES[id];
      for (const text of [
        hazard,
        cause,
        mustNever,
        elements,
        clears,
        reset,
        words.met,
        words.unmet,
        words.clear,
      ])
        expect(text.length, id).toBeGreaterThan(3);
    }
  });
});
