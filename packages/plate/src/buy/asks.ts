import { distance } from '@fayplate/core';
import { type Face, type Job, type Reading, isDistance, readOf, sidesOf } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import { ASKED, type Ask, type World, isSold, plain } from './worlds.js';

const radiusOf = (used: UsedPattern, id: string): number => used.pattern.radii[used.pattern.ids.indexOf(id)] ?? 0;

/** What is measured, in words for someone who has the part and no job file. */
const plainWords = (r: Reading): string => {
  const [a = '', b = ''] = r.features;
  if (!isDistance(r.kind)) return `the diameter of ${a}`;
  const sides = sidesOf(r.kind);
  if (sides === null) return `the metal between ${a} and the wall of ${b}, in which it lies`;
  const [first, second] = sides;
  if (first !== second || first === 'centre') return `from the ${first} of ${a} to the ${second} of ${b}`;
  return `${first === 'far side' ? 'across the far' : 'between the near'} sides of ${a} and ${b}`;
};

/** What a reading of two or one features would read on a drawn part; null for kinds that are none of these. */
const readOn = (r: Reading): ((used: UsedPattern) => number) | null => {
  const [a = '', b = ''] = r.features;
  const apart = (u: UsedPattern): number => {
    const [p, q] = [a, b].map((id) => u.pattern.points[u.pattern.ids.indexOf(id)]);
    return p === undefined || q === undefined ? 0 : distance(p, q);
  };
  const { kind } = r;
  if (isDistance(kind)) return (u) => readOf(kind, apart(u), radiusOf(u, a), radiusOf(u, b));
  return kind === 'dia' ? (u) => 2 * radiusOf(u, a) : null;
};

const inWords: Readonly<Record<(typeof plain)[number], string>> = {
  stands: 'how far $ stands out',
  deep: 'how deep $ is',
  height: 'how high $ is',
};

/**
 * Everything that one may ask for: the readings, diameters and sizes of what is not at hand, and the links of the chain
 * that are known no better.
 */
export const asksIn = (job: Job, used: ReadonlyMap<string, UsedPattern>): readonly Ask[] => {
  const ofFaces = job.faces
    .filter((f) => isSold(f) && used.has(f.name))
    .flatMap((face): readonly Ask[] => {
      const seller = face.seller ?? 0;
      const inFace = (w: Omit<World, 'values'>): Face | undefined => w.job.faces.find((f) => f.name === face.name);
      const readings = face.readings.flatMap((r): readonly Ask[] => {
        const read = r.aside ? null : readOn(r);
        return read === null
          ? []
          : [
              {
                says: `${face.name}: ${r.kind} ${r.features.join(' ')}`,
                plainly: plainWords(r),
                stated: r.value,
                plusMinus: r.plusMinus,
                of: (w) => read(w.used.get(face.name) as UsedPattern),
              },
            ];
      });
      const diameters = face.features.flatMap((f): readonly Ask[] =>
        f.diameter?.plusMinus == null || f.diameterFrom !== 'job' || f.diameter.plusMinus <= ASKED
          ? []
          : [
              {
                says: `${face.name}: diameter of ${f.id}`,
                plainly: `the diameter of ${f.id}`,
                stated: f.diameter.value,
                plusMinus: f.diameter.plusMinus,
                of: (w) => 2 * radiusOf(w.used.get(face.name) as UsedPattern, f.id),
              },
            ],
      );
      const seen = new Set<string>();
      const sizes = face.features.flatMap((f) =>
        plain.flatMap((key): readonly Ask[] => {
          const value = f[key];
          const name = `${f.kind} ${key} ${value}`;
          if (value === null || seen.has(name)) return [];
          seen.add(name);
          return [
            {
              says: `${face.name}: ${inWords[key].replace('$', f.id)}`,
              plainly: inWords[key].replace('$', f.id),
              stated: value,
              plusMinus: seller,
              of: (w) => inFace(w)?.features.find((x) => x.id === f.id)?.[key] ?? 0,
            },
          ];
        }),
      );
      const flange: readonly Ask[] =
        face.flange === null
          ? []
          : [
              {
                says: `${face.name}: thickness of its flange`,
                plainly: 'how thick the flange is',
                stated: face.flange,
                plusMinus: seller,
                of: (w) => inFace(w)?.flange ?? 0,
              },
            ];
      return [...readings, ...diameters, ...sizes, ...flange];
    });
  const links = (job.stack?.links ?? [])
    .filter((l) => l.plusMinus > ASKED)
    .map((l): Ask => ({
      says: l.name,
      plainly: `the length called ${l.name}`,
      stated: l.value,
      plusMinus: l.plusMinus,
      of: (w) => w.job.stack?.links.find((x) => x.name === l.name)?.value ?? 0,
    }));
  return [...ofFaces, ...links];
};
