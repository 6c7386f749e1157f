import { describe, expect, test } from 'vitest';
import { hardware, parseThread, socketRoom, threads } from '../../src/index.js';

const of = (name: string) => {
  const t = parseThread(name);
  if (t === null) throw new Error(name);
  return hardware(t);
};

describe('nuts and heads', () => {
  // Sizes that every fitter knows by the spanner: common practice.
  test.each([
    ['M6', 10], ['M8', 13], ['M10', 16], ['M12', 18], ['M16', 24], ['M20', 30], ['M24', 36],
  ])('%s nut takes a %d mm spanner', (name, flats) => expect(of(name).nut?.acrossFlats).toBe(flats));
  test.each([
    ['1/4-20', 7 / 16], ['5/16-18', 1 / 2], ['3/8-16', 9 / 16], ['1/2-13', 3 / 4], ['3/4-10', 1.125], ['1-8', 1.5],
  ])('%s nut takes a %d in spanner', (name, flats) => expect((of(name).nut?.acrossFlats ?? 0) / 25.4).toBeCloseTo(flats, 9));
  // BS 1083: a Whitworth nut of one size takes the spanner of the BSF nut of the same size, 0.600 in for 3/8; from memory.
  test('Whitworth and Fine share a nut', () => {
    expect(of('3/8 BSW').nut).toEqual(of('3/8 BSF').nut);
    expect((of('3/8 BSW').nut?.acrossFlats ?? 0) / 25.4).toBeCloseTo(0.6, 9);
  });

  test('everything goes over or into what it belongs to', () => {
    for (const t of threads) {
      const { nut, capScrew, countersunk, washer } = hardware(t);
      const sane = [
        nut === null || (nut.acrossFlats > t.major * 1.3 && nut.acrossCorners > nut.acrossFlats && nut.height < 1.1 * t.major && nut.socket.diameter > nut.acrossCorners),
        capScrew === null || (capScrew.head > t.major && capScrew.counterbore > capScrew.head && Math.abs(capScrew.height - t.major) < 0.02 && capScrew.key < t.major),
        countersunk === null || (countersunk.head > 1.8 * t.major && countersunk.height < t.major),
        washer === null || (washer.hole > t.major && washer.outside > 1.8 * washer.hole - 0.2 * t.major && washer.thickness < t.major),
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
    [10, 15.5], [13, 19.2], [19, 26.7], [24, 33],
  ])('a socket for %d mm is %d mm outside', (flats, outside) => expect(Math.abs(socketRoom(flats).diameter - outside)).toBeLessThan(0.1));
});
