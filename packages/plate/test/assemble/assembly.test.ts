import { polar, speechFor } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { assemblyReport, crosswise } from '../../src/index.js';
import { bench, fasten, plateOf, ring, soundBench } from '../support/plate.js';

const circleOf = (n: number) => Array.from({ length: n }, (_, i) => polar(100, Math.PI / 2 - (2 * Math.PI * i) / n));
const words = (plate: ReturnType<typeof plateOf>, job: ReturnType<typeof soundBench>['job']): string =>
  JSON.stringify(assemblyReport(plate, job, null, speechFor('mm')));

describe('the order of tightening', () => {
  // ASME PCC-1-2013, table 4 (legacy cross pattern): 4, 8, 12 and 16 bolts; from memory.
  test.each([
    [4, '1 3 2 4'],
    [8, '1 5 3 7 2 6 4 8'],
    [12, '1 7 4 10 2 8 5 11 3 9 6 12'],
    [16, '1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16'],
  ])('%i on a circle: the star pattern', (n, order) => {
    const found = crosswise(circleOf(n)).map((i) => i + 1);
    // Which of two that lie alike comes first is free: from the third on the sheets of bolts agree up to a mirror
    // image.
    const mirrored = found.map((k) => (k === 1 ? 1 : n + 2 - k));
    expect([found.join(' '), mirrored.join(' ')]).toContain(order);
  });
  test('an odd number: never two neighbours one after the other', () => {
    for (const n of [5, 7, 9]) {
      const order = crosswise(circleOf(n));
      expect([...order].sort((a, b) => a - b)).toEqual([...order.keys()]);
      for (const [k, i] of order.slice(1).entries()) {
        const steps = Math.abs(i - (order[k] ?? 0));
        expect(Math.min(steps, n - steps)).toBeGreaterThan(1);
      }
    }
  });
  test('turning the joint changes nothing', () => {
    const turned = circleOf(7).map((p) => ({ x: p.y, y: -p.x }));
    expect(crosswise(turned)).toEqual(crosswise(circleOf(7)));
  });
});

describe('which part comes first', () => {
  test('the one whose nuts the other covers, and they are told as out of reach', () => {
    const b = soundBench();
    const { assembly } = plateOf(b);
    expect(assembly).toMatchObject({ order: ['pump', 'motor'], because: 'covered' });
    expect(assembly.tightening).toMatchObject([
      { face: 'pump', fastener: 'nut', side: 'B', covered: 'yes', thread: 'M8' },
      { face: 'motor', fastener: 'bolt', side: null, covered: 'no', thread: 'M10' },
    ]);
    expect(words(plateOf(b), b.job)).toContain('Out of reach once motor is on');
  });
  test('the same joint named the other way round keeps its order', () => {
    const { job, used } = soundBench();
    const swapped = plateOf({
      used,
      job: { ...job, plate: job.plate === null ? null : { ...job.plate, between: ['motor', 'pump'] } },
    });
    expect(swapped.assembly.order).toEqual(['pump', 'motor']);
    expect(swapped.assembly.tightening[0]).toMatchObject({ face: 'pump', side: 'A', covered: 'yes' });
  });
});

describe('what enters first', () => {
  test('by how far each stands out: studs 20 mm, then the spigot 2.5 mm; the shaft, of no known length, before all', () => {
    const { assembly } = plateOf(soundBench());
    expect(assembly.enters.get('pump')).toMatchObject([
      { what: 'studs', of: ['P1', 'P2', 'P3', 'P4', 'P5'], stands: 20 },
      { what: 'spigot', into: ['C2'], stands: 2.5 },
    ]);
    expect(assembly.enters.get('motor')?.map((e) => [e.what, e.stands])).toEqual([
      ['shaft', null],
      ['spigot', 2.5],
    ]);
  });
});

describe('studs', () => {
  const withStuds = (stands: number | null) => {
    const b = soundBench();
    const faces = b.job.faces.map((f) => ({
      ...f,
      features: f.features.map((x) => (x.kind === 'stud' ? { ...x, stands } : x)),
    }));
    return plateOf({ ...b, job: { ...b.job, faces } }).assembly.studs[0];
  };
  // Plate 20, counterbore 9 deep: 11 of plate, nut 6.8 (ISO 4032), one pitch 1.25: 19.05 at least. The motor lies over
  // it: 20 at most.
  test('as they are', () => {
    const s = withStuds(20);
    expect(s).toMatchObject({ asks: 'nothing', to: null, most: 20 });
    expect(s?.least).toBeCloseTo(19.05, 9);
  });
  test('too long: shortened to what the other part leaves, to a half millimetre', () => {
    expect(withStuds(23.2)).toMatchObject({ asks: 'shorten', to: 20 });
  });
  test('not measured', () => {
    expect(withStuds(null)).toMatchObject({ asks: 'measure', to: null });
  });
  test('too short with the nut on the open face: one that stands at least 20 + 6.8 + 1.25', () => {
    const open = bench(
      { spots: ring(4, 60, 0, { kind: 'stud', thread: 'M8', d: 8, stands: 25 }) },
      { spots: ring(3, 20, 1, { kind: 'hole', thread: 'M5', d: 5.5 }), face: { rim: square(30) } },
      {
        fasten: new Map([
          ['pump', fasten({ head: 'nut' })],
          ['motor', fasten({ as: 'tapped', thread: 'M5' })],
        ]),
      },
    );
    const [s] = plateOf(open, { benches: new Map([['motor', null]]) }).assembly.studs;
    expect(s).toMatchObject({ asks: 'replace', to: 28.5, most: null });
    expect(s?.least).toBeCloseTo(28.05, 9);
  });
});

const square = (half: number) =>
  [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ].map(([x = 0, y = 0]) => ({ at: { x, y } }));

describe('tools', () => {
  test('the nut’s wrench and socket with the counterbore that they get, the bolt’s with what nobody measured', () => {
    const [nut, bolt] = plateOf(soundBench()).assembly.tightening;
    // ISO 4032: M8 is 13 mm across flats, M10 16 mm; a socket is about 1.25 s + 3.
    expect(nut?.tool).toMatchObject({ kind: 'wrench', size: 13, outside: 19.25, room: 20.5 });
    expect(bolt?.tool).toMatchObject({ kind: 'wrench', size: 16, outside: 23, room: null });
  });
});

describe('apart again', () => {
  test('jacking screws by name, else how to part a register', () => {
    const none = soundBench();
    expect(words(plateOf(none), none.job)).toContain('two wedges');
    const jacked = soundBench({ extras: [{ what: 'jacking', thread: 'M8', circle: 90, clocks: [0.3, 3.4] }] });
    const said = words(plateOf(jacked), jacked.job);
    expect(said).toContain('Jack the plate off pump with screws M8 × 1.25 in H10 and H11');
    expect(said).not.toContain('two wedges');
  });
});
