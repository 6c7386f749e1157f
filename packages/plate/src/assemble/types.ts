import type { WorkKind } from '@fayplate/job';

/** Side A lies on the first face, side B on the second. */
export type Side = 'A' | 'B';

/** How plate and parts are put together; lengths mm. */
export interface Assembly {
  /** The plate is fastened to the first part, then the second is brought to it. */
  readonly order: readonly [string, string];
  /** Why: fasteners of the first are covered by the second, may be covered, or nothing asks for either order. */
  readonly because: 'covered' | 'may be covered' | 'either';
  /** By part: what enters as plate and part meet, the farthest first. */
  readonly enters: ReadonlyMap<string, readonly Entering[]>;
  /** Fasteners in the order in which they are tightened. */
  readonly tightening: readonly Tightening[];
  readonly studs: readonly StudLength[];
  readonly seals: readonly Seal[];
}

/** What enters a hole or a bore as two of the pieces meet. */
export interface Entering {
  readonly what: 'shaft' | 'studs' | 'dowels' | 'spigot' | 'raised spigot' | 'set studs' | 'boss';
  /** Features of the part, or holes and bores of the plate where it stands out of that. */
  readonly of: readonly string[];
  /** Holes and bores that it enters. */
  readonly into: readonly string[];
  /** How far it stands out of its face, mm; null: not known. */
  readonly stands: number | null;
}

/** Fasteners of one kind that hold one part. */
export interface Tightening {
  readonly face: string;
  /** Crosswise: each as far as can be from those before it. */
  readonly holes: readonly string[];
  readonly thread: string | null;
  readonly fastener: 'nut' | 'cap screw' | 'countersunk screw' | 'bolt';
  /** The side of the plate that it is turned from; null: from behind the part. */
  readonly side: Side | null;
  /** Whether the second part lies over it once it is on. */
  readonly covered: 'yes' | 'no' | 'not known';
  readonly tool: Tool | null;
}

/** What turns a fastener and the room that it takes, mm. */
export interface Tool {
  readonly kind: 'wrench' | 'key';
  /** Across the flats. */
  readonly size: number;
  /** Outside diameter of the socket, or of the head that a key turns. */
  readonly outside: number;
  /** Diameter that is free about the axis; null: nothing of the plate stands near, or it is behind the part. */
  readonly room: number | null;
  readonly source: string;
}

/** A stud and the length that it should stand out of its face, mm. */
export interface StudLength {
  readonly face: string;
  readonly feature: string;
  readonly hole: string;
  /** As measured; null: not given. */
  readonly stands: number | null;
  /** Least for its nut, washer and a thread to spare; null: the tables have no nut for it. */
  readonly least: number | null;
  /** Most before its end meets the other part; null: that part does not lie over it. */
  readonly most: number | null;
  /** `conflict`: no length does both. */
  readonly asks: 'nothing' | 'measure' | 'shorten' | 'replace' | 'conflict';
  /** The length to make or buy, mm; null where nothing is asked or no length does. */
  readonly to: number | null;
}

/** A gasket, or a face that the job seals. */
export interface Seal {
  readonly face: string;
  /** mm as it lies in the stack; null: not given. */
  readonly thickness: number | null;
  /** Holes that go right through the plate inside the gasket's outline, and may leak past their threads. */
  readonly through: readonly string[];
}

/** Metal that work on a part leaves, mm; null limit: none is known. */
export interface MetalLeft {
  readonly of: string;
  readonly value: number;
  readonly limit: number | null;
  readonly source: string;
}

/**
 * An operation on a part: where, from what to what, what it leaves. Lengths mm; places in the face's own frame as
 * viewed.
 */
export interface PartOperation {
  readonly name: string;
  readonly face: string;
  readonly kind: WorkKind;
  readonly done: boolean;
  readonly why: string | null;
  /** How far it then stands out, its diameter or depth; of a shaft its reach; 0: flush. */
  readonly to: number;
  readonly places: readonly {
    readonly feature: string;
    readonly x: number;
    readonly y: number;
    readonly from: number | null;
    /** The plate's hole for it; null: none. */
    readonly hole: string | null;
  }[];
  readonly left: MetalLeft | null;
}
