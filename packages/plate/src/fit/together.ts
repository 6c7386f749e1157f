import { type Requirement, pathBox, subtract, toDegrees } from '@fayplate/core';
import { alignShafts } from '../alignment/align.js';
import { locatedShaft } from '../alignment/shaft.js';
import { chanceOf, enough, goesOn } from '../assembly/goes-on.js';
import { type Finding, found, named } from '../checks/check.js';
import { chanceOfGoingOn, hasShaft, shaftDirection, shaftOffset, shaftTilt } from '../checks/shaft.js';
import { unknown } from '../checks/unknown.js';
import type { Change } from '../cures/change.js';
import type { Draft } from '../draft.js';
import { USUAL_OFFSET, readingOf, secondSettingOf } from '../limits.js';
import type { Alignment, GoesOn } from '../types.js';
import { chanceCures } from './chance-cures.js';
import { type FaceJoints, jointsOf } from './joints.js';

export interface Together {
  readonly goesOn: ReadonlyMap<string, GoesOn>;
  readonly alignment: Alignment;
  readonly findings: readonly Finding[];
  /** Face → what would bring the chance up, each tried by as many trials. */
  readonly cures: ReadonlyMap<string, readonly Change[]>;
  readonly unknowns: readonly Requirement[];
}

const chance = (face: string, g: GoesOn): Finding =>
  named(chanceOfGoingOn)(
    found([face], 100 * g.probability, 100 * enough, {
      source: `three standard deviations, by ${g.trials} trials`,
      unit: '%',
    }),
  );

/** Whether both axes, and the size of every register, are known: else an offset says nothing of the shafts. */
const isLaid = ({ desk, bores }: Draft): boolean =>
  desk.mated.every((m) => m.axis !== null) &&
  desk.placed.every(
    (p) =>
      p.diameter !== null || !bores.some((b) => (b.kind === 'recess' || b.kind === 'spigot') && b.feature === p.name),
  );

/** How far the line from shaft to shaft may turn, against what the job says that the drive bears. */
const direction = ({ desk: { spec, faces } }: Draft, { offset: { worst } }: Alignment): readonly Finding[] => {
  const within = spec.shafts?.toward.within;
  if (spec.shafts === null || within === undefined || worst === null) return [];
  // At the most where all that is off lies square to the line.
  const turn = Math.asin(Math.min(1, worst / spec.shafts.apart.value));
  return [
    named(shaftDirection)(
      found(
        faces.map((f) => f.name),
        toDegrees(turn),
        toDegrees(within),
        { source: 'the ± of the direction of the second shaft, as stated in the job', sense: 'most', unit: 'deg' },
      ),
    ),
  ];
};

/**
 * Offset and tilt of the shafts against what the coupling bears: as the job says, else, where a shaft passes, as is
 * usual.
 */
const inLine = (draft: Draft, a: Alignment): readonly Finding[] => {
  const faces = draft.desk.faces.map((f) => f.name);
  const source =
    draft.desk.spec.shafts === null
      ? "the coupling's maker, as stated in the job"
      : 'the ± of the distance between the shafts, as stated in the job';
  const usual = 'common practice: what a flexible coupling takes';
  const offset = (limit: number, from: string): readonly Finding[] =>
    a.offset.worst === null
      ? []
      : [named(shaftOffset)(found(faces, a.offset.worst, limit, { source: from, sense: 'most' }))];
  return [
    ...(a.offset.limit !== null
      ? offset(a.offset.limit, source)
      : hasShaft(draft) && !draft.desk.spec.nothingPasses && isLaid(draft)
        ? offset(USUAL_OFFSET, usual)
        : []),
    ...direction(draft, a),
    ...(a.tilt.limit === null || (a.tilt.worst === null && a.tilt.ok !== false)
      ? []
      : [
          named(shaftTilt)(
            found(faces, toDegrees(a.tilt.worst ?? a.tilt.nominal), toDegrees(a.tilt.limit), {
              source,
              sense: 'most',
              unit: 'deg',
            }),
          ),
        ]),
  ];
};

/** Whether each face goes on, how far in line the shafts come, and both as checks. */
export const putTogether = (
  draft: Draft,
  options: { readonly trials?: number; readonly seed?: number; readonly progress?: (done: number, of: number) => void },
): Together => {
  const { desk } = draft;
  const faces = ([0, 1] as const).map((index) => ({
    face: desk.faces[index],
    mated: desk.mated[index],
    met: jointsOf(desk, draft, index),
  }));
  const { trials, seed, progress } = options;
  const run = (met: FaceJoints, index: number): GoesOn =>
    goesOn(met.spec, {
      ...(trials === undefined ? {} : { trials }),
      ...(seed === undefined ? {} : { seed }),
      ...(progress === undefined ? {} : { progress: (done, of) => progress(index * of + done, 2 * of) }),
      fits: met.fits,
    });
  const met = faces.filter((f) => f.met.spec.joints.length > 0);
  const goes = new Map(met.map((f, i) => [f.face.name, run(f.met, i)]));
  const cures = met.map((f): readonly [string, readonly Change[]] => {
    const g = goes.get(f.face.name);
    const options = { ...(trials === undefined ? {} : { trials }), ...(seed === undefined ? {} : { seed }) };
    return [
      f.face.name,
      g === undefined
        ? []
        : chanceCures(desk.job, f.face.name, g, f.met, (change) => chanceOf({ ...f.met.spec, ...change }, options)),
    ];
  });
  const shaft = (index: 0 | 1) => {
    const f = faces[index];
    if (f === undefined) throw new RangeError('a plate joins two faces');
    const reading = readingOf(desk.spec, f.face.name);
    const own = locatedShaft(f.face, f.mated, f.met.spec.joints, desk.spec.locate.get(f.face.name));
    return reading === null ? own : { ...own, setTo: reading / 2 };
  };
  const box = pathBox(draft.outline.path);
  const [one, other] = desk.mated.map((m) => m.axis?.at);
  // Laid where they are wanted, so that what is left is only what measuring and making may put them off.
  const apart = desk.spec.shafts === null || one === undefined || other === undefined ? null : subtract(other, one);
  const alignment = alignShafts({
    faces: [shaft(0), shaft(1)],
    parallel: desk.spec.parallel,
    over: Math.min(box.right - box.left, box.top - box.bottom),
    secondSetting: secondSettingOf(desk),
    ...(apart === null ? {} : { apart }),
    limits: {
      offset: desk.spec.shafts?.apart.plusMinus ?? desk.spec.alignment?.offset ?? null,
      tilt: desk.spec.alignment?.tilt ?? null,
    },
  });
  return {
    goesOn: goes,
    alignment,
    cures: new Map(cures),
    findings: [...[...goes].map(([face, g]) => chance(face, g)), ...inLine(draft, alignment)],
    unknowns: [
      ...(alignment.offset.worst === null &&
      (alignment.offset.limit !== null || desk.spec.shafts?.toward.within !== undefined || hasShaft(draft))
        ? [
            unknown(
              'shaft-offset',
              'How far out of line the shafts may be is not known: give each ' +
                'face a register, dowels, or fasteners of known size.',
            ),
          ]
        : []),
      ...faces
        .filter((f) => f.met.unsized.length > 0)
        .map((f) =>
          unknown(
            'fastener-size',
            `Whether the fasteners of ${f.met.unsized.join(', ')} enter ${f.face.name} is not checked: give the ` +
              `diameter of the part's hole or of the fastener.`,
          ),
        ),
    ],
  };
};
