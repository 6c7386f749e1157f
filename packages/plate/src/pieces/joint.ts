import { type LengthUnit, type Path, type Point, flatten, formatLength, norm, polar } from '@fayplate/core';
import { type Thread, parseThread, tapDrill } from '@fayplate/handbook';
import type { Face, FastenSpec, Feature, PiecesSpec, PlateSpec, Reading } from '@fayplate/job';
import { usualDrilling } from '../limits.js';
import { seat } from '../treat/sink.js';

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
export const jointFace = (
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

export const screwed = (more: Partial<FastenSpec>, thread: string): FastenSpec => ({
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
export const SCREWED_ON = screwed({ as: 'clearance', head: 'cap screw', sunk: 'counterbored' }, '');
