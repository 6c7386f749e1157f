import { isDistance, readOf } from '@fayplate/job';

/** A feature as it truly is: mm from its face's centre, y up. */
export interface TrueFeature {
  readonly x: number;
  readonly y: number;
  readonly r: number;
}
export type Truth = Readonly<Record<string, TrueFeature>>;

const IN = 25.4;

const onCircle = (radius: number, hours: readonly number[], letter: string, r: number): Truth =>
  Object.fromEntries(
    hours.map((h, i) => {
      const a = (h * Math.PI) / 6;
      return [`${letter}${i + 1}`, { x: radius * Math.sin(a), y: radius * Math.cos(a), r }];
    }),
  );

/** The two parts of the lift pump, their holes named in the order of the clock. */
export const pump: Truth = {
  spigot: { x: 0, y: 0, r: 2.75 * IN },
  ...onCircle(3.75 * IN, [12, 2, 3, 5, 7, 9, 10], 'P', (0.371 / 2) * IN),
};
export const motor: Truth = {
  spigot: { x: 0, y: 0, r: 65 },
  ...onCircle(82.5, [1.5, 4.5, 7.5, 10.5], 'M', 6),
};

/** What a true instrument reads for `over P1 P3`: inches to the thousandth, degrees to the tenth. */
export const readingOf = (head: string, truth: Truth): string => {
  const [kind = '', ...ids] = head.split(' ');
  const [a, b, c] = ids.map((id) => {
    const at = truth[id];
    if (at === undefined) throw new Error(`${head}: there is no ${id}`);
    return at;
  });
  if (a === undefined) throw new Error(head);
  if (kind === 'dia') return ((2 * a.r) / IN).toFixed(3);
  if (b === undefined) throw new Error(head);
  if (isDistance(kind)) return (readOf(kind, Math.hypot(a.x - b.x, a.y - b.y), a.r, b.r) / IN).toFixed(3);
  if (kind === 'angle' && c !== undefined) {
    const turn = Math.atan2(a.y - b.y, a.x - b.x) - Math.atan2(c.y - b.y, c.x - b.x);
    return (Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) * (180 / Math.PI)).toFixed(1);
  }
  throw new Error(`no true value for ${head}`);
};
