import fc from 'fast-check';
import { expect, test } from 'vitest';
import { change, verdictOf } from './job.js';

/** What one thing measures, the job with it, the requirement that speaks of it, and which way is worse. */
interface Worse {
  readonly what: string;
  readonly id: string;
  readonly of: RegExp;
  readonly between: readonly [better: number, worse: number];
  readonly job: (mm: number) => string;
}

const stud = 'P1: { kind: stud, thread: M8, diameter: 7.90 ± 0.04, clock: 12, stands: ';

const all: readonly Worse[] = [
  {
    what: 'a stud longer into the other part',
    id: 'stud-end',
    of: /H1/,
    between: [18, 40],
    job: (mm) => change([`${stud}19`, `${stud}${mm}`]),
  },
  {
    what: 'a bore smaller about the shaft',
    id: 'bore-passes-shaft',
    of: /key/,
    between: [50, 8],
    job: (mm) => change(['bore: { diameter: 40 }', `bore: { diameter: ${mm} }`]),
  },
  {
    what: 'a stud nearer to the recess',
    id: 'web-between-cuts',
    of: /H1/,
    between: [66, 50],
    job: (mm) =>
      change(
        ['at P1 = (0.01, 62.00)', `at P1 = (0.01, ${mm})`],
        ['- over P1 P3 = 131.89', '- aside over P1 P3 = 131.89'],
      ),
  },
  {
    what: 'a spigot that stands out further',
    id: 'register-depth',
    of: /C3/,
    between: [2, 9],
    job: (mm) => change(['stands: 3.5', `stands: ${mm}`]),
  },
  {
    what: 'a register that is cut shallower',
    id: 'register-entry',
    of: /C3/,
    between: [4, 0.2],
    job: (mm) => change(['register: 80.03, depth: 4', `register: 80.03, depth: ${mm}`]),
  },
  {
    what: 'a spigot that is known less well',
    id: 'register-fit',
    of: /C3/,
    between: [0.001, 0.2],
    job: (mm) => change(['diameter: 80.00 ± 0.01', `diameter: 80.00 ± ${mm}`]),
  },
  {
    what: 'a plate thinner than the stack asks',
    id: 'stack-limit',
    of: /tip gap/,
    between: [24, 13],
    job: (mm) => change(['thickness: 20', `thickness: ${mm}`]),
  },
];

/** The margin of the requirement; what breaks off altogether (a hole in an opening) has none left. */
const marginOf = async ({ id, of, job }: Worse, mm: number): Promise<number> => {
  const { requirements } = await verdictOf(job(mm), { trials: 100 });
  const own = requirements.filter((r) => r.id === id && of.test(`${r.because} ${r.title}`));
  return Math.min(...own.map((r) => r.margin ?? Infinity));
};

test.each(all)('$what never raises the margin of that requirement', async (worse) => {
  const [better, worst] = worse.between;
  const at = fc.double({ min: 0, max: 1, noNaN: true }).map((t) => Number((better + t * (worst - better)).toFixed(3)));
  await fc.assert(
    fc.asyncProperty(at, at, async (a, b) => {
      const [one, other] = (a - b) * (worst - better) <= 0 ? [a, b] : [b, a];
      expect(await marginOf(worse, other)).toBeLessThanOrEqual((await marginOf(worse, one)) + 1e-6);
    }),
    { seed: 15, numRuns: 4 },
  );
});

test('what is told here can be seen to rise: the other way about the margin grows', async () => {
  for (const worse of all) {
    const [better, worst] = worse.between;
    expect(await marginOf(worse, better)).toBeGreaterThan(await marginOf(worse, worst));
  }
});
