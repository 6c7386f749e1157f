import { type Speech, polygonPath, say } from '@fayplate/core';
import { type Lettering, type Shape, group, pathShape, pens, text, wrapText } from '@fayplate/drawing';
import type { Template } from './types.js';

/** One setting of the drill stop: a tool, what it does, and how far it goes below the face, mm. */
export interface StopDepth {
  readonly tool: string;
  readonly op: string;
  readonly side: 'A' | 'B';
  readonly depth: number;
  /** Holes that are cut with it, `H1`. */
  readonly holes: readonly string[];
}

/** Width of a strip, from strip to strip, and room for the words over it, mm. */
const STRIP = 14;
const PITCH = 31;
const WORDS = 26;
const IN_A_ROW = 5;
const CAPITAL = 2.2;

/**
 * Strips as long as each depth of the drill stop, at true scale: cut out and held beside the tool, the end at its point
 * (or shoulder), each shows where the stop is set. `lettering` breaks the words over them.
 */
export const depthTemplate = (depths: readonly StopDepth[], speech: Speech, lettering: Lettering): Template => {
  const longest = Math.max(...depths.map((d) => d.depth), 1);
  const down = longest + WORDS + 8;
  const placed = depths.map((d, k) => ({
    ...d,
    left: (k % IN_A_ROW) * PITCH,
    top: -Math.floor(k / IN_A_ROW) * down,
  }));
  const plain = { ...speech, fraction: null };
  const wordsOver = ({ tool, op, side, depth, holes, left, top }: (typeof placed)[number]): readonly Shape[] => {
    const few = holes.length > 4 ? `${holes.slice(0, 3).join(', ')} and ${holes.length - 3} more` : holes.join(', ');
    const lines = [say(depth, plain), `side ${side}: ${op}`, tool, few].flatMap((w, i) =>
      wrapText(w, PITCH - 3, CAPITAL, i === 0 ? 'bold' : 'regular', lettering).map((line) => ({ line, bold: i === 0 })),
    );
    return lines.map(({ line, bold }, i) =>
      text('note', { x: left, y: top + (lines.length - 1 - i) * CAPITAL * 1.6 + 1.5 }, line, {
        capital: CAPITAL,
        weight: bold ? 'bold' : 'regular',
      }),
    );
  };
  const rows = Math.ceil(depths.length / IN_A_ROW);
  const box = {
    left: -2,
    right: Math.min(depths.length, IN_A_ROW) * PITCH,
    top: WORDS,
    bottom: -(rows - 1) * down - longest - 2,
  };
  const strips = placed.map((d) =>
    polygonPath([
      { x: d.left, y: d.top },
      { x: d.left, y: d.top - d.depth },
      { x: d.left + STRIP, y: d.top - d.depth },
      { x: d.left + STRIP, y: d.top },
    ]),
  );
  return {
    what: 'depths',
    side: null,
    title: 'Depths for the drill stop',
    parts: [{ name: 'depths', fromPlate: [1, 0, 0, 1, 0, 0] }],
    holes: [],
    outlines: strips,
    way: null,
    box,
    shapes: placed.map((d, k) =>
      group(`depth ${k + 1}`, [
        ...strips.slice(k, k + 1).map((path) => pathShape('cut', path, pens.narrow)),
        ...wordsOver(d),
      ]),
    ),
    obstacles: [],
    labels: [],
    blocks: [],
    facts: [
      ['Depths', 'below the face of the side that is uppermost, to the point of a drill, to the shoulder of others'],
    ],
    list: {
      columns: [
        { title: 'Tool', align: 'left' },
        { title: 'Cut', align: 'left' },
        { title: 'Side', align: 'left' },
        { title: `Depth, ${speech.unit}`, align: 'point' },
        { title: 'Holes', align: 'left' },
      ],
      rows: depths.map((d) => [d.tool, d.op, d.side, say(d.depth, plain), d.holes.join(', ')]),
    },
  };
};
