import { type Path, svgPathData } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { plateOf, randomJob } from '../../packages/machining/test/step/random-job.js';
import { fayplate } from '../support/cli.js';

/** How many numbers each command of SVG 2 path data takes (W3C, SVG 2, 9.3, read); only these are written. */
const takes: Readonly<Record<string, number>> = { M: 2, L: 2, Q: 4, C: 6, A: 7, Z: 0 };

interface Step {
  readonly letter: string;
  readonly numbers: readonly number[];
}

/** The commands of path data; throws where it does not follow the grammar. */
const stepsOf = (data: string): readonly Step[] =>
  data
    .replaceAll(/([A-Za-z])/g, '\n$1 ')
    .trim()
    .split('\n')
    .map((line) => {
      const [letter = '', ...rest] = line.trim().split(/[ ,]+/);
      const numbers = rest.filter((w) => w !== '').map(Number);
      const n = takes[letter];
      if (n === undefined || numbers.some((v) => !Number.isFinite(v))) throw new Error(`no command: ${line}`);
      if (n === 0 ? numbers.length !== 0 : numbers.length === 0 || numbers.length % n !== 0)
        throw new Error(`${letter} takes ${n} numbers: ${line}`);
      return { letter, numbers };
    });

/**
 * What is wrong with path data: open ends, corners made twice, arcs that no circle of their radius makes; a step that
 * goes nowhere.
 */
const faultsOf = (data: string): readonly string[] => {
  const faults: string[] = [];
  let start: readonly [number, number] | null = null;
  let at: readonly [number, number] = [0, 0];
  let corners: string[] = [];
  // Of an open stroke it is a dot, which draws nothing; an outline has no such step.
  let still: string[] = [];
  const same = ([a, b]: readonly [number, number], [c, d]: readonly [number, number]): boolean => a === c && b === d;
  const end = (): void => {
    if (new Set(corners).size !== corners.length) faults.push(`a corner is made twice in ${data.slice(0, 80)}`);
    // Two corners within a thousandth of a micron are one that was made twice.
    for (const [i, one] of corners.entries())
      for (const other of corners.slice(i + 1)) {
        const [[a = 0, b = 0], [c = 0, d = 0]] = [one.split(' ').map(Number), other.split(' ').map(Number)];
        if (Math.hypot(a - c, b - d) < 2e-6) faults.push(`corners ${one} and ${other} are one`);
      }
  };
  for (const { letter, numbers } of stepsOf(data)) {
    if (letter === 'M') {
      at = [numbers[0] ?? 0, numbers[1] ?? 0];
      start = at;
      [corners, still] = [[], []];
      continue;
    }
    if (start === null) return ['no M at the beginning'];
    if (letter === 'Z') {
      // Closed by its last step, or by the straight line of Z itself; never by a hair.
      const gap = Math.hypot(at[0] - start[0], at[1] - start[1]);
      if (gap > 0 && gap < 1e-3) faults.push(`closes by ${gap} mm`);
      corners.push(start.join(' '));
      end();
      faults.push(...still);
      at = start;
      continue;
    }
    const n = takes[letter] ?? 2;
    for (let k = 0; k < numbers.length; k += n) {
      const to: readonly [number, number] = [numbers[k + n - 2] ?? 0, numbers[k + n - 1] ?? 0];
      if (letter !== 'Q' && letter !== 'C' && same(to, at)) still.push(`a step from ${at.join(' ')} to itself`);
      if (letter === 'A') {
        const [rx = 0, ry = 0] = numbers.slice(k);
        const chord = Math.hypot(to[0] - at[0], to[1] - at[1]);
        // A reader enlarges a radius that is too small (SVG 2, 9.5.1), and the circle is another.
        if (rx !== ry || rx <= 0 || chord > 2 * rx + 5e-6) faults.push(`an arc of ${rx} over a chord of ${chord}`);
      }
      if (!same(to, start)) corners.push(to.join(' '));
      at = to;
    }
  }
  return faults;
};

describe('outlines of random plates as path data', () => {
  test('each is closed, with every corner made once', () => {
    let made = 0;
    for (let seed = 501; seed <= 560; seed++) {
      const plate = plateOf(randomJob(seed))?.plate;
      if (plate === undefined) continue;
      made++;
      const data = svgPathData(plate.outline.path);
      expect([seed, faultsOf(data), data.endsWith(' Z')]).toEqual([seed, [], true]);
    }
    expect(made).toBeGreaterThan(30);
  });

  test('an end that misses the start, a corner twice and an impossible arc are found', () => {
    const hair: Path = {
      start: { x: 0, y: 0 },
      edges: [
        { kind: 'line', to: { x: 10, y: 0 } },
        { kind: 'line', to: { x: 10, y: 5 } },
        { kind: 'line', to: { x: 0, y: 2e-5 } },
      ],
      closed: true,
    };
    expect(faultsOf(svgPathData(hair)).join()).toMatch(/closes by/);
    expect(faultsOf('M 0 0 L 5 0 L 5 5 Z')).toEqual([]);
    expect(faultsOf('M 0 0 L 5 0 L 5 5 L 0 0 Z')).toEqual([]);
    expect(faultsOf('M 0 0 L 5 0 L 5 5 L 5 0.0000005 Z').join()).toMatch(/are one/);
    expect(faultsOf('M 0 0 L 5 0 L 5 5 L 5 0 Z').join()).toMatch(/twice/);
    expect(faultsOf('M 0 0 A 1 1 0 0 1 9 0 L 3 3 Z').join()).toMatch(/chord/);
    expect(() => faultsOf('M 0 0 L 5 Z')).toThrow(/takes 2/);
  });
});

describe('every path of the pictures of an example', () => {
  test.each(['lift-pump', 'apple-mill', 'three-to-four'])('%s', async (name) => {
    const { files } = await fayplate(['packet', `examples/${name}/job.yaml`, '--out', 'out']);
    const pictures = [...files].filter(([f]) => f.endsWith('.svg'));
    expect(pictures.length).toBeGreaterThan(5);
    for (const [picture, content] of pictures) {
      const text = String(content);
      const paths = [...text.matchAll(/<path [^>]*?d="([^"]*)"/g)].map(([, data = '']) => data);
      expect(paths.length).toBeGreaterThan(0);
      for (const data of paths)
        // Letters are outlines of a font in steps, whose corners are its maker's; each is closed all the same.
        if (/[mlqc]/.test(data)) {
          const letters = data.split('M').slice(1);
          expect([picture, letters.filter((l) => !l.trimEnd().endsWith('z'))]).toEqual([picture, []]);
        } else expect([picture, faultsOf(data)]).toEqual([picture, []]);
    }
  });
});
