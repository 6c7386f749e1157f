import { type Point, formatClock, wrapAngle } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { LocatedFace, Rival } from '@fayplate/survey';

/** A clock is only roughly read; farther off than two hours it is another place. */
const FAR = Math.PI / 3;
/** Fewer say nothing of each other. */
const FEW = 3;
const HALF_HOUR = Math.PI / 12;

const middleOf = (face: Face, located: LocatedFace): Point => {
  const centre = face.centre === null ? undefined : located.features.get(face.centre);
  if (centre !== undefined) return centre;
  const all = [...located.features.values()];
  return {
    x: all.reduce((s, p) => s + p.x, 0) / Math.max(all.length, 1),
    y: all.reduce((s, p) => s + p.y, 0) / Math.max(all.length, 1),
  };
};

/**
 * Clocks that the located centres contradict: a slip of the hour, or readings that belong to another feature. Where 12 lies is what most
 * clocks agree on, so that one wrong clock does not turn the others.
 */
export const clockWarnings = (face: Face, located: LocatedFace): readonly string[] => {
  const middle = middleOf(face, located);
  const read = face.features.flatMap((f) => {
    const at = located.features.get(f.id);
    if (f.clock === null || at === undefined || f.id === face.centre) return [];
    return [{ id: f.id, clock: f.clock, off: Math.atan2(at.y - middle.y, at.x - middle.x) - f.clock }];
  });
  if (read.length < FEW) return [];
  const { rivals } = located.arrangements;
  // The hour is not to blame where another arrangement that the readings fit has the feature there.
  const suits = ({ places }: Rival, id: string, heading: number): boolean => {
    const [at, about] = [places.get(id), places.get(face.centre ?? '') ?? middle];
    return at !== undefined && Math.abs(wrapAngle(Math.atan2(at.y - about.y, at.x - about.x) - heading)) <= FAR;
  };
  const strife = (turn: number): number => read.reduce((sum, r) => sum + Math.abs(wrapAngle(r.off - turn)), 0);
  const turn = read.map((r) => r.off).reduce((best, t) => (strife(t) < strife(best) ? t : best));
  return read.flatMap(({ id, clock, off }) => {
    const far = wrapAngle(off - turn);
    if (Math.abs(far) <= FAR || rivals.some((r) => suits(r, id, clock + turn))) return [];
    const comes = formatClock(Math.round((clock + far) / HALF_HOUR) * HALF_HOUR);
    return [
      `on ${face.name}, ${id} is written at ${formatClock(clock)} o'clock, but its readings put it near ${comes}. Is the hour a slip, or were the readings taken off another feature?`,
    ];
  });
};
