import { type Report, type Speech, say, sayMeasure, sayNumber, sayOdds } from '@fayplate/core';
import type { Evidence, Recognised, Recognition } from './recognise.js';

const sayEvidence = (e: Evidence, speech: Speech): string => {
  const plain = { ...speech, fraction: null };
  const measured =
    typeof e.measured === 'string' ? e.measured : `measured ${sayMeasure(e.measured, e.plusMinus, plain)}`;
  const has =
    typeof e.has === 'string'
      ? e.has
      : e.has[0] === e.has[1]
        ? say(e.has[0], plain)
        : `${sayNumber(e.has[0], plain)} to ${say(e.has[1], plain)}`;
  return `${e.what}: ${measured}; the standard has ${has}`;
};

const nameOf = ({ side, face }: Recognised): string => (side === 'is' ? face.name : `made to take ${face.name}`);

/** Candidates that are not worth a line of their own. */
const LITTLE = 0.02;

/**
 * What a face was recognised as, in words: the odds, what supports it and against it, and what to do about it.
 * Nothing where nothing came near.
 */
export const recognitionReport = (found: Recognition | null, speech: Speech): Report => {
  if (found === null) return [];
  const listed = found.candidates.filter((c) => c.odds >= LITTLE).slice(0, 5);
  const [first, ...rest] = listed;
  if (first === undefined) return [];
  const against = first.evidence.filter((e) => !e.agrees);
  const alone = first.evidence.length === 1;
  return [
    { kind: 'heading', level: 3, text: `A standard face? ${found.name}` },
    {
      kind: 'paragraph',
      text: `${found.sure === null ? 'Perhaps' : 'As'} ${nameOf(first)} (${first.face.what}): odds ${sayOdds(first.odds)}. None of the standards on file: odds ${sayOdds(found.none)}.${
        rest.length === 0 ? '' : ` Or ${rest.map((c) => `${nameOf(c)}: ${sayOdds(c.odds)}`).join('; ')}.`
      }`,
    },
    {
      kind: 'list',
      items: [
        ...first.evidence.filter((e) => e.agrees).map((e) => `For it: ${sayEvidence(e, speech)}.`),
        ...against.map((e) => `Against it: ${sayEvidence(e, speech)}.`),
        ...(alone ? ['Only its circle is measured: measure the register or a hole as well.'] : []),
        ...(found.sure === null || first.side === 'takes' || speech.atBench === true
          ? []
          : [
              `With \`standard: ${first.face.name}\` in place of its features, the face takes the sizes of the ` +
                'standard and these readings test them.',
            ]),
      ],
    },
  ];
};

/** The recognition for programs: odds in 0 to 1, lengths mm. */
export const recognitionJson = (found: Recognition | null): object | null =>
  found === null
    ? null
    : {
        sure: found.sure,
        none: found.none,
        candidates: found.candidates.map((c) => ({
          name: c.face.name,
          side: c.side,
          odds: c.odds,
          evidence: c.evidence.map((e) => ({
            what: e.what,
            measured: e.measured,
            plus_minus: e.plusMinus,
            has: e.has,
            agrees: e.agrees,
          })),
        })),
      };
