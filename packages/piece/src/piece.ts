import { type Point, apply, flipX, identity, sayAll } from '@fayplate/core';
import type { Lettering, TextShape } from '@fayplate/drawing';
import { type Plate, type Side, farOf } from '@fayplate/plate';
import { type Ground, type Placed, groundOf, nameBeside, wordsWherever } from './flat/names.js';
import { type TooNarrow, flatPlate } from './flat/openings.js';
import { ringOf } from './flat/polygon.js';
import type { Opening, TestPiece } from './types.js';

/** What is written on every test piece. */
export const NOT_FOR_SERVICE = 'TEST PIECE: NOT FOR SERVICE';

/** How a test piece is asked for. */
export interface PieceOptions {
  /** The side that faces the eye and carries the words. */
  readonly side: Side;
  /** The job's name, for the piece itself. */
  readonly name: string;
}

const notesOf = (
  plate: Plate,
  openings: readonly Opening[],
  unnamed: readonly string[],
  words: boolean,
): readonly string[] => {
  const open = new Set(openings.flatMap((o) => o.of));
  const single = new Map(openings.flatMap((o) => (o.of.length === 1 ? [[o.of[0] ?? '', o] as const] : [])));
  const lost = [
    ...plate.holes.map((h) => h.id),
    ...plate.bores.filter((b) => b.kind !== 'spigot' && b.box?.notch !== true).map((b) => b.id),
  ].filter((id) => !single.has(id));
  const swallowed = lost.filter((id) => !open.has(id));
  const met = lost.filter((id) => open.has(id));
  const raised = plate.bores.filter((b) => b.kind === 'spigot').map((b) => b.id);
  const threads = plate.holes.filter((h) => h.thread !== null).map((h) => h.id);
  return [
    ...(threads.length === 0
      ? []
      : [`${sayAll(threads)}: as large as the thread, so that the bolt can be put through.`]),
    ...(swallowed.length === 0
      ? []
      : [
          `${sayAll(swallowed)} ${swallowed.length === 1 ? 'lies' : 'lie'} in a larger opening, and ` +
            `${swallowed.length === 1 ? 'is' : 'are'} not tried.`,
        ]),
    ...(met.length === 0 ? [] : [`${sayAll(met)} run into another cut or over the edge, and are cut with it.`]),
    ...(raised.length === 0
      ? []
      : [
          `${sayAll(raised)} ${raised.length === 1 ? 'stands' : 'stand'} up on the plate and not on the piece: ` +
            'hold it by its bolts.',
        ]),
    ...(unnamed.length === 0 ? [] : [`No room on the piece for the names of ${sayAll(unnamed)}.`]),
    ...(words ? [] : [`No room on the piece to say “${NOT_FOR_SERVICE.toLowerCase()}”: write it on.`]),
  ];
};

/**
 * The test piece of a plate: every cut right through at the size at which it fits, the plate's own names beside the
 * holes, what side is seen and which part lies there, and that it is not for service. Says which cuts are too narrow
 * where none can be made.
 */
export const testPiece = (plate: Plate, { side, name }: PieceOptions, letters: Lettering): TestPiece | TooNarrow => {
  const flat = flatPlate(plate, side);
  if ('tooNarrow' in flat) return flat;
  const rings = [...flat.outlines.map((p) => ringOf(p)), ...flat.openings.map((o) => ringOf(o.path).toReversed())];
  const motion = side === 'B' ? identity : flipX;
  const middle: Point = { x: 0, y: 0 };
  let ground: Ground = groundOf(rings);
  const texts: TextShape[] = [];
  const unnamed: string[] = [];
  const take = (placed: Placed): boolean => {
    if (placed === null) return false;
    texts.push(...placed.shapes);
    ground = placed.ground;
    return true;
  };
  for (const h of plate.holes) {
    if (!flat.openings.some((o) => o.of.includes(h.id))) continue;
    const reach = Math.max(h.diameter, h.thread?.major ?? 0) / 2 + (h.slot?.length ?? 0) / 2;
    if (!take(nameBeside(h.id, apply(motion, h), reach, middle, ground, letters))) unnamed.push(h.id);
  }
  for (const b of plate.bores) {
    if (!flat.openings.some((o) => o.of.includes(b.id))) continue;
    if (
      !take(
        nameBeside(
          b.id,
          apply(motion, b),
          b.box === undefined ? b.diameter / 2 : farOf(b, b),
          { x: b.x, y: b.y - 1 },
          ground,
          letters,
        ),
      )
    )
      unnamed.push(b.id);
  }
  const seen = side === 'A' ? plate.faces[0] : plate.faces[1];
  const top: Point = { x: 0, y: Math.max(...rings.flat().map((p) => p.y)) };
  const words = take(
    wordsWherever(
      [[NOT_FOR_SERVICE], ['TEST PIECE:', 'NOT FOR SERVICE'], ['TEST PIECE:', 'NOT FOR', 'SERVICE']],
      top,
      ground,
      letters,
    ),
  );
  if (
    !take(
      wordsWherever([[`Side ${side}: ${seen}`], [`Side ${side}:`, seen], [`Side ${side}`]], middle, ground, letters),
    )
  )
    unnamed.push(`side ${side}`);
  take(wordsWherever([[name]], middle, ground, letters));
  return { side, ...flat, texts, notes: notesOf(plate, flat.openings, unnamed, words) };
};
