import { type Speech, say } from '@fayplate/core';
import { chainPicture, stackSectionPicture } from '@fayplate/pictures';
import { stackReport } from '@fayplate/plate';
import type { Study } from '@fayplate/study';
import { letters } from '../letters.js';
import type { StackView } from '../shown.js';
import { drawnOf } from './drawn.js';

/** The chain along the shaft, and the band of thicknesses that its limits leave; null where the job has no stack. */
export const stackView = (study: Study, speech: Speech): StackView | null => {
  const { job } = study;
  const stack = study.stack();
  if (job.stack === null || stack === null) return null;
  const { unknown } = job.stack;
  const ends = (w: { readonly from: number; readonly to: number } | null): readonly [number, number] | null =>
    w === null ? null : [w.from, w.to];
  const says = (what: string, w: readonly [number, number] | null): [string, string] => [
    what,
    w === null ? 'none' : `${say(w[0], speech)} to ${say(w[1], speech)}`,
  ];
  const { picture, places } = stackSectionPicture(job.stack, stack, speech, letters());
  const search: readonly [number, number] = [unknown.from, unknown.to];
  return {
    ok: stack.ok,
    report: stackReport(stack, speech),
    pictures: [drawnOf('stack', chainPicture(job.stack, stack, speech, letters()))],
    section: { picture: drawnOf('section', picture), places },
    window: {
      search,
      worst: ends(stack.worst),
      chance: ends(stack.statistical),
      chosen: stack.total,
      says: [
        says('looked for', search),
        says('worst case', ends(stack.worst)),
        says('statistical', ends(stack.statistical)),
        ['chosen', stack.total === null ? 'none' : say(stack.total, speech)],
      ],
    },
  };
};
