/**
 * Sines, tangents and their inverses that have the same digits wherever they are worked out. Engines differ in the last digit of their own
 * (ECMAScript leaves it open), and a job must give the same bytes on a command line and in a browser: what ships is bundled with these in
 * place of the engine's. After fdlibm 5.3 (Sun Microsystems, 1993, freely granted), the freely distributable mathematical library: each
 * within one unit of the last place.
 */
// Taken from the engine by name: when this is bundled, `Math.sin` and its like stand for the functions below.
const { sin: engineSin, cos: engineCos, tan: engineTan, atan2: engineAtan2 } = Math;
const float = new Float64Array(1);
const words = new Uint32Array(float.buffer);
/** Which half of a number holds its sign and exponent. */
const HIGH = new Uint8Array(new Uint32Array([1]).buffer)[0] === 1 ? 1 : 0;
const LOW = 1 - HIGH;

/** The upper 32 bits of a number. */
export const highWord = (x: number): number => {
  float[0] = x;
  return (words[HIGH] as number) | 0;
};
/** The number with its lower 32 bits set to zero. */
export const withoutLow = (x: number): number => {
  float[0] = x;
  words[LOW] = 0;
  return float[0];
};
/** The number with other upper 32 bits. */
export const withHigh = (x: number, high: number): number => {
  float[0] = x;
  words[HIGH] = high;
  return float[0];
};

const sinKernel = (x: number, y: number, hasTail: boolean): number => {
  const z = x * x;
  const v = z * x;
  const r =
    8.33333333332248946124e-3 +
    z *
      (-1.98412698298579493134e-4 +
        z * (2.75573137070700676789e-6 + z * (-2.50507602534068634195e-8 + z * 1.58969099521155010221e-10)));
  const s1 = -1.66666666666666324348e-1;
  return hasTail ? x - (z * (0.5 * y - v * r) - y - v * s1) : x + v * (s1 + z * r);
};

const cosKernel = (x: number, y: number): number => {
  const ix = highWord(x) & 0x7fffffff;
  if (ix < 0x3e400000) return 1;
  const z = x * x;
  const r =
    z *
    (4.16666666666666019037e-2 +
      z *
        (-1.38888888888741095749e-3 +
          z *
            (2.48015872894767294178e-5 +
              z * (-2.75573143513906633035e-7 + z * (2.0875723212981748279e-9 + z * -1.13596475577881948265e-11)))));
  if (ix < 0x3fd33333) return 1 - (0.5 * z - (z * r - x * y));
  const q = ix > 0x3fe90000 ? 0.28125 : withHigh(0, ix - 0x00200000);
  const hz = 0.5 * z - q;
  return 1 - q - (hz - (z * r - x * y));
};

const tanTerms = [
  3.33333333333334091986e-1, 1.33333333333201242699e-1, 5.39682539762260521377e-2, 2.18694882948595424599e-2,
  8.86323982359930005737e-3, 3.59207910759131235356e-3, 1.45620945432529025516e-3, 5.88041240820264096874e-4,
  2.46463134818469906812e-4, 7.817944429395570923e-5, 7.14072491382608190305e-5, -1.85586374855275456654e-5,
  2.59073051863633712884e-5,
] as const;

const tanKernel = (angle: number, tail: number, isEven: boolean): number => {
  let [x, y] = [angle, tail];
  const hx = highWord(x);
  const ix = hx & 0x7fffffff;
  const isLarge = ix >= 0x3fe59428;
  if (isLarge) {
    if (x < 0) [x, y] = [-x, -y];
    x = 7.85398163397448278999e-1 - x + (3.06161699786838301793e-17 - y);
    y = 0;
  }
  const z = x * x;
  const w = z * z;
  const [t0, t1, t2, t3, t4, t5, t6, t7, t8, t9, t10, t11, t12] = tanTerms;
  const r = t1 + w * (t3 + w * (t5 + w * (t7 + w * (t9 + w * t11))));
  const v = z * (t2 + w * (t4 + w * (t6 + w * (t8 + w * (t10 + w * t12)))));
  const s = z * x;
  const rest = y + z * (s * (r + v) + y) + t0 * s;
  const sum = x + rest;
  if (isLarge) {
    const sign = isEven ? 1 : -1;
    return (1 - ((hx >> 30) & 2)) * (sign - 2 * (x - ((sum * sum) / (sum + sign) - rest)));
  }
  if (isEven) return sum;
  const head = withoutLow(sum);
  const a = -1 / sum;
  const t = withoutLow(a);
  return t + a * (1 + t * head + t * (rest - (head - x)));
};

