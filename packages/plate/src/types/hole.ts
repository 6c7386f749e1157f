import type { Side } from '../assemble/types.js';

/** One feature of one part, by the names that the job gives them. */
export interface PartFeature {
  readonly face: string;
  readonly feature: string;
}

/** A hole of the plate; mm, plate frame. */
export interface PlateHole {
  /** It is drilled already: drawn, but neither punched nor in the table of what is left to do. */
  readonly done?: true;
  /** H1, H2, … in the order of the job. */
  readonly id: string;
  /** `pump.P1`, the name of `part`; null for a hole that the plate alone has. */
  readonly feature: string | null;
  /** The feature of a part that it is for; null for a hole that the plate alone has. */
  readonly part: PartFeature | null;
  readonly x: number;
  readonly y: number;
  readonly as: 'clearance' | 'tapped' | 'set stud' | 'dowel' | 'slot' | 'jacking' | 'lifting' | 'cut';
  /** Of a cut that fastens nothing: its name in the job, the face that it lies by, why it is there. */
  readonly cut?: CutFor;
  /** Finished cylinder, mm: the clearance hole, the tap drill, the reamed dowel hole, a slot's width. */
  readonly diameter: number;
  /** Least and greatest finished diameter, mm; null where no table gives it (a drilled tapping hole). */
  readonly limits: readonly [number, number] | null;
  /** Side from which it is drilled; a through hole may be drilled from either. */
  readonly from: Side;
  /** Full-diameter depth, mm, from the surface of side `from`; null: through. */
  readonly depth: number | null;
  /** `depth`: of full thread, mm; null: through. */
  readonly thread: {
    readonly name: string;
    readonly major: number;
    readonly pitch: number;
    readonly depth: number | null;
  } | null;
  /**
   * How long its wire thread insert is, mm; left out: it has none. `thread` is then the larger one that is tapped for
   * it, by the bolt's name.
   */
  readonly insert?: number;
  readonly sink: Sink | null;
  /** A slot's length between its end centres, mm, and direction, radians; null where round. */
  readonly slot: { readonly length: number; readonly angle: number } | null;
  /** What passes through it or screws into it; null for a hole of the plate alone. */
  readonly fastening: Fastening | null;
  /** Largest diameter of the fastener that passes, mm (F of ASME Y14.5); null where none does. */
  readonly fastener: number | null;
  /** The drill's name in the trade where one makes it: `13/32`, `10.3 mm`, `F`. */
  readonly drill: string | null;
  /** Published source of the size. */
  readonly source: string;
  /**
   * z of both ends of the metal it goes through, mm: 0 and the thickness, less where it starts in a register or pocket.
   */
  readonly land: readonly [number, number];
}

/**
 * How long the bolts or screws of some holes may be under the head, mm: least for their engagement, most before they
 * bottom.
 */
export interface BoltLength {
  readonly holes: readonly string[];
  readonly thread: string;
  readonly least: number;
  readonly most: number;
  /** The shortest length that is stocked within that; null where none is. */
  readonly stock: number | null;
}

/** The counterbore, countersink or spotface of a hole; mm. */
export interface Sink {
  readonly kind: 'counterbored' | 'spotfaced' | 'countersunk';
  readonly diameter: number;
  /** mm below the surface of `side`; of a countersink the depth of its cone. */
  readonly depth: number;
  readonly side: Side;
}

/** The fastener of one hole: nominal size and what sits on it. */
export interface Fastening {
  /**
   * `stud`: stands out of the part; `screw`: passes the plate into the part; `bolt`: passes the part into or through
   * the plate; `set stud`: set in the plate; `dowel`.
   */
  readonly kind: 'stud' | 'screw' | 'bolt' | 'set stud' | 'dowel';
  readonly thread: string | null;
  /** mm, of the thread or the plain pin. */
  readonly nominal: number;
  /** Its largest diameter, mm; null where not known. */
  readonly largest: number | null;
  /** Nut or head on the plate, mm; null where it sits on the part. */
  readonly head: FastenerHead | null;
}

/** The head or the nut of a fastener; mm. */
export interface FastenerHead {
  readonly kind: 'nut' | 'cap screw' | 'countersunk screw';
  readonly side: Side;
  /** Largest diameter about the axis: nut over its corners, washer, or head. */
  readonly diameter: number;
  /** The washer under it, mm; left out where there is none. */
  readonly washer?: { readonly outside: number; readonly thickness: number };
  /** Nut and washer, or head. */
  readonly height: number;
  /** Diameter that a socket (or key) needs to turn it. */
  readonly socket: number;
  /** How far its top stands above the surface of `side`; negative: below it. A stud's own end is not counted. */
  readonly proud: number;
}

/** Which of the job's own cuts it is. */
export interface CutFor {
  readonly name: string;
  readonly face: string;
  readonly why: string | null;
}
