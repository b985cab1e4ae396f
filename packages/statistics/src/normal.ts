/**
 * The standard normal law, accurate to the last digits in both tails. A risk of one in a million lives where
 * 1 − Φ(z) has already lost half its digits, so the upper tail is a function of its own.
 */

const INVERSE_ROOT_TWO_PI = 0.3989422804014327;
const MIDDLE_LIMIT = 0.66291;
const FAR_LIMIT = 5.656854249492381; // √32

/** exp(−z²/2): the square is split, so that the rounding error of a large z² does not reach the exponent. */
function bell(z: number): number {
  const coarse = Math.trunc(z * 16) / 16;
  return Math.exp(-0.5 * coarse * coarse) * Math.exp(-0.5 * (z - coarse) * (z + coarse));
}

/** Φ(z) − ½ for |z| ≤ 0.66291. */
function middle(z: number): number {
  const y = z * z;
  return (
    (z *
      ((((0.06568233791820745 * y + 2.2352520354606837) * y + 161.02823106855587) * y + 1067.6894854603709) *
        y +
        18154.98125334356)) /
    ((((y + 47.202581904688245) * y + 976.0985517377767) * y + 10260.932208618979) * y + 45507.78933502673)
  );
}

/** Q(z) for z > 0.66291. */
function outer(z: number): number {
  if (z <= FAR_LIMIT) {
    const top =
      (((((((1.0765576773720192e-8 * z + 0.39894151208813466) * z + 8.883149794388377) * z +
        93.50665613217785) *
        z +
        597.2702763948002) *
        z +
        2494.5375852903726) *
        z +
        6848.190450536283) *
        z +
        11602.65143764735) *
        z +
      9842.714838383978;
    const bottom =
      (((((((z + 22.266688044328117) * z + 235.387901782625) * z + 1519.3775994075547) * z +
        6485.558298266761) *
        z +
        18615.571640885097) *
        z +
        34900.95272114598) *
        z +
        38912.00328609327) *
        z +
      19685.429676859992;
    return (bell(z) * top) / bottom;
  }
  const y = 1 / (z * z);
  const top =
    ((((0.023073441764940174 * y + 0.215898534057957) * y + 0.12740116116024736) * y + 0.022235277870649807) *
      y +
      0.0014216191932278934) *
      y +
    0.000029112874951168793;
  const bottom =
    ((((y + 1.284260096144911) * y + 0.4682382124808651) * y + 0.06598813786892856) * y +
      0.0037823963320275824) *
      y +
    0.00007297515550839662;
  return (bell(z) * (INVERSE_ROOT_TWO_PI - (y * top) / bottom)) / z;
}

function refuseNaN(value: number, name: string): void {
  if (Number.isNaN(value)) throw new RangeError(`${name}: read NaN; a number is needed.`);
}

/**
 * Probability that a standard normal number lies above z, 1. Relative error about 1e-15 for z up to 37.5, where
 * doubles begin to lose digits (subnormal below 2.2e-308).
 * Source: rational Chebyshev fits of W. J. Cody (1969, Math. Comp. 23:631) in the form of his function ANORM
 * (1993, ACM TOMS 19:22, algorithm 715).
 * @param z  any number or ±Infinity; NaN: RangeError
 * @example normalTail(5)  // 2.86651571879194e-7
 */
export function normalTail(z: number): number {
  refuseNaN(z, 'z');
  if (z > MIDDLE_LIMIT) return z === Infinity ? 0 : outer(z);
  if (z < -MIDDLE_LIMIT) return z === -Infinity ? 1 : 1 - outer(-z);
  return 0.5 - middle(z);
}

/** Probability that a standard normal number lies below z, 1: normalTail(−z), equally accurate for negative z. */
export function normalCumulative(z: number): number {
  return normalTail(-z);
}

/** Density of the standard normal law at z, 1. */
export function normalDensity(z: number): number {
  refuseNaN(z, 'z');
  return Number.isFinite(z) ? INVERSE_ROOT_TWO_PI * bell(z) : 0;
}

/** Inverse for |q| ≤ 0.425, q = u − ½. */
function centralQuantile(q: number): number {
  const r = 0.180625 - q * q;
  return (
    (q *
      (((((((2509.0809287301227 * r + 33430.57558358813) * r + 67265.7709270087) * r + 45921.95393154987) *
        r +
        13731.69376550946) *
        r +
        1971.5909503065513) *
        r +
        133.14166789178438) *
        r +
        3.3871328727963665)) /
    (((((((5226.495278852854 * r + 28729.085735721943) * r + 39307.89580009271) * r + 21213.794301586597) *
      r +
      5394.196021424751) *
      r +
      687.1870074920579) *
      r +
      42.31333070160091) *
      r +
      1)
  );
}

/** Size of the quantile whose nearer tail is p, 0 < p ≤ 0.075. */
function tailQuantile(p: number): number {
  const root = Math.sqrt(-Math.log(p));
  if (root <= 5) {
    const r = root - 1.6;
    return (
      (((((((0.0007745450142783414 * r + 0.022723844989269184) * r + 0.2417807251774506) * r +
        1.2704582524523684) *
        r +
        3.6478483247632045) *
        r +
        5.769497221460691) *
        r +
        4.630337846156546) *
        r +
        1.4234371107496835) /
      (((((((1.0507500716444169e-9 * r + 0.0005475938084995345) * r + 0.015198666563616457) * r +
        0.14810397642748008) *
        r +
        0.6897673349851) *
        r +
        1.6763848301838038) *
        r +
        2.053191626637759) *
        r +
        1)
    );
  }
  const r = root - 5;
  return (
    (((((((2.0103343992922881e-7 * r + 0.000027115555687434876) * r + 0.0012426609473880784) * r +
      0.026532189526576124) *
      r +
      0.29656057182850487) *
      r +
      1.7848265399172913) *
      r +
      5.463784911164114) *
      r +
      6.657904643501103) /
    (((((((2.0442631033899397e-15 * r + 1.421511758316446e-7) * r + 0.000018463183175100548) * r +
      0.0007868691311456133) *
      r +
      0.014875361290850615) *
      r +
      0.1369298809227358) *
      r +
      0.599832206555888) *
      r +
      1)
  );
}

/** normalQuantile without its checks, for loops whose uniforms lie in (0, 1) already. */
export function normalQuantileInside(u: number): number {
  const q = u - 0.5;
  if (q <= 0.425 && q >= -0.425) return centralQuantile(q);
  return q < 0 ? -tailQuantile(u) : tailQuantile(1 - u);
}

/**
 * The number below which a standard normal number lies with probability u. Relative error about 1e-15.
 * Source: M. J. Wichura (1988), algorithm AS 241, routine PPND16, Applied Statistics 37:477.
 * @param u  probability, 0 to 1; 0 and 1 give ∓Infinity; outside or NaN: RangeError
 * @example normalQuantile(0.975)  // 1.959963984540054
 */
export function normalQuantile(u: number): number {
  if (!(u >= 0 && u <= 1)) throw new RangeError(`u: read ${u}; a probability from 0 to 1 is needed.`);
  if (u === 0) return -Infinity;
  return u === 1 ? Infinity : normalQuantileInside(u);
}
