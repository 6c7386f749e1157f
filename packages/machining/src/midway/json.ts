import { toDegrees, wrapAngle } from '@fayplate/core';
import type { Midway } from './types.js';

/**
 * The ways to go on as `prove --json` has them: mm and degrees; turns clockwise, directions counter-clockwise from +x,
 * seen from side B.
 */
export const midwayJson = (m: Midway): object => ({
  drilled: m.drilled,
  left: m.left,
  wrong: m.wrong.map((w) => ({ hole: w.id, dx: w.off.x, dy: w.off.y, why: w.why })),
  stopped: m.stopped,
  ways: m.ways.map((w) => ({
    kind: w.kind,
    holds: w.holds,
    fails: w.fails,
    works: w.works.map((k) => ({
      hole: k.hole,
      what: k.what,
      by: k.by,
      towards: toDegrees(k.towards),
      diameter: k.diameter,
      thread: k.thread,
    })),
    serves: Object.fromEntries(w.serves),
    turn: toDegrees(wrapAngle(w.turn)),
    turns: w.turns,
    moved: w.moved,
    goes_on: Object.fromEntries([...w.goesOn].map(([face, g]) => [face, g])),
    metal_left: w.metalLeft,
    left: w.left,
    holes: (w.made?.plate.holes ?? []).map((h) => ({
      id: h.id,
      x: h.x,
      y: h.y,
      diameter: h.diameter,
      done: h.done === true,
    })),
  })),
});
