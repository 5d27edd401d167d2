/** The purge against what is published of it: e^-N, four and five changes, and what a vapour-filled drum needs. */
import { describe, expect, it } from 'vitest';
import { KEROSENE_LEL_VOL_PCT } from '../../machines/mix/published.ts';
import {
  leftLelPct,
  leftShare,
  secondsFor,
  volumesChanged,
  volumesUntil,
} from '../../machines/mix/wash-out.ts';
import { demoSpec } from '../plant/demo.ts';

describe('perfect mixing', () => {
  it('leaves 1.83 % after 4 changes (NFPA 86 asks at least 4) and 0.67 % after 5 (EN 746-2 type text, in general 5)', () => {
    expect(100 * leftShare(4)).toBeCloseTo(1.83, 2);
    expect(100 * leftShare(5)).toBeCloseTo(0.67, 2);
  });

  it('needs 6.35 changes from 100 vol % to 25 % of the lower limit (EN 746-2: below 25 %, chamber taken as full)', () => {
    const quarter = 0.25 * KEROSENE_LEL_VOL_PCT;
    expect(quarter).toBe(0.175);
    expect(volumesUntil(100, quarter)).toBeCloseTo(6.35, 2);
    expect(leftLelPct(volumesUntil(100, quarter), 100, KEROSENE_LEL_VOL_PCT)).toBeCloseTo(25, 9);
  });

  it('does not clear a vapour-filled drum in 4 changes: 1.83 vol % is 262 % of the lower limit, in 5: 96 %', () => {
    expect(leftLelPct(4, 100, KEROSENE_LEL_VOL_PCT)).toBeCloseTo(261.7, 1);
    expect(leftLelPct(5, 100, KEROSENE_LEL_VOL_PCT)).toBeCloseTo(96.3, 1);
  });

  it('needs nothing when the level is there already', () => expect(volumesUntil(0.1, 0.2)).toBe(0));
});

describe('the demonstration yard’s drum', () => {
  const { drumVolumeM3, fanM3S, purgeVolumes } = demoSpec.dryer;

  it('changes its volumes at its fan’s flow, and back', () => {
    const seconds = secondsFor(purgeVolumes, fanM3S, drumVolumeM3);
    expect(seconds).toBeCloseTo((purgeVolumes * drumVolumeM3) / fanM3S, 12);
    expect(volumesChanged(fanM3S, drumVolumeM3, seconds)).toBeCloseTo(purgeVolumes, 12);
  });

  it('never clears without flow', () =>
    expect(secondsFor(4, 0, drumVolumeM3)).toBe(Number.POSITIVE_INFINITY));
});
