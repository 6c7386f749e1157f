import { type Path, type Point, flatten } from '@fayplate/core';
import type { Obstacle } from '@fayplate/drawing';

/** Lines of a closed path as things to keep lettering off; arcs as chords that stray less than 0.3 mm. */
export const edgeObstacles = (path: Path): readonly Obstacle[] => {
  const points = flatten(path, 0.3);
  return points.map((from, i) => ({
    kind: 'segment',
    crossable: true,
    segment: { from, to: points[(i + 1) % points.length] ?? from },
  }));
};

/** The arms of a cross-hair that stands elsewhere than at its label's centre, such as at the end of a slot. */
export const armObstacles = ({ x, y }: Point, reach: number, owner: string): readonly Obstacle[] => [
  { kind: 'segment', owner, segment: { from: { x: x - reach, y }, to: { x: x + reach, y } } },
  { kind: 'segment', owner, segment: { from: { x, y: y - reach }, to: { x, y: y + reach } } },
];
