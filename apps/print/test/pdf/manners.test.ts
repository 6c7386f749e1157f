import { beforeAll, describe, expect, test } from 'vitest';
import { type Printed } from '../../src/index.js';
import { printed } from '../jobs.js';
import { hasPoppler, popplerBoxes } from '../poppler.js';
import { bare, read } from './reader.js';

const MM = 25.4 / 72;

describe('what a general-purpose reader finds in the file', () => {
  let all: Printed;
  let found: Awaited<ReturnType<typeof read>>;
  beforeAll(async () => {
    all = await printed();
    found = await read(all.bytes);
  });

  test('pages have the paper’s size to 0.0001 mm and no unit of their own', () => {
    expect(found.pages).toHaveLength(all.json.pages.length);
    for (const page of found.pages) {
      const [left, bottom, right = 0, top = 0] = page.view;
      expect([left, bottom]).toEqual([0, 0]);
      expect(Math.abs(right * MM - 210)).toBeLessThan(1e-4);
      expect(Math.abs(top * MM - 297)).toBeLessThan(1e-4);
      expect(page.unit).toBe(1);
    }
  });

  test('no scaling is asked of the viewer, the tray goes by page size, one side is printed', () => {
    expect(found.manners).toMatchObject({
      PrintScaling: 'None',
      PickTrayByPDFSize: true,
      Duplex: 'Simplex',
      DisplayDocTitle: true,
    });
  });

  test('title, language and page labels', () => {
    expect(found.metadata['Title']).toBe('Heron Lane lift pump: Drill template · side B up · pump behind');
    expect(found.metadata['Language']).toBe('en-GB');
    expect(found.labels).toEqual(['key', '1,1', '1,2']);
  });

  test('cut, mark and note are layers, all shown', () => {
    expect(found.layers).toEqual(['Cut', 'Mark', 'Note']);
    expect(found.shown).toEqual([true, true, true]);
  });

  test('words can be searched though they are drawn as outlines', () => {
    expect(found.pages[1]?.text).toContain(bare('Check the ruler before you punch'));
    expect(found.pages[2]?.text).toContain(bare("12 o'clock of motor"));
    expect(found.pages[2]?.text).toContain(bare("c'bore ⌀22 × 9"));
  });

  test('the same job gives the same bytes, another day gives others', async () => {
    expect((await printed()).bytes).toEqual(all.bytes);
    expect((await printed({ date: new Date('2024-03-02T00:00:00Z') })).bytes).not.toEqual(all.bytes);
  });

  test.skipIf(!hasPoppler())('poppler finds the same page boxes', () => {
    expect(popplerBoxes(all.bytes, 3)).toEqual([1, 2, 3].map(() => [0, 0, 595.28, 841.89]));
  });
});
