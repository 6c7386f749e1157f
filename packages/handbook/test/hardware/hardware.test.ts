import { describe, expect, test } from 'vitest';
import { hardware, look, parseThread, socketRoom, threads } from '../../src/index.js';

const of = (name: string) => {
  const t = parseThread(name);
  if (t === null) throw new Error(name);
  return hardware(t);
};

describe('nuts and heads', () => {
  // ISO 4032, across flats and greatest height, mm: a fastener maker's table, an engineering reference page and a
  // workshop's notes agree.
  test.each([
    ['M1.6', 3.2, 1.3],
    ['M2', 4, 1.6],
    ['M2.5', 5, 2],
    ['M3', 5.5, 2.4],
    ['M3.5', 6, 2.8],
    ['M4', 7, 3.2],
    ['M5', 8, 4.7],
    ['M6', 10, 5.2],
    ['M8', 13, 6.8],
    ['M10', 16, 8.4],
    ['M12', 18, 10.8],
    ['M14', 21, 12.8],
    ['M16', 24, 14.8],
    ['M18', 27, 15.8],
    ['M20', 30, 18],
    ['M22', 34, 19.4],
    ['M24', 36, 21.5],
    ['M27', 41, 23.8],
    ['M30', 46, 25.6],
    ['M33', 50, 28.7],
    ['M36', 55, 31],
    ['M39', 60, 33.4],
  ])('%s nut', (name, flats, height) =>
    expect([of(name).nut?.acrossFlats, of(name).nut?.height]).toEqual([flats, height]),
  );

  // ASME B18.2.2, greatest width across flats and height, inches: a handbook's page and two fastener tables agree.
  test.each([
    ['#0-80', 0.156, 0.05],
    ['#1-64', 0.156, 0.05],
    ['#2-56', 0.188, 0.066],
    ['#3-48', 0.188, 0.066],
    ['#4-40', 0.25, 0.098],
    ['#5-40', 0.312, 0.114],
    ['#6-32', 0.312, 0.114],
    ['#8-32', 0.344, 0.13],
    ['#10-24', 0.375, 0.13],
    ['#12-24', 0.438, 0.161],
    ['1/4-20', 0.438, 0.226],
    ['5/16-18', 0.5, 0.273],
    ['3/8-16', 0.562, 0.337],
    ['7/16-14', 0.688, 0.385],
    ['1/2-13', 0.75, 0.448],
    ['9/16-12', 0.875, 0.496],
    ['5/8-11', 0.938, 0.559],
    ['3/4-10', 1.125, 0.665],
    ['7/8-9', 1.312, 0.776],
    ['1-8', 1.5, 0.887],
    ['1 1/8-7', 1.688, 0.999],
    ['1 1/4-7', 1.875, 1.094],
    ['1 3/8-6', 2.062, 1.206],
    ['1 1/2-6', 2.25, 1.317],
  ])('%s nut', (name, flats, height) => {
    expect(Math.abs((of(name).nut?.acrossFlats ?? 0) / 25.4 - flats)).toBeLessThan(0.00051);
    expect((of(name).nut?.height ?? 0) / 25.4).toBeCloseTo(height, 9);
  });

  // BS 1083, greatest width across flats and height, inches: a fastener dealer's table and a handbook's page agree.
  test.each([
    ['1/4', 0.445, 0.2],
    ['5/16', 0.525, 0.25],
    ['3/8', 0.6, 0.312],
    ['7/16', 0.71, 0.375],
    ['1/2', 0.82, 0.437],
    ['9/16', 0.92, 0.5],
    ['5/8', 1.01, 0.562],
    ['3/4', 1.2, 0.687],
    ['7/8', 1.3, 0.75],
    ['1', 1.48, 0.875],
    ['1 1/8', 1.67, 1],
    ['1 1/4', 1.86, 1.125],
    ['1 1/2', 2.22, 1.375],
  ])('%s BSW nut, and the same for BSF', (size, flats, height) => {
    expect((of(`${size} BSW`).nut?.acrossFlats ?? 0) / 25.4).toBeCloseTo(flats, 9);
    expect((of(`${size} BSW`).nut?.height ?? 0) / 25.4).toBeCloseTo(height, 9);
    expect(of(`${size} BSF`).nut).toEqual(of(`${size} BSW`).nut);
  });

  // ISO 4762, head diameter, height, key, mm (three public tables agree); counterbore of DIN 974-1 as a workshop chart
  // prints it.
  test.each([
    ['M3', 5.5, 3, 2.5, 6.5],
    ['M4', 7, 4, 3, 8],
    ['M5', 8.5, 5, 4, 10],
    ['M6', 10, 6, 5, 11],
    ['M8', 13, 8, 6, 15],
    ['M10', 16, 10, 8, 18],
    ['M12', 18, 12, 10, 20],
    ['M14', 21, 14, 12, 24],
    ['M16', 24, 16, 14, 26],
    ['M20', 30, 20, 17, 33],
    ['M24', 36, 24, 19, 40],
  ])('%s cap screw', (name, head, height, key, counterbore) =>
    expect(of(name).capScrew).toMatchObject({ head, height, key, counterbore }),
  );

  // The smallest, from memory.
  test.each([
    ['M1.6', 3, 1.6, 1.5, 3.5],
    ['M2', 3.8, 2, 1.5, 4.4],
    ['M2.5', 4.5, 2.5, 2, 5.5],
  ])('%s cap screw', (name, head, height, key, counterbore) =>
    expect(of(name).capScrew).toMatchObject({ head, height, key, counterbore }),
  );

  // ASME B18.3, head diameter, height, key, inches: two fastener tables agree.
  test.each([
    ['#0-80', 0.096, 0.06, 0.05],
    ['#2-56', 0.14, 0.086, 5 / 64],
    ['#4-40', 0.183, 0.112, 3 / 32],
    ['#6-32', 0.226, 0.138, 7 / 64],
    ['#8-32', 0.27, 0.164, 9 / 64],
    ['#10-24', 0.312, 0.19, 5 / 32],
    ['1/4-20', 0.375, 0.25, 3 / 16],
    ['5/16-18', 0.469, 0.312, 1 / 4],
    ['3/8-16', 0.562, 0.375, 5 / 16],
    ['7/16-14', 0.656, 0.438, 3 / 8],
    ['1/2-13', 0.75, 0.5, 3 / 8],
    ['5/8-11', 0.938, 0.625, 1 / 2],
    ['3/4-10', 1.125, 0.75, 5 / 8],
    ['1-8', 1.5, 1, 3 / 4],
  ])('%s cap screw', (name, head, height, key) => {
    const c = of(name).capScrew;
    expect([c?.head, c?.height, c?.key].map((v) => (v ?? 0) / 25.4)).toEqual(
      [head, height, key].map((v) => expect.closeTo(v, 9)),
    );
  });

  // ISO 10642, theoretical head and height, mm (three public tables); ASME B18.3 flat heads, inches (two).
  test.each([
    ['M3', 6.72, 1.86],
    ['M4', 8.96, 2.48],
    ['M5', 11.2, 3.1],
    ['M6', 13.44, 3.72],
    ['M8', 17.92, 4.96],
    ['M10', 22.4, 6.2],
    ['M12', 26.88, 7.44],
    ['M16', 33.6, 8.8],
    ['M20', 40.32, 10.16],
  ])('%s countersunk', (name, head, height) => expect(of(name).countersunk).toMatchObject({ head, height }));
  test.each([
    ['#4-40', 0.255, 0.083],
    ['#6-32', 0.307, 0.097],
    ['#8-32', 0.359, 0.112],
    ['#10-24', 0.411, 0.127],
    ['#12-24', 0.45, 0.135],
    ['1/4-20', 0.531, 0.161],
    ['5/16-18', 0.656, 0.198],
    ['3/8-16', 0.781, 0.234],
    ['1/2-13', 0.938, 0.251],
    ['3/4-10', 1.438, 0.396],
  ])('%s countersunk', (name, head, height) => {
    expect((of(name).countersunk?.head ?? 0) / 25.4).toBeCloseTo(head, 9);
    expect((of(name).countersunk?.height ?? 0) / 25.4).toBeCloseTo(height, 9);
  });

  // ISO 7089, hole, outside, thickness, mm (two public tables); ASME B18.21.1 type A narrow, inches (a handbook's
  // page).
  test.each([
    ['M3', 3.2, 7, 0.5],
    ['M4', 4.3, 9, 0.8],
    ['M5', 5.3, 10, 1],
    ['M6', 6.4, 12, 1.6],
    ['M8', 8.4, 16, 1.6],
    ['M10', 10.5, 20, 2],
    ['M12', 13, 24, 2.5],
    ['M14', 15, 28, 2.5],
    ['M16', 17, 30, 3],
    ['M18', 19, 34, 3],
    ['M20', 21, 37, 3],
    ['M24', 25, 44, 4],
    ['M30', 31, 56, 4],
    ['M36', 37, 66, 5],
  ])('%s washer', (name, hole, outside, thickness) =>
    expect(of(name).washer).toMatchObject({ hole, outside, thickness }),
  );
  test.each([
    ['M1.6', 1.7, 4, 0.3],
    ['M2', 2.2, 5, 0.3],
    ['M2.5', 2.7, 6, 0.5],
    ['M3.5', 3.7, 8, 0.5],
  ])('%s washer, from memory', (name, hole, outside, thickness) =>
    expect(of(name).washer).toMatchObject({ hole, outside, thickness }),
  );
  test.each([
    ['#4-40', 0.125, 0.312, 0.032],
    ['#6-32', 0.156, 0.375, 0.049],
    ['#8-32', 0.188, 0.438, 0.049],
    ['#10-24', 0.219, 0.5, 0.049],
    ['#12-24', 0.25, 0.562, 0.065],
    ['1/4-20', 0.281, 0.625, 0.065],
    ['5/16-18', 0.344, 0.688, 0.065],
    ['3/8-16', 0.406, 0.812, 0.065],
    ['7/16-14', 0.469, 0.922, 0.065],
    ['1/2-13', 0.531, 1.062, 0.095],
    ['9/16-12', 0.594, 1.156, 0.095],
    ['5/8-11', 0.656, 1.312, 0.095],
    ['3/4-10', 0.812, 1.469, 0.134],
  ])('%s washer', (name, hole, outside, thickness) => {
    const w = of(name).washer;
    expect([w?.hole, w?.outside, w?.thickness].map((v) => (v ?? 0) / 25.4)).toEqual(
      [hole, outside, thickness].map((v) => expect.closeTo(v, 9)),
    );
  });

  test('everything goes over or into what it belongs to', () => {
    for (const t of threads) {
      const { nut, capScrew, countersunk, washer } = hardware(t);
      const sane = [
        nut === null ||
          (nut.acrossFlats > t.major * 1.3 &&
            nut.acrossCorners > nut.acrossFlats &&
            nut.height < 1.1 * t.major &&
            nut.socket.diameter > nut.acrossCorners),
        capScrew === null ||
          (capScrew.head > t.major &&
            capScrew.counterbore > capScrew.head &&
            Math.abs(capScrew.height - t.major) < 0.02 &&
            capScrew.key < t.major),
        countersunk === null || (countersunk.head > 1.8 * t.major && countersunk.height < t.major),
        washer === null ||
          (washer.hole > t.major && washer.outside > 1.8 * washer.hole - 0.2 * t.major && washer.thickness < t.major),
      ];
      expect([t.name, sane]).toEqual([t.name, [true, true, true, true]]);
    }
  });

  // A cone of the head's angle from its mouth to the shank is the head's height: geometry of ISO 10642 and ASME B18.3.
  test('countersunk heights agree with their cones', () => {
    for (const t of threads) {
      const c = hardware(t).countersunk;
      if (c === null) continue;
      const cone = (c.head - t.major) / 2 / Math.tan(c.angle / 2);
      expect([t.name, Math.abs(cone - c.height) < 0.1 * t.major]).toEqual([t.name, true]);
    }
  });

  // Greatest socket diameters of ISO 2725-1 for nuts of 10, 13, 19 and 24 mm, from memory.
  test.each([
    [10, 15.5],
    [13, 19.2],
    [19, 26.7],
    [24, 33],
  ])('a socket for %d mm is %d mm outside', (flats, outside) =>
    expect(Math.abs(socketRoom(flats).diameter - outside)).toBeLessThan(0.1),
  );
});

// BSW hexagons before and after 1940 (BS 28 and BS 190; BS 1083): an old 1/2 in nut has 0.920, the spanner of 9/16 BSF.
// From memory.
test('an old Whitworth nut has the hexagon of the next size up', () => {
  const half = of('1/2 BSW');
  expect(half.oldNut?.acrossFlats).toBeCloseTo(0.92 * 25.4, 9);
  expect(half.nut?.acrossFlats).toBeCloseTo(0.82 * 25.4, 9);
  expect(of('9/16 BSF').nut?.acrossFlats).toBeCloseTo(half.oldNut?.acrossFlats ?? 0, 9);
  expect(of('1/2 BSF').oldNut).toBeNull();
  const page = look('hardware', '1/2 BSW');
  expect(page.ok && page.report.some((b) => b.kind === 'caution' && b.text.includes('1940'))).toBe(true);
});
