/** Each latched cause of a trip with what still has to be done about it; what else keeps a reset is listed apart. */

export type TripReason = {
  readonly cause: string;
  /** "cleared" when nothing of this cause is left; else what clears it, or that it still stands. */
  readonly now: string;
  readonly cleared: boolean;
};

/** `keeps` are the reasons a reset is refused for; those of a latched cause begin with its very words. */
export function tripReasons(
  causes: readonly string[],
  keeps: readonly string[],
): { readonly reasons: readonly TripReason[]; readonly also: readonly string[] } {
  const reasons = causes.map((cause) => {
    const kept = keeps.find((each) => each.includes(cause));
    if (kept === undefined) return { cause, now: 'Cleared.', cleared: true };
    const remedy = kept.slice(kept.indexOf(cause) + cause.length).replace(/^[.:;,\s]+/, '');
    return { cause, now: remedy === '' ? 'It still stands.' : remedy, cleared: false };
  });
  return { reasons, also: keeps.filter((each) => !causes.some((cause) => each.includes(cause))) };
}
