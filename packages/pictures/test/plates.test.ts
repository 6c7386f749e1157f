import { speechFor } from '@fayplate/core';
import { captioned } from '@fayplate/drawing';
import type { Check, Plate } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { clockingPicture, platePicture, sectionPicture } from '../src/index.js';
import { crowded, design, exampleJob, letters, meetingTexts, outside, textsOf } from './support.js';

const speech = speechFor('mm');

describe.each(['lift-pump', 'three-to-four'])('the plate of %s', (name) => {
  const job = exampleJob(name);
  const { plate, mated } = design(job);
  // Checks that do not hold, at every hole and in between, as the drawing may have to show them.
  const [model] = plate.checks;
  if (model === undefined) throw new Error('no checks');
  const ailing: Plate = {
    ...plate,
    ok: false,
    checks: [
      ...plate.holes.map((h): Check => ({
        ...model,
        id: 'web-between-cuts',
        rule: 'web between cuts',
        of: [h.id, 'outline'],
        ok: false,
        at: { x: h.x, y: h.y },
      })),
      {
        ...model,
        id: 'goes-on' as const,
        rule: 'chance that it goes on',
        of: [job.faces[0]?.name ?? ''],
        ok: false,
        at: null,
      },
    ],
  };
  const both = [
    ['sound', plate],
    ['ailing', ailing],
  ] as const;

  test.each(both.flatMap(([state, p]) => (['A', 'B'] as const).map((side) => [state, side, p] as const)))(
    '%s, side %s: nothing clipped, no lettering on other lettering, every hole named once',
    (_state, side, p) => {
      const drawing = captioned(platePicture(p, mated, side, speech, letters), letters);
      expect(outside(drawing)).toEqual([]);
      expect(meetingTexts(drawing)).toEqual([]);
      const words = textsOf(drawing).map((t) => t.text);
      for (const h of plate.holes) expect(words.filter((w) => w === h.id)).toHaveLength(1);
      expect(words.join(' ')).toContain(`Side ${side} faces you`);
      expect(words.join(' ').includes('Ringed twice')).toBe(!p.ok && p.checks.some((c) => !c.ok && c.at !== null));
    },
  );

  test('in section and against clocking: nothing clipped, no lettering on other lettering', () => {
    for (const drawing of [
      captioned(sectionPicture(plate, speech, letters), letters),
      captioned(clockingPicture(plate, speech, letters), letters),
    ]) {
      expect(outside(drawing)).toEqual([]);
      expect(meetingTexts(drawing)).toEqual([]);
    }
  });
});

test('many holes that are alike are said by the first and the last, and each is named in the drawing', () => {
  const { plate, mated } = design(crowded());
  const drawing = platePicture(plate, mated, 'B', speech, letters);
  expect(drawing.notes.find((n) => n.includes('counterbored'))).toMatch(/^H1 … H36: /);
  expect(drawing.notes.find((n) => n.includes('tapped'))).toMatch(/^H37 … H48: /);
  const words = textsOf(drawing).map((t) => t.text);
  for (const h of plate.holes) expect(words.filter((w) => w === h.id)).toHaveLength(1);
});
