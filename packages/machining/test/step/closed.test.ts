import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Plate } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { stepSolid } from '../../src/index.js';
import { hole, simple } from '../fixture.js';
import { readSolid } from './kernel.js';
import { plateOf, randomJob } from './random-job.js';
import { passages, topologyOf } from './topology.js';
import { volumeByFormula } from './volume.js';

const text = (p: Plate): string => {
  const made = stepSolid(p);
  if (!made.ok) throw new Error(made.faults.join('\n'));
  return made.text;
};

const throughs = (p: Plate): number =>
  p.holes.filter((h) => h.depth === null).length + p.bores.filter((b) => b.side === 'through').length;

/** One closed skin: every edge once each way, no corner twice, every loop closed, as many passages as the plate has. */
const closed = (p: Plate) => {
  const t = topologyOf(text(p));
  return { open: t.open, broken: t.broken, twins: t.twins, passages: passages(t) };
};
const wanted = (p: Plate) => ({ open: 0, broken: 0, twins: 0, passages: throughs(p) });

const pump = (): Plate => {
  const made = plateOf(readFileSync(join(import.meta.dirname, '../../../../examples/lift-pump/job.yaml'), 'utf8'));
  if (made === null) throw new Error('no plate');
  return made.plate;
};

interface Mesh {
  readonly attributes: { readonly position: { readonly array: readonly number[] } };
  readonly index: { readonly array: readonly number[] };
}

/** Volume inside a mesh, and its edges that are not met by two triangles, one each way; corners are told by place. */
const measured = ({ attributes, index }: Mesh): { readonly volume: number; readonly open: number } => {
  const p = attributes.position.array;
  const at = (i: number) => [p[3 * i] ?? 0, p[3 * i + 1] ?? 0, p[3 * i + 2] ?? 0] as const;
  const name = (i: number): string =>
    at(i)
      .map((v) => Math.round(v * 1e4))
      .join(' ');
  const edges = new Map<string, number>();
  let volume = 0;
  for (let k = 0; k < index.array.length; k += 3) {
    const [i, j, m] = [index.array[k] ?? 0, index.array[k + 1] ?? 0, index.array[k + 2] ?? 0];
    const [a, b, c] = [at(i), at(j), at(m)];
    volume +=
      (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])) /
      6;
    for (const [from, to] of [
      [i, j],
      [j, m],
      [m, i],
    ] as const) {
      const [f, t] = [name(from), name(to)];
      if (f === t) continue;
      edges.set(`${f}>${t}`, (edges.get(`${f}>${t}`) ?? 0) + 1);
      edges.set(`${t}>${f}`, (edges.get(`${t}>${f}`) ?? 0) - 1);
    }
  }
  return { volume, open: [...edges.values()].filter((n) => n !== 0).length };
};

describe('the solid is closed', () => {
  test('the plate of the lift pump, by a plain reader and by a geometry kernel', async () => {
    const p = pump();
    expect(closed(p)).toEqual(wanted(p));
    const solid = await readSolid(text(p));
    expect([solid.kind, solid.valid]).toEqual(['Solid', true]);
    expect(Math.abs(solid.volume / volumeByFormula(p, p.outline.area) - 1)).toBeLessThan(1e-6);
  });

  test('by a second reader: its mesh is closed, and nears the volume as it is made finer', async () => {
    const open = createRequire(import.meta.url)('occt-import-js') as () => Promise<{
      ReadStepFile: (data: Uint8Array, options: object) => { success: boolean; meshes: readonly Mesh[] };
    }>;
    const reader = await open();
    const p = pump();
    const volume = volumeByFormula(p, p.outline.area);
    const at = (angularDeflection: number) => {
      const read = reader.ReadStepFile(new TextEncoder().encode(text(p)), {
        linearUnit: 'millimeter',
        linearDeflectionType: 'absolute_value',
        linearDeflection: 0.5,
        angularDeflection,
      });
      expect(read.success).toBe(true);
      expect(read.meshes).toHaveLength(1);
      const [mesh] = read.meshes;
      if (mesh === undefined) throw new Error('no mesh');
      return measured(mesh);
    };
    const [coarse, fine] = [at(0.08), at(0.04)];
    expect([coarse.open, fine.open]).toEqual([0, 0]);
    // Chords of half the angle stray a quarter as far, so that what the two meshes run to is known far better than
    // either.
    expect(Math.abs((fine.volume + (fine.volume - coarse.volume) / 3) / volume - 1)).toBeLessThan(1e-6);
  });

  test.each([1, 2, 3, 6, 12, 15, 19, 24])('a random plate, seed %d; the bench takes 500', async (seed) => {
    const made = plateOf(randomJob(seed));
    if (made === null) throw new Error('no plate');
    expect(closed(made.plate)).toEqual(wanted(made.plate));
    const solid = await readSolid(text(made.plate));
    expect([solid.kind, solid.valid]).toEqual(['Solid', true]);
    expect(Math.abs(solid.volume / volumeByFormula(made.plate, made.plate.outline.area) - 1)).toBeLessThan(1e-6);
  });

  test('an outline whose end is not quite its start is closed all the same', () => {
    const p = simple([hole('H1', 0, 0)]);
    const [first, ...rest] = p.outline.path.edges;
    if (first === undefined) throw new Error('no outline');
    const last = rest.at(-1) ?? first;
    const off = { ...last, to: { x: last.to.x + 3e-14, y: last.to.y - 2e-14 } };
    const path = { ...p.outline.path, edges: [first, ...rest.slice(0, -1), off] };
    expect(closed({ ...p, outline: { ...p.outline, path } })).toEqual(wanted(p));
  });

  test('an edge left out is found', () => {
    const whole = text(simple([hole('H1', 0, 0)]));
    const face = /^#\d+=ADVANCED_FACE\([^\n]*\n/m.exec(whole)?.[0] ?? '';
    const loop = /^#\d+=EDGE_LOOP\([^\n]*\n/m.exec(whole)?.[0] ?? '';
    expect(topologyOf(whole.replace(face, '').replace(loop, '')).open).toBeGreaterThan(0);
  });
});
