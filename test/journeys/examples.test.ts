import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { chiSquareTail } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { places, simulate } from '../../examples/simulate.mjs';
import { fayplate, root } from '../support/cli.js';

interface Truth {
  readonly faces: Readonly<Record<string, Parameters<typeof places>[0]>>;
  /** Reading → how much too long it was written down, mm; with what Fayplate ought to guess. */
  readonly misread?: Readonly<Record<string, number>>;
  readonly guess?: string;
}
interface Suspect {
  readonly reading: string;
  readonly error: number;
  readonly guess: string | null;
}
interface Located {
  readonly faces: Readonly<
    Record<
      string,
      {
        readonly readings: readonly { readonly id: string; readonly text: string }[];
        readonly suspects: readonly Suspect[];
        readonly features: Readonly<
          Record<
            string,
            {
              readonly x: number;
              readonly y: number;
              readonly covariance: readonly [readonly [number, number], readonly [number, number]];
              readonly ellipse95: { readonly major: number };
            }
          >
        >;
      }
    >
  >;
}

const text = (name: string, file: string): string => readFileSync(join(root, 'examples', name, file), 'utf8');
const truthOf = (name: string): Truth => JSON.parse(text(name, 'truth.json')) as Truth;
const names = readdirSync(join(root, 'examples'), { withFileTypes: true })
  .filter((d) => d.isDirectory())
  .map((d) => d.name);
const answer = async <T>(command: string, name: string, ...more: readonly string[]): Promise<T> =>
  JSON.parse((await fayplate([command, `examples/${name}/job.yaml`, '--json', ...more])).out) as T;

/** Each suspect of a job by its face: the reading's text beside what is said of it. */
const suspectsOf = (located: Located): readonly (Suspect & { readonly face: string; readonly text: string })[] =>
  Object.entries(located.faces).flatMap(([face, f]) =>
    f.suspects.map((s) => ({ ...s, face, text: f.readings.find((r) => r.id === s.reading)?.text ?? '' })),
  );

/** d² = δᵀ C⁻¹ δ of a place from the truth; a centre that is exact along one axis is judged along the other alone. */
const surprise = (
  f: Located['faces'][string]['features'][string],
  at: { readonly x: number; readonly y: number },
): { readonly d2: number; readonly dof: number } => {
  const [[xx, xy], [, yy]] = f.covariance;
  const dx = f.x - at.x;
  const dy = f.y - at.y;
  if (xx < 1e-16 && yy < 1e-16) return { d2: 0, dof: 0 };
  if (xx < 1e-16) return { d2: (dy * dy) / yy, dof: 1 };
  if (yy < 1e-16) return { d2: (dx * dx) / xx, dof: 1 };
  const det = xx * yy - xy * xy;
  return { d2: (yy * dx * dx - 2 * xy * dx * dy + xx * dy * dy) / det, dof: 2 };
};

