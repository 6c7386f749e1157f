import {
  type LengthUnit,
  type Path,
  type Point,
  flatten,
  formatLength,
  invert,
  movePath,
  norm,
  polar,
} from '@fayplate/core';
import { type Thread, parseThread, tapDrill } from '@fayplate/handbook';
import type { FastenSpec, Face, Feature, Job, PiecesSpec, PlateSpec, Reading } from '@fayplate/job';
import { usualDrilling } from '../limits.js';
import { seat } from '../treat/sink.js';
import type { MatedFace, Plate } from '../types.js';
import { cutsOfPiece } from './cuts.js';

/** One of the two pieces as a job of its own: between its part and the joint. */
interface PieceJob {
  readonly name: string;
  readonly job: Job;
}

/** What the other piece is called where a piece meets it: it can be no part's name. */
export const jointName = (piece: string): string => `the ${piece}`;

/** What marks 12 o'clock on the joint: no hole, a place that its frame is read from. */
const MARK = 'twelve';
const MIDDLE = 'middle';
/** A disc's centre lies this near to the middle, and points along other arcs this near to them, mm. */
const ROUND = 1e-6;
const FLAT = 0.02;
/** ± of a place that is a mark on a drawing, mm. */
const DRAWN = 1e-3;

const feature = (id: string, kind: Feature['kind'], at: Point, more: Partial<Feature>): Feature => ({
  id,
  kind,
  diameter: null,
  diameterFrom: null,
  thread: null,
  clock: Math.atan2(at.y, at.x),
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
  ...more,
});

interface Spot {
  readonly feature: Feature;
  readonly at: Point;
  readonly plusMinus: number;
}

const reading = ({ feature: { id }, at, plusMinus }: Spot, unit: LengthUnit): Reading => {
  const own = (v: number): string => `${Number(formatLength(v, unit, unit === 'in' ? 5 : 4))} ${unit}`;
  return {
    id: `drawing ${id}`,
    text: `at ${id} = (${own(at.x)}, ${own(at.y)}) ± ${own(plusMinus)}`,
    kind: 'at',
    features: [id],
    value: 0,
    point: at,
    plusMinus,
    instrument: null,
    aside: false,
    note: 'from the drawing of the other piece',
    unit,
    place: { line: 0, column: 0 },
  };
};

/**
 * The other piece as a face: its screws on their circle about the axis, each known to the ± with which its holes are
 * placed, its bore and its outline. Seen as the plate is drawn, from side B.
 */
const jointFace = (
  name: string,
  side: 'A' | 'B',
  spec: PlateSpec,
  pieces: PiecesSpec,
  thick: number,
  rim: Path | null,
  unit: LengthUnit,
): Face => {
  const made = spec.drilling ?? usualDrilling;
  const { screws } = pieces;
  const thread = parseThread(screws.thread);
  const tapped = side === 'A';
  const at = (circle: number, clock: number): Point => polar(circle / 2, clock);
  const spots: readonly Spot[] = [
    {
      feature: feature(
        MIDDLE,
        'bore',
        { x: 0, y: 1 },
        {
          vacant: spec.bore === null,
          ...(spec.bore === null
            ? {}
            : { diameter: { value: spec.bore.diameter, plusMinus: null }, diameterFrom: 'job' as const }),
        },
      ),
      at: { x: 0, y: 0 },
      plusMinus: DRAWN,
    },
    {
      feature: feature(MARK, 'hole', { x: 0, y: 1 }, { vacant: true }),
      at: { x: 0, y: screws.circle },
      plusMinus: DRAWN,
    },
    ...screws.clocks.map((clock, i): Spot => ({
      feature: feature(`S${i + 1}`, 'hole', at(screws.circle, clock), {
        thread: screws.thread,
        ...(thread === null
          ? {}
          : {
              // Of the piece that takes the thread its drill, of the other a hole that the screw passes.
              diameter: {
                value: tapped ? tapDrill(thread).drill.diameter : passing(thread.major),
                plusMinus: null,
              },
              diameterFrom: 'job' as const,
            }),
        ...(tapped ? { deep: thick } : {}),
      }),
      at: at(screws.circle, clock),
      plusMinus: made,
    })),
  ];
  return {
    name,
    viewed: side === 'B' ? 'from behind' : 'from outside',
    centre: MIDDLE,
    up: MARK,
    across: null,
    features: spots.map((s) => s.feature),
    readings: spots.map((s) => reading(s, unit)),
    layout: { kind: 'measured' },
    // What the screws pass on their way to the thread, below their heads.
    flange: tapped ? null : thick - headRoom(thread, unit),
    shaft: null,
    shaftSizes: null,
    rim: rim === null ? [] : rimOf(rim),
    standard: null,
  };
};

/** How deep the heads of the joint's screws are let in, mm; 0 where the tables have none of their size. */
const headRoom = (thread: Thread | null, unit: LengthUnit): number =>
  seat({ thread, spec: SCREWED_ON, kind: 'cap screw', side: 'B', hole: 0, unit, atLeastDeep: 0 })?.sink?.depth ?? 0;

/**
 * An outline as a face's rim: a disc about the middle by its radius, any other by its corners and points along its
 * arcs.
 */
const rimOf = (path: Path): Face['rim'] => {
  const [first] = path.edges;
  const round = path.edges.every((e) => e.kind === 'arc' && norm(e.centre) < ROUND);
  return round && first !== undefined
    ? [{ round: MIDDLE, radius: norm(path.start) }]
    : flatten(path, FLAT).map((p) => ({ at: p }));
};

/** A hole that a screw passes, mm: what the largest of the normal fits of ISO 273 adds up to M20 and beyond. */
const passing = (major: number): number => major * 1.1 + 0.2;

const screwed = (more: Partial<FastenSpec>, thread: string): FastenSpec => ({
  as: 'tapped',
  fit: 'normal',
  head: null,
  sunk: 'none',
  thread,
  engagement: null,
  blind: false,
  washer: null,
  own: null,
  except: new Map(),
  ...more,
});

/** How the second piece is screwed on: cap screws, let in on its free side. */
const SCREWED_ON = screwed({ as: 'clearance', head: 'cap screw', sunk: 'counterbored' }, '');

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
