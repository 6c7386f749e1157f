import type { Motion, Report, Speech } from '@fayplate/core';
import type { Lettering, Picture, PrinterScale } from '@fayplate/drawing';
import type { Job } from '@fayplate/job';
import type { MatedFace, Plate, Side } from '@fayplate/plate';
import type { MeasuringSheet } from './measuring.js';

// What a study wants of a maker of PDF files. `@fayplate/print` is one: an app hands it in, so that no package knows an
// app.

/**
 * What the templates are printed from: the job, its plate, both faces in the plate's frame, and where each bench frame
 * lies.
 */
export interface PrintInput {
  readonly job: Job;
  readonly plate: Plate;
  readonly mated: readonly MatedFace[];
  readonly benches: ReadonlyMap<string, Motion>;
}

/** How it is printed; lengths in mm. */
export interface PrintSettings {
  /** `A4`, `Letter`, `210 x 297 mm`, `roll 610 mm`; `single` for one sheet made to measure. */
  readonly paper: string;
  /** Bare edge that the printer cannot reach. */
  readonly margin: number;
  /** What neighbouring sheets share. */
  readonly overlap: number;
  readonly orientation: 'any' | 'portrait' | 'landscape';
  /** This sheet alone: row and column as a person counts them, from 1. */
  readonly sheet: readonly [row: number, column: number] | null;
  readonly printer: PrinterScale | null;
  /** Day of printing; null: left out, so that the same job gives the same bytes. */
  readonly date: Date | null;
  /** The side of the plate that faces the eye. */
  readonly side: Side;
  readonly speech: Speech;
  /** What every sheet says of the job beside its title; left out: nothing. */
  readonly notice?: Notice;
}

/** What a sheet, a table or a program says of the job that it is made from. */
export interface Notice {
  /** The verdict in one line: `Yes: …`, `Not yet: …`, `No: …`. */
  readonly line: string;
  /** `Not settled: reading 7 of pump`, to stand across the sheet; null where the readings are settled. */
  readonly across: string | null;
}

/** Plain sentences for a person: what cannot be printed and what to do next. */
export interface NotPrinted {
  readonly ok: false;
  readonly faults: readonly string[];
}

/** What is printed at true scale: where to drill, or the gaskets to cut. */
export type TemplateKind = 'drill' | 'gasket';

/** A template in print, with what of its JSON the words are made of. */
export interface PrintedSheets {
  readonly ok: true;
  readonly bytes: Uint8Array;
  readonly warnings: readonly string[];
  readonly json: {
    readonly paper: { readonly name: string };
    readonly pages: readonly { readonly kind: string }[];
    /** How far the farthest hole can still be off, mm, 95 times in 100. */
    readonly punched?: { readonly plus_minus: number; readonly by_read_out: readonly string[] };
    readonly still_off: { readonly plus_minus: number; readonly hole: string | null } | null;
  };
}

/** A template as one drawing. */
export interface DrawnTemplate {
  readonly ok: true;
  /** SVG at true scale. */
  readonly text: string;
  readonly warnings: readonly string[];
}

/** What is drawn of one part: its features as one looks at it, mm; `plusMinus` at 95 %. */
export interface PartSheet {
  readonly name: string;
  readonly looked: string;
  readonly features: readonly {
    readonly id: string;
    readonly x: number;
    readonly y: number;
    readonly diameter: number | null;
    readonly plusMinus: number;
    readonly large: boolean;
  }[];
}

/** One setting of the drill stop, mm below the face of a side, with the holes that are cut by it. */
export interface StopDepth {
  readonly tool: string;
  readonly op: string;
  readonly side: Side;
  readonly depth: number;
  readonly holes: readonly string[];
}

/** Measuring sheets in print: which numbers stand on which page. */
interface PrintedMeasuring {
  readonly ok: true;
  readonly bytes: Uint8Array;
  readonly pages: readonly { readonly page: number; readonly of: string; readonly numbers: readonly number[] }[];
  readonly paper: { readonly name: string };
  readonly warnings: readonly string[];
}

