import { type Circle, type Path, type Point, movePath, subtract, translation } from '@fayplate/core';
import type { Draft } from '../draft.js';
import type { Footprint } from '../parts/footprint.js';
import type { Cut } from '../solids/cut.js';
import { moveSpine } from '../solids/spine.js';

/**
 * The draft as it lies about what the second face turns about: the tests of an angle turn about (0, 0). Holes keep their
 * depths and their names. The same draft where that is where it turns.
 */
export const centred = (draft: Draft): Draft => {
  const { pivot } = draft.desk;
  if (pivot.x === 0 && pivot.y === 0) return draft;
  const by = translation(-pivot.x, -pivot.y);
  const at = (p: Point): Point => subtract(p, pivot);
  const put = <T extends Point>(thing: T): T => ({ ...thing, ...at(thing) });
  const cut = (c: Cut): Cut => ({ ...c, spine: moveSpine(c.spine, at) });
  const path = (p: Path): Path => movePath(by, p);
  const circle = (c: Circle): Circle => ({ ...c, centre: at(c.centre) });
  const part = (f: Footprint): Footprint => ({
    ...f,
    path: f.path === null ? null : path(f.path),
    openings: f.openings.map(circle),
  });
  return {
    ...draft,
    holes: draft.holes.map(put),
    bores: draft.bores.map(put),
    spared: draft.spared.map(put),
    cuts: draft.cuts.map(cut),
    outline: { ...draft.outline, path: path(draft.outline.path) },
    parts: [part(draft.parts[0]), part(draft.parts[1])],
  };
};
