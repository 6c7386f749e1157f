import { DEGREE, type Requirement, distance, toDegrees, wrapAngle } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import type { Proof, ProvedFace } from '../types.js';
import { tried } from './tried.js';

/** A part may be turned this far from where the job has it before it is reported, radians (common practice). */
const NEAR = DEGREE;

/** How far a part can be turned back within the play that its fasteners leave it, radians. */
const playOf = (plate: Plate, face: string, { slack }: ProvedFace): number => {
  const own = plate.holes.filter((h) => h.part?.face === face);
  const [first] = own;
  if (first === undefined) return 0;
  const middle = {
    x: own.reduce((sum, h) => sum + h.x, 0) / own.length,
    y: own.reduce((sum, h) => sum + h.y, 0) / own.length,
  };
  const reach = Math.max(...own.map((h) => distance(h, middle)));
  return reach < 1e-9 ? Math.PI : Math.max(0, slack) / reach;
};

/**
 * Whether the second part is turned against the first as the job has it, or within the turns that the job allows: a
 * pattern drilled at another angle takes its part as well, and turns its ports and boxes with it. Nothing where either
 * part does not go on.
 */
export const clocked = (job: Job, plate: Plate, proof: Proof): readonly Requirement[] => {
  const [first, second] = plate.faces;
  const [one, other] = [proof.goesOn.get(first), proof.goesOn.get(second)];
  const asked = job.plate?.clocking;
  if (asked === undefined || one === undefined || other === undefined || one.slack < 0 || other.slack < 0) return [];
  // A part turns back by as much as its holes were turned on.
  const at = plate.clocking + (other.turn - one.turn);
  const [from, to] = 'at' in asked ? [asked.at, asked.at] : asked.search;
  const middle = (from + to) / 2;
  const off = wrapAngle(at - middle);
  const beyond = Math.max(0, Math.abs(off) - (to - from) / 2);
  const limit = NEAR + playOf(plate, first, one) + playOf(plate, second, other);
  const ok = beyond <= limit;
  const degrees = (angle: number): string => toDegrees(angle).toFixed(1);
  return [
    tried({
      id: 'clocked-as-drilled',
      title: `angle of ${second} on ${first}, as drilled`,
      ok,
      value: toDegrees(beyond),
      limit: toDegrees(limit),
      unit: 'deg',
      because: ok
        ? `${second} lies at the angle drawn`
        : `the holes for ${second} are drilled ${degrees(beyond)}° ` +
          `${off > 0 ? 'clockwise' : 'anticlockwise'} of where the job ` +
          `has them on ${first}, seen from side B: its ports and boxes turn with it`,
      cure: `look where they then point; if that serves, write \`clocking: ${degrees(wrapAngle(at))} deg\``,
      cureAtBench: 'look where they then point; it goes together so',
    }),
  ];
};
