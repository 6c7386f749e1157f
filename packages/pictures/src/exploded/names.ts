import { type Speech, say, sayAll } from '@fayplate/core';
import type { Scene } from './apart.js';
import type { ExplodedInput, Named, Piece } from './piece.js';
import { oddOne } from './pieces.js';

/** More names than this on one piece are left to the plate's own drawing; the odd one is always named. */
const MOST_NAMED = 16;

/** Which of the places of a piece are named on it: all while they are few, else the odd one of its part alone. */
export const namesOn = (piece: Piece, odd: ReadonlySet<string>): readonly Named[] =>
  piece.kind !== 'gasket' && piece.named.length <= MOST_NAMED
    ? piece.named
    : piece.named.filter((n) => odd.has(n.axis));

/** The place of each part that shows best whether a piece is turned over, of those that are seen on the plate. */
export const oddOnes = (
  { mated, plate }: ExplodedInput,
  { pieces }: Scene,
  isSeen: (n: Named, z: number) => boolean,
): readonly { readonly face: string; readonly id: string; readonly axis: string }[] => {
  const whole = pieces.find((s) => s.piece.kind === 'plate');
  const seen = new Set(whole?.piece.named.filter((n) => isSeen(n, whole.piece.top + whole.by)).map((n) => n.axis));
  return mated.flatMap((m) => {
    const own = plate.holes.flatMap((h): readonly Named[] =>
      h.part?.face === m.face ? [{ x: h.x, y: h.y, axis: h.id, id: h.part.feature, diameter: h.diameter }] : [],
    );
    const odd = oddOne(own, m.centre, seen);
    return odd === null ? [] : [{ face: m.face, id: odd.id, axis: odd.axis }];
  });
};

export const wordsOf = (piece: Piece, [first, second]: readonly [string, string]): readonly string[] => {
  if (piece.kind === 'gasket') return [piece.name];
  if (piece.kind === 'plate') return ['plate', `side B: ${second}, A behind: ${first}`];
  return [piece.name, piece.name === first ? 'its face, to side A' : 'from behind, to side B'];
};

export const notesOf = (
  { plate }: ExplodedInput,
  { pieces }: Scene,
  odd: ReturnType<typeof oddOnes>,
  sides: readonly string[],
  unnamed: readonly string[],
  speech: Speech,
): readonly string[] => {
  const [first, second] = plate.faces;
  const unknown = pieces.flatMap((s) => s.piece.unknown);
  const letters = [
    ...(sides.includes('B') ? [`B stands on side B of the plate`] : []),
    ...(sides.includes('A') ? [`A on the face of ${first} that lies on side A`] : []),
  ];
  return [
    `The plate, ${say(plate.thickness, speech, speech.unit === 'in' ? 3 : 2)} thick, shows its side B, where ` +
      `${second} lies; ${first} lies on side A, behind.${letters.length === 0 ? '' : ` ${letters.join(', ')}.`} Each ` +
      'triangle is 12 o’clock of its piece: a piece that does not look so lies the wrong way round.',
    ...odd.map(
      (o) => `${o.axis} is for ${o.id} of ${o.face}: on a plate that is turned over it lies on the other side.`,
    ),
    'Isometric: lengths along its three axes are to scale, and ' +
      'along no other. How far the pieces are pulled apart is not.',
    ...(unknown.length === 0 ? [] : [`Not measured, and drawn only to show the place: ${sayAll(unknown)}.`]),
    ...(unnamed.length === 0 ? [] : [`No room to name in the drawing: ${sayAll(unnamed)}.`]),
  ];
};
