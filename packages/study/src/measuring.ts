import { apply, circlePath, flipX, identity, movePath } from '@fayplate/core';
import { type Lettering, type Picture, pathShape, pens } from '@fayplate/drawing';
import { type DistanceKind, type Face, type ReadingKind, isDistance, readingGrammar, sidesOf } from '@fayplate/job';
import { prove, readingSide } from '@fayplate/machining';
import {
  type SheetFeature,
  featureShapes,
  isLarge,
  measuringPicture,
  sketchPlaces,
  viewedWords,
} from '@fayplate/pictures';
import { Refusal } from './refusal.js';
import { readingsToTake } from './starter/write.js';
import type { DesignedPlate, Study } from './types.js';

/**
 * A reading on a measuring sheet: its number, how the job file writes it, what is laid where, and the unit of its
 * number.
 */
interface SheetLine {
  readonly number: number;
  readonly reading: string;
  readonly how: string;
  readonly by: string | null;
  /** `in`, `mm`, `°`; '' where there is no number to write, only whether it is so. */
  readonly unit: string;
}

/** One page to fill in: what one looks at with the readings of this page drawn in, and a line for each of them. */
export interface MeasuringSheet {
  /** A face of the job, or `drilled plate`. */
  readonly of: string;
  readonly picture: Picture;
  readonly lines: readonly SheetLine[];
}

/** Radius at which a feature is drawn that nobody has measured, mm. */
const UNSIZED = { large: 25, other: 5 } as const;
/** Most readings on one page: more arrows in one drawing are not told apart. */
const A_PAGE = 8;

const words: Readonly<Record<Exclude<ReadingKind, DistanceKind>, string>> = {
  dia: 'diameter',
  angle: 'the angle at the middle one',
  square: 'the two lines are square to each other',
  line: 'the three centres are in line',
  flush: 'one straightedge touches all three',
  offset: 'from the line through the other two, square to it',
  runout: 'the dial’s whole travel in one turn about the axis',
  at: 'its place on the table, X and Y',
  touch: 'a point of its rim on the table, X and Y',
};

/** What is read, in words that need no names: the reading stands beside them. */
const wordsFor = (kind: ReadingKind): string => {
  if (!isDistance(kind)) return words[kind];
  const sides = sidesOf(kind);
  if (sides === null) return 'the wall between the two';
  const [first, second] = sides;
  if (first !== second) return `${first} of the first to ${second} of the second`;
  return first === 'centre'
    ? 'centre to centre'
    : first === 'far side'
      ? 'across the far sides'
      : 'between the near sides';
};

const kindOf = (reading: string): ReadingKind => reading.split(' ', 1)[0] as ReadingKind;
const featuresOf = (reading: string): readonly string[] => reading.split(' ').slice(1).join(' ').split(/[ -]+/);

interface Ask {
  readonly reading: string;
  readonly features: readonly string[];
  readonly by: string | null;
  /** It is on the sheet before. */
  readonly again?: true;
}

const lineOf = ({ reading, by, again }: Ask, number: number, units: 'in' | 'mm'): SheetLine => {
  const { measures, implied } = readingGrammar(kindOf(reading));
  return {
    number,
    reading,
    how: `${again === true ? 'once more, set afresh: ' : ''}${wordsFor(kindOf(reading))}`,
    by,
    unit: implied !== null ? '' : measures === 'angle' ? '°' : units,
  };
};

const paged = (
  of: string,
  asked: readonly Ask[],
  features: readonly SheetFeature[],
  ground: Parameters<typeof measuringPicture>[3],
  notes: readonly string[],
  units: 'in' | 'mm',
  lettering: Lettering,
): readonly MeasuringSheet[] => {
  // As many on each page as on any other: the last is no stub.
  const count = Math.ceil(asked.length / A_PAGE);
  const each = Math.ceil(asked.length / Math.max(count, 1));
  const pages = Array.from({ length: count }, (_, p) =>
    asked.slice(p * each, (p + 1) * each).map((ask, k) => ({ ask, number: p * each + k + 1 })),
  );
  return pages.map((page) => {
    const [first, last] = [page[0]?.number ?? 0, page.at(-1)?.number ?? 0];
    const title = `${of}: readings ${first} to ${last} of ${asked.length}`;
    const readings = page.map(({ ask, number }) => ({ number, kind: kindOf(ask.reading), features: ask.features }));
    return {
      of,
      picture: measuringPicture(title, features, readings, ground, notes, lettering),
      lines: page.map(({ ask, number }) => lineOf(ask, number, units)),
    };
  });
};

