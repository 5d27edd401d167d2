/**
 * Distribution functions the statistics stand on: normal, beta, chi-squared, Student's t and F.
 *
 * Formulas: Abramowitz & Stegun 26.5 (incomplete beta as a continued fraction), 6.5 (incomplete gamma), Wichura's
 * algorithm AS 241 for the normal quantile; held against two libraries in tests/lab/stats.
 */

const LANCZOS = [
  0.9999999999998099, 676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406,
  12.507343278686905, -0.13857109526572012, 9.984369578019572e-6, 1.5056327351493116e-7,
] as const;

/** Natural logarithm of the gamma function for x > 0 (Lanczos, g = 7, nine terms). */
export const lnGamma = (x: number): number => {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - lnGamma(1 - x);
  const z = x - 1;
  const t = z + 7.5;
  const sum = LANCZOS.reduce((total, c, i) => (i === 0 ? c : total + c / (z + i)), 0);
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
};

const STEPS_AT_MOST = 500;
const EPS = 1e-15;
const TINY = 1e-300;

/** Continued fraction of the incomplete beta function, by Lentz's method. */
const betaFraction = (x: number, a: number, b: number): number => {
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < TINY ? TINY : d);
  let h = d;
  for (let m = 1; m <= STEPS_AT_MOST; m += 1) {
    const steps = [
      (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)),
      (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1)),
    ];
    let factor = 1;
    for (const step of steps) {
      d = 1 + step * d;
      c = 1 + step / c;
      d = 1 / (Math.abs(d) < TINY ? TINY : d);
      c = Math.abs(c) < TINY ? TINY : c;
      factor = c * d;
      h *= factor;
    }
    if (Math.abs(factor - 1) < EPS) break;
  }
  return h;
};

/** Regularised incomplete beta function I_x(a, b): the chance that a beta variable lies below x. */
export const betaCdf = (x: number, a: number, b: number): number => {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(lnGamma(a + b) - lnGamma(a) - lnGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(1 - x, b, a)) / b;
};

/** Regularised lower incomplete gamma function P(a, x). */
export const gammaCdf = (x: number, a: number): number => {
  if (x <= 0) return 0;
  const front = Math.exp(-x + a * Math.log(x) - lnGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n <= STEPS_AT_MOST && term > sum * EPS; n += 1) {
      term *= x / (a + n);
      sum += term;
    }
    return sum * front;
  }
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let h = d;
  for (let i = 1; i <= STEPS_AT_MOST; i += 1) {
    const an = -i * (i - a);
    b += 2;
    d = an * d + b;
    d = 1 / (Math.abs(d) < TINY ? TINY : d);
    c = b + an / c;
    c = Math.abs(c) < TINY ? TINY : c;
    const factor = c * d;
    h *= factor;
    if (Math.abs(factor - 1) < EPS) break;
  }
  return 1 - front * h;
};

export const chiSquaredCdf = (x: number, freedom: number): number => gammaCdf(x / 2, freedom / 2);

/** Chance that a standard normal variable lies below z. */
export const normalCdf = (z: number): number => {
  if (z === 0) return 0.5;
  const half = gammaCdf((z * z) / 2, 0.5) / 2;
  return z > 0 ? 0.5 + half : 0.5 - half;
};

/** Chance that Student's t with so many degrees of freedom lies below t. */
export const tCdf = (t: number, freedom: number): number => {
  const tail = betaCdf(freedom / (freedom + t * t), freedom / 2, 0.5) / 2;
  return t > 0 ? 1 - tail : tail;
};

/** Chance that F with these degrees of freedom lies above f. */
export const fAbove = (f: number, between: number, within: number): number =>
  f <= 0 ? 1 : betaCdf(within / (within + between * f), within / 2, between / 2);

const horner = (terms: readonly number[], x: number): number => terms.reduceRight((sum, c) => sum * x + c, 0);

const CENTRE = [
  [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987,
    67265.7709270087, 33430.57558358813, 2509.0809287301227,
  ],
  [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852545,
  ],
] as const;
const SIDE = [
  [
    1.4234371107496837, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
] as const;
const TAIL = [
  [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133,
    1.8463183175100548e-5, 1.421511758316446e-7, 2.0442631033899397e-15,
  ],
] as const;

/** The z below which a standard normal variable lies with chance p, 0 < p < 1 (Wichura's AS 241, 16 digits). */
export const normalQuantile = (p: number): number => {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * horner(CENTRE[0], r)) / horner(CENTRE[1], r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const z =
    r <= 5
      ? horner(SIDE[0], r - 1.6) / horner(SIDE[1], r - 1.6)
      : horner(TAIL[0], r - 5) / horner(TAIL[1], r - 5);
  return q < 0 ? -z : z;
};
