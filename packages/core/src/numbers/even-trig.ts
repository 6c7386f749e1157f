/**
 * Sines and tangents (their inverses: `even-arcs`) that have the same digits wherever they are worked out. Engines
 * differ in the last digit of their own (ECMAScript leaves it open), and a job must give the same bytes on a command
 * line and in a browser: what ships is bundled with these in place of the engine's. After fdlibm 5.3 (Sun Microsystems,
 * 1993, freely granted), the freely distributable mathematical library: each within one unit of the last place.
 */
// Taken from the engine by name: when this is bundled, `Math.sin` and its like stand for the functions below.
const { sin: engineSin, cos: engineCos, tan: engineTan } = Math;
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
    0.00833333333332249 +
    z *
      (-0.0001984126982985795 +
        z * (0.0000027557313707070068 + z * (-2.5050760253406863e-8 + z * 1.58969099521155e-10)));
  const s1 = -0.16666666666666632;
  return hasTail ? x - (z * (0.5 * y - v * r) - y - v * s1) : x + v * (s1 + z * r);
};

const cosKernel = (x: number, y: number): number => {
  const ix = highWord(x) & 0x7fffffff;
  if (ix < 0x3e400000) return 1;
  const z = x * x;
  const r =
    z *
    (0.0416666666666666 +
      z *
        (-0.001388888888887411 +
          z *
            (0.00002480158728947673 +
              z * (-2.7557314351390663e-7 + z * (2.087572321298175e-9 + z * -1.1359647557788195e-11)))));
  if (ix < 0x3fd33333) return 1 - (0.5 * z - (z * r - x * y));
  const q = ix > 0x3fe90000 ? 0.28125 : withHigh(0, ix - 0x00200000);
  const hz = 0.5 * z - q;
  return 1 - q - (hz - (z * r - x * y));
};

const tanTerms = [
  0.3333333333333341, 0.13333333333320124, 0.05396825397622605, 0.021869488294859542, 0.0088632398235993,
  0.0035920791075913124, 0.0014562094543252903, 0.0005880412408202641, 0.0002464631348184699, 0.00007817944429395571,
  0.00007140724913826082, -0.000018558637485527546, 0.00002590730518636337,
] as const;

const tanKernel = (angle: number, tail: number, isEven: boolean): number => {
  let [x, y] = [angle, tail];
  const hx = highWord(x);
  const ix = hx & 0x7fffffff;
  const isLarge = ix >= 0x3fe59428;
  if (isLarge) {
    if (x < 0) [x, y] = [-x, -y];
    x = 0.7853981633974483 - x + (3.061616997868383e-17 - y);
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
  [1.5707963267341256, 6.077100506506192e-11],
  [6.077100506303966e-11, 2.0222662487959506e-21],
  [2.0222662487111665e-21, 8.4784276603689e-32],
] as const;
/** Angles larger than this are no angles of a drawing: the engine's own digits do. */
const LARGEST = 1e6;

/** x as a whole number of right angles, what is left of it, and the tail of that. */
const reduced = (x: number): readonly [number, number, number] => {
  const a = Math.abs(x);
  const n = Math.floor(a * 0.6366197723675814 + 0.5);
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