/**
 * What is still to be read of a face, in the order of the plan; where the readings fix it already, all of them, to be
 * taken again.
 */
const askedOf = (study: Study, face: Face): readonly Ask[] => {
  const { undetermined } = study.located(face);
  const taken = face.readings.filter((r) => !r.aside);
  if (undetermined.length === 0 && taken.length > 0)
    return taken.map((r) => ({
      reading: (r.text.split('=')[0] ?? r.text).split(' by ')[0]?.trim() ?? r.text,
      features: r.features,
      by: r.instrument,
    }));
  const instruments = study.job.instruments;
  const left = taken.map((r) => `${r.kind} ${[...r.features].sort().join(' ')}`);
  return readingsToTake(face, instruments).flatMap(({ reading, again }): readonly Ask[] => {
    const features = featuresOf(reading);
    const at = left.indexOf(`${kindOf(reading)} ${[...features].sort().join(' ')}`);
    if (at < 0) return [{ reading, features, by: null, ...(again === undefined ? {} : { again }) }];
    // One that is to be taken twice has been taken once.
    left.splice(at, 1);
    return [];
  });
};

const faceSheets = (study: Study, face: Face, lettering: Lettering): readonly MeasuringSheet[] => {
  const located = study.located(face);
  const places = sketchPlaces(face, located);
  const features = face.features.flatMap((f): readonly SheetFeature[] => {
    const at = places.get(f.id);
    if (at === undefined) return [];
    const radius = at.radius ?? (isLarge(f) ? UNSIZED.large : UNSIZED.other);
    return [{ id: f.id, at, radius, large: isLarge(f), shapes: featureShapes(f, at, radius) }];
  });
  const again = located.undetermined.length === 0 && face.readings.length > 0;
  const notes = [
    `${viewedWords(face)}.` +
      (again
        ? ' Every reading of the job, to be taken again.'
        : ' A sketch: what is not fixed yet stands at its clock.'),
  ];
  return paged(face.name, askedOf(study, face), features, [], notes, study.job.units, lettering);
};

const plateSheets = (study: Study, designed: DesignedPlate, lettering: Lettering): readonly MeasuringSheet[] => {
  const { job } = study;
  const { plate, mated } = designed;
  const { plan } = study.proof() ?? prove(job, plate, mated);
  const side = readingSide(plate);
  const lies = side === 'B' ? identity : flipX;
  const holes = [
    ...plate.holes.map((h) => ({ id: h.id, x: h.x, y: h.y, diameter: h.diameter, large: false })),
    ...plate.bores.map((b) => ({ id: b.id, x: b.x, y: b.y, diameter: b.diameter, large: true })),
  ];
  const features = holes.map(({ id, x, y, diameter, large }): SheetFeature => {
    const at = apply(lies, { x, y });
    return {
      id,
      at,
      radius: diameter / 2,
      large,
      shapes: [pathShape('note', circlePath(at, diameter / 2), pens.narrow)],
    };
  });
  const { path } = plate.outline;
  const outline = movePath(lies, path);
  const asked = plan.readings.map((r) => ({ reading: r.reading, features: featuresOf(r.reading), by: r.instrument }));
  const notes = [
    `The drilled plate as it lies with side ${side} up.`,
    ...[plan.mouths, plan.handAtBench].flatMap((words) => words ?? []),
  ];
  return paged('drilled plate', asked, features, [pathShape('note', outline, pens.wide)], notes, job.units, lettering);
};

/** The sheets to fill in at the bench: each face of the job, then the drilled plate where one is designed. */
export const measuringSheets = (study: Study, lettering: Lettering): readonly MeasuringSheet[] => {
  const faces = study.job.faces.flatMap((face) => faceSheets(study, face, lettering));
  if (study.job.plate === null) return faces;
  try {
    return [...faces, ...plateSheets(study, study.plate(), lettering)];
  } catch (refused) {
    // A plate that cannot be designed yet has nothing to measure; its own command says why.
    if (refused instanceof Refusal) return faces;
    throw refused;
  }
};