describe.each(names)('the example %s', (name) => {
  test('is what its truth and template give', () => {
    expect(text(name, 'job.yaml')).toBe(simulate(text(name, 'template.yaml'), truthOf(name)));
  });

  test('reads without fault, and its readings fix every feature; only the misread one is not settled', async () => {
    const { code, out, err } = await fayplate(['check', `examples/${name}/job.yaml`]);
    expect(err).toBe('');
    expect(out).toContain('has no faults');
    expect(code).toBe(name === 'potters-wheel' ? 1 : 0);
  });

  test('gives centres that agree with the truth by their own ±', async () => {
    const truth = truthOf(name);
    const first = await answer<Located>('locate', name);
    const aside = suspectsOf(first).flatMap((s) => ['--set-aside', `${s.face}:${s.reading}`]);
    const located = aside.length === 0 ? first : await answer<Located>('locate', name, ...aside);
    expect(suspectsOf(located)).toEqual([]);
    for (const [face, said] of Object.entries(truth.faces)) {
      for (const [id, at] of Object.entries(places(said))) {
        const found = located.faces[face]?.features[id];
        if (found === undefined) throw new Error(`${face}.${id} is not located`);
        const { d2, dof } = surprise(found, at);
        expect([id, dof === 0 || chiSquareTail(d2, dof) > 0.001]).toEqual([id, true]);
        // A value that must fail: the same place off by a millimetre, or by three of its ± where that is more.
        const off = Math.max(1, 3 * found.ellipse95.major);
        if (dof === 2)
          expect(chiSquareTail(surprise(found, { x: at.x + off, y: at.y + off }).d2, 2)).toBeLessThan(1e-6);
      }
    }
  });

  test('names the reading that was written down wrong, and no other', async () => {
    const { misread = {}, guess } = truthOf(name);
    const { code, out } = await fayplate(['locate', `examples/${name}/job.yaml`, '--json']);
    const found = suspectsOf(JSON.parse(out) as Located);
    expect(code).toBe(found.length === 0 ? 0 : 1);
    expect(found.map((s) => s.text.split(' = ')[0])).toEqual(Object.keys(misread));
    for (const [k, error] of Object.values(misread).entries()) {
      expect(found[k]?.guess).toBe(guess);
      expect(Math.abs((found[k]?.error ?? 0) - error)).toBeLessThan(0.2);
    }
  });
});

describe('the weir gate, from its old plate', () => {
  test('the thickness is what worked and what the new shaft adds; the gauge’s zero, the same in both, cancels', async () => {
    const { thickness } = JSON.parse(text('weir-gate', 'truth.json')) as { thickness: number };
    const job = text('weir-gate', 'job.yaml');
    const told = async (source: string): Promise<{ thickness: number; ok: boolean }> =>
      JSON.parse((await fayplate(['plate', '-', '--json'], { read: () => source })).out) as {
        thickness: number;
        ok: boolean;
      };
    const found = await told(job);
    expect(found.thickness).toBeCloseTo(thickness, 9);
    expect(found.ok).toBe(true);
    const zeroOff = job.replace('{ old: 61.2, new: 63.4', '{ old: 61.5, new: 63.7');
    expect(zeroOff).not.toBe(job);
    expect((await told(zeroOff)).thickness).toBeCloseTo(thickness, 9);
    // A value that must fail: one of the two is off, and the other not.
    expect((await told(job.replace('new: 63.4', 'new: 63.7'))).thickness).toBeCloseTo(thickness + 0.3, 9);
  });

  test('the hole at 10 on the old plate’s back is at 2 on the headstock, and on the new plate seen from the motor’s side', async () => {
    const { holes } = await answer<{ holes: { feature: string; x: number; y: number }[] }>('plate', 'weir-gate');
    const second = holes.find((h) => h.feature === 'gate.G2');
    expect(second?.x).toBeCloseTo(115 * Math.sin(Math.PI / 3), 0);
    expect(second?.y).toBeCloseTo(115 * Math.cos(Math.PI / 3), 0);
    // IEC FF165: 165 mm, holes at 45° to the axes.
    const motor = holes.filter((h) => h.feature.startsWith('motor.'));
    expect(motor.length).toBe(4);
    for (const h of motor) expect(Math.hypot(h.x, h.y)).toBeCloseTo(82.5, 6);
  });
});

