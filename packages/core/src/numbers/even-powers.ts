import { highWord, withHigh, withoutLow } from './even-trig.js';

/** Logarithms, powers and roots with the same digits in every engine; see `even-trig`. After fdlibm 5.3. */
const { log: engineLog, log1p: engineLog1p, exp: engineExp, pow: enginePow } = Math;
const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;

const logTerms = (z: number, w: number): number =>
  w * (0.3999999999940942 + w * (0.22222198432149784 + w * 0.15313837699209373)) +
  z * (0.6666666666666735 + w * (0.2857142874366239 + w * (0.1818357216161805 + w * 0.14798198605116586)));

export const evenLog = (number: number): number => {
  if (!(number > 0) || number === Infinity) return engineLog(number);
  let x = number;
  let k = 0;
  if (highWord(x) < 0x00100000) {
    k = -54;
    x *= 18014398509481984;
  }
  let hx = highWord(x);
  k += (hx >> 20) - 1023;
  hx &= 0x000fffff;
  const i = (hx + 0x95f64) & 0x100000;
  x = withHigh(x, hx | (i ^ 0x3ff00000));
  k += i >> 20;
  const f = x - 1;
  if ((0x000fffff & (2 + hx)) < 3) {
    if (f === 0) return k === 0 ? 0 : k * LN2_HIGH + k * LN2_LOW;
    const r = f * f * (0.5 - 0.3333333333333333 * f);
    return k === 0 ? f - r : k * LN2_HIGH - (r - k * LN2_LOW - f);
  }
  const s = f / (2 + f);
  const z = s * s;
  const r = logTerms(z, z * z);
  if (((hx - 0x6147a) | (0x6b851 - hx)) > 0) {
    const half = 0.5 * f * f;
    return k === 0 ? f - (half - s * (half + r)) : k * LN2_HIGH - (half - (s * (half + r) + k * LN2_LOW) - f);
  }
  return k === 0 ? f - s * (f - r) : k * LN2_HIGH - (s * (f - r) - k * LN2_LOW - f);
};

/** To base 10 and 2 as quotients: good to two units of the last place, and the same everywhere. */
export const evenLog10 = (x: number): number => {
  const v = evenLog(x) / Math.LN10;
  const whole = Math.round(v);
  return Math.abs(v - whole) < 1e-14 * Math.max(1, Math.abs(v)) && Number(`1e${whole}`) === x ? whole : v;
};
export const evenLog2 = (x: number): number => {
  const v = evenLog(x) / Math.LN2;
  const whole = Math.round(v);
  return Math.abs(v - whole) < 1e-14 * Math.max(1, Math.abs(v)) && scaled(1, whole) === x ? whole : v;
};

/** x · 2ⁿ, for results that are neither too large nor too small to be written whole. */
const scaled = (x: number, n: number): number => {
  const half = Math.trunc(n / 2);
  return x * withHigh(0, (1023 + half) << 20) * withHigh(0, (1023 + n - half) << 20);
};

export const evenLog1p = (x: number): number => {
  // log(1 + x), with what the sum drops put back (D. Goldberg, What every computer scientist should know about
  // floating-point arithmetic, 1991, theorem 4).
  const u = 1 + x;
  if (u === 1 || !Number.isFinite(u) || u <= 0) return u === 1 ? x : engineLog1p(x);
  return (evenLog(u) * x) / (u - 1);
};

export const evenExp = (number: number): number => {
  let x = number;
  if (Number.isNaN(x) || x > 709.782712893384 || x < -708) return engineExp(x);
  const hx = highWord(x) & 0x7fffffff;
  let [high, low, k] = [0, 0, 0];
  if (hx > 0x3fd62e42) {
    if (hx < 0x3ff0a2b2) {
      if (x === 1) return Math.E;
      k = x < 0 ? -1 : 1;
      [high, low] = [x - k * LN2_HIGH, k * LN2_LOW];
    } else {
      k = Math.trunc(Math.LOG2E * x + (x < 0 ? -0.5 : 0.5));
      [high, low] = [x - k * LN2_HIGH, k * LN2_LOW];
    }
    x = high - low;
  } else if (hx < 0x3e300000) return 1 + x;
  const t = x * x;
  const c =
    x -
    t *
      (0.16666666666666602 +
        t *
          (-0.0027777777777015593 +
            t * (0.00006613756321437934 + t * (-0.0000016533902205465252 + t * 4.1381367970572385e-8))));
  if (k === 0) return 1 - ((x * c) / (c - 2) - x);
  return scaled(1 - (low - (x * c) / (2 - c) - high), k);
};

/** How many bits a factor of a power is cut to, so that products of the parts are exact. */
const raised = (x: number, n: number): number => {
  let [result, factor, left] = [1, x, n];
  while (left > 0) {
    if ((left & 1) === 1) result *= factor;
    factor *= factor;
    left >>= 1;
  }
  return result;
};

/** x to the y. A whole y is multiplied out; else by logarithm and exponential in two parts each. */
export const evenPow = (x: number, y: number): number => {
  if (Number.isInteger(y) && Math.abs(y) <= 1024 && Number.isFinite(x)) return y < 0 ? 1 / raised(x, -y) : raised(x, y);
  if (y === 0.5 && x >= 0) return Math.sqrt(x);
  if (!(x > 0) || !Number.isFinite(x) || !Number.isFinite(y)) return enginePow(x, y);
  // log x = a + b and y = c + d, each a short number and its rest: the large product is exact, the small ones are added
  // after.
  const a = withoutLow(evenLog(x));
  const b = evenLog(x / evenExp(a));
  const c = withoutLow(y);
  const large = a * c;
  const whole = evenExp(large);
  return Number.isFinite(whole) && whole > 0 ? whole * evenExp(b * y + a * (y - c)) : whole;
};

export const evenCbrt = (x: number): number => {
  if (x === 0 || !Number.isFinite(x)) return x;
  const a = Math.abs(x);
  let r = evenExp(evenLog(a) / 3);
  // Two of Newton's steps settle the last digit.
  for (let n = 0; n < 2; n++) r -= (r - a / (r * r)) / 3;
  return x < 0 ? -r : r;
};
