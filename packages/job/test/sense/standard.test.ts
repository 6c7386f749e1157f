import { describe, expect, test } from 'vitest';
import { isoFit } from '@fayplate/handbook';
import { againstStandard, readJob } from '../../src/index.js';
import { jobOf } from '../support.js';

const text = (lines: string, rest = ''): string =>
  `job: x\nunits: mm\ninstruments: { mike: ± 0.01, caliper: ± 0.05 }\nfaces:\n  ` +
  `motor:\n${lines.replace(/^/gm, '    ')}\n${rest}`;
const faceOf = (lines: string) => {
  const [face] = jobOf(text(lines)).faces;
  if (face === undefined) throw new Error('no face');
  return face;
};
const placesOf = (lines: string) =>
  new Map(faceOf(lines).readings.flatMap((r) => (r.point === null ? [] : [[r.features[0] ?? '', r.point] as const])));
const at = (angle: number, r = 82.5) => ({
  x: expect.closeTo(r * Math.cos((angle * Math.PI) / 180), 6) as number,
  y: expect.closeTo(r * Math.sin((angle * Math.PI) / 180), 6) as number,
});

describe('a face that names a standard', () => {
  // IEC 60072-1: FF165 has four holes on 165 and a spigot of 130 j6, +14 −11 µm.
  test('has its register with limits, its holes and their ±', () => {
    const face = faceOf('standard: IEC FF165');
    expect(face.centre).toBe('spigot');
    expect(face.features.map((f) => f.id)).toEqual(['spigot', 'B1', 'B2', 'B3', 'B4']);
    const [spigot] = face.features;
    const j6 = isoFit('j6', 130);
    expect((spigot?.diameter?.value ?? 0) - (spigot?.diameter?.plusMinus ?? 0)).toBeCloseTo(j6?.least ?? 0, 9);
    expect((spigot?.diameter?.value ?? 0) + (spigot?.diameter?.plusMinus ?? 0)).toBeCloseTo(130.014, 9);
    expect(spigot?.stands).toBe(3.5);
    expect(face.readings.every((r) => r.plusMinus > 0)).toBe(true);
    const places = placesOf('standard: IEC FF165');
    for (const [i, id] of ['B1', 'B2', 'B3', 'B4'].entries()) expect(places.get(id)).toEqual(at(45 - 90 * i));
  });

  // FF165's holes lie at 82.5 · √½ = 58.336 mm, 2.2967 in.
  test.each([
    ['mm', 'at B1 = (58.336 mm, 58.336 mm)', /\bin\b/],
    ['in', 'at B1 = (2.2967 in, 2.2967 in)', /\bmm\b/],
  ])('says its places in the unit of a job in %s', (unit, said, never) => {
    const [face] = jobOf(text('standard: IEC FF165').replace('units: mm', `units: ${unit}`)).faces;
    const texts = (face?.readings ?? []).map((r) => r.text);
    expect(texts.join('\n')).toContain(said);
    for (const t of texts) expect(t).not.toMatch(never);
    expect(new Set(face?.readings.map((r) => r.unit))).toEqual(new Set([unit]));
  });

  test('turns with `up`, the rest with it', () => {
    const places = placesOf('standard: FF165\nup: B2');
    for (const [i, id] of ['B2', 'B3', 'B4', 'B1'].entries()) expect(places.get(id)).toEqual(at(90 - 90 * i));
    const read = readJob(text('standard: FF165\nup: B2'));
    expect(read.ok ? read.warnings.map((w) => w.code) : null).not.toContain('up-elsewhere');
  });

  test('is mirrored where it is seen from behind, clocks and all', () => {
    const outside = placesOf('standard: PN16 DN80');
    const behind = placesOf('standard: PN16 DN80\nviewed: from behind');
    for (const [id, p] of outside)
      expect(behind.get(id)).toEqual({ x: expect.closeTo(-p.x, 6), y: expect.closeTo(p.y, 6) });
    const clock = (lines: string) => faceOf(lines).features.find((f) => f.id === 'B1')?.clock ?? 0;
    expect(Math.sin(clock('standard: FF165\nviewed: from behind'))).toBeCloseTo(Math.sin(clock('standard: FF165')), 9);
    expect(Math.cos(clock('standard: FF165\nviewed: from behind'))).toBeCloseTo(-Math.cos(clock('standard: FF165')), 9);
  });

  test('may have tapped holes, a dowel, a thickness, no register', () => {
    const robot = faceOf('standard: ISO 9409-1-50-4-M6');
    expect(robot.features.map((f) => [f.id, f.kind, f.thread])).toEqual([
      ['bore', 'bore', null],
      ['B1', 'hole', 'M6'],
      ['B2', 'hole', 'M6'],
      ['B3', 'hole', 'M6'],
      ['B4', 'hole', 'M6'],
      ['D1', 'hole', null],
    ]);
    const pipe = faceOf('standard: class 150 NPS 2');
    expect([pipe.centre, pipe.flange, pipe.features.length]).toEqual([null, 17.5, 4]);
  });

  // IEC 60072-1: 200 mm over all; a 90 frame has a shaft of 24 mm, an 80 frame on the same flange 19.
  test('has an outside and, where it is one, a shaft', () => {
    const face = faceOf('standard: IEC FF165');
    expect(face.rim).toEqual([{ feature: 'spigot', margin: expect.closeTo((200 - 130.014) / 2, 9) as number }]);
    expect(face.shaftSizes).toBeNull();
    expect(faceOf('standard: 90 B5').shaftSizes?.diameter).toBe(24);
    expect(faceOf('standard: IEC 80 B5').shaftSizes?.diameter).toBe(19);
    expect(faceOf('standard: 56C').shaftSizes?.diameter).toBeCloseTo(15.875, 9);
    expect(faceOf('standard: SAE A').rim).toEqual([]);
    expect(faceOf('standard: NEMA 23').rim).toEqual([]);
  });

  test('takes what is written beside it: other features, other sizes, readings', () => {
    const face = faceOf(
      'standard: 56C\nflange: 12\nfeatures:\n  spigot: { kind: spigot, diameter: 114.2 ± 0.05 }\n  cup: { kind: ' +
        'boss, diameter: 20, height: 5 }\nreadings:\n  - centres B1 B3 = 149.3 by caliper',
    );
    expect(face.features.map((f) => f.id)).toEqual(['spigot', 'B1', 'B2', 'B3', 'B4', 'cup']);
    expect(face.features[0]?.diameter).toEqual({ value: 114.2, plusMinus: 0.05 });
    expect(face.features[0]?.stands).toBeCloseTo(0.16 * 25.4, 9);
    expect(face.readings.at(-1)?.id).toBe('1');
  });

  test('says its places as distances where its own readings use a bench frame', () => {
    const face = faceOf(
      'standard: FF165\nreadings:\n  - at B1 = (10, 20) by caliper\n  - at B3 = (110, 150) by caliper',
    );
    const theirs = face.readings.filter((r) => r.id.startsWith('standard '));
    expect(theirs).toHaveLength(10);
    expect(new Set(theirs.map((r) => r.kind))).toEqual(new Set(['centres']));
    expect(theirs.find((r) => r.id === 'standard B1-B3')?.value).toBeCloseTo(165, 9);
  });
});

