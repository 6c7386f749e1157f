import { type Speech, minusSign, say, sayNumber } from '@fayplate/core';
import { type Face, isDistance, sidesOf } from '@fayplate/job';
import { facePicture, sketchPicture, sketchPlaces } from '@fayplate/pictures';
import { type LocatedFace, agrees, isOneArrangement, locateReport, settleWords, tellingWords } from '@fayplate/survey';
import { letters } from '../letters.js';
import type { FaceView, PlanItem } from '../shown.js';
import { drawnOf } from './drawn.js';
import { turnedFace, turnedPlaces } from './turned.js';

/** A reading in a sentence, as it is taken. */
export const readingSays = (head: string, kinds: ReadonlyMap<string, string>): string => {
  const [kind = '', ...rest] = head.split(' ');
  const name = (id: string): string => {
    const what = kinds.get(id);
    return what === undefined || what === id ? id : `${what} ${id}`;
  };
  const [a = '', b = ''] = rest;
  if (isDistance(kind)) {
    const sides = sidesOf(kind);
    if (sides === null) return `The wall between ${name(a)} and the bore ${b} around it`;
    const [first, second] = sides;
    if (first !== second) return `From the ${first} of ${name(a)} to the ${second} of ${name(b)}`;
    if (first === 'centre') return `Centre to centre, ${name(a)} to ${name(b)}`;
    const where = first === 'far side' ? 'Across the far sides' : 'The gap or web between the near sides';
    return `${where} of ${name(a)} and ${name(b)}`;
  }
  switch (kind) {
    case 'dia':
      return `The diameter of ${name(a)}`;
    case 'angle':
      return `The angle at ${b} from ${a} to ${rest[2] ?? ''}`;
    case 'square':
      return `The lines ${a} and ${b} are square to each other`;
    case 'line':
      return `The centres of ${rest.join(', ')} are in line`;
    case 'flush':
      return `One straightedge touches ${rest.join(', ')} on the same side`;
    case 'offset':
      return `How far ${name(a)} lies from the line ${b}`;
    case 'runout':
      return `The dial’s whole travel on ${name(a)} in one turn about ${name(rest[2] ?? '')}`;
    case 'at':
      return `Where the centre of ${name(a)} lies on the table: x, y`;
    case 'touch':
      return `A point of the rim of ${name(a)} on the table: x, y`;
    default:
      return head;
  }
};

const kindsOf = (face: Face): ReadonlyMap<string, string> => new Map(face.features.map((f) => [f.id, f.kind]));

export const planItem = (head: string, instrument: string | null, face: Face): PlanItem => ({
  head,
  instrument,
  says: readingSays(head, kindsOf(face)),
});

/** Readings wanted beyond the fewest that fix every feature: they check the others. */
export const spareFor = (face: Face): number => Math.max(2, Math.ceil(face.features.length / 2));

/** The reading that tells arrangements apart, or else which reading is wrong, and what its value would mean. */
const settlesOf = (face: Face, located: LocatedFace, speech: Speech): FaceView['settles'] => {
  const { settle } = located.arrangements;
  if (settle !== null)
    return { ...planItem(settle.reading, settle.instrument, face), means: settleWords(located, speech) ?? '' };
  const { telling } = located;
  return telling === null
    ? null
    : { ...planItem(telling.reading, telling.instrument, face), means: tellingWords(located, speech) };
};

interface FaceChoices {
  /** It is known which reading is wrong; true unless told. */
  readonly weighed?: boolean;
  /** How far the drawing is turned by hand, degrees clockwise; 0 unless told. */
  readonly turn?: number;
}

/** What of a face is drawn and said; `located` null: the readings settle on no shape. */
export const faceView = (
  face: Face,
  located: LocatedFace | null,
  speech: Speech,
  { weighed = true, turn = 0 }: FaceChoices = {},
): FaceView => {
  const by = (-turn * Math.PI) / 180;
  const places = turnedPlaces(sketchPlaces(face, located), by);
  const sketch = located === null || located.features.size < face.features.length;
  const drawn = drawnOf(
    face.name,
    sketch ? sketchPicture(face, places, letters()) : facePicture(face, turnedFace(located, by), speech, letters()),
  );
  const picture =
    turn === 0
      ? drawn
      : {
          ...drawn,
          notes: [
            `Turned by hand, ${minusSign(String(turn))}° clockwise, to lie as the part does. X and Y are not turned.`,
            ...drawn.notes,
          ],
        };
  const suspects = located?.suspects ?? [];
  return {
    name: face.name,
    picture,
    sketch,
    marks: face.features.flatMap((f) => {
      const at = places.get(f.id);
      return at === undefined
        ? []
        : [{ id: f.id, x: at.x, y: at.y, r: at.radius ?? 2, says: f.kind === f.id ? f.id : `${f.kind} ${f.id}` }];
    }),
    centres: face.features.map(({ id }) => {
      const at = located?.features.get(id);
      if (at === undefined) return { id, x: '', y: '', band: '' };
      return {
        id,
        x: minusSign(sayNumber(at.x, speech)),
        y: minusSign(sayNumber(at.y, speech)),
        band: at.ellipse95.major === 0 ? 'exact' : sayNumber(at.ellipse95.major, speech),
      };
    }),
    suspects: suspects.flatMap((s) =>
      [s.reading, ...s.tiedWith].map((reading) => ({
        reading,
        says:
          'does not agree with the rest' +
          (s.reading === reading && s.measures === 'length'
            ? `: about ${say(Math.abs(s.error), speech)} ` + (s.error > 0 ? 'too much' : 'too little')
            : '') +
          (s.reading === reading && s.guess !== null ? `; ${s.guess}` : '') +
          '. Read it again.',
      })),
    ),
    settles: located === null ? null : settlesOf(face, located, speech),
    agrees: located === null || agrees(located),
    weighed,
    undetermined: located?.undetermined ?? face.features.map((f) => f.id),
    report: located === null || !weighed ? [] : locateReport(face, located, speech),
    enough:
      located !== null &&
      located.undetermined.length === 0 &&
      (face.standard !== null || located.fit.dof >= spareFor(face)),
    ok:
      located !== null &&
      located.undetermined.length === 0 &&
      suspects.length === 0 &&
      agrees(located) &&
      isOneArrangement(located),
  };
};
