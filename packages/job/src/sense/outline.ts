import type { JobFile } from '../schema/file.js';
import type { OutlineSpec } from '../types.js';
import { type Context, faultAt, known } from './context.js';

type Written = NonNullable<JobFile['plate']>;

/** A margin where none is written, mm: common practice, about one hole's metal around an M10. */
const MARGIN = 12;

export const outlineOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: Written['outline'],
  all: readonly string[],
): OutlineSpec => {
  if (written === undefined) return { shape: 'follow', margin: MARGIN, corner: null };
  const o = typeof written === 'string' ? { shape: written } : written;
  const shape = o.shape ?? (o.like === undefined ? 'follow' : 'like');
  const extra = (name: 'like' | 'diameter' | 'corner', why: string): void => {
    if (o[name] !== undefined) faultAt(context, [...keys, name], 'out-of-place', why);
  };
  if (shape !== 'round') extra('diameter', `no diameter: a ${shape} outline takes a margin`);
  if (shape === 'round' || shape === 'like') extra('corner', 'a corner radius on a follow or rectangle outline only');
  if (shape !== 'like') extra('like', `\`like\` alone, or another shape: ${shape} copies no face`);
  if (shape !== 'like' && (o.margin ?? 0) < 0)
    faultAt(
      context,
      [...keys, 'margin'],
      'value',
      'a length not below zero: only an outline that is `like` a face can lie inside its rim',
    );
  if (shape === 'like') {
    if (o.like === undefined) faultAt(context, keys, 'missing', '`like: FACE`, the face whose rim it copies');
    else known(context, [...keys, 'like'], o.like, all, 'a face of the job');
    return { shape, face: o.like ?? '', margin: o.margin ?? 0 };
  }
  if (shape === 'round') {
    if (o.diameter !== undefined && o.margin !== undefined)
      faultAt(context, [...keys, 'margin'], 'conflict', 'a diameter or a margin, not both');
    return { shape, margin: o.diameter === undefined ? (o.margin ?? MARGIN) : null, diameter: o.diameter ?? null };
  }
  return { shape, margin: o.margin ?? MARGIN, corner: o.corner ?? null };
};
