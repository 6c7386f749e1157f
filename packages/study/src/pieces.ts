import { type Requirement, type Verdict, invert, movePath, say, speechFor, verdictOf } from '@fayplate/core';
import { oldThickness, pieceJobs, stackRequirements } from '@fayplate/plate';
import { Refusal, Unmet } from './refusal.js';
import type { Study } from './study.js';

/** One piece of a plate of two: its name, and its own job on its way through the rooms. */
export interface PieceStudy {
  readonly name: string;
  readonly study: Study;
}

/** Thickness of the whole plate, mm. */
const thicknessOf = ({ job, stack }: Pick<Study, 'job' | 'stack'>): number => {
  const asked = job.plate?.thickness;
  if (typeof asked === 'number') return asked;
  const found = stack();
  if (asked === 'from old' && job.old !== null) {
    const { chosen } = oldThickness(job.old);
    if (chosen !== null) return chosen;
  }
  if (found !== null && found.chosen === null)
    throw new Unmet(
      'the thickness is to come from the stack, but no thickness meets all its limits',
      stackRequirements(job, found, found.at, speechFor(job.units)),
    );
  if (asked === 'from stack' && found?.chosen != null) return found.chosen;
  throw new Refusal('how thick the two pieces are together is not known: give the plate a thickness');
};

/**
 * The two pieces, drawn twice: what lies over a piece is the outline of the other, which is known once both are drawn. Null where the
 * plate is of one piece.
 */
export const pieceStudies = (
  whole: Pick<Study, 'job' | 'stack'>,
  studyOf: (job: Study['job'], quick: boolean) => Study,
): readonly [PieceStudy, PieceStudy] | null => {
  const { job } = whole;
  if (job.plate?.pieces === undefined) return null;
  const thickness = thicknessOf(whole);
  if (thickness <= job.plate.pieces.first)
    throw new Refusal('the first piece is as thick as the whole plate: make it thinner, the second has the rest');
  const drawn = pieceJobs(job, thickness)?.map((p) => studyOf(p.job, true).plate());
  const [one, two] = drawn ?? [];
  if (one === undefined || two === undefined) return null;
  const jobs = pieceJobs(job, thickness, [
    movePath(invert(one.mated[1].motion), one.plate.outline.path),
    movePath(invert(two.mated[0].motion), two.plate.outline.path),
  ]);
  if (jobs === null) return null;
  const [first, second] = jobs;
  return [
    { name: first.name, study: studyOf(first.job, false) },
    { name: second.name, study: studyOf(second.job, false) },
  ];
};

/** The shafts through both pieces and their joint: what each lets them be out of line adds up. */
const throughBoth = (pieces: readonly PieceStudy[], whole: Study): readonly Requirement[] => {
  const limit = whole.job.plate?.alignment?.offset ?? null;
  const worst = pieces.map(({ study }) => study.plate().plate.alignment?.offset.worst ?? null);
  if (limit === null || worst.some((w) => w === null)) return [];
  const value = worst.reduce<number>((sum, w) => sum + (w ?? 0), 0);
  const holds = value <= limit + 1e-9;
  const speech = speechFor(whole.job.units);
  const places = speech.unit === 'in' ? 3 : 2;
  return [
    {
      id: 'shaft-offset',
      title: 'offset of the shafts through both pieces',
      state: holds ? 'holds' : 'fails',
      value,
      limit,
      margin: limit - value,
      unit: 'mm',
      source: 'the worst of each piece, added',
      because: `through both pieces the shafts may be ${say(value, speech, places)} out of line${holds ? '' : `, where the coupling takes ${say(limit, speech, places)}`}`,
      cure: holds ? null : 'make a register or the dowels of the joint closer',
    },
  ];
};

/** The one answer about a plate of two pieces: what each asks, by its name, and what only both together can tell. */
export const verdictOnPieces = (whole: Study, pieces: readonly PieceStudy[]): Verdict => {
  const { job } = whole;
  const thickness = thicknessOf(whole);
  const requirements = [
    ...stackRequirements(job, whole.stack(), thickness, speechFor(job.units)),
    ...pieces.flatMap(({ name, study }) =>
      study
        .verdict()
        .requirements.map((r) => ({ ...r, title: `${name}: ${r.title}`, because: `${name}: ${r.because}` })),
    ),
    ...throughBoth(pieces, whole),
  ];
  return verdictOf(
    requirements,
    `Both pieces, ${pieces.map((p) => p.name).join(' and ')}, go together with their parts and with each other.`,
  );
};