/** π/2 in three parts of 33 bits, each with what is left after it. */
const parts = [
  [1.57079632673412561417, 6.07710050650619224932e-11],
  [6.0771005063039659766e-11, 2.02226624879595063154e-21],
  [2.0222662487111664558e-21, 8.47842766036889956997e-32],
] as const;
/** Angles larger than this are no angles of a drawing: the engine's own digits do. */
const LARGEST = 1e6;

/** x as a whole number of right angles, what is left of it, and the tail of that. */
const reduced = (x: number): readonly [number, number, number] => {
  const a = Math.abs(x);
  const n = Math.floor(a * 6.36619772367581382433e-1 + 0.5);
  let r = a - n * parts[0][0];
  let w = n * parts[0][1];
  const exponent = (highWord(a) >> 20) & 0x7ff;
  let y = r - w;
  for (const [k, far] of [
    [1, 16],
    [2, 49],
  ] as const) {
    if (exponent - ((highWord(y) >> 20) & 0x7ff) <= far) break;
    const t = r;
    w = n * (parts[k] as readonly [number, number])[0];
    r = t - w;
    w = n * (parts[k] as readonly [number, number])[1] - (t - r - w);
    y = r - w;
  }
  const tail = r - y - w;
  return x < 0 ? [-n, -y, -tail] : [n, y, tail];
};

const QUARTER = 0x3fe921fb;

export const evenSin = (x: number): number => {
  const ix = highWord(x) & 0x7fffffff;
  if (ix <= QUARTER) return ix < 0x3e400000 ? x : sinKernel(x, 0, false);
  if (!(Math.abs(x) < LARGEST)) return engineSin(x);
  const [n, y, tail] = reduced(x);
  const s = (n & 1) === 0 ? sinKernel(y, tail, true) : cosKernel(y, tail);
  return (n & 2) === 0 ? s : -s;
};

export const evenCos = (x: number): number => {
  const ix = highWord(x) & 0x7fffffff;
  if (ix <= QUARTER) return cosKernel(x, 0);
  if (!(Math.abs(x) < LARGEST)) return engineCos(x);
  const [n, y, tail] = reduced(x);
  const c = (n & 1) === 0 ? cosKernel(y, tail) : sinKernel(y, tail, true);
  return ((n + 1) & 2) === 0 ? c : -c;
};

export const evenTan = (x: number): number => {
  const ix = highWord(x) & 0x7fffffff;
  if (ix <= QUARTER) return ix < 0x3e300000 ? x : tanKernel(x, 0, true);
  if (!(Math.abs(x) < LARGEST)) return engineTan(x);
  const [n, y, tail] = reduced(x);
  return tanKernel(y, tail, (n & 1) === 0);
};

const arcs = [
  [4.63647609000806093515e-1, 2.26987774529616870924e-17],
  [7.85398163397448278999e-1, 3.06161699786838301793e-17],
  [9.82793723247329054082e-1, 1.39033110312309984516e-17],
  [1.570796326794896558, 6.12323399573676603587e-17],
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
    (3.33333333333329318027e-1 +
      w *
        (1.42857142725034663711e-1 +
          w *
            (9.09088713343650656196e-2 +
              w * (6.66107313738753120669e-2 + w * (4.97687799461593236017e-2 + w * 1.62858201153657823623e-2)))));
  const s2 =
    w *
    (-1.99999999998764832476e-1 +
      w *
        (-1.1111110405462355788e-1 +
          w * (-7.69187620504482999495e-2 + w * (-5.83357013379057348645e-2 + w * -3.6531572744216915527e-2))));
  if (arc === null) return x - x * (s1 + s2);
  const r = arc[0] - (x * (s1 + s2) - arc[1] - x);
  return hx < 0 ? -r : r;
};

/** π less what its double holds of it. */
const REST = 1.2246467991473531772e-16;

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
    (1.66666666666666657415e-1 +
      z *
        (-3.25565818622400915405e-1 +
          z *
            (2.01212532134862925881e-1 +
              z * (-4.00555345006794114027e-2 + z * (7.91534994289814532176e-4 + z * 3.4793310759602116757e-5)))));
  const q =
    1 +
    z *
      (-2.40339491173441421878 +
        z * (2.02094576023350569471 + z * (-6.8828397160545329303e-1 + z * 7.70381505559019352791e-2)));
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
