import type { Point } from '@fayplate/core';

/**
 * TSPLIB's berlin52 (Reinelt 1991, ORSA J. Computing 3, 376–384): 52 places, shortest round 7542 with distances rounded
 * to whole numbers; read in several copies.
 */
export const berlin52: readonly Point[] = [
  565, 575, 25, 185, 345, 750, 945, 685, 845, 655, 880, 660, 25, 230, 525, 1000, 580, 1175, 650, 1130, 1605, 620, 1220,
  580, 1465, 200, 1530, 5, 845, 680, 725, 370, 145, 665, 415, 635, 510, 875, 560, 365, 300, 465, 520, 585, 480, 415,
  835, 625, 975, 580, 1215, 245, 1320, 315, 1250, 400, 660, 180, 410, 250, 420, 555, 575, 665, 1150, 1160, 700, 580,
  685, 595, 685, 610, 770, 610, 795, 645, 720, 635, 760, 650, 475, 960, 95, 260, 875, 920, 700, 500, 555, 815, 830, 485,
  1170, 65, 830, 610, 605, 625, 595, 360, 1340, 725, 1740, 245,
].reduce<Point[]>((out, v, i, all) => (i % 2 === 0 ? [...out, { x: v, y: all[i + 1]! }] : out), []);

export const shortestRound = 7542;

/**
 * Costs of an open way that is a round: the first place once more at the end, with a toll on entering it at the start
 * or leaving it at the end, so that the shortest open way begins and ends there.
 */
export const roundCosts = (places: readonly Point[]): readonly (readonly number[])[] => {
  const toll = 1e5;
  const n = places.length;
  const at = (i: number): Point => places[i % n]!;
  return Array.from({ length: n + 1 }, (_, i) =>
    Array.from({ length: n + 1 }, (_, j) =>
      i === j
        ? 0
        : Math.round(Math.hypot(at(i).x - at(j).x, at(i).y - at(j).y)) + (j === 0 ? toll : 0) + (i === n ? toll : 0),
    ),
  );
};

export const lengthOf = (costs: readonly (readonly number[])[], way: readonly number[]): number =>
  way.slice(1).reduce((s, b, i) => s + costs[way[i]!]![b]!, 0);
