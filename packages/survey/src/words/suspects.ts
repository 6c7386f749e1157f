import { type Block, type Speech, say, sayAll, forReader } from '@fayplate/core';
import type { LocatedFace, Suspect } from '../types.js';
import { sayAmount } from './readings.js';

/** The centres that move most are named, and no more than these. */
const NAMED = 3;
/** A centre that moves less than this share of the most moved one is not named. */
const LITTLE = 0.1;

const movesWords = ({ moves }: Suspect, speech: Speech): string => {
  const sorted = [...moves].filter(([, by]) => by > 0).sort((a, b) => b[1] - a[1]);
  const most = sorted[0]?.[1] ?? 0;
  const named = sorted.slice(0, NAMED).filter(([, by]) => by >= LITTLE * most);
  return named.length === 0
    ? 'Without it no centre moves.'
    : 'Without it ' +
        `${sayAll(named.map(([id, by], i) => `${id} ` + (i === 0 ? 'moves ' : '') + `by ${say(by, { ...speech, fraction: null })}`))}.`;
};

/**
 * `readings 2, 3 and 5 and the stated diameters of P1 and P2`; an id that is no number is a stated diameter or a zero
 * error, named as it is.
 */
export const readingsWords = (ids: readonly string[]): string => {
  const stated = ids.flatMap((id) => /^diameter (.+)$/.exec(id)?.[1] ?? []);
  const rest = ids.filter((id) => !id.startsWith('diameter '));
  return [
    ...(rest.length === 0 ? [] : [`reading${rest.length === 1 ? '' : 's'} ${sayAll(rest)}`]),
    ...(stated.length === 0 ? [] : [`the stated diameter${stated.length === 1 ? '' : 's'} of ${sayAll(stated)}`]),
  ].join(' and ');
};

/** A suspect alone is named; of several that cannot be told apart only their number is sure. */
export const disagreeWords = (suspects: readonly Suspect[]): readonly string[] => {
  const alone = suspects.filter((s) => s.tiedWith.length === 0).map((s) => s.reading);
  const tied = suspects
    .filter((s) => s.tiedWith.length > 0)
    .map((s) => `one of ${readingsWords([s.reading, ...s.tiedWith])} does not agree with the rest`);
  return [
    ...(alone.length === 0
      ? []
      : [`${readingsWords(alone)} ${alone.length === 1 ? 'does' : 'do'} not agree with the rest`]),
    ...tied,
  ];
};

/** `Reading 5, over A B = 109`, `The stated diameter of S`: how a suspect is named at the head of its item. */
const headOf = (id: string, text: string): string =>
  id.startsWith('diameter ') ? `The stated ${id.replace(' ', ' of ')}` : `Reading ${id}, ${text}`;

const suspectWords = (s: Suspect, located: LocatedFace, speech: Speech): string => {
  const reading = located.readings.find((r) => r.id === s.reading);
  const size = sayAmount(Math.abs(s.error), s.measures, speech);
  const others =
    reading === undefined ? '' : ` (the rest say ${sayAmount(reading.value - s.error, s.measures, speech)})`;
  return [
    `${headOf(s.reading, reading?.text ?? '')}: too ${s.error > 0 ? 'large' : 'small'} by about ${size}${others}.`,
    ...(s.guess === null ? [] : [`Perhaps ${s.guess}.`]),
    movesWords(s, speech),
    `An error of ${sayAmount(s.detectable, s.measures, speech)} would be found 4 times in 5, a larger one more often.`,
    ...(s.tiedWith.length === 0 ? [] : [`The fault may also be in ${readingsWords(s.tiedWith)}.`]),
    ...s.slips.map(
      (t) =>
        `Reading ${t.reading} too ${t.error > 0 ? 'large' : 'small'} by about ` +
        `${sayAmount(Math.abs(t.error), t.measures, speech)} would be a common slip: ${t.guess}.`,
    ),
  ].join(' ');
};

/** Readings that do not agree with the rest, one item each, and what to do about them; nothing where there are none. */
export const suspectBlocks = (located: LocatedFace, speech: Speech): readonly Block[] => {
  if (located.suspects.length === 0) return [];
  const them = located.suspects.length === 1 ? 'it' : 'them';
  return [
    { kind: 'heading', level: 3, text: located.suspects.length === 1 ? 'A suspect reading' : 'Suspect readings' },
    { kind: 'list', items: located.suspects.map((s) => suspectWords(s, located, speech)) },
    {
      kind: 'paragraph',
      text: `${located.leftOut.length > 0 ? `No shape fits ${them} along with the rest, so the centres above leave ${them} out.` : `The centres above still use ${them}.`} ${
        located.suspects.every((s) => s.reading.startsWith('diameter '))
          ? `Measure ${them} again, and correct what is stated.`
          : `Take ${them} again, or ` +
            `${forReader(`put \`aside\` before ${them} in the job file to leave ${them} out`, `leave ${them} out`, speech)}.`
      }`,
    },
  ];
};
