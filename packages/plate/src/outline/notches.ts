import { type Path, type Point, distance, dot, flatten, heading, polar, subtract } from '@fayplate/core';
import type { CutSpec } from '@fayplate/job';
import type { Register } from '../bores/registers.js';
import { borePath } from '../bores/shape.js';
import type { Desk } from '../desk.js';
import { nearestOnPath } from '../solids/thinnest.js';
import { forCut, laid, lost } from '../treat/cuts.js';
import type { BoreBox } from '../types.js';
import { depthInside } from './inside.js';
import { biteOf, bitten, mouthful } from './notch.js';

/** What notches leave of an outline: its path less those that go through, and each of them as a cut of the plate. */
interface Notched {
  readonly path: Path;
  readonly bores: readonly Register[];
  readonly faults: readonly string[];
}

/** Which way a notch opens, radians: as the job says, else straight over the nearest edge. */
const opens = (cut: CutSpec, place: { readonly at: Point; readonly angle: number }, path: Path): number => {
  if (cut.angle !== null) return place.angle;
  const near = nearestOnPath(place.at, path);
  return depthInside(place.at, path) >= 0 ? heading(subtract(near, place.at)) : heading(subtract(place.at, near));
};

/** Every notch of the job cut from an outline, those that go through first. */
export const cutNotches = (desk: Desk, outline: Path): Notched => {
  const faults: string[] = [];
  const bores: Register[] = [];
  let path = outline;
  const isThrough = (c: CutSpec): boolean => c.depth === null || c.depth >= desk.thickness;
  const notches = desk.spec.cuts.filter((c) => c.what === 'notch');
  for (const cut of [...notches.filter(isThrough), ...notches.filter((c) => !isThrough(c))]) {
    const place = laid(desk, cut);
    if (place === null) {
      faults.push(lost(cut));
      continue;
    }
    const angle = opens(cut, place, path);
    const endless = 2 * Math.max(...flatten(path, 1).map((p) => distance(p, place.at))) + cut.width;
    const box: BoreBox = {
      length: endless,
      width: cut.width,
      corner: cut.corner ?? cut.width / 2,
      angle,
      behind: cut.width / 2,
      notch: true,
    };
    const bore: Register = {
      kind: 'relief',
      cut: forCut(cut),
      feature: null,
      part: null,
      ...place.at,
      diameter: cut.width,
      box,
      limits: null,
      side: isThrough(cut) ? 'through' : cut.side,
      depth: isThrough(cut) ? null : cut.depth,
    };
    const bite = biteOf(path, borePath(bore));
    if (typeof bite === 'number') {
      faults.push(
        bite === 0
          ? `the notch ${cut.name} lies off the plate and takes nothing of it: give it a place within its outline`
          : `the notch ${cut.name} crosses the edge of the plate ${bite} times, where a notch crosses it twice: give ` +
              `it the \`angle\` at which it opens, or make it narrower`,
      );
      continue;
    }
    const out = Math.max(...flatten(mouthful(bite), 0.01).map((p) => dot(subtract(p, place.at), polar(1, angle))));
    bores.push({ ...bore, box: { ...box, length: out + box.behind + box.corner } });
    if (isThrough(cut)) path = bitten(bite);
  }
  return { path, bores, faults };
};
