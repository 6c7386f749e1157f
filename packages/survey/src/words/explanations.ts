import { type Block, type Speech, sayAll, sayOdds } from '@fayplate/core';
import type { Explanation, LocatedFace, TellingReading } from '../types.js';
import { sayAmount } from './readings.js';

/** An id that is a number is that of a reading; a stated diameter or a zero error is named as it is. */
const nameOf = (id: string): string => (/^(?:diameter|zero) /.test(id) ? `the stated ${id}` : `reading ${id}`);

const explanationWords = (e: Explanation, speech: Speech): string => {
  const parts = e.readings.map((id, i) => {
    const slip = e.errors[i];
    if (slip === undefined) return nameOf(id);
    const size = sayAmount(Math.abs(slip.error), slip.measures, speech);
    const guess = slip.guess === null ? '' : ` (perhaps ${slip.guess})`;
    return `${nameOf(id)} is too ${slip.error > 0 ? 'large' : 'small'} by about ${size}${guess}`;
  });
  const said = sayAll(parts);
  return `${said.slice(0, 1).toUpperCase()}${said.slice(1)}: odds ${sayOdds(e.odds)}.`;
};

/** So many values of the telling reading are said, and explanations that each stands for. */
const MOST_GROUPS = 4;
const MOST_NAMED = 4;

/**
 * Explanations that the telling reading cannot tell apart, since it would read the same within its ±, and what it would
 * read; in the order of the likeliest of each.
 */
const groupsOf = (
  explanations: readonly Explanation[],
  { foreseen, plusMinus }: TellingReading,
): readonly { readonly value: number; readonly who: readonly string[] }[] => {
  const sorted = [...foreseen.keys()].sort((a, b) => (foreseen[a] ?? 0) - (foreseen[b] ?? 0));
  const groups: number[][] = [];
  for (const [k, i] of sorted.entries()) {
    const last = groups.at(-1);
    const gap = (foreseen[i] ?? 0) - (foreseen[sorted[k - 1] ?? i] ?? 0);
    if (last !== undefined && gap <= plusMinus) last.push(i);
    else groups.push([i]);
  }
  return groups
    .map((group) => group.sort((a, b) => a - b))
    .sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0))
    .map((group) => ({
      value: foreseen[group[0] ?? 0] ?? 0,
      who: [...new Set(group.map((i) => sayAll((explanations[i]?.readings ?? []).map(nameOf))))],
    }));
};

/** What to take next where readings contradict each other, and what its value means. */
export const tellingWords = ({ explanations, telling }: LocatedFace, speech: Speech): string => {
  if (telling === null)
    return 'No single reading tells these apart: take each of them again, or measure the same features another way.';
  const { again, reading, instrument, measures } = telling;
  const by = instrument === null ? '' : ` by ${instrument}`;
  const take = again === null ? `Take ${reading}${by}` : `Take ${nameOf(again)} again (${reading}${by})`;
  const meant = groupsOf(explanations, telling)
    .slice(0, MOST_GROUPS)
    .map(({ value, who }) => {
      const named = `${who.slice(0, MOST_NAMED).join(' or ')}${who.length > MOST_NAMED ? ' or another' : ''}`;
      return `About ${sayAmount(value, measures, speech)} means that the fault is in ${named}.`;
    });
  return [`${take}: it tells these apart best.`, ...meant].join(' ');
};

/**
 * All that may explain the suspects where more than one thing does, with odds, and the one reading that tells them
 * apart.
 */
export const explanationBlocks = (located: LocatedFace, speech: Speech): readonly Block[] =>
  located.explanations.length < 2
    ? []
    : [
        { kind: 'heading', level: 3, text: 'What may be wrong' },
        { kind: 'list', items: located.explanations.map((e) => explanationWords(e, speech)) },
        { kind: 'paragraph', text: tellingWords(located, speech) },
      ];

/**
 * What leaving these readings out rests on, where they are one of several explanations that are live: `whole` is the
 * face with nothing left out. Null where all else is unlikely, or where they explain nothing.
 */
export const restsOnWords = (whole: LocatedFace, leftOut: readonly string[]): string | null => {
  const { explanations } = whole;
  const isOwn = (e: Explanation): boolean => e.readings.every((id) => leftOut.includes(id));
  const own = explanations.filter(isOwn).reduce((sum, e) => sum + e.odds, 0);
  const others = explanations.filter((e) => !isOwn(e));
  if (own === 0 || others.length === 0) return null;
  const named = others.slice(0, 4).map((e) => `${sayAll(e.readings.map(nameOf))} (${sayOdds(e.odds)})`);
  const all = others.length > named.length ? [...named, 'others'] : named;
  const what = sayAll(leftOut.map(nameOf));
  return (
    `leaving out ${what} rests on the fault being there, with odds of ${sayOdds(own)}. It may as well be in ` +
    `${sayAll(all)}: see locate without --set-aside for what tells them apart.`
  );
};