/** Prints one template by itself. */
export interface Sheets {
  readonly pdf: (
    input: PrintInput,
    settings: PrintSettings & { readonly what: TemplateKind; readonly file: string; readonly lettering: Lettering },
  ) => Promise<PrintedSheets | NotPrinted>;
  readonly svg: (
    input: PrintInput,
    settings: Pick<PrintSettings, 'side' | 'speech' | 'notice'> & {
      readonly what: TemplateKind;
      readonly lettering: Lettering;
    },
  ) => DrawnTemplate | NotPrinted;
  /** One part by itself at true scale, to lay on it. */
  readonly part: (
    job: string,
    part: PartSheet,
    settings: PrintSettings & { readonly file: string; readonly lettering: Lettering },
  ) => Promise<PrintedSheets | NotPrinted>;
  /** Strips as long as the depths of the drill stop. */
  readonly depths: (
    job: string,
    depths: readonly StopDepth[],
    settings: PrintSettings & { readonly file: string; readonly lettering: Lettering },
  ) => Promise<PrintedSheets | NotPrinted>;
  /** Sheets to fill in at the bench, one page for each. */
  readonly readings: (
    sheets: readonly MeasuringSheet[],
    settings: Pick<PrintSettings, 'paper' | 'date'> & { readonly job: string; readonly lettering: Lettering },
  ) => Promise<PrintedMeasuring | NotPrinted>;
  /** One section by itself, to read at the bench; `foot`: what stands at the foot of each page. */
  readonly page: (
    section: PrintSection,
    settings: Pick<PrintSettings, 'paper' | 'date'> & {
      readonly job: string;
      readonly foot: string;
      readonly lettering: Lettering;
    },
  ) => Promise<PrintedPage | NotPrinted>;
  /** A drawing that is a whole sheet of that paper already. */
  readonly sheet: (
    drawing: Picture,
    settings: Pick<PrintSettings, 'paper' | 'date'> & { readonly lettering: Lettering },
  ) => Promise<PrintedPage | NotPrinted>;
}

/** A sheet of words, or a drawing, in print. */
interface PrintedPage {
  readonly ok: true;
  readonly bytes: Uint8Array;
  readonly pages: number;
  readonly paper: { readonly name: string };
  readonly warnings: readonly string[];
}

/**
 * A section of the printed packet: words and pictures in their order; `share`: of the page's height that a picture may
 * take; `capital`: of words and tables, mm, where they are read at arm's length; `behind`: it stands behind the
 * templates.
 */
export interface PrintSection {
  readonly title: string;
  readonly behind?: boolean;
  /** Its pictures may shrink to this part of their share where that saves a page; 1 unless told. */
  readonly least?: number;
  readonly items: readonly (
    | { readonly kind: 'report'; readonly report: Report; readonly capital?: number }
    | { readonly kind: 'picture'; readonly picture: Picture; readonly share: number }
  )[];
}

/** What a packet's templates are printed from, and how; plain values, so that it can be sent to another thread. */
export interface PrintOrder {
  readonly input: PrintInput;
  readonly settings: PrintSettings;
}

/** A drawing that is a whole sheet of its own paper, and a file of its own beside the packet. */
export interface LoneSheet {
  readonly name: string;
  /** What it is, in a few words. */
  readonly says: string;
  readonly drawing: Picture;
  readonly paper: string;
}

/** The packet's PDF files, with what a person should know of them. */
export interface PrintedFiles {
  readonly ok: true;
  readonly files: readonly { readonly name: string; readonly says: string; readonly content: Uint8Array }[];
  readonly warnings: readonly string[];
}

/** Prints the packet's PDF files, in the order in which there is something to print; it may do so on another thread. */
export interface Press {
  /** The templates need the plate alone: they are begun as soon as there is one. */
  readonly begin: (order: PrintOrder) => void;
  /** The packet, once all is said that goes into it, and each drawing that is a file of its own; faults in words. */
  readonly finish: (
    sections: readonly PrintSection[],
    alone?: readonly LoneSheet[],
  ) => Promise<PrintedFiles | NotPrinted>;
  readonly stop: () => void;
}
