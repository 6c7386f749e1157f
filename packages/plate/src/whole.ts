import { type Requirement, speechFor } from '@fayplate/core';
import type { UsedPattern } from '@fayplate/layout';
import { assemblyOf } from './assemble/assembly.js';
import { boltsOf } from './bolts.js';
import { sayUnknown } from './checks/unknown.js';
import type { Draft } from './draft.js';
import type { Together } from './fit/together.js';
import { massOf } from './mass.js';
import type { AngleSpan, Check, CutCentres, Plate, Turning } from './types.js';
import { operationsOn } from './work/operations.js';
import { workRequirements } from './work/requirements.js';
import { requirementOf } from './words/requirement.js';

/** What a plate is put together from once it is drawn, checked and tried on. */
export interface Parts {
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
  return {
    faces: [desk.faces[0].name, desk.faces[1].name],
    thickness: desk.thickness,
    material: desk.material === null ? null : { name: desk.material.name, density: desk.material.density },
    clocking: desk.clocking,
    holes: draft.holes,
    bores: draft.bores,
    outline: { ...draft.outline, mass: massOf(draft) },
    centres: desk.faces.map(({ name }): CutCentres => {
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
