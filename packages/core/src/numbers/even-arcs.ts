import { highWord, withoutLow } from './even-trig.js';

/** Inverse sines, cosines and tangents with the same digits in every engine; see `even-trig`. After fdlibm 5.3. */
const { atan2: engineAtan2 } = Math;

const arcs = [
  [0.4636476090008061, 2.2698777452961687e-17],
  [0.7853981633974483, 3.061616997868383e-17],
  [0.982793723247329, 1.3903311031230998e-17],
  [1.5707963267948966, 6.123233995736766e-17],
] as const;

export const evenAtan = (angle: number): number => {
  const hx = highWord(angle);
  const ix = hx & 0x7fffffff;
  if (Number.isNaN(angle)) return angle;
  if (ix >= 0x44100000) return angle > 0 ? arcs[3][0] + arcs[3][1] : -arcs[3][0] - arcs[3][1];
  let x = angle;
  let arc: readonly [number, number] | null = null;
  if (ix < 0x3fdc0000) {
    if (ix < 0x3e200000) return x;
  } else {
    x = Math.abs(x);
    if (ix < 0x3fe60000) [x, arc] = [(2 * x - 1) / (2 + x), arcs[0]];
    else if (ix < 0x3ff30000) [x, arc] = [(x - 1) / (x + 1), arcs[1]];
    else if (ix < 0x40038000) [x, arc] = [(x - 1.5) / (1 + 1.5 * x), arcs[2]];
    else [x, arc] = [-1 / x, arcs[3]];
  }
  const z = x * x;
  const w = z * z;
  const s1 =
    z *
    (0.3333333333333293 +
      w *
        (0.14285714272503466 +
          w *
            (0.09090887133436507 + w * (0.06661073137387531 + w * (0.049768779946159324 + w * 0.016285820115365782)))));
  const s2 =
    w *
    (-0.19999999999876483 +
      w * (-0.11111110405462356 + w * (-0.0769187620504483 + w * (-0.058335701337905735 + w * -0.036531572744216916))));
  if (arc === null) return x - x * (s1 + s2);
  const r = arc[0] - (x * (s1 + s2) - arc[1] - x);
  return hx < 0 ? -r : r;
};

/** π less what its double holds of it. */
const REST = 1.2246467991473532e-16;

export const evenAtan2 = (y: number, x: number): number => {
  if (Number.isNaN(x) || Number.isNaN(y)) return x + y;
  // Zeros and infinities have exact answers, which every engine gives.
  if (x === 0 || y === 0 || !Number.isFinite(x) || !Number.isFinite(y)) return engineAtan2(y, x);
  const k = ((highWord(y) & 0x7fffffff) - (highWord(x) & 0x7fffffff)) >> 20;
  const z = k > 60 ? arcs[3][0] + 0.5 * REST : x < 0 && k < -60 ? 0 : evenAtan(Math.abs(y / x));
  if (x > 0) return y < 0 ? -z : z;
  return y < 0 ? z - REST - Math.PI : Math.PI - (z - REST);
};

/** The rational approximation of arcsine's remainder. */
const arcRest = (z: number): number => {
  const p =
    z *
    (0.16666666666666666 +
      z *
        (-0.3255658186224009 +
          z *
            (0.20121253213486293 +
              z * (-0.04005553450067941 + z * (0.0007915349942898145 + z * 0.00003479331075960212)))));
  const q =
    1 + z * (-2.403394911734414 + z * (2.0209457602335057 + z * (-0.6882839716054533 + z * 0.07703815055590194)));
  return p / q;
};
const [, , , [HALF_HIGH, HALF_LOW]] = arcs;

export const evenAsin = (x: number): number => {
  const a = Math.abs(x);
  if (!(a <= 1)) return NaN;
  if (a === 1) return x * HALF_HIGH + x * HALF_LOW;
  if (a < 0.5) return (highWord(x) & 0x7fffffff) < 0x3e400000 ? x : x + x * arcRest(x * x);
  const t = (1 - a) * 0.5;
  const r = arcRest(t);
  const s = Math.sqrt(t);
  let angle: number;
  if ((highWord(x) & 0x7fffffff) >= 0x3fef3333) angle = HALF_HIGH - (2 * (s + s * r) - HALF_LOW);
  else {
    const w = withoutLow(s);
    const c = (t - w * w) / (s + w);
    const p = 2 * s * r - (HALF_LOW - 2 * c);
    angle = arcs[1][0] - (p - (arcs[1][0] - 2 * w));
  }
  return x > 0 ? angle : -angle;
};

export const evenAcos = (x: number): number => {
  const a = Math.abs(x);
  if (!(a <= 1)) return NaN;
  if (a === 1) return x > 0 ? 0 : Math.PI + 2 * HALF_LOW;
  if (a < 0.5) {
    if ((highWord(x) & 0x7fffffff) <= 0x3c600000) return HALF_HIGH + HALF_LOW;
    return HALF_HIGH - (x - (HALF_LOW - x * arcRest(x * x)));
  }
  if (x < 0) {
    const z = (1 + x) * 0.5;
    const s = Math.sqrt(z);
    return Math.PI - 2 * (s + (arcRest(z) * s - HALF_LOW));
  }
  const z = (1 - x) * 0.5;
  const s = Math.sqrt(z);
  const head = withoutLow(s);
  const c = (z - head * head) / (s + head);
  return 2 * (head + (arcRest(z) * s + c));
};
