import type { Point } from '@fayplate/core';
import type { Glyph, GlyphContour } from '../../types.js';
import { type FontSource, letterRanges } from '../face.js';
import { type Name, type Reader, names, readerOf, step } from './streams.js';

type Readers = Readonly<Record<Name, Reader>>;

const streamsIn = (packed: Uint8Array): Readers => {
  const head = readerOf(packed);
  const lengths = names.map(() => head.next());
  let from = head.at;
  const readers = names.map((name, i) => {
    const to = from + (lengths[i] ?? 0);
    const reader = readerOf(packed.subarray(from, to));
    from = to;
    return [name, reader] as const;
  });
  return Object.fromEntries(readers) as Readers;
};

const idsIn = ({ characters }: Readers): ReadonlyMap<number, number> => {
  const ids = new Map<number, number>();
  let id = 0;
  for (const [from, to] of letterRanges)
    for (let code = from; code <= to; code++) {
      id += characters.signed();
      if (id !== 0) ids.set(code, id);
    }
  return ids;
};

type Step = GlyphContour['steps'][number];

/** The steps of the contour that `r` stands at. A curve that ends half way to the next control waits for it. */
const stepsAt = (r: Readers, start: Point): readonly Step[] => {
  const steps: Step[] = [];
  let pen = start;
  let waiting: Point | null = null;
  for (;;) {
    const op = r.steps.next();
    const unit = (op & step.halves) === 0 ? 1 : 2;
    const way = op % step.last;
    const by = (stream: Reader): number => stream.signed() / unit;
    let control: Point | null = null;
    if (way >= step.curve) {
      control = { x: pen.x + by(r.stepX), y: pen.y + by(r.stepY) };
      if (waiting !== null)
        steps.push({
          kind: 'quadratic',
          control: waiting,
          to: { x: (waiting.x + control.x) / 2, y: (waiting.y + control.y) / 2 },
        });
      waiting = way === step.curveBetween ? control : null;
      pen = control;
    }
    if (way !== step.curveBetween) {
      const turn = way % step.curve;
      const dy = turn === step.line || turn === step.lineY ? by(r.stepY) : 0;
      const dx = turn === step.line || turn === step.lineX ? by(r.stepX) : 0;
      const to = turn === step.lineHome ? start : { x: pen.x + dx, y: pen.y + dy };
      steps.push(control === null ? { kind: 'line', to } : { kind: 'quadratic', control, to });
      pen = to;
    }
    if ((op & step.last) !== 0) return steps;
  }
};

/** A contour as it was first drawn: where it starts, and where its steps stand in the three streams. */
interface Known {
  readonly start: Point;
  readonly at: readonly [steps: number, x: number, y: number];
}
interface Packed {
  readonly advance: number;
  readonly contours: readonly { readonly start: Point; readonly of: Known | undefined }[];
}

const zero: Point = { x: 0, y: 0 };

/** The contours of one glyph, new ones put behind those that are known. */
const contoursAt = (r: Readers, known: Known[]): Packed['contours'] => {
  let [last, moved, before] = [-1, zero, zero];
  return Array.from({ length: r.counts.next() }, () => {
    const which = r.contours.next();
    const of = which === 0 ? known.length : which === 1 ? last + 1 : which - 2;
    const first = known[of];
    const from = first === undefined ? before : { x: first.start.x + moved.x, y: first.start.y + moved.y };
    const start = { x: from.x + r.startX.signed() / 2, y: from.y + r.startY.signed() / 2 };
    if (first === undefined) {
      known.push({ start, at: [r.steps.at, r.stepX.at, r.stepY.at] });
      stepsAt(r, start);
    } else moved = { x: start.x - first.start.x, y: start.y - first.start.y };
    last = of;
    before = start;
    return { start, of: known[of] };
  });
};

const glyphsIn = (r: Readers): ((id: number) => Glyph) => {
  const known: Known[] = [];
  const glyphs: Packed[] = [];
  const count = r.counts.next();
  let advance = 0;
  while (glyphs.length < count) {
    advance += r.advances.signed();
    glyphs.push({ advance, contours: contoursAt(r, known) });
  }
  return (id) => {
    const { advance, contours } = glyphs[id - 1] ?? { advance: 0, contours: [] };
    return {
      advance,
      contours: contours.map(({ start, of }) => {
        [r.steps.at, r.stepX.at, r.stepY.at] = of?.at ?? [0, 0, 0];
        return { start, steps: stepsAt(r, start) };
      }),
    };
  };
};

const kernsIn = ({ kerns }: Readers): ReadonlyMap<number, ReadonlyMap<number, number>> => {
  const after = new Map<number, ReadonlyMap<number, number>>();
  let left = 0;
  while (!kerns.ended()) {
    left += kerns.next();
    let right = 0;
    after.set(
      left,
      new Map(
        Array.from({ length: kerns.next() }, () => {
          right += kerns.next();
          return [right, kerns.signed()] as const;
        }),
      ),
    );
  }
  return after;
};

/**
 * Reads what `packOutlines` wrote: the same glyphs, number for number, under the same ids. Throws a RangeError on bytes
 * cut short.
 */
export const unpackOutlines = (packed: Uint8Array): FontSource => {
  const r = streamsIn(packed);
  const ids = idsIn(r);
  const glyph = glyphsIn(r);
  const kerns = kernsIn(r);
  return {
    idOf: (code) => ids.get(code) ?? 0,
    glyph,
    kern: (left, right) => kerns.get(left)?.get(right) ?? 0,
  };
};
