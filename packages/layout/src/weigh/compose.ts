import { whitener } from '../fit/whiten.js';
import type { Divided, Group } from '../groups/group.js';
import { findGroups } from '../groups/find.js';
import type { Measured } from '../measured/points.js';
import { MOST_GROUPS } from '../prior/structure.js';
import { type Composition, weigh } from './weigh.js';

/** Groups that lose this many nats against leaving their members anywhere cannot help a composition. */
const HOPELESS = -8;
/** Compositions this many nats behind the best are left out: e^−16 of its odds. */
const BEHIND = 16;
const MOST_ALONE = 40;
const MOST_TOGETHER = 24;
/** Compositions whose holes are tried as strays. */
const MOST_STRAYED = 3;

const disjoint = (a: Group, b: Group): boolean => a.members.every((m) => !b.members.includes(m));

/** Sets of groups that share no feature, with the sum of what each gains alone, best first. */
const together = (alone: readonly { readonly group: Group; readonly gain: number }[]): readonly (readonly Group[])[] => {
  const found: { readonly groups: readonly Group[]; readonly gain: number }[] = [];
  const grow = (groups: readonly Group[], gain: number, from: number): void => {
    if (groups.length >= 2) found.push({ groups, gain });
    if (groups.length === MOST_GROUPS || found.length > 5000) return;
    for (let i = from; i < alone.length; i++) {
      const next = alone[i];
      if (next !== undefined && groups.every((g) => disjoint(g, next.group))) grow([...groups, next.group], gain + next.gain, i + 1);
    }
  };
  grow([], 0, 0);
  return found.sort((a, b) => b.gain - a.gain).slice(0, MOST_TOGETHER).map((f) => f.groups);
};

const without = (group: Divided, feature: number): Divided => {
  const keep = group.members.flatMap((m, k) => (m === feature ? [] : [k]));
  return { ...group, members: keep.map((k) => group.members[k] ?? -1), places: keep.map((k) => group.places[k] ?? -1) };
};

/** Every composition worth weighing, best first. */
export const compose = (measured: Measured): readonly Composition[] => {
  const whitening = whitener(measured);
  const alone = findGroups(measured).flatMap((group) => {
    const c = weigh(measured, [group], whitening);
    return c === null || c.log < HOPELESS ? [] : [{ group, gain: c.log, composition: c }];
  });
  const ranked = [...alone].sort((a, b) => b.gain - a.gain).slice(0, MOST_ALONE);
  const joined = together(ranked).flatMap((groups) => weigh(measured, groups, whitening) ?? []);
  const all = [...ranked.map((r) => r.composition), ...joined].sort((a, b) => b.log - a.log);
  const strayed = all.slice(0, MOST_STRAYED).flatMap((c) => strays(measured, c, whitening));
  const best = Math.max(...all.map((c) => c.log));
  return [...all, ...strayed].filter((c) => c.log > best - BEHIND).sort((a, b) => b.log - a.log);
};

/** The composition with each hole in turn left where it was measured. */
const strays = (measured: Measured, whole: Composition, whitening: ReturnType<typeof whitener>): readonly Composition[] =>
  whole.groups.flatMap((group, i) => {
    if (group.kind !== 'divided' || group.members.length < 4) return [];
    return group.members.flatMap((feature) => {
      const groups = whole.groups.map((g, k) => (k === i ? without(group, feature) : g));
      return weigh(measured, groups, whitening, { feature, whole: whole.construction }) ?? [];
    });
  });
