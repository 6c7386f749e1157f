import { type Box, type Speech, say, sayMeasure } from '@fayplate/core';
import { type Lettering, type Picture, type Shape, arrow, group, line, pens, rectangle, text } from '@fayplate/drawing';
import type { StackSpec } from '@fayplate/job';
import type { StackResult } from '@fayplate/plate';
import { hatch } from './hatch.js';
import { sheet } from './sheet.js';
import { type Laid, stackPlanes } from './stack-planes.js';

/** A drawing no wider than this, mm, at a round scale. */
const WIDE = 120;
const scales = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000] as const;
const scale = { capital: 3.6, small: 3.2, gap: 3 } as const;

/**
 * Heights, which are not to scale, mm from the axis: the shaft, the room around it, and the height of what surrounds
 * it.
 */
const SHAFT = 9;
const ROOM = 2.5;
const AROUND = 26;
const ROW = 10.5;

/** Where a link or a limit is named on the drawing, mm on it: there its size can be typed. */
export interface NamedPlace {
  readonly name: string;
  readonly kind: 'link' | 'limit';
  readonly box: Box;
}

interface Name {
  readonly name: string;
  readonly kind: NamedPlace['kind'];
  readonly words: string;
  /** What it names, mm on the drawing. */
  readonly x: number;
  readonly y: number;
}

/**
 * Names in rows, none over another, each with a line to what it names: over the drawing to the right of their lines,
 * under it to the left, the one whose line is farthest back in the outermost row, so that no line crosses a name.
 */
const named = (
  names: readonly Name[],
  edge: number,
  up: 1 | -1,
  lettering: Lettering,
): { readonly shapes: readonly Shape[]; readonly places: readonly NamedPlace[] } => {
  const rows = names
    .toSorted((a, b) => up * (a.x - b.x))
    .map((n, i, all) => ({
      ...n,
      width: lettering.width(n.words, scale.small, 'regular'),
      row: edge + up * ROW * (all.length - i),
    }));
  return {
    shapes: rows.flatMap((n) => [
      line('note', { x: n.x, y: n.y }, { x: n.x, y: n.row + (up > 0 ? 0 : scale.small) }, { ...pens.hair, grey: 0.5 }),
      text('note', { x: n.x + up, y: n.row }, n.words, { capital: scale.small, anchor: up > 0 ? 'start' : 'end' }),
    ]),
    places: rows.map((n) => ({
      name: n.name,
      kind: n.kind,
      box: {
        left: up > 0 ? n.x : n.x - n.width - 2,
        right: up > 0 ? n.x + n.width + 2 : n.x,
        bottom: n.row - 3.6,
        top: n.row + scale.small + 3.6,
      },
    })),
  };
};

/**
 * The chain along the shaft as a section: the shaft drawn through, the plate and what is clamped with it cut around it,
 * lengths to the stated scale, heights not. `places`: where each link and limit is named.
 */
