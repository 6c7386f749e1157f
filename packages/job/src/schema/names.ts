import * as z from 'zod/mini';
import { parsed, refused } from '@fayplate/core';
import { inThousands, most } from '../source/source.js';
import { type NameRule, faceName, featureName, instrumentName, linkName } from '../faults/names.js';
import { described, leaf } from './leaf.js';

/** A key of a section whose keys are names that the person chooses. */
export const namedBy = <T extends z.core.$ZodType>(rule: NameRule, value: T, what: string, description: string) =>
  described(
    z.record(
      described(z.string().check(z.refine(rule.test, { error: rule.expected })), { pattern: rule.pattern }),
      value,
      { error: what },
    ),
    { description },
  );

/** A reference: any text, looked up later, so that the fault can say what is near. */
const reference = (what: string) => (description: string) =>
  leaf<string>(what, (t) => (t === '' ? { ok: false, expected: what } : { ok: true, value: t }), { description });

export const featureRef = reference('the name of a feature');
export const faceRef = reference('the name of a face');
export { faceName, featureName, instrumentName, linkName };

/** Several features: `P10 P4`, or a list. */
export const featureList = (description: string) => {
  const tooMany = `at most ${inThousands(most.features)} features`;
  const inOneText = leaf<readonly string[]>(
    'names of features',
    (t) => {
      const names = t.split(/[\s,]+/).filter((w) => w !== '');
      return names.length > most.features ? refused(tooMany) : parsed(names);
    },
    { description: 'Names parted by spaces.', type: ['string'] },
  );
  const asList = z
    .array(featureRef('The name of a feature.'), { error: 'a list of features' })
    .check(z.maxLength(most.features, { error: tooMany }));
  return described(z.union([inOneText, asList]), { description });
};
