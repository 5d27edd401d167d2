/** Bounds that hold for every emulsion, whatever its file says. */

/** °C, an emulsion is never stored hotter; emulsion makers' association (AEMA) storage advice. */
export const EMULSION_MAX_C = 85;
/** °C, above this an emulsion does not freeze; the same advice: it is never let freeze. */
export const EMULSION_FREEZES_C = 0;
