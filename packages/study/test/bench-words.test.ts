import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { randomFrom } from '@fayplate/core';
import { press, sheets } from '@fayplate/print';
import { describe, expect, test } from 'vitest';
import { type World, answer } from '../src/index.js';
import type { PrintOrder } from '../src/printing.js';
import { letters, root, textsIn } from './support.js';

/**
 * Every text of the whole packet on paper, the web page, and what stands on every template; null where no plate can be
 * drawn.
 */
const saidAtBench = async (job: string): Promise<readonly string[] | null> => {
  const said: string[] = [];
  const world: World = {
    lettering: () => Promise.resolve(letters),
    sheets: () => Promise.resolve(sheets),
    press: () => {
      const own = press(() => Promise.resolve(letters));
      return Promise.resolve({
        ...own,
        begin: (order: PrintOrder) => {
          said.push(order.settings.notice?.line ?? '', order.settings.notice?.across ?? '');
          own.begin(order);
        },
        finish: (sections) => {
          said.push(...sections.flatMap(textsIn));
          return own.finish(sections);
        },
      });
    },
  };
  const found = await answer(job, 'packet', { trials: 100, full: true, unsettled: true }, world);
  expect(found.thrown).toBeUndefined();
  // Of a plate of two pieces there is a page for each.
  const pages = found.files.filter((f) => f.name.endsWith('packet.html'));
  const bodies = pages.map((f) => (String(f.content).split('<main>')[1] ?? '').split('</main>')[0] ?? '');
  return pages.length === 0 ? null : [...said, ...bodies];
};

/** The text about each word of the file that is named. */
const fileWords = (texts: readonly string[]): readonly string[] =>
  texts.flatMap((text) => {
    const at = [text.indexOf('`'), text.indexOf(': {'), text.indexOf(' --'), text.indexOf('fayplate ')].filter(
      (i) => i >= 0,
    );
    return at.map((i) => text.slice(Math.max(0, i - 60), i + 40));
  });

const read = (folder: string): readonly (readonly [string, string])[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((n) => n.endsWith('.yaml') && !n.endsWith('template.yaml'))
    .map((n) => [n, readFileSync(join(root, folder, n), 'utf8')]);

describe('no word of the job file at the bench', () => {
  test.each([...read('examples'), ...read('test/journeys/shop')])('%s', async (name, job) => {
    const said = await saidAtBench(job);
    // Two jobs are refused as they stand, or not measured yet: nothing goes to the bench.
    if (!name.startsWith('dust-extractor') && !name.startsWith('barn-saw')) expect(said).not.toBeNull();
    expect(fileWords(said ?? [])).toEqual([]);
  });

  /** Two parts of random pins of which much is not told: the fewer sizes, the more there is to say. */
  const random = (seed: number): string => {
    const r = randomFrom(seed);
    const some = (words: string): string => (r.uniform() < 0.5 ? words : '');
    const face = (name: string, kind: 'stud' | 'hole'): readonly string[] => {
      const n = 3 + Math.floor(3 * r.uniform());
      const radius = 60 + 30 * r.uniform();
      const pins = Array.from({ length: n }, (_, i) => {
        const turn = (2 * Math.PI * i) / n + 0.3 * r.uniform();
        return { id: `P${i + 1}`, x: radius * Math.sin(turn), y: radius * Math.cos(turn) };
      });
      const size = kind === 'stud' ? 'thread: M8, diameter: 7.9' : 'diameter: 9';
      return [
        `  ${name}:`,
        '    centre: mid',
        some('    up: P1'),
        some('    flange: 12'),
        some('    rim: [{ feature: mid, margin: 60 mm }]'),
        '    features:',
        `      mid: { kind: spigot, diameter: 60.00 ± 0.01${some(', stands: 2.5')} }`,
        ...pins.map((p) => `      ${p.id}: { kind: ${kind}, ${size}${kind === 'stud' ? some(', stands: 30') : ''} }`),
        '    readings:',
        '      - at mid = (0, 0) by readout',
        ...pins.map((p) => `      - at ${p.id} = (${p.x.toFixed(2)}, ${p.y.toFixed(2)}) by readout`),
      ].filter((line) => line !== '');
    };
    return [
      'job: random',
      'units: mm',
      'instruments: { readout: ± 0.02 }',
      'faces:',
      ...face('pump', 'stud'),
      ...face('motor', 'hole'),
      'plate:',
      '  between: [pump, motor]',
      '  material: steel',
      '  thickness: 16',
      some('  bore: { diameter: 30, side: through }'),
      some('  locate: { pump: { register: 60.05, depth: 3 } }'),
      `  fasten: { pump: { as: clearance, fit: normal, nut: ${r.uniform() < 0.5 ? 'counterbored' : 'plain'} }, ` +
        'motor: { as: tapped, thread: M8, engagement: 1.5 d } }',
      '  outline: { shape: follow, margin: 12 }',
      some('gaskets: { pump: { hole clearance: 1 mm, outline: plate } }'),
    ]
      .filter((line) => line !== '')
      .join('\n');
  };

  test('nor on the packets of twelve plates of which much is not known', async () => {
    let made = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const said = await saidAtBench(random(7000 + seed));
      if (said === null) continue;
      made += 1;
      expect([seed, fileWords(said)]).toEqual([seed, []]);
    }
    expect(made).toBeGreaterThan(9);
  });

  test('which would be seen', () => {
    expect(fileWords(['measure it, or write `stands`', 'write clocks: { H1: … }', 'all well'])).toHaveLength(2);
  });
});
