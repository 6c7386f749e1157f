import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fileNameOf, inert } from '../../src/index.js';
import { seeded } from '../support.js';

describe('names that others wrote', () => {
  test('what could hide or move text is shown as its code', () => {
    expect(inert('a\u001b[31mb')).toBe('a[U+001B][31mb');
    expect(inert('x\u202Egpj.exe')).toBe('x[U+202E]gpj.exe');
    expect(inert('⌀ 7½″ ± été 水')).toBe('⌀ 7½″ ± été 水');
    expect(inert('a\u061cb\u00ad')).toBe('a[U+061C]b[U+00AD]');
    expect(inert('a\ud800b')).toBe('a[U+D800]b');
    expect(inert('😀')).toBe('😀');
  });

  test('a file name is never a path and never empty', () => {
    expect(fileNameOf('../../etc/passwd')).toBe('etc-passwd');
    expect(fileNameOf('Heron Lane lift pump')).toBe('heron-lane-lift-pump');
    expect(fileNameOf('水')).toBe('unnamed');
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (s) => {
        expect(fileNameOf(s)).toMatch(/^[a-z0-9_-]{1,60}$/);
        expect(inert(inert(s))).toBe(inert(s));
      }),
      seeded,
    );
  });
});
