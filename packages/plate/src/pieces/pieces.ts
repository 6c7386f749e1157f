import { invert, movePath } from '@fayplate/core';
import type { Face, Job, PlateSpec } from '@fayplate/job';
import type { MatedFace, Plate } from '../types.js';
import { cutsOfPiece } from './cuts.js';
import { SCREWED_ON, jointFace, screwed } from './joint.js';

/** One of the two pieces as a job of its own: between its part and the joint. */
interface PieceJob {
  readonly name: string;
  readonly job: Job;
}

/** What the other piece is called where a piece meets it: it can be no part's name. */
export const jointName = (piece: string): string => `the ${piece}`;

const only = <T>(map: ReadonlyMap<string, T>, name: string): readonly (readonly [string, T])[] => {
  const own = map.get(name);
  return own === undefined ? [] : [[name, own]];
};

/** Metal round the holes until the outline that is to be followed is known, mm. */
const UNTIL_KNOWN = 12;

/** The outline of the second piece: one that copies the first part's rim is the first piece's, which has it. */
const outlineOver = (spec: PlateSpec, first: string, ring: string | null): PlateSpec['outline'] =>
  spec.outline.shape !== 'like' || spec.outline.face !== first
    ? spec.outline
    : ring === null
      ? { shape: 'round', margin: UNTIL_KNOWN, diameter: null }
      : { shape: 'like', face: ring, margin: 0 };

/** A piece as drawn before the other was known: its plate, and its part and the joint in the frame of its drawing. */
interface Drawn {
  readonly plate: Plate;
  readonly mated: readonly [MatedFace, MatedFace];
}

/**
 * The two pieces of a plate, each a job of its own: the first between the first part and the second piece, the second
 * between the first piece and the second part. `thickness`: of the whole, mm; `drawn`: both as far as they are known;
 * what lies over a piece, and the cuts that reach into it from the other part, are known only then.
 */
export const pieceJobs = (
  job: Job,
  thickness: number,
  drawn: readonly [Drawn, Drawn] | null = null,
): readonly [PieceJob, PieceJob] | null => {
  const rims = [
    drawn === null ? null : movePath(invert(drawn[0].mated[1].motion), drawn[0].plate.outline.path),
    drawn === null ? null : movePath(invert(drawn[1].mated[0].motion), drawn[1].plate.outline.path),
  ] as const;
  const spec = job.plate;
  const pieces = spec?.pieces;
  if (spec === null || pieces === undefined) return null;
  const [one, two] = pieces.names;
  const [a, b] = spec.between;
  const rest = thickness - pieces.first;
  // Reamed through both at once when the second is set true on the first, so that no ± of a hole's place comes in.
  const dowels = {
    as: 'new dowels' as const,
    count: pieces.dowels.clocks.length,
    diameter: pieces.dowels.diameter,
    at: { circle: pieces.dowels.circle, clocks: pieces.dowels.clocks },
  };
  // The ± is of both pieces together: neither has it alone.
  const { pieces: _, thicknessWithin: __, ...plain } = spec;
  const whole = { ...plain, thickness };
  const ringFace = jointName(one);
  const plateFace = jointName(two);
  const own = (
    face: string,
    piece: string,
  ): Pick<Job, 'gaskets' | 'stack' | 'old' | 'drilled'> & { readonly faces: readonly Face[] } => ({
    faces: job.faces.filter((f) => f.name === face),
    gaskets: job.gaskets.filter((g) => g.face === face),
    stack: null,
    old: null,
    ...(job.drilledPieces?.get(piece) ?? { drilled: null }),
  });
  const first: Job = {
    ...job,
    ...own(a, one),
    name: `${job.name}: ${one}`,
    faces: [...own(a, one).faces, jointFace(plateFace, 'B', whole, pieces, rest, rims[1], job.units)],
    plate: {
      ...whole,
      joint: { piece: one, face: plateFace, beyond: b, takes: true },
      between: [a, plateFace],
      thickness: pieces.first,
      clocking: { at: 0 },
      shafts: null,
      locate: new Map([...only(spec.locate, a), [plateFace, dowels]]),
      fasten: new Map([...only(spec.fasten, a), [plateFace, screwed({}, pieces.screws.thread)]]),
      cuts: cutsOfPiece(spec.cuts, thickness, {
        from: 0,
        to: pieces.first,
        face: a,
        drawn: drawn === null ? null : { joint: drawn[0].mated[1], other: drawn[1].mated[1] },
      }),
      extras: spec.extras.filter((e) => e.what === 'jacking'),
    },
  };
  const second: Job = {
    ...job,
    ...own(b, two),
    name: `${job.name}: ${two}`,
    faces: [jointFace(ringFace, 'A', whole, pieces, pieces.first, rims[0], job.units), ...own(b, two).faces],
    plate: {
      ...whole,
      joint: { piece: two, face: ringFace, beyond: a, takes: false },
      between: [ringFace, b],
      thickness: rest,
      locate: new Map([[ringFace, dowels], ...only(spec.locate, b)]),
      fasten: new Map([[ringFace, { ...SCREWED_ON, thread: pieces.screws.thread }], ...only(spec.fasten, b)]),
      outline: outlineOver(spec, a, rims[0] === null ? null : ringFace),
      cuts: cutsOfPiece(spec.cuts, thickness, {
        from: pieces.first,
        to: thickness,
        face: b,
        drawn: drawn === null ? null : { joint: drawn[1].mated[0], other: drawn[0].mated[0] },
      }),
      extras: spec.extras.filter((e) => e.what === 'lifting'),
    },
  };
  return [
    { name: one, job: first },
    { name: two, job: second },
  ];
};
