/** What a purge leaves: air blown through a well-mixed volume thins what is in it by e for each volume changed. */

/** Share of the first concentration that is left after so many volumes changed (standard: perfect mixing). */
export const leftShare = (volumes: number): number => Math.exp(-volumes);

/** Volumes to change until a concentration has fallen to another of the same unit; 0 when it is there already. */
export const volumesUntil = (from: number, to: number): number => (from <= to ? 0 : Math.log(from / to));

/** Volumes changed by a flow in m³/s through volumeM3 in so many seconds. */
export const volumesChanged = (flowM3S: number, volumeM3: number, seconds: number): number =>
  (flowM3S * seconds) / volumeM3;

/** Seconds a flow in m³/s needs to change so many volumes of volumeM3; Infinity when nothing flows. */
export const secondsFor = (volumes: number, flowM3S: number, volumeM3: number): number =>
  (volumes * volumeM3) / flowM3S;

/** Vapour left as % of a lower limit in vol %, after so many volumes, in a space first filled to fromVolPct. */
export const leftLelPct = (volumes: number, fromVolPct: number, lelVolPct: number): number =>
  (100 * fromVolPct * leftShare(volumes)) / lelVolPct;
