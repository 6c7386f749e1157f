import { describe, expect, test } from 'vitest';
import {
  type StandardFace,
  faceHoles,
  facesNear,
  isoFit,
  look,
  namesNear,
  standardFace,
  standardFaces,
} from '@fayplate/handbook';

const inch = 25.4;
const face = (name: string): StandardFace => {
  const found = standardFace(name);
  if (found === null) throw new Error(`no face ${name}`);
  return found;
};

describe('published values', () => {
  // NEMA MG 1 table 4.4.4 as the Engineering Data Book of the Hydraulic Institute prints it (motor-c-face-4.4.4.csv):
  // frame, AJ, AK, BB, BD, holes, tap, U, AH, all inches.
  test.each(
    `42C,3.75,3,0.16,5.00,4,1/4-20,0.375,1.312
48C,3.75,3,0.16,5.625,4,1/4-20,0.5,1.69
56C,5.875,4.5,0.16,6.50,4,3/8-16,0.625,2.06
145TC,5.875,4.5,0.16,6.50,4,3/8-16,0.875,2.12
184TC,7.25,8.5,0.25,9,4,1/2-13,1.125,2.62
215TC,7.25,8.5,0.25,9,4,1/2-13,1.375,3.12
256TC,7.25,8.5,0.25,10,4,1/2-13,1.625,3.75
286TC,9,10.5,0.25,11.25,4,1/2-13,1.875,4.38
326TC,11,12.5,0.25,14,4,5/8-11,2.125,5
365TC,11,12.5,0.25,14,8,5/8-11,2.375,5.62
405TC,11,12.5,0.25,15.5,8,5/8-11,2.875,7
445TC,14,16,0.25,18,8,5/8-11,3.375,8.25`
      .split('\n')
      .map((line) => line.split(',')),
  )('NEMA %s', (frame = '', aj, ak, bb, bd, holes, tap, u, ah) => {
    const f = face(frame);
    expect(f.holes.circle / inch).toBeCloseTo(Number(aj), 9);
    expect((f.register?.nominal ?? 0) / inch).toBeCloseTo(Number(ak), 9);
    expect((f.register?.reach ?? 0) / inch).toBeCloseTo(Number(bb), 9);
    expect((f.outside ?? 0) / inch).toBeCloseTo(Number(bd), 9);
    expect(f.holes.count).toBe(Number(holes));
    expect(f.holes.thread).toBe(`${tap} UNC`);
    expect((f.shafts[0]?.diameter ?? 0) / inch).toBeCloseTo(Number(u), 9);
    expect((f.shafts[0]?.length ?? 0) / inch).toBeCloseTo(Number(ah), 9);
  });

  // The same book, table 18-33 of MG 1 (JM and JP pumps have the same faces): AK 4.500–4.497, 8.500–8.497,
  // 12.500–12.495.
  test.each([
    ['56C', 4.497, 4.5],
    ['213TC', 8.497, 8.5],
    ['324TC', 12.495, 12.5],
  ])('the register of %s runs from %f to %f in', (name, least, most) => {
    expect((face(name).register?.least ?? 0) / inch).toBeCloseTo(least, 9);
    expect((face(name).register?.most ?? 0) / inch).toBeCloseTo(most, 9);
  });

  // bd_warehouse, data_flange/drilling_class_150.csv: NPS, O mm, W mm to 0.1, d in, n.
  test.each(
    `1/2,90,60.3,5/8,4|3/4,100,69.9,5/8,4|1,110,79.4,5/8,4|1 1/4,115,88.9,5/8,4|1 1/2,125,98.4,5/8,4|2,150,120.7,3/4,4
2 1/2,180,139.7,3/4,4|3,190,152.4,3/4,4|3 1/2,215,177.8,3/4,8|4,230,190.5,3/4,8|5,255,215.9,7/8,8|6,280,241.3,7/8,8
8,345,298.5,7/8,8|10,405,362.0,1,12|12,485,431.8,1,12`
      .split(/[|\n]/)
      .map((line) => line.split(',')),
  )('B16.5 class 150 NPS %s', (nps = '', outside, circle, hole = '', count) => {
    const f = face(`NPS ${nps} class 150`);
    const [over = 0, under = 1] = hole.split('/').map(Number);
    expect(f.outside).toBe(Number(outside));
    expect(Math.abs(f.holes.circle - Number(circle))).toBeLessThan(0.051);
    expect((f.holes.size?.nominal ?? 0) / inch).toBeCloseTo(over / under, 9);
    expect(f.holes.count).toBe(Number(count));
  });

  // Piping Master, industrial standards data: DN, D, K, holes, hole of EN 1092-1.
  test.each([
    ['PN10 DN50', 165, 125, 4, 18],
    ['PN10 DN200', 340, 295, 8, 22],
    ['PN16 DN200', 340, 295, 12, 22],
    ['PN16 DN250', 405, 355, 12, 26],
    ['DN300 PN10', 445, 400, 12, 22],
  ])('EN 1092-1 %s', (name, outside, circle, count, hole) => {
    const f = face(name);
    expect([f.outside, f.holes.circle, f.holes.count, f.holes.size?.nominal]).toEqual([outside, circle, count, hole]);
  });

  // TechLine 1 asynchronous motors, 07/2007, pp. 9–10 (DIN EN 50347): circle M, spigot N, outside P, thread S.
  test.each([
    ['FF115', 115, 95, 140, null],
    ['FF130', 130, 110, 160, null],
    ['FF165', 165, 130, 200, null],
    ['FF215', 215, 180, 250, null],
    ['FF265', 265, 230, 300, null],
    ['FF300', 300, 250, 350, null],
    ['FT85', 85, 70, 105, 'M6'],
    ['FT130', 130, 110, 160, 'M8'],
    ['FT165', 165, 130, 200, 'M10'],
    ['FT215', 215, 180, 250, 'M12'],
  ])('IEC %s', (name, circle, spigot, outside, thread) => {
    const f = face(name);
    expect([f.holes.circle, f.register?.nominal, f.outside, f.holes.thread]).toEqual([circle, spigot, outside, thread]);
  });

  // An open model of a 90 frame motor, dimension sheet: FF165 with P 200, N 130 j6, M 165, S 12, T 3.5; D 24, E 50.
  test('IEC FF165 again', () => {
    const f = face('90 B5');
    expect([
      f.outside,
      f.register?.nominal,
      f.register?.fit,
      f.holes.circle,
      f.holes.size?.nominal,
      f.register?.reach,
    ]).toEqual([200, 130, 'j6', 165, 12, 3.5]);
    expect(f.shafts.find((s) => s.frame === 'IEC 90')).toMatchObject({ diameter: 24, length: 50 });
  });

  // SAE Pump Standards (powertorque.co.za/fpdpad.htm): A pilot, K two-bolt circle, S four-bolt circle, inches.
  test.each([
    ['SAE A 2-bolt', 3.248, 3.25, 4.188],
    ['SAE B 2-bolt', 3.998, 4, 5.75],
    ['101-4', 3.998, 4, 5],
    ['SAE C 2-bolt', 4.998, 5, 7.125],
    ['SAE C 4-bolt', 4.998, 5, 6.375],
    ['SAE D 4-bolt', 5.998, 6, 9],
    ['SAE E 4-bolt', 6.498, 6.5, 12.5],
    ['SAE F 4-bolt', 6.998, 7, 13.781],
  ])('%s', (name, least, most, circle) => {
    const f = face(name);
    expect((f.register?.least ?? 0) / inch).toBeCloseTo(least, 6);
    expect((f.register?.most ?? 0) / inch).toBeCloseTo(most, 6);
    expect(f.holes.circle / inch).toBeCloseTo(circle, 9);
  });

  // iso9409_1_flange.scad, University of Hamburg: D1 50, D2 63, D3 31.5, four M6, dowel 6.
  test('ISO 9409-1-50-4-M6', () => {
    const f = face('ISO 9409-1-50-4-M6');
    expect([f.holes.circle, f.outside, f.register?.nominal, f.holes.thread, f.dowel?.nominal]).toEqual([
      50,
      63,
      31.5,
      'M6',
      6,
    ]);
  });

  // Actuator manual DOC.IOM.EF.EN rev. 7 (2017), table B-2.
  test.each([
    ['F05', 'M6'],
    ['F07', 'M8'],
    ['F10', 'M10'],
    ['F12', 'M12'],
    ['F14', 'M16'],
    ['F16', 'M20'],
    ['F25', 'M16'],
  ])('ISO 5211 %s has %s', (name, thread) => expect(face(name).holes.thread).toBe(thread));

  // 130 j6 is +14 −11 µm in motor catalogues.
  test('130 j6', () => {
    const limits = isoFit('j6', 130);
    expect([limits?.lower, limits?.upper].map((v) => Math.round((v ?? 0) * 1000))).toEqual([-11, 14]);
    expect(isoFit('J6', 130)).toBeNull();
    expect(isoFit('j8', 130)).toBeNull();
  });
});

