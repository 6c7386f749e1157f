import { describe, expect, test } from 'vitest';
import { settingsFor } from '../../src/table/reach.js';

const at = (...places: readonly (readonly [string, number, number])[]) =>
  places.map(([id, x, y]) => ({ id, at: { x, y } }));

/** Six holes 300 by 100; worked by hand. */
const six = at(['H1', 0, 0], ['H2', 100, 0], ['H3', 200, 0], ['H4', 300, 0], ['H5', 150, 100], ['H6', 100, 100]);

describe('what the table reaches', () => {
  test('all of it, or all of it when turned', () => {
    expect(settingsFor(six, { x: 300, y: 100 })).toEqual({ kind: 'one' });
    expect(settingsFor(six, { x: 100, y: 300 })).toEqual({ kind: 'turned' });
  });
  test('in two settings, with the two cuts that both reach farthest apart', () =>
    expect(settingsFor(six, { x: 200, y: 120 })).toEqual({
      kind: 'two',
      axis: 'x',
      span: 300,
      first: ['H1', 'H2', 'H3', 'H5', 'H6'],
      second: ['H4'],
      // 100 to 200 lie in both: H3 and H6 are 141.4 apart, H2 and H5 111.8.
      common: ['H3', 'H6'],
    }));
  test('with no two in common', () =>
    expect(settingsFor(at(['A', 0, 0], ['B', 140, 0], ['C', 300, 0]), { x: 160, y: 50 })).toMatchObject({
      kind: 'two',
      common: null,
    }));
  test('beyond two settings, or beyond them the other way', () => {
    expect(settingsFor(six, { x: 140, y: 120 })).toEqual({ kind: 'beyond' });
    expect(settingsFor(six, { x: 200, y: 90 })).toEqual({ kind: 'beyond' });
  });
});
