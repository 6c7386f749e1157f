import { type Requirement, type Speech, speechFor } from '@fayplate/core';
import type { UsedPattern } from '@fayplate/layout';
import { assemblyOf } from './assemble/assembly.js';
import { checks } from './checks/all.js';
import { marginOf } from './checks/check.js';
import { reachOf } from './checks/threads.js';
import { sayUnknown } from './checks/unknown.js';
import type { Draft } from './draft.js';
import type { Together } from './fit/together.js';
import { massOf } from './mass.js';
import type { AngleSpan, BoltLength, Check, CutCentres, Plate, Turning } from './types.js';
import { names, sayCures, sayValue } from './words/say.js';
import { operationsOn } from './work/operations.js';
import { workRequirements } from './work/words.js';

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
