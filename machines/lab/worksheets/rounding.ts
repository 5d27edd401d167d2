/** Rounding as test standards ask for it, and numbers written out with a fixed number of places. */

/**
 * Nearest value with so many places; a tie goes to the even digit (ASTM E29, rounding method). Ties are recognised
 * although binary fractions are never quite ties: within 1e-9 of the last place.
 */
export const roundedTo = (value: number, decimals: number): number => {
  const scale = 10 ** decimals;
  const scaled = value * scale;
  const floor = Math.floor(scaled);
  const tie = Math.abs(scaled - floor - 0.5) < 1e-9 * Math.max(1, Math.abs(scaled));
  const whole = tie ? (floor % 2 === 0 ? floor : floor + 1) : Math.round(scaled);
  // "+ 0" turns a negative zero into zero.
  return whole / scale + 0;
};

/** With exactly so many places, rounded as above. */
export const written = (value: number, decimals: number): string => {
  const text = roundedTo(value, decimals).toFixed(decimals);
  return text.startsWith('-') ? `−${text.slice(1)}` : text;
};

/** As few places as the number needs, at most six. */
export const plain = (value: number): string => {
  const text = String(roundedTo(value, 6));
  return text.startsWith('-') ? `−${text.slice(1)}` : text;
};
