import { type Path, flatten } from '@fayplate/core';
import { fitsFor, leftOut, threadsFor, tighter } from '../cures/fasteners.js';
import { edges } from '../cures/plate.js';
import { holesOf, turnOf } from '../cures/about.js';
import { thinnestToEdge } from '../solids/thinnest.js';
import type { Draft } from '../draft.js';
import { edgeLimit, webLimit } from '../limits.js';
import { depthInside } from '../outline/inside.js';
import { type Spine, cutRadius, signedToSpine, spanOf } from '../solids/cut.js';
import { sayBoth, short } from '../words/say.js';
import { type CheckKind, type Found, found, marginOf } from './check.js';

/**
 * How far inside the edge the whole of a spine lies, mm: by its own points, and by what of a hollow edge comes near it
 * between them.
 */
const depthOf = (spine: Spine, edge: Path): number =>
  Math.min(
    ...spine.map((p) => depthInside(p, edge)),
    ...(spanOf(spine) < 1e-9 ? [] : flatten(edge, 0.01).map((q) => signedToSpine(q, spine))),
  );

/**
 * Every hole's centre from the edge. One that lies outside is given as a length: a count of diameters would not show
 * where it is.
 */
const holes = (draft: Draft): readonly Found[] => {
  return draft.holes.map((hole, i) => {
    const limit = edgeLimit(draft.desk, hole.as === 'cut' ? hole.diameter : null);
    const spine = draft.cuts[i]?.spine ?? [hole, hole];
    const depth = depthOf(spine, draft.outline.path);
    const diameter = Math.max(hole.diameter, hole.thread?.major ?? 0);
    const inDiameters = limit.unit === 'd' && depth >= 0;
    const least = limit.unit === 'd' && !inDiameters ? limit.value * diameter : limit.value;
    return found([hole.id, 'outline'], inDiameters ? depth / diameter : depth, least, {
      source: limit.source,
      unit: inDiameters ? 'd' : 'mm',
      at: thinnestToEdge(spine, diameter / 2, draft.outline.path),
    });
  });
};

/** The metal left outside bores, sunk heads and raised spigots. */
const metal = (draft: Draft): readonly Found[] => {
  const { desk, outline } = draft;
  const rims = draft.cuts
    .filter((cut, i) => cut.notch !== true && (cut.what !== 'hole' || draft.holes[i]?.sink !== null))
    .map((cut) => {
      const { value, source } = webLimit(desk, [cut]);
      const depth = depthOf(cut.spine, outline.path) - cutRadius(cut);
      return found([cut.id, 'outline'], depth, value, {
        source,
        at: thinnestToEdge(cut.spine, cutRadius(cut), outline.path),
      });
    });
  const spigots = draft.bores
    .filter((b) => b.kind === 'spigot')
    .map((b) =>
      found([b.id, 'outline'], depthInside(b, outline.path) - b.diameter / 2, 0, {
        source: 'common practice: a raised spigot stands on the plate',
        at: thinnestToEdge([b, b], b.diameter / 2, outline.path),
      }),
    );
  return [...rims, ...spigots];
};

const cures: CheckKind['cures'] = (t, f) => {
  const own = holesOf(t.draft, f);
  return [...edges(t, f), ...turnOf(t), ...threadsFor(t, own), ...fitsFor(t, own, tighter), ...leftOut(t, f)];
};

export const holeToEdge: CheckKind = {
  id: 'hole-to-edge',
  title: 'hole to edge',
  meaning: 'weak',
  margin: marginOf,
  find: holes,
  cures,
  say: (c, speech) =>
    c.value < 0
      ? `the centre of ${c.of[0] ?? ''} lies ${short(-c.value, speech)} outside the edge, where it has to lie ` +
        `${short(c.limit, speech)} inside`
      : `${c.of[0] ?? ''} is ${sayBoth(c, speech)[0]} from the edge, where ${sayBoth(c, speech)[1]} is needed`,
};

export const metalToEdge: CheckKind = {
  id: 'metal-to-edge',
  title: 'metal to the edge',
  meaning: 'weak',
  margin: marginOf,
  find: metal,
  cures,
  say: (c, speech) => {
    const [a = ''] = c.of;
    return c.value < 0
      ? `${a} runs out over the edge by ${short(-c.value, speech)}`
      : `only ${sayBoth(c, speech)[0]} of metal between ${a} and the edge, where ${sayBoth(c, speech)[1]} is needed`;
  },
};