describe('every face', () => {
  const faces = standardFaces();

  test('there are as many of each standard as a shop meets', () => {
    const of = (start: string): number => faces.filter((f) => f.name.startsWith(start)).length;
    expect(of('IEC ')).toBeGreaterThanOrEqual(14);
    expect(of('NEMA ')).toBeGreaterThanOrEqual(8);
    expect(of('SAE ') + of('ISO 3019')).toBeGreaterThanOrEqual(6);
    expect(of('ASME B16.5')).toBeGreaterThanOrEqual(12);
    expect(of('EN 1092-1 PN 10')).toBeGreaterThanOrEqual(12);
    expect(of('EN 1092-1 PN 16')).toBeGreaterThanOrEqual(12);
    expect(of('ISO 9409-1')).toBeGreaterThanOrEqual(5);
    expect(of('ISO 5211')).toBeGreaterThanOrEqual(8);
  });

  test.each(faces.map((f) => [f.name, f] as const))('%s hangs together', (name, f) => {
    expect(standardFace(name)).toBe(f);
    expect(standardFace(name.toUpperCase())).toBe(f);
    expect(f.source).not.toBe('');
    expect(f.holes.place).toBeGreaterThan(0);
    for (const s of [f.register, f.holes.size, f.dowel]) {
      if (s === null) continue;
      expect(s.least).toBeLessThan(s.most);
      expect(s.most - s.least).toBeLessThan(2);
      expect(s.nominal).toBeGreaterThan(s.least - 1e-9);
    }
    const hole = f.holes.size?.most ?? 0;
    if (f.outside !== null && f.what !== 'stepping motor face')
      expect(f.outside).toBeGreaterThan(f.holes.circle + hole);
    if (f.register !== null) expect(Math.abs(f.holes.circle - f.register.nominal)).toBeGreaterThan(hole);
    const at = faceHoles(f);
    expect(at).toHaveLength(f.holes.count);
    for (const h of at) expect(Math.hypot(h.at.x, h.at.y)).toBeCloseTo(f.holes.circle / 2, 6);
    // Straddling the upright: the pattern is its own mirror image in it, with no hole on it.
    const keys = (sign: 1 | -1): readonly string[] =>
      at.map((h) => `${(sign * h.at.x).toFixed(5)},${h.at.y.toFixed(5)}`).toSorted();
    expect(
      keys(-1)
        .map((k) => k.replace('-0.00000', '0.00000'))
        .toSorted(),
    ).toEqual(
      keys(1)
        .map((k) => k.replace('-0.00000', '0.00000'))
        .toSorted(),
    );
    expect(at.every((h) => Math.abs(h.at.x) > 1)).toBe(true);
  });

  test('no two have one name', () => expect(new Set(faces.map((f) => f.name)).size).toBe(faces.length));

  // Within one standard a larger circle has a larger or equal register and outside: a misprint stands out.
  test.each(['IEC FF', 'IEC FT', 'ASME B16.5', 'EN 1092-1 PN 10', 'EN 1092-1 PN 16', 'ISO 9409-1', 'ISO 5211'])(
    '%s grows evenly',
    (start) => {
      const rows = faces.filter((f) => f.name.startsWith(start)).toSorted((a, b) => a.holes.circle - b.holes.circle);
      for (const [i, f] of rows.slice(1).entries()) {
        const before = rows[i];
        if (before === undefined) continue;
        const step = f.holes.circle / before.holes.circle;
        expect(step).toBeLessThan(1.6);
        expect((f.outside ?? 1) / (before.outside ?? 1)).toBeGreaterThanOrEqual(1);
        expect((f.register?.nominal ?? 1) / (before.register?.nominal ?? 1)).toBeGreaterThanOrEqual(1);
      }
    },
  );
});

