import { type Face, type Job, nearestName } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { Refusal } from './refusal.js';

/**
 * Name of a part's feature → the plate's own hole or register for it, where only one part has a feature of that name.
 */
const byPart = ({ holes, bores }: Plate): ReadonlyMap<string, string> => {
  const cuts = [...holes, ...bores.filter((b) => b.kind === 'recess' || b.kind === 'spigot')];
  const owners = cuts.flatMap(({ id, part }) => (part === null ? [] : [{ id, ...part }]));
  return new Map([
    ...owners
      .filter((o) => owners.every((p) => p.feature !== o.feature || p.face === o.face))
      .map((o) => [o.feature, o.id] as const),
    ...owners.map((o) => [`${o.face}.${o.feature}`, o.id] as const),
  ]);
};

const renamed = (drilled: Face, nameOf: (name: string) => string): Face => ({
  ...drilled,
  centre: drilled.centre === null ? null : nameOf(drilled.centre),
  up: drilled.up === null ? null : nameOf(drilled.up),
  across: drilled.across === null ? null : [nameOf(drilled.across[0]), nameOf(drilled.across[1])],
  features: drilled.features.map((f) => {
    const id = nameOf(f.id);
    return { ...f, id, kind: id.startsWith('C') ? 'bore' : 'hole' };
  }),
  readings: drilled.readings.map((r) => ({ ...r, features: r.features.map(nameOf) })),
});

/**
 * The holes drilled up to now by the plate's own names. Refuses one that the plate does not have, and a reading of a
 * hole that is not among them.
 */
const soFarIn = (
  soFar: readonly string[],
  drilled: Face,
  names: readonly string[],
  parts: ReadonlyMap<string, string>,
  nameOf: (name: string) => string,
): readonly string[] => {
  for (const id of soFar) {
    if (names.includes(id) || parts.has(id)) continue;
    const near = nearestName(id, [...names, ...parts.keys()]);
    throw new Refusal(
      `drilled so far: the plate has no ${id}${near === null ? '' : `; did you mean ${near}`}. Its holes and bores ` +
        `are ${names.join(', ')}`,
    );
  }
  const there = [...new Set(soFar.map(nameOf))];
  for (const r of drilled.readings) {
    const not = r.features.find((id) => !there.includes(id));
    if (not !== undefined && !r.aside)
      throw new Refusal(
        `drilled reading ${r.id}, \`${r.text}\`: ${not} is not among the holes drilled \`so far\`; add it there, ` +
          'or take the reading out',
      );
  }
  return there;
};

/**
 * The job with what is drilled under the plate's own names (H1, C1): a hole may be called by the feature that it is
 * for. Refuses a name that the plate does not have: a slip in it would pass for a hole that is measured and missed.
 */
export const inPlateNames = (job: Job, plate: Plate): Job => {
  const { drilled } = job;
  if (drilled === null) return job;
  const names = [...plate.holes, ...plate.bores].map((h) => h.id);
  const parts = byPart(plate);
  for (const { id } of drilled.features) {
    if (names.includes(id) || parts.has(id)) continue;
    const near = nearestName(id, [...names, ...parts.keys()]);
    const where = drilled.readings.find((r) => r.features.includes(id));
    throw new Refusal(
      `${where === undefined ? 'drilled' : `drilled reading ${where.id}, \`${where.text}\``}: the plate has no ` +
        `${id}${near === null ? '' : `; did you mean ${near}`}. Its holes and bores are ${names.join(', ')}`,
    );
  }
  const sized = [...(job.drilledSizes?.depths.keys() ?? []), ...(job.drilledSizes?.slots?.keys() ?? [])];
  for (const id of sized)
    if (!names.includes(id))
      throw new Refusal(`drilled: the plate has no ${id}. Its holes and bores are ${names.join(', ')}`);
  for (const id of job.drilledSizes?.slots?.keys() ?? [])
    if (plate.holes.find((h) => h.id === id)?.slot == null)
      throw new Refusal(`drilled slots: ${id} is no slot; its diameter is a reading, \`dia ${id}\``);
  const nameOf = (name: string): string => (names.includes(name) ? name : (parts.get(name) ?? name));
  const ids = drilled.features.map((f) => nameOf(f.id));
  const twice = ids.find((id, i) => ids.indexOf(id) !== i);
  if (twice !== undefined)
    throw new Refusal(
      `drilled: ${twice} is named in two ways, ${drilled.features
        .map((f) => f.id)
        .filter((id) => nameOf(id) === twice)
        .join(' and ')}; keep to one`,
    );
  const named = renamed(drilled, nameOf);
  const { soFar } = job;
  return soFar == null
    ? { ...job, drilled: named }
    : { ...job, drilled: named, soFar: soFarIn(soFar, named, names, parts, nameOf) };
};
