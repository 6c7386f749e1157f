import { type Speech, perUnit, say, toDegrees } from '@fayplate/core';
import {
  type Lettering,
  type Picture,
  type Shape,
  circle,
  group,
  line,
  pens,
  polyline,
  rectangle,
  text,
} from '@fayplate/drawing';
import type { Plate } from '@fayplate/plate';
import { sheet } from './sheet.js';

const WIDE = 160;
const HIGH = 70;
const scale = { capital: 2.8, small: 2.4, gap: 2.8 };

/** An angle as it is written: no needless noughts, a true minus sign. */
const degreeWords = (deg: number, places = 2): string => `${Number(deg.toFixed(places))}°`.replace('-', '−');

const nice = (span: number, most: number): number =>
  [0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 45, 90].find((s) => span / s <= most) ?? 90;

/**
 * The smallest web between what turns and what does not, against the clocking; where every check holds is shaded, the
 * angle chosen is ringed.
 */
export const clockingPicture = (plate: Plate, speech: Speech, lettering: Lettering): Picture => {
  const { plot, range, spans, best } = plate.turning;
  const degrees = (a: number): number => toDegrees(a);
  const from = degrees(range.from);
  const to = degrees(range.to);
  const unit = perUnit(speech.unit);
  const values = plot.map((p) => p.web / unit);
  const top = 1.1 * Math.max(1e-6, ...values);
  const low = Math.min(0, ...values);
  const x = (deg: number): number => (WIDE * (deg - from)) / Math.max(to - from, 1e-9);
  const y = (v: number): number => (HIGH * (v - low)) / (top - low);
  const stepX = nice(to - from, 12);
  const stepY = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100].find((s) => (top - low) / s <= 8) ?? 100;
  const ticksX = Array.from(
    { length: Math.floor((to - from) / stepX) + 1 },
    (_, i) => Math.ceil(from / stepX) * stepX + i * stepX,
  ).filter((d) => d <= to + 1e-9);
  const ticksY = Array.from(
    { length: Math.floor((top - low) / stepY) + 1 },
    (_, i) => Math.ceil(low / stepY) * stepY + i * stepY,
  ).filter((v) => v <= top + 1e-9);
  const mark =
    best === null
      ? []
      : [circle('note', { x: x(degrees(best.angle)), y: y(webAt(plot, best.angle) / unit) }, 1.6, pens.wide)];
  const now = degrees(plate.clocking);
  const here =
    now < from - 1e-9 || now > to + 1e-9
      ? []
      : [
          line('note', { x: x(now), y: 0 }, { x: x(now), y: HIGH }, pens.hidden),
          text('note', { x: x(now), y: HIGH + 2 }, 'this plate', {
            capital: scale.small,
            anchor: 'middle',
            weight: 'bold',
          }),
        ];
  const shapes: readonly Shape[] = [
    group(
      'spans',
      spans.map((s) =>
        rectangle('note', { left: x(degrees(s.from)), right: x(degrees(s.to)), bottom: 0, top: HIGH }, null, 0.88),
      ),
    ),
    rectangle('note', { left: 0, right: WIDE, bottom: 0, top: HIGH }, pens.narrow),
    ...ticksX.flatMap((d) => [
      line('note', { x: x(d), y: 0 }, { x: x(d), y: -1.5 }, pens.hair),
      text('note', { x: x(d), y: -5 }, degreeWords(d), { capital: scale.small, anchor: 'middle' }),
    ]),
    ...ticksY.flatMap((v) => [
      line('note', { x: 0, y: y(v) }, { x: WIDE, y: y(v) }, { ...pens.hair, grey: 0.6 }),
      text('note', { x: -1.5, y: y(v) - 1.1 }, String(Number(v.toFixed(3))).replace('-', '−'), {
        capital: scale.small,
        anchor: 'end',
      }),
    ]),
    ...(plot.length > 1
      ? [
          polyline(
            'note',
            plot.map((p) => ({ x: x(degrees(p.angle)), y: y(p.web / unit) })),
            pens.wide,
          ),
        ]
      : []),
    ...(low < 0 ? [line('note', { x: 0, y: y(0) }, { x: WIDE, y: y(0) }, pens.narrow)] : []),
    ...mark,
    ...here,
    text('note', { x: WIDE / 2, y: -10.5 }, `clocking of ${plate.faces[1]}, degrees clockwise`, {
      capital: scale.small,
      anchor: 'middle',
    }),
    text('note', { x: -1, y: HIGH + 6.5 }, `smallest web, ${speech.unit}`, { capital: scale.small }),
  ];
  const words =
    best === null
      ? 'Turning changes nothing here.'
      : `Ringed: the widest margin, at ${degreeWords(degrees(best.angle), 3)}, ${say(Math.abs(best.margin), speech)} ` +
        `${best.margin < 0 ? 'short of' : 'over'} the limits.`;
  return sheet(
    'Web against clocking',
    shapes,
    [
      words,
      `Broken line: as this plate is drawn, ${degreeWords(now, 3)}.`,
      spans.length === 0
        ? 'At no angle does every check hold that turning can change.'
        : 'Shaded: every check that turning can change holds.',
    ],
    scale,
    null,
    lettering,
  );
};

const webAt = (plot: Plate['turning']['plot'], angle: number): number =>
  plot.reduce(
    (near, p) => (Math.abs(p.angle - angle) < Math.abs(near.angle - angle) ? p : near),
    plot[0] ?? { angle: 0, web: 0 },
  ).web;