describe('found by name and by size', () => {
  test.each([
    ['FF165', 'IEC FF165'],
    ['iec ff-165 flange', 'IEC FF165'],
    ['A200', 'IEC FF165'],
    ['90 B5', 'IEC FF165'],
    ['IEC 90 B14', 'IEC FT115'],
    ['56c', 'NEMA 56C'],
    ['nema 145 tc', 'NEMA 143TC'],
    ['pn 16 dn 50', 'EN 1092-1 PN 16 DN 50'],
    ['DN50 PN16 flange', 'EN 1092-1 PN 16 DN 50'],
    ['2" class 150', 'ASME B16.5 class 150 NPS 2'],
    ['SAE B', 'SAE B 2-bolt'],
    ['f 05', 'ISO 5211 F05'],
    ['ISO 9409-1-A50-4-M6', 'ISO 9409-1-50-4-M6'],
    ['31,5-4-M5', 'ISO 9409-1-31.5-4-M5'],
  ])('%s is %s', (text, name) => expect(standardFace(text)?.name).toBe(name));

  test('a name that is not held is answered with the nearest', () => {
    expect(standardFace('FF600')).toBeNull();
    expect(namesNear('FF600')[0]).toBe('IEC FF500');
    expect(namesNear('57C')[0]).toBe('NEMA 56C');
    expect(namesNear('ISO 9409 50')[0]).toBe('ISO 9409-1-50-4-M6');
    expect(namesNear('iec')[0]).toMatch(/^IEC/);
    // Letters that come near to nothing are taken for nothing.
    expect(namesNear('zzzzzzz')).toEqual([]);
    const found = look('face', 'FF160');
    expect(found.ok ? '' : found.why).toContain('IEC FF55 to FF500');
    expect(found.ok ? '' : found.nearest).toBe('IEC FF165');
  });

  test('sizes find the nearest in either unit', () => {
    expect(facesNear({ circle: 149, count: 4, register: 114 })[0]?.face.name).toBe('NEMA 56C');
    expect(facesNear({ circle: 146, count: 2, register: null })[0]?.face.name).toBe('SAE B 2-bolt');
    for (const [text, name] of [
      ['165 mm 4 holes', 'IEC FF165'],
      ['4 holes on 5 7/8 in', 'NEMA 56C'],
      ['2 holes on 146 mm, pilot 101.6', 'SAE B 2-bolt'],
    ] as const) {
      const found = look('face', text);
      const nearest = found.ok ? (found.json['nearest'] as readonly { readonly name: string }[]) : [];
      expect(nearest[0]?.name).toBe(name);
    }
    expect(look('face', '7 holes on 200').ok).toBe(false);
  });
});
