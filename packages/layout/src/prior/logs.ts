/** log n!, by sums: n is a count of holes or places. */
export const logFactorial = (n: number): number => {
  let s = 0;
  for (let k = 2; k <= n; k++) s += Math.log(k);
  return s;
};

export const logChoose = (n: number, k: number): number => logFactorial(n) - logFactorial(k) - logFactorial(n - k);

/** log Σ exp, without overflow; −∞ for none. */
export const logSum = (logs: readonly number[]): number => {
  const most = Math.max(...logs, Number.NEGATIVE_INFINITY);
  if (most === Number.NEGATIVE_INFINITY) return most;
  return most + Math.log(logs.reduce((s, l) => s + Math.exp(l - most), 0));
};

export const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
export const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b;

/** Log of the number of ways to match features in p pairs with m left over. */
export const logPairings = (p: number, m: number): number =>
  logFactorial(2 * p + m) - logFactorial(m) - logFactorial(p) - p * Math.log(2);
