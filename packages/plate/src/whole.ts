import { type Requirement, type Speech, speechFor } from '@fayplate/core';
import type { UsedPattern } from '@fayplate/layout';
import { assemblyOf } from './assemble/assembly.js';
import { borePath } from './bores/shape.js';
import { checks } from './checks/all.js';
import { marginOf } from './checks/check.js';
import { reachOf } from './checks/reach.js';
import { sayUnknown } from './checks/unknown.js';
import type { Draft } from './draft.js';
import type { Together } from './fit/together.js';
import { biteArea, biteOf } from './outline/notch.js';
import { type Cut, cutRadius, cutVolume, liesWithin, spineDistance } from './solids/cut.js';
import type { AngleSpan, BoltLength, Check, CutCentres, Plate, Turning } from './types.js';
import { names, sayCures, sayValue } from './words/say.js';
import { operationsOn } from './work/operations.js';
import { workRequirements } from './work/words.js';

/** Volume of openings with upright walls together: what lies within another at the same depth is counted once. */
const openVolume = (openings: readonly Cut[]): number => {
  const levels = [...new Set(openings.flatMap((c) => c.slices.flatMap((s) => [s.z0, s.z1])))].sort((a, b) => a - b);
  return levels.slice(1).reduce((sum, top, i) => {
    const bottom = levels[i] ?? top;
    const here = openings.flatMap((c) => {
      const slice = c.slices.find((s) => s.z0 <= bottom && s.z1 >= top);
      return slice === undefined ? [] : [{ ...c, slices: [{ ...slice, z0: bottom, z1: top }] }];
    });
    const own = here.filter(
      (c, k) => !here.some((o, j) => j !== k && liesWithin(c, o) && (j < k || !liesWithin(o, c))),
    );
    return sum + own.reduce((s, c) => s + cutVolume(c), 0);
  }, 0);
};

/** What notches with a floor take of the plate. Those that go through are no part of its outline to begin with. */
const notchVolume = ({ bores, outline }: Draft): number =>
  bores.reduce((sum, b) => {
    if (b.box?.notch !== true || b.depth === null) return sum;
    const bite = biteOf(outline.path, borePath(b));
    return sum + (typeof bite === 'number' ? 0 : biteArea(bite) * b.depth);
  }, 0);

/**
 * Metal of the finished plate, mm³: the outline's prism and raised spigots less the cuts. Holes are counted over the
 * metal they really go through; cuts that break into each other (a failed check) are counted twice where they do.
 */
const plateVolume = (draft: Draft): number => {
  const { desk, outline, bores, cuts } = draft;
  const bored = openVolume(cuts.filter((c) => c.what !== 'hole' && c.notch !== true));
  const drilled = cuts.filter((c) => c.what === 'hole').reduce((sum, c) => sum + cutVolume(c), 0);
  const raised = bores
    .filter((b) => b.kind === 'spigot')
    .reduce((sum, b) => {
      const through = Math.max(
        0,
        ...cuts.filter((c) => c.what === 'bore' && spineDistance(c.spine, [b, b]) < b.diameter / 2).map(cutRadius),
      );
      return sum + Math.PI * ((b.diameter / 2) ** 2 - through ** 2) * (b.depth ?? 0);
    }, 0);
  return outline.area * desk.thickness + raised - bored - drilled - notchVolume(draft);
};

/** kg, from the density in kg/m³. */
const massOf = (draft: Draft): number | null =>
  draft.desk.material === null ? null : (plateVolume(draft) * draft.desk.material.density) / 1e9;

/** Lengths of bolts and screws, holes that take the same ones together. */
const boltsOf = (draft: Draft): readonly BoltLength[] => {
  const groups = new Map<string, BoltLength>();
  for (const hole of draft.holes) {
    const reach = reachOf(draft, hole);
    const thread = hole.fastening?.thread ?? null;
    if (reach === null || thread === null) continue;
    const key = [thread, reach.least.toFixed(6), reach.most.toFixed(6)].join(' ');
    const known = groups.get(key);
    groups.set(key, { ...reach, thread, holes: [...(known?.holes ?? []), hole.id] });
  }
  return [...groups.values()];
};

/** A check as one of the job's requirements, its words in the job's units. */
const requirementOf = (c: Check, speech: Speech): Requirement => {
  const cure = c.ok ? null : sayCures(c, speech, 3);
  const atBench = c.ok ? null : sayCures(c, { ...speech, atBench: true }, 3);
  return {
    id: c.id,
    title: c.rule,
    state: c.ok ? 'holds' : 'fails',
    value: c.value,
    limit: c.limit,
    margin: marginOf(c),
    unit: c.unit,
    source: c.source,
    because: c.ok ? `${c.rule}, ${names(c)}: ${sayValue(c, c.value, speech)}` : checks[c.id].say(c, speech),
    cure,
    ...(atBench === null || atBench === cure ? {} : { cureAtBench: atBench }),
  };
};

/** What a plate is put together from once it is drawn, checked and tried on. */
interface Parts {
  readonly draft: Draft;
  readonly used: ReadonlyMap<string, UsedPattern>;
  readonly checks: readonly Check[];
  readonly unknowns: readonly Requirement[];
  readonly together: Together;
  readonly turning: Turning;
  readonly clockings: readonly AngleSpan[] | null;
}

/** The plate with all that was found of it. */
export const wholePlate = ({ draft, used, checks, unknowns, together, turning, clockings }: Parts): Plate => {
  const { desk } = draft;
  const speech = speechFor(desk.job.units);
  const operations = operationsOn(draft);
  const joint = desk.job.plate?.joint;
  return {
    faces: [desk.faces[0].name, desk.faces[1].name],
    thickness: desk.thickness,
    ...(desk.spec.thicknessWithin === undefined ? {} : { thicknessWithin: desk.spec.thicknessWithin }),
    material: desk.material === null ? null : { name: desk.material.name, density: desk.material.density },
    clocking: desk.clocking,
    holes: draft.holes,
    bores: draft.bores,
    outline: { ...draft.outline, mass: massOf(draft) },
    centres: desk.faces.map(({ name }): CutCentres => {
      if (name === joint?.face) return { face: name, from: 'drawn', differs: null, undecided: null };
      const u = used.get(name);
      return {
        face: name,
        from: u === undefined || u.source === 'measured' ? 'measured' : 'laid out',
        differs: u?.differs ?? null,
        undecided: u?.undecided ?? null,
      };
    }),
    checks: sortChecks(checks),
    bolts: boltsOf(draft),
    goesOn: together.goesOn,
    clockings,
    turning,
    alignment: together.alignment,
    assembly: assemblyOf(draft),
    ...(joint === undefined ? {} : { joint }),
    ...(operations.length === 0 ? {} : { work: operations }),
    unknowns: unknowns.map((r) => sayUnknown(r)),
    requirements: [
      ...checks.map((c) => requirementOf(c, speech)),
      ...unknowns,
      ...workRequirements(operations, speech),
    ],
    ok: checks.every((c) => c.ok),
  };
};

/** Failing checks first, else as they come. */
const sortChecks = (checks: readonly Check[]): readonly Check[] => [
  ...checks.filter((c) => !c.ok),
  ...checks.filter((c) => c.ok),
];
