import type { VerdictBlock } from '@fayplate/core';
import { type Lettering, type Shape, type Weight, polygon, rectangle, pens, text, wrapText } from '@fayplate/drawing';
import { type Piece, piece, style } from './piece.js';

/** Lines of one size set from the left, first baseline a capital and a half lead under the top. */
export const linesOf = (
  lines: readonly string[],
  x: number,
  capital: number,
  weight: Weight,
  lead: number,
  grey = 0,
): readonly Shape[] =>
  lines.map((words, i) => text('note', { x, y: -(lead + capital) / 2 - i * lead }, words, { capital, weight, grey }));

/**
 * Every line a piece of its own, so that a long paragraph may break; its first two and last two lines stay together.
 */
const lineByLine = (
  lines: readonly string[],
  x: number,
  capital: number,
  weight: Weight,
  lead: number,
  above: number,
): readonly Piece[] =>
  lines.map((words, i) =>
    piece(lead, linesOf([words], x, capital, weight, lead), {
      above: i === 0 ? above : 0,
      withNext: (i === 0 && lines.length > 1) || i === lines.length - 2,
    }),
  );

export const headingPiece = (words: string, rank: 0 | 1 | 2 | 3, width: number, lettering: Lettering): Piece => {
  const capital = style.headings[rank];
  const lead = Math.max(style.lead, capital * 1.8);
  const lines = wrapText(words, width, capital, 'bold', lettering);
  const height = Math.ceil((lines.length * lead) / (style.lead / 2)) * (style.lead / 2);
  return piece(height, linesOf(lines, 0, capital, 'bold', lead), {
    above: rank === 0 ? 0 : style.lead,
    withNext: true,
    heading: true,
  });
};

/** Baseline to baseline of text with these capitals, mm. */
const leadOf = (capital: number): number => Math.max(style.lead, 2 * capital);

export const paragraphPieces = (
  words: string,
  width: number,
  lettering: Lettering,
  capital: number = style.text,
): readonly Piece[] =>
  lineByLine(
    wrapText(words, width, capital, 'regular', lettering),
    0,
    capital,
    'regular',
    leadOf(capital),
    style.lead / 2,
  );

export const listPieces = (
  items: readonly string[],
  width: number,
  lettering: Lettering,
  capital: number = style.text,
): readonly Piece[] =>
  items.flatMap((item, k) => {
    const lead = leadOf(capital);
    const [first, ...rest] = lineByLine(
      wrapText(item, width - 4, capital, 'regular', lettering),
      4,
      capital,
      'regular',
      lead,
      k === 0 ? style.lead / 2 : 0,
    );
    if (first === undefined) return [];
    return [{ ...first, shapes: [...linesOf(['–'], 0.6, capital, 'regular', lead), ...first.shapes] }, ...rest];
  });

/**
 * The answer: a tick in a frame for yes, a cross on black for no, so that no colour is needed to tell them apart; a
 * dash where nothing rests on it.
 */
export const verdictPiece = (
  { ok, answer, needed }: Pick<VerdictBlock, 'ok' | 'answer' | 'needed'>,
  words: string,
  width: number,
  lettering: Lettering,
): Piece => {
  const open = answer === 'not yet';
  const black = !ok && !open && needed !== false;
  const capital = 2.8;
  const lead = 5.5;
  const lines = wrapText(open ? `Not yet: ${words}` : words, width - 12, capital, 'bold', lettering);
  const height = Math.max(lines.length * lead, 7.7) + 1.1;
  const box = { left: 0, right: 7.2, top: -0.8, bottom: -8 };
  return piece(
    height,
    [
      rectangle('note', box, pens.wide, black ? 0 : null),
      text('note', { x: 3.6, y: -6 }, needed === false ? '–' : ok ? '✓' : open ? '?' : '✗', {
        capital: 3.6,
        weight: 'bold',
        anchor: 'middle',
        grey: black ? 1 : 0,
      }),
      ...linesOf(lines, 11, capital, 'bold', lead).map((s) => (lines.length === 1 ? lowerBy(s, 1.6) : s)),
    ],
    { above: style.lead / 2 },
  );
};

const lowerBy = (s: Shape, by: number): Shape => (s.kind === 'text' ? { ...s, at: { x: s.at.x, y: s.at.y - by } } : s);

/** A framed warning with a triangle; always whole. */
export const cautionPiece = (words: string, width: number, lettering: Lettering): Piece => {
  const lines = wrapText(words, width - 18, style.text, 'regular', lettering);
  const height = Math.max(13.2, (lines.length + 2) * style.lead);
  return piece(
    height,
    [
      rectangle('note', { left: 0, right: width, top: -0.6, bottom: -height + 0.6 }, pens.narrow),
      polygon(
        'note',
        [
          { x: 3, y: -9.6 },
          { x: 11, y: -9.6 },
          { x: 7, y: -2.8 },
        ],
        pens.wide,
      ),
      text('note', { x: 7, y: -8.8 }, '!', { capital: 3.4, weight: 'bold', anchor: 'middle' }),
      text('note', { x: 14, y: -5 }, 'Caution', { capital: 2.4, weight: 'bold' }),
      ...lines.map((line, i) => text('note', { x: 14, y: -5 - (i + 1) * style.lead }, line, { capital: style.text })),
    ],
    { above: style.lead },
  );
};
