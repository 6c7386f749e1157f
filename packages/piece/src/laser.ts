import { pathBox } from '@fayplate/core';
import { type Drawing, type Lettering, group, pathShape, svg } from '@fayplate/drawing';
import type { Plate } from '@fayplate/plate';
import { type TooNarrow, flatPlate } from './flat/openings.js';
import type { TestPiece } from './types.js';

/** As thin as a reader of such files takes for a cut and still shows, mm. */
const HAIR = { width: 0.1, dash: [], grey: 0 } as const;
/** Bare room round the piece, mm. */
const ROOM = 2;

/**
 * The test piece for a laser or a cutting plotter: SVG in true millimetres, one closed path a cut in the layer `cut`,
 * names in `mark`. `kerf`: the width of the burn, mm; each path runs half of it on the side of the waste. Says which
 * cuts are narrower than the burn where there are any.
 */
export const laserSvg = (
  plate: Plate,
  piece: TestPiece,
  { kerf, title }: { readonly kerf: number; readonly title: string },
  letters: Lettering,
): { readonly text: string } | TooNarrow => {
  const cut = flatPlate(plate, piece.side, kerf / 2);
  if ('tooNarrow' in cut) return cut;
  const boxes = cut.outlines.map(pathBox);
  const drawing: Drawing = {
    title,
    box: {
      left: Math.min(...boxes.map((b) => b.left)) - ROOM,
      right: Math.max(...boxes.map((b) => b.right)) + ROOM,
      bottom: Math.min(...boxes.map((b) => b.bottom)) - ROOM,
      top: Math.max(...boxes.map((b) => b.top)) + ROOM,
    },
    shapes: [
      ...cut.openings.map((o) => group(o.of.join(' '), [pathShape('cut', o.path, HAIR)])),
      // The outline last: what is cut free may shift.
      ...cut.outlines.map((p) => group('outline', [pathShape('cut', p, HAIR)])),
      ...piece.texts,
    ],
  };
  return { text: svg(drawing, letters) };
};