describe('measured against its standard', () => {
  const warned = (lines: string, rest = '') => {
    const read = readJob(text(lines, rest));
    if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
    return read.warnings.map((w) => [w.code, w.line, w.expected] as const);
  };

  test('a size within the limits is beside them, and no warning', () => {
    const lines = 'standard: IEC FF165\nreadings:\n  - dia spigot = 130.00 by mike\n  - dia B1 = 12.04 by caliper';
    expect(againstStandard(faceOf(lines)).map((a) => [a.feature, a.value, a.limits.fit])).toEqual([
      ['spigot', 130, 'j6'],
      ['B1', 12.04, null],
    ]);
    expect(warned(lines).filter(([code]) => code === 'unlike-standard')).toEqual([]);
  });

  test('a size outside them by more than its ± is told', () => {
    const [one] = warned('standard: IEC FF165\nreadings:\n  - dia spigot = 130.04 by mike').filter(
      ([c]) => c === 'unlike-standard',
    );
    expect(one?.[2]).toContain('130 j6 (129.989 to 130.014 mm)');
    expect(one?.[2]).toContain('130.04');
    const stated = warned('standard: IEC FF165\nfeatures:\n  spigot: { kind: spigot, diameter: 129.9 ± 0.02 }');
    expect(stated.map(([code]) => code)).toContain('unlike-standard');
  });

  const plate = (between: string) =>
    `  other: { standard: NEMA 56C }\nplate: { between: [${between}], thickness: 20 }\n`;
  test('a plate on sizes from one source or from memory wants the part measured', () => {
    const codes = (name: string) =>
      warned(`standard: ${name}`, plate('motor, other')).filter(([c]) => c === 'unchecked-standard');
    expect(codes('IEC FF215')[0]?.[2]).toContain('from one source');
    expect(codes('IEC FF165')).toEqual([]);
    expect(codes('IEC FF55')[0]?.[2]).toContain('from memory');
    expect(codes('NEMA 143TC')).toEqual([]);
    expect(warned('standard: IEC FF215').map(([c]) => c)).not.toContain('unchecked-standard');
  });
});

test('a name that is not held is refused where it stands, with the nearest and with what is held', () => {
  const read = readJob(text('standard: IEC FF160'));
  const [fault] = read.ok ? [] : read.faults;
  expect(fault).toMatchObject({ code: 'unknown-name', line: 6, column: 15, found: 'IEC FF160', nearest: 'IEC FF165' });
  expect(fault?.expected).toContain('IEC FF55 to FF500');
});