export const stackSectionPicture = (
  spec: StackSpec,
  result: StackResult,
  speech: Speech,
  lettering: Lettering,
): { readonly picture: Picture; readonly places: readonly NamedPlace[] } => {
  const { around, along, gaps } = stackPlanes(spec, result.at);
  const extent = Math.max(1, ...[...around, ...along].map((b) => b.to));
  const per = scales.find((s) => extent / s <= WIDE) ?? 1000;
  const foot = SHAFT + ROOM;
  const top = foot + AROUND;
  const cut = (b: Laid, up: 1 | -1): Box => {
    const [y1, y2] = [up * (foot + AROUND * b.low), up * (foot + AROUND * b.high)];
    return { left: b.from / per, right: b.to / per, bottom: Math.min(y1, y2), top: Math.max(y1, y2) };
  };
  const corners = ({ left, right, bottom, top }: Box) => [
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ];
  const unknown = around.find((b) => b.name === spec.unknown.name);
  const metal = unknown === undefined ? [] : ([1, -1] as const).map((up) => corners(cut(unknown, up)));
  const bar = (b: Laid): Box => ({
    left: b.from / per,
    right: b.to / per,
    bottom: SHAFT * (2 * b.low - 1),
    top: SHAFT * (2 * b.high - 1),
  });
  const sized = (name: string): string => {
    if (name === spec.unknown.name) return `${name} ${say(result.at, speech)}`;
    const link = spec.links.find((l) => l.name === name);
    if (link === undefined) return name;
    return `${name} ${link.plusMinus > 0 ? sayMeasure(link.value, link.plusMinus, speech) : say(link.value, speech)}`;
  };
  const over = named(
    [
      ...around.map((b): Name => {
        const { left, right, top: y } = cut(b, 1);
        return { name: b.name, kind: 'link', words: sized(b.name), x: (left + right) / 2, y: y - 1 };
      }),
      ...along.map((b): Name => {
        const { right, left, top: y } = bar(b);
        const past = Math.max(0, ...around.map((a) => a.to / per));
        // Where the shaft shows beyond what surrounds it, else at its near end.
        const x = right > past + 2 ? (right + Math.max(left, past)) / 2 : left + 1.5;
        return { name: b.name, kind: 'link', words: sized(b.name), x, y };
      }),
    ].filter((n, i, all) => all.findIndex((o) => o.name === n.name) === i),
    top,
    1,
    lettering,
  );
  const under = named(
    gaps.map((g): Name => {
      const check = result.limits.find((c) => c.name === g.limit);
      const y = -(foot + AROUND * g.at);
      const worst = check === undefined ? '' : ` ${say(check.worst[0], speech)} to ${say(check.worst[1], speech)}`;
      const holds = check === undefined ? '' : check.ok ? ': holds' : ': does not hold';
      return {
        name: g.limit,
        kind: 'limit',
        words: `${g.limit}${worst}${holds}`,
        x: (g.from + g.to) / 2 / per,
        y,
      };
    }),
    -top - scale.small,
    -1,
    lettering,
  );
  const window = result.worst;
  const shapes: readonly Shape[] = [
    group(
      'window',
      window === null
        ? []
        : ([1, -1] as const).map((up) =>
            rectangle(
              'note',
              {
                left: window.from / per,
                right: window.to / per,
                bottom: Math.min(up * foot, up * (top + 4)),
                top: Math.max(up * foot, up * (top + 4)),
              },
              null,
              0.85,
            ),
          ),
    ),
    group(
      'hatching',
      hatch(metal, [], 2).map(([a, b]) => line('note', a, b, { ...pens.hair, grey: 0.3 })),
    ),
    group(
      'around',
      around.flatMap((b) =>
        ([1, -1] as const).map((up) => rectangle('note', cut(b, up), b === unknown ? pens.wide : pens.narrow)),
      ),
    ),
    group(
      'along',
      along.map((b) => rectangle('note', bar(b), pens.wide, 0.95)),
    ),
    line('note', { x: -6, y: 0 }, { x: extent / per + 6, y: 0 }, pens.centre),
    group(
      'limits',
      gaps.flatMap((g) => {
        const y = -(foot + AROUND * g.at);
        const [from, to] = [
          { x: g.from / per, y },
          { x: g.to / per, y },
        ];
        const middle = { x: (from.x + to.x) / 2, y };
        return [
          line('note', { x: from.x, y: -SHAFT }, { x: from.x, y: y - 1.5 }, pens.hair),
          line('note', { x: to.x, y: y + 1.5 }, { x: to.x, y: y - 1.5 }, pens.hair),
          ...arrow('note', middle, from, pens.narrow, scale.small),
          ...arrow('note', middle, to, pens.narrow, scale.small),
        ];
      }),
    ),
    ...over.shapes,
    ...under.shapes,
  ];
  const notes = [
    'Lengths along the shaft are to scale, heights are not. Hatched: ' +
      spec.unknown.name +
      (result.shims.length + (result.spacer === null ? 0 : 1) > 0 ? ' with its shims or spacer' : '') +
      '. ' +
      'Arrows: what each limit measures.',
    window === null
      ? `No ${spec.unknown.name} meets every limit in the worst case.`
      : `Grey band: where ${spec.unknown.name} may end, ${say(window.from, speech)} to ${say(window.to, speech)}.`,
  ];
  return {
    picture: sheet('Along the shaft', shapes, notes, scale, 1 / per, lettering),
    places: [...over.places, ...under.places],
  };
};
