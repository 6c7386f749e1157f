import { speechFor } from '@fayplate/core';
import { layoutFace, usedPattern } from '@fayplate/layout';
import type { Job } from '@fayplate/job';
import { type MatedFace, type Plate, designPlate, solveStack } from '@fayplate/plate';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { clockingPicture, platePicture, sectionPicture } from '../src/index.js';
import { exampleJob, letters, meetingTexts, outside, textsOf } from './support.js';

const design = (job: Job): { readonly plate: Plate; readonly mated: readonly MatedFace[] } => {
  const used = new Map(
    job.faces.map((face) => {
      const located = locateFace({ face, instruments: job.instruments }, { next: false });
      const u = usedPattern(face, located, layoutFace(face, located));
      if (!u.ok) throw new Error(u.why);
      return [face.name, u.used];
    }),
  );
  const designed = designPlate(job, used, { stack: job.stack === null ? null : solveStack(job.stack), trials: 100 });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  return designed;
};

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
      ...plate.holes.map((h) => ({ ...model, rule: 'web between cuts', of: [h.id, 'outline'], ok: false, at: { x: h.x, y: h.y } })),
      { ...model, rule: 'chance that it goes on', of: [job.faces[0]?.name ?? ''], ok: false, at: null },
    ],
  };
  const both = [['sound', plate], ['ailing', ailing]] as const;

  test.each(both.flatMap(([state, p]) => (['A', 'B'] as const).map((side) => [state, side, p] as const)))('%s, side %s: nothing clipped, no lettering on other lettering, every hole named once', (_state, side, p) => {
    const drawing = platePicture(p, mated, side, speech, letters);
    expect(outside(drawing)).toEqual([]);
    expect(meetingTexts(drawing)).toEqual([]);
    const words = textsOf(drawing).map((t) => t.text);
    for (const h of plate.holes) expect(words.filter((w) => w === h.id)).toHaveLength(1);
    expect(words.join(' ')).toContain(`Side ${side} faces you`);
    expect(words.join(' ').includes('Ringed twice')).toBe(!p.ok && p.checks.some((c) => !c.ok && c.at !== null));
  });

  test('in section and against clocking: nothing clipped, no lettering on other lettering', () => {
    for (const drawing of [sectionPicture(plate, speech, letters), clockingPicture(plate, speech, letters)]) {
      expect(outside(drawing)).toEqual([]);
      expect(meetingTexts(drawing)).toEqual([]);
    }
  });
});
