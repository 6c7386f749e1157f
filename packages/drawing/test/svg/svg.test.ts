import { describe, expect, test } from 'vitest';
import { type Drawing, circle, group, line, pens, svg, text } from '../../src/index.js';
import { letters } from '../fonts.js';

const drawing = (shapes: Drawing['shapes'], title = 'a drawing'): Drawing => ({
  title,
  box: { left: -10, bottom: -20, right: 90, top: 180 },
  shapes,
});

describe('SVG at true scale', () => {
  test('width, height and user units are millimetres', () => {
    expect(svg(drawing([]), letters)).toContain('width="100mm" height="200mm" viewBox="-10 -180 100 200"');
  });

  test('y points down on the page and circles stay arcs', () => {
    const out = svg(drawing([circle('cut', { x: 3, y: 70 }, 5, pens.wide)]), letters);
    expect(out).toContain('d="M 8 -70 A 5 5 0 0 0 -2 -70 A 5 5 0 0 0 8 -70 Z"');
  });

  test('each layer is one group, whatever the nesting', () => {
    const a = line('mark', { x: 0, y: 0 }, { x: 1, y: 0 }, pens.narrow);
    const b = line('cut', { x: 0, y: 0 }, { x: 2, y: 0 }, pens.narrow);
    const out = svg(drawing([group('H1', [a, b]), group('H2', [a], 'note')]), letters);
    for (const id of ['cut', 'mark', 'note']) expect(out.split(`<g id="${id}">`)).toHaveLength(2);
    const cut = out.slice(out.indexOf('<g id="cut">'));
    expect(cut).toContain('M 0 0 L 2 0');
    expect(cut).not.toContain('M 0 0 L 1 0');
    expect(out.slice(out.indexOf('<g id="note">'), out.indexOf('<g id="mark">'))).toContain('data-name="H2"');
  });

  test('names and words are inert, and text is outlines', () => {
    const nasty = '"><script>alert(1)</script>\u202E\u0000&';
    const out = svg(drawing([group(nasty, [text('note', { x: 0, y: 0 }, nasty)])], nasty), letters);
    expect(out).not.toMatch(/<script|<text|\u202E|\u0000|&(?!amp;|lt;|gt;|quot;|#39;)/);
    expect(out).toContain('[U+202E][U+0000]');
  });
});
