import { type Requirement, type Verdict, say, sayAll, speechFor, verdictOf } from '@fayplate/core';
import { fingerprintOf } from '@fayplate/job';
import { jointName, oldThickness, pieceJobs, stackRequirements } from '@fayplate/plate';
import type { OtherPiece } from './joint.js';
import { Refusal, Unmet } from './refusal.js';
import type { Study, StudyOptions, PieceStudy } from './types.js';

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
 * The two pieces, drawn twice: what lies over a piece is the outline of the other, which is known once both are drawn.
 * Null where the plate is of one piece.
 */
export const pieceStudies = (
  whole: Pick<Study, 'job' | 'stack'>,
  studyOf: (job: Study['job'], other: NonNullable<StudyOptions['other']> | null) => Study,
): readonly [PieceStudy, PieceStudy] | null => {
  const { job } = whole;
  if (job.plate?.pieces === undefined) return null;
  const thickness = thicknessOf(whole);
  if (thickness <= job.plate.pieces.first)
    throw new Refusal('the first piece is as thick as the whole plate: make it thinner, the second has the rest');
  const drawn = pieceJobs(job, thickness)?.map((p) => studyOf(p.job, null).plate());
  const [one, two] = drawn ?? [];
  if (one === undefined || two === undefined) return null;
  const jobs = pieceJobs(job, thickness, [one, two]);
  if (jobs === null) return null;
  const mark = fingerprintOf(job);
  // A piece may be drilled by sheets of its own, or by what `check` says of the whole.
  const marked = (own: Study['job']): Study['job'] =>
    own.drilledFrom === mark ? { ...own, drilledFrom: fingerprintOf(own) } : own;
  const studies: PieceStudy[] = jobs.map(({ name, job: own }, i) => {
    const other = {
      face: jointName(jobs[1 - i]?.name ?? ''),
      piece: (): OtherPiece | null => {
        const met = studies[1 - i]?.study;
        const proof = met?.alone() ?? null;
        return met === undefined || proof === null ? null : { plate: met.plate().plate, proof };
      },
    };
    return { name, other, study: studyOf(marked(own), other) };
  });
  const [first, second] = studies;
  return first === undefined || second === undefined ? null : [first, second];
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
      because:
        `through both pieces the shafts may be ${say(value, speech, places)} out of ` +
        `line${holds ? '' : `, where the coupling takes ${say(limit, speech, places)}`}`,
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
  const names = pieces.map((p) => p.name);
  const drilled = pieces.filter((p) => p.study.proof() !== null).map((p) => p.name);
  const still = names.filter((name) => !drilled.includes(name));
  const asDrilled =
    drilled.length === 0
      ? ''
      : still.length === 0
        ? ' As drilled they go on.'
        : ` The ${sayAll(drilled)} as drilled goes on; the ${sayAll(still)} is still to be drilled.`;
  return verdictOf(
    requirements,
    `Both pieces, ${sayAll(names)}, go together with their parts and with each other.${asDrilled}`,
  );
};
