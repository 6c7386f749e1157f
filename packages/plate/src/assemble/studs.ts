import type { Draft } from '../draft.js';
import type { Placed } from '../desk.js';
import { SLACK } from '../checks/check.js';
import { endMeets, featureOf, grip, isStud, mostStanding } from '../checks/studs.js';
import { fastenOf } from '../treat/holes.js';
import { studNeeds } from '../treat/sink.js';
import { roundUp, threadOf } from '../treat/thread.js';
import type { PlateHole } from '../types.js';
import type { StudLength } from './types.js';

/** A length that a hacksaw and a rule can be set to, at most this: 0.5 mm, 1/32 in. */
const roundDown = (mm: number, unit: 'mm' | 'in'): number => {
  const step = unit === 'in' ? 25.4 / 32 : 0.5;
  return Math.floor(mm / step + SLACK) * step;
};

const lengthOf = (draft: Draft, hole: PlateHole, p: Placed): StudLength => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  const needs = thread === null ? null : studNeeds(thread, fastenOf(draft.desk, p.face.name));
  const least = needs === null ? null : grip(draft, hole, p) + needs;
  const most = endMeets(draft, hole, p) === 'no' ? null : mostStanding(draft, hole, p);
  const { stands } = p.feature;
  const own = { face: p.face.name, feature: p.feature.id, hole: hole.id, stands, least, most };
  const { units } = draft.desk.job;
  if (least !== null && most !== null && least > most + SLACK) return { ...own, asks: 'conflict', to: null };
  if (stands === null) return { ...own, asks: 'measure', to: null };
  if (most !== null && stands > most + SLACK) {
    const to = roundDown(most, units);
    return { ...own, asks: 'shorten', to: least !== null && to < least ? most : to };
  }
  if (least !== null && stands < least - SLACK) {
    const to = roundUp(least, units);
    return { ...own, asks: 'replace', to: most !== null && to > most ? least : to };
  }
  return { ...own, asks: 'nothing', to: null };
};

/** Every stud that passes the plate, with the length that its nut needs and that the other part leaves. */
export const studLengths = (draft: Draft): readonly StudLength[] =>
  draft.holes.flatMap((hole) => {
    const p = featureOf(draft, hole);
    return p === null || !isStud(hole, p) ? [] : [lengthOf(draft, hole, p)];
  });
