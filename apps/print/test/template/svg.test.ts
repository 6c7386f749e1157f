import { describe, expect, test } from 'vitest';
import { templateFor, templateSvg } from '../../src/index.js';
import { input } from '../jobs.js';
import { options, pumpPlate } from '../plates.js';

const drawn = (what: 'drill' | 'gasket'): string => {
  const template = templateFor(input, { what, side: 'B' }, options);
  if ('ok' in template) throw new Error(template.faults.join());
  return templateSvg('Heron Lane lift pump', template, options).text;
};

const layer = (svg: string, id: string): string => {
  const from = svg.indexOf(`<g id="${id}">`);
  const next = ['note', 'mark', 'cut'].map((k) => svg.indexOf(`<g id="${k}">`)).filter((i) => i > from);
  return svg.slice(from, Math.min(...next, svg.length));
};

/** Full circles as `M x+r y A r r … x−r y A r r … x+r y Z`: centre (y up) and diameter. */
const circlesIn = (part: string): readonly { readonly x: number; readonly y: number; readonly diameter: number }[] =>
  [...part.matchAll(/d="M (-?[\d.]+) (-?[\d.]+) A ([\d.]+) \3 0 0 [01] (-?[\d.]+) \2 A \3 \3 0 0 [01] \1 \2 Z"/g)].map(
    (m) => ({
      x: (Number(m[1]) + Number(m[4])) / 2,
      y: -Number(m[2]),
      diameter: 2 * Number(m[3]),
    }),
  );

describe('one SVG for a laser or a cutting plotter', () => {
  test('size in mm, one user unit a millimetre, no transform anywhere, no text but outlines', () => {
    const svg = drawn('drill');
    const [, w = '', h = ''] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? [];
    const [, vw = '', vh = ''] = /viewBox="\S+ \S+ ([\d.]+) ([\d.]+)"/.exec(svg) ?? [];
    expect([w, h]).toEqual([vw, vh]);
    expect(Number(w)).toBeGreaterThan(236);
    expect(svg).not.toMatch(/transform|<text|<script/);
  });

  test('drill: the outline and the bore are cut, every hole is marked at its place and size', () => {
    const svg = drawn('drill');
    expect(circlesIn(layer(svg, 'cut')).map((c) => c.diameter)).toEqual([236, 60]);
    const marked = circlesIn(layer(svg, 'mark'));
    for (const h of pumpPlate.holes.filter((q) => q.slot === null && q.depth === null))
      expect(
        marked.some(
          (c) => Math.abs(c.x - h.x) < 1e-5 && Math.abs(c.y - h.y) < 1e-5 && Math.abs(c.diameter - h.diameter) < 1e-5,
        ),
      ).toBe(true);
  });

  test('gasket: everything that falls out is cut', () => {
    const cut = circlesIn(layer(drawn('gasket'), 'cut'));
    expect(cut.map((c) => c.diameter).sort((a, b) => b - a)).toEqual([
      236,
      92,
      82,
      ...Array.from({ length: 7 }, () => 10.8),
      ...Array.from({ length: 4 }, () => 10.4),
    ]);
  });
});
