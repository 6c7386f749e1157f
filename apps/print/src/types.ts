import type { Speech } from '@fayplate/core';
import type { Lettering, PrinterScale } from '@fayplate/drawing';
import type { Affine } from './geometry/affine.js';
import type { PdfPage } from './pdf/page.js';

/** What a template is printed with; mm. */
export interface PrintOptions {
  /** `A4`, `Letter`, `210 x 297 mm`, `roll 610 mm`; `single` for one sheet made to measure. */
  readonly paper: string;
  /** Bare edge that the printer cannot reach, mm. */
  readonly margin: number;
  /** What neighbouring sheets share, mm. */
  readonly overlap: number;
  readonly orientation: 'any' | 'portrait' | 'landscape';
  /** Only this sheet again: row and column as a person counts them, from 1. */
  readonly sheet: readonly [row: number, column: number] | null;
  readonly printer: PrinterScale | null;
  /** Day of printing for the title block and the file's own stamp; null: left out. */
  readonly date: Date | null;
  readonly speech: Speech;
  readonly lettering: Lettering;
  /**
   * What every sheet says of the job: the verdict in its strip, and what is not settled across it; left out: nothing.
   */
  readonly notice?: { readonly line: string; readonly across: string | null };
  /** Name of the file that is written, for the JSON. */
  readonly file: string;
}

/** A page of a template as programs read it; mm. */
export interface PageJson {
  readonly page: number;
  readonly kind: 'key' | 'list' | 'tile' | 'calibration';
  readonly row?: number;
  readonly column?: number;
  readonly width: number;
  readonly height: number;
  /** Plate mm → page mm, the printer's correction in it. */
  readonly to_page?: Affine;
  readonly parts?: readonly { readonly name: string; readonly to_page: Affine }[];
  readonly holes?: readonly string[];
  /** Whose diagonals the calibration sheet draws, mm. */
  readonly rectangle?: { readonly width: number; readonly height: number };
  readonly rulers?: readonly {
    readonly from: readonly [number, number];
    readonly to: readonly [number, number];
    readonly length: number;
  }[];
  readonly marks?: readonly { readonly id: string; readonly at: readonly [number, number] }[];
}

/** A printed template as programs read it; mm. */
export interface PrintJson {
  readonly file: string;
  readonly paper: { readonly name: string; readonly width: number; readonly height: number };
  readonly scale: { readonly wide: number; readonly high: number; readonly skew: number };
  readonly printer: string | null;
  readonly what: 'drill' | 'gasket' | 'part' | 'depths' | 'calibration';
  readonly side: 'A' | 'B' | null;
  readonly grid: {
    readonly rows: number;
    readonly columns: number;
    readonly overlap: number;
    readonly clearance: number | null;
  } | null;
  /** How far the farthest hole can still be off once printed, mm, 95 times in 100. */
  readonly still_off: { readonly plus_minus: number; readonly hole: string | null } | null;
  /**
   * How near paper and punch bring a hole to its place, mm, and the holes that must come nearer; left out where nothing
   * is punched for a place.
   */
  readonly punched?: { readonly plus_minus: number; readonly by_read_out: readonly string[] };
  readonly pages: readonly PageJson[];
}

/** A template as PDF bytes, with its JSON. */
export interface Printed {
  readonly ok: true;
  readonly bytes: Uint8Array;
  readonly json: PrintJson;
  readonly warnings: readonly string[];
}

/** A template in print, with its pages as they were laid, for a packet to bind. */
export interface PrintedTemplate extends Printed {
  readonly title: string;
  readonly pages: readonly PdfPage[];
}

/** Plain sentences for a person: what cannot be done and what to do next. */
export interface NotPrinted {
  readonly ok: false;
  readonly faults: readonly string[];
}
