/** A lying cylinder with flat ends: dip to volume and back (plane geometry). */

/** Volume in m³ under a dip of dipM metres from the bottom; outside 0…diameter it is held at the ends. */
export const cylinderM3 = (diameterM: number, lengthM: number, dipM: number): number => {
  const r = diameterM / 2;
  if (dipM <= 0) return 0;
  if (dipM >= diameterM) return Math.PI * r * r * lengthM;
  const below = r - dipM;
  return lengthM * (r * r * Math.acos(below / r) - below * Math.sqrt(dipM * (diameterM - dipM)));
};

/**
 * Dip in m that holds volumeM3, to 1e-9 m. Newton's steps (the slope is the width of the surface)
 * kept inside a shrinking bracket, as the width vanishes at the bottom and the top.
 */
export const dipOfM = (
  diameterM: number,
  lengthM: number,
  volumeM3: number,
  guessM = diameterM / 2,
): number => {
  if (volumeM3 <= 0) return 0;
  const full = (Math.PI * diameterM * diameterM * lengthM) / 4;
  if (volumeM3 >= full) return diameterM;
  let low = 0;
  let high = diameterM;
  let dip = guessM > 0 && guessM < diameterM ? guessM : diameterM / 2;
  for (let i = 0; i < 80; i += 1) {
    const over = cylinderM3(diameterM, lengthM, dip) - volumeM3;
    if (over > 0) high = dip;
    else low = dip;
    const slope = 2 * lengthM * Math.sqrt(dip * (diameterM - dip));
    let next = slope > 0 ? dip - over / slope : (low + high) / 2;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - dip) < 1e-10) return next;
    dip = next;
  }
  return dip;
};
