import { type Speech, sayNumber } from '@fayplate/core';
import { type Cure as PlateCure, type Step, sayCure } from '@fayplate/plate';
import type { Cure } from '../shown.js';

/** An angle as the page has it. */
export const degrees = (radians: number): number => (radians * 180) / Math.PI;

type Edits = Cure['edits'];

/** The edits of the job that one step of a cure is; none where the words are all there is. */
const editsOf = (step: Step, clocking: number, unit: 'in' | 'mm'): Edits => {
  const size = (mm: number): string => `${sayNumber(mm, { unit, fraction: null })} ${unit}`;
  switch (step.kind) {
    case 'turn':
      return [{ path: ['plate', 'clocking'], value: `${Number(degrees(clocking + step.by).toFixed(3))} deg` }];
    case 'thickness':
      return [{ path: ['plate', 'thickness'], value: size(step.to) }];
    case 'thread':
      return [{ path: ['plate', 'fasten', step.face, 'thread'], value: step.thread }];
    case 'fit':
      return [{ path: ['plate', 'fasten', step.face, 'fit'], value: step.fit }];
    case 'margin':
      return [{ path: ['plate', 'outline', 'margin'], value: size(step.to) }];
    case 'treatment': {
      const own = (step.edits ?? []).map(({ at, to }) => ({ path: at, value: typeof to === 'number' ? size(to) : to }));
      if (step.work === undefined) return own;
      const { kind, features, to } = step.work;
      const at = ['work', `${kind} ${step.face}`];
      return [
        ...own,
        { path: [...at, 'face'], value: step.face },
        { path: [...at, kind], value: features.join(' ') },
        { path: [...at, 'to'], value: size(to) },
      ];
    }
  }
};

/** A cure as a button: what it says, and the edits that make it so; none where it is work on a part. */
export const cureOf = (cure: PlateCure, clocking: number, speech: Speech): Cure => {
  const steps = cure.kind === 'together' ? cure.steps : [cure];
  const edits = steps.map((s) => editsOf(s, clocking, speech.unit));
  return { says: sayCure(cure, speech), edits: edits.some((e) => e.length === 0) ? [] : edits.flat() };
};
