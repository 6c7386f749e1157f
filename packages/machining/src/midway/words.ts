import { type Speech, formatClock, say, sayAll, toDegrees, wrapAngle } from '@fayplate/core';
import type { HoleWork, Midway, Way, WrongHole } from './types.js';

const own = (speech: Speech): Speech => ({ ...speech, fraction: null });
const places = (speech: Speech): number => (speech.unit === 'in' ? 3 : 2);
const mm = (v: number, speech: Speech): string => say(v, own(speech), places(speech));
const clock = (towards: number): string => `${formatClock(towards)} o’clock`;

/** `30° clockwise`, as seen from side B. */
const turnWords = (turn: number): string => {
  const degrees = toDegrees(wrapAngle(turn));
  return `${Number(Math.abs(degrees).toFixed(2))}° ${degrees < 0 ? 'anticlockwise' : 'clockwise'}`;
};

const workWords = (w: HoleWork, speech: Speech): string => {
  switch (w.what) {
    case 'file':
      return `file ${w.hole} longer by ${mm(w.by, speech)} towards ${clock(w.towards)}`;
    case 'to size':
      return `drill ${w.hole} out to ${mm(w.diameter, speech)}, as drawn`;
    case 'drill out':
      return `drill ${w.hole} out to ${mm(w.diameter, speech)}, with a washer that covers it`;
    case 'bush':
      return (
        `bore ${w.hole} out to ${mm(w.diameter, speech)} about ` +
        'its right place, press in a bush and drill that as drawn'
      );
    case 'plug':
      return (
        `tap ${w.hole} ${w.thread ?? ''}, screw a plug in and ` +
        'lock it, file it flush, and drill again at the right place'
      );
    default:
      return `${w.hole} serves nothing any more: leave it or plug it`;
  }
};

const servesWords = (way: Way): string => {
  const moved = [...way.serves].filter(([read, is]) => read !== is);
  return moved.length === 0
    ? ''
    : `: what is drilled as ${sayAll(moved.map(([read, is]) => `${read} serves as ${is}`))}`;
};

const metal = (way: Way, speech: Speech): string =>
  way.metalLeft === null ? '' : `; least metal left beside it ${mm(way.metalLeft, speech)}`;

/** What is to be done, as one sentence without its full stop. */
export const wayWords = (way: Way, midway: Pick<Midway, 'left' | 'drilled'>, speech: Speech): string => {
  const works = sayAll(way.works.map((w) => workWords(w, speech)));
  const n = way.left.length;
  const rest = n === 0 ? 'nothing is left to drill' : n === 1 ? `drill ${way.left[0] ?? ''}` : `drill the other ${n}`;
  switch (way.kind) {
    case 'go on':
      return midway.left.length === 0 ? 'leave it as it is' : `go on as drawn: ${rest}`;
    case 're-plan':
      return (
        `${rest} round those that are drilled, up to ${mm(way.moved, speech)} from where the drawing has ` +
        (n === 1 ? 'it' : 'them')
      );
    case 'turn':
      return (
        `turn ${way.turns ?? 'the plate on both parts'} by ${turnWords(way.turn)} (seen from side ` +
        `B)${servesWords(way)}${works === '' ? '' : `; ${works}`}${metal(way, speech)}`
      );
    case 'turn over':
      return (
        'turn the plate over, side A for side ' +
        `B${servesWords(way)}${works === '' ? '' : `; ${works}`}${metal(way, speech)}`
      );
    case 'open':
      return `${works}${metal(way, speech)}${midway.left.length === 0 ? '' : `; then ${rest}`}`;
    case 'bush':
    case 'plug':
      return `${works}${metal(way, speech)}`;
    default:
      return 'scrap it, and begin again with a new blank';
  }
};

/** What is wrong with a drilled hole. */
export const wrongWords = (w: WrongHole, speech: Speech): string => {
  const off = Math.hypot(w.off.x, w.off.y);
  return w.why === 'size'
    ? `${w.id} is drilled too large for its thread`
    : `${w.id} is ${mm(off, speech)} out of its place, towards ${clock(Math.atan2(w.off.y, w.off.x))}`;
};