describe('the lift pump, from readings to plate', () => {
  test('the layout is the one its makers drew', async () => {
    const layout = await answer<{
      faces: Record<
        string,
        {
          chosen: number | null;
          candidates: { circles: { diameter: number; divisions: number; occupied: number[] }[] }[];
        }
      >;
    }>('layout', 'lift-pump');
    const chosen = (face: string): { diameter: number; divisions: number; occupied: number[] } | undefined => {
      const f = layout.faces[face];
      return f?.candidates[f.chosen ?? -1]?.circles[0];
    };
    expect(chosen('pump')?.diameter).toBeCloseTo(190.5, 9);
    expect(chosen('pump')?.divisions).toBe(12);
    expect([...(chosen('pump')?.occupied ?? [])].sort((a, b) => a - b)).toEqual([0, 2, 3, 5, 7, 9, 10]);
    expect(chosen('motor')?.diameter).toBeCloseTo(165, 9);
    expect(chosen('motor')?.divisions).toBe(4);
  });

  test('the true links meet the limits at the thickness chosen', async () => {
    const { stack } = JSON.parse(text('lift-pump', 'truth.json')) as {
      stack: { reach: number; mouth: number; floor: number; gasket: number };
    };
    const { chosen } = await answer<{ chosen: number }>('stack', 'lift-pump');
    const engagement = stack.reach - chosen - stack.gasket - stack.mouth;
    const gap = stack.floor + chosen + stack.gasket - stack.reach;
    expect(engagement).toBeGreaterThanOrEqual(25);
    expect(gap).toBeGreaterThanOrEqual(1);
    expect(gap).toBeLessThanOrEqual(3);
  });

  test('holes of the pump keep their x and holes of the motor are turned about, seen from the motor’s side', async () => {
    const plate = await answer<{
      ok: boolean;
      thickness: number;
      holes: { feature: string; x: number; y: number; diameter: number }[];
    }>('plate', 'lift-pump');
    const truth = truthOf('lift-pump').faces;
    const hole = (feature: string): { x: number; y: number } =>
      plate.holes.find((h) => h.feature === feature) ?? { x: Number.NaN, y: 0 };
    for (const [id, p] of Object.entries(places(truth['pump'] ?? {}))) {
      if (id !== 'spigot') expect(Math.hypot(hole(`pump.${id}`).x - p.x, hole(`pump.${id}`).y - p.y)).toBeLessThan(0.3);
    }
    for (const [id, p] of Object.entries(places(truth['motor'] ?? {}))) {
      if (id !== 'spigot')
        expect(Math.hypot(hole(`motor.${id}`).x + p.x, hole(`motor.${id}`).y - p.y)).toBeLessThan(0.3);
    }
    expect(plate.ok).toBe(true);
  });

  test('the packet is whole: templates, tables, pictures, machine files and documents', async () => {
    const { code, files } = await fayplate(['packet', 'examples/lift-pump/job.yaml', '--out', 'packet']);
    expect(code).toBe(0);
    for (const file of [
      'drill.pdf',
      'packet.html',
      'table.csv',
      'plate.step',
      'plate.json',
      'locate.json',
      'side-a-bore-c2.cnc',
      'side-b.cnc',
      'plate-side-b.svg',
    ])
      expect([...files.keys()]).toContain(`packet/${file}`);
    const html = String(files.get('packet/packet.html'));
    // One script, named by hash in the page's own policy, keeps the ticks; nothing is fetched from anywhere.
    expect(html.match(/<script/g)).toHaveLength(1);
    expect(html).toMatch(/default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-/);
    expect(html).not.toMatch(/https?:\/\/(?!www\.w3\.org)/);
    expect(html).toContain('Heron Lane lift pump');
    // Every file says of which state of the job it is; a PDF in its text, which is searched elsewhere.
    const mark = (JSON.parse(String(files.get('packet/plate.json'))) as { readonly fingerprint: string }).fingerprint;
    const without = [...files].filter(([name, content]) => {
      const said = String(content).includes(mark) || String(content).includes(mark.replace('-', ' '));
      return !said && !name.endsWith('.pdf') && !name.endsWith('packet.json');
    });
    expect(without.map(([name]) => name)).toEqual([]);
  });

  test('the same job gives the same bytes', async () => {
    const [a, b] = await Promise.all(
      [1, 2].map(() => fayplate(['packet', 'examples/lift-pump/job.yaml', '--out', 'packet'])),
    );
    expect([...(a?.files ?? [])]).toEqual([...(b?.files ?? [])]);
  });
});
