/** The line of caution that stands on every page and every print. */
export const CAUTION =
  'Simulator, training and record keeping. Not a safety-rated controller. Local codes, the binder supplier’s sheet and licensed practice come first.';
