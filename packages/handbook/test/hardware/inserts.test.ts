import { describe, expect, test } from 'vitest';
import { parseThread, wireInsert } from '../../src/index.js';

const insert = (name: string) => {
  const thread = parseThread(name);
  if (thread === null) throw new Error(`no thread ${name}`);
  return wireInsert(thread);
};

describe('holes for wire thread inserts', () => {
  /** Least minor and pitch diameters of the tapped thread, DIN 8140-2 (from memory): D + 0.2165 P and D + 0.6495 P. */
  test.each([
    ['M5', 5.173, 5.52],
    ['M6', 6.217, 6.65],
    ['M8', 8.271, 8.812],
    ['M10', 10.325, 10.974],
    ['M12', 12.379, 13.137],
    ['M16', 16.433, 17.299],
  ])('%s', (name, minor, pitch) => {
    const made = insert(name);
    expect(made?.limits[0]).toBeCloseTo(minor, 2);
    expect(made?.tapped.pitchDiameter).toBeCloseTo(pitch, 2);
  });

  /** Drills of makers' lists (from memory) lie within the limits, and so does the one chosen. */
  test.each([
    ['M5', 5.2],
    ['M6', 6.3],
    ['M8', 8.3],
    ['M10', 10.4],
    ['M12', 12.5],
    ['1/4-20 UNC', 6.7],
    ['3/8-16 UNC', 10.0],
  ])('%s is drilled %d', (name, listed) => {
    const made = insert(name);
    const [least = 0, most = 0] = made?.limits ?? [];
    for (const d of [listed, made?.drill.diameter ?? 0]) {
      expect(d).toBeGreaterThanOrEqual(least - 1e-9);
      expect(d).toBeLessThanOrEqual(most + 1e-9);
    }
    // A drill for the bolt's own thread would not do.
    expect(listed - 1).toBeLessThan(least);
  });

  test('none is held for Whitworth threads', () => expect(insert('3/8 BSW')).toBeNull());
});
