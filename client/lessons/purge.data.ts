/** What a purge leaves in the drum, for the second lesson. */
import { KEROSENE_LEL_VOL_PCT } from '../../machines/mix/published.ts';
import { leftLelPct, leftShare, secondsFor, volumesUntil } from '../../machines/mix/wash-out.ts';
import type { LessonFigures } from './figures.ts';

/** A drum counts as clear at this share of the lower limit. */
export const CLEAR_LEL_PCT = 25;

export type PurgeRow = {
  readonly volumes: number;
  readonly seconds: number;
  readonly leftPct: number;
  readonly lelPct: number;
};

/** The drum after so many volumes, first filled with vapour to fromVolPct. */
export const purgeAt = ({ dryer }: LessonFigures, volumes: number, fromVolPct: number): PurgeRow => ({
  volumes,
  seconds: secondsFor(volumes, dryer.fanM3S, dryer.drumVolumeM3),
  leftPct: 100 * leftShare(volumes),
  lelPct: leftLelPct(volumes, fromVolPct, KEROSENE_LEL_VOL_PCT),
});

/** Volumes until the drum is clear. */
export const volumesToClear = (fromVolPct: number): number =>
  volumesUntil(fromVolPct, (CLEAR_LEL_PCT / 100) * KEROSENE_LEL_VOL_PCT);

export const MOST_VOLUMES = 8;

/** A row for every tenth of a volume. */
export const purgeRows = (figures: LessonFigures, fromVolPct: number): readonly PurgeRow[] =>
  Array.from({ length: MOST_VOLUMES * 10 + 1 }, (_, i) => purgeAt(figures, i / 10, fromVolPct));

/** The counts people talk about: 4, 5, and what a vapour-filled drum really needs. */
export const talkedOf = (figures: LessonFigures, fromVolPct: number): readonly PurgeRow[] =>
  [4, 5, volumesToClear(100)].map((volumes) => purgeAt(figures, volumes, fromVolPct));
