import type { WorkKind } from '@fayplate/job';

/** Metal that work on a part leaves, mm; null limit: none is known. */
export interface MetalLeft {
  readonly of: string;
  readonly value: number;
  readonly limit: number | null;
  readonly source: string;
}

/** An operation on a part: where, from what to what, what it leaves. Lengths mm; places in the face's own frame as viewed. */
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
