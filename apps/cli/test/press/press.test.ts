import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { speechFor } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { type PacketSection, type PrintOrder, press as pressHere } from '@fayplate/print';
import { printSettings, studyOf } from '@fayplate/study';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { pressBeside } from '../../src/press/beside.js';
import { loadLettering } from '../../src/files/fonts.js';
import { pump } from '../support/pump.js';

const sections: readonly PacketSection[] = [
  { title: 'Summary', items: [{ kind: 'report', report: [{ kind: 'paragraph', text: 'All studs were found.' }] }] },
];

const orderOf = (paper: string): PrintOrder => {
  const read = readJob(pump, {});
  if (!read.ok) throw new Error('the example has faults');
  const study = studyOf(read.job, { trials: 100 });
  const { plate, mated } = study.plate();
  return {
    input: { job: read.job, plate, mated, benches: study.benches() },
    settings: { ...printSettings(read.job, { paper }, null), speech: speechFor('in') },
  };
};

let folder = '';
let program = '';
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fayplate-press-'));
  program = join(folder, 'press.mjs');
  await build({
    stdin: {
      contents: "import { serve } from './src/press/entry.js'; serve();",
      resolveDir: join(import.meta.dirname, '../..'),
    },
    bundle: true,
    format: 'esm',
    platform: 'node',
    conditions: ['@fayplate/source'],
    // The font's package is found from the sources' own place.
    define: {
      'import.meta.url': JSON.stringify(import.meta.url),
      'import.meta.dirname': JSON.stringify(import.meta.dirname),
    },
    outfile: program,
    banner: {
      js: `import{createRequire as __cr}from'node:module';const require=__cr(${JSON.stringify(import.meta.url)});`,
    },
    logLevel: 'error',
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the press on a thread of its own', () => {
  test('prints what the press on this thread prints, to the byte', async () => {
    const order = orderOf('A4');
    const [beside, here] = [pressBeside(program), pressHere(loadLettering)];
    try {
      for (const press of [beside, here]) press.begin(order);
      const [theirs, ours] = await Promise.all([beside.finish(sections), here.finish(sections)]);
      if (!theirs.ok || !ours.ok) throw new Error('nothing was printed');
      expect(theirs.files.map((f) => f.name)).toEqual(['packet.pdf', 'drill.pdf', 'gasket.pdf']);
      expect(theirs.files.map((f) => Buffer.from(f.content).toString('latin1'))).toEqual(
        ours.files.map((f) => Buffer.from(f.content).toString('latin1')),
      );
      expect(theirs.warnings).toEqual(ours.warnings);
    } finally {
      beside.stop();
    }
  });

  test('hands back the words of what cannot be printed', async () => {
    const press = pressBeside(program);
    press.begin(orderOf('10 x 10 mm'));
    const printed = await press.finish(sections).finally(press.stop);
    expect(printed.ok ? [] : printed.faults).toHaveLength(1);
  });

  test('a fault of its own reaches the one who waits', async () => {
    const press = pressBeside(program);
    await expect(press.finish(sections)).rejects.toThrow('nothing to print');
    press.stop();
  });

  test('fails where its thread fails, before or after it is asked', async () => {
    const broken = join(folder, 'broken.mjs');
    writeFileSync(broken, "throw new Error('no such press');");
    for (const wait of [0, 300]) {
      const press = pressBeside(broken);
      await new Promise((resolve) => setTimeout(resolve, wait));
      await expect(press.finish(sections)).rejects.toThrow('no such press');
      press.stop();
    }
  });
});
