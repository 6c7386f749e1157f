import { type Report, type Speech, say, sayMeasure } from '@fayplate/core';
import { type Face, againstStandard, sayLimits } from '@fayplate/job';

const readWords = {
  'two places': 'its sizes come from two sources that agree',
  'one source': 'its sizes come from one source: check them against the part',
  'from memory': 'its sizes are from memory: check them against the part',
} as const;

/** Whether anything was measured on a face beside what its standard says; true for a face that names none. */
export const isMeasured = (face: Face): boolean =>
  face.standard === null || face.readings.some((r) => !r.aside && !r.id.startsWith('standard '));

/** What a face takes from its standard, and each diameter that was measured beside what the standard allows; nothing where it names none. */
export const standardBlocks = (face: Face, speech: Speech): Report => {
  const s = face.standard;
  if (s === null) return [];
  const plain = { ...speech, fraction: null };
  const tests = againstStandard(face).map(({ feature, value, plusMinus, limits }) => {
    const agrees = value + plusMinus >= limits.least - 1e-9 && value - plusMinus <= limits.most + 1e-9;
    return `${feature}: measured ${sayMeasure(value, plusMinus, plain)}, the standard has ${sayLimits(limits)}: ${
      agrees ? 'they agree' : 'they do not agree'
    }.`;
  });
  const items = [...tests, ...s.disagree.map((d) => `Sources disagree: ${d}.`)];
  return [
    {
      kind: 'paragraph',
      text: `Taken from ${s.name} (${s.standard}); ${readWords[s.read]}. Each hole lies within ${say(s.place, plain)} of its place, and the register within its limits: these are the ± below.${
        isMeasured(face) ? '' : ' Nothing is measured on it yet: any reading you add tests it.'
      }`,
    },
    ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }]),
  ];
};
