import { type Report, type Speech, say, sayNumber } from '@fayplate/core';
import type { Buying } from './buy.js';
import { ASKED } from './worlds.js';

/** Odds from which one may buy, and below which one should not. */
export const LIKELY = 0.95;
const UNLIKELY = 0.05;

const inHundred = (p: number): string =>
  p > 0.995 ? 'more than 99 in 100' : p < 0.005 ? 'less than 1 in 100' : `${Math.round(100 * p)} in 100`;

/** Whether to buy: the odds, the thickness, what stands in the way, and what to ask for first. */
export const buyReport = (b: Buying, parts: readonly string[], speech: Speech): Report => {
  const own = { ...speech, fraction: null };
  const places = own.unit === 'in' ? 2 : 1;
  const thick =
    b.thickness === null
      ? ''
      : b.thickness[0] === b.thickness[2]
        ? `, ${say(b.thickness[1], own, own.unit === 'in' ? 3 : 1)} thick`
        : `, most likely ${say(b.thickness[1], own, places)} thick (${sayNumber(b.thickness[0], own, places)} to ` +
          `${say(b.thickness[2], own, places)} 9 times in 10)`;
  return [
    {
      kind: 'verdict',
      ok: b.odds >= LIKELY,
      answer: b.odds >= LIKELY ? 'yes' : b.odds <= UNLIKELY ? 'no' : 'not yet',
      text: `A plate can exist with odds of ${inHundred(b.odds)}${thick}.`,
    },
    {
      kind: 'paragraph',
      text:
        `By ${b.trials} trials (± ${Math.round(50 * (b.between[1] - b.between[0]))} in 100): in each, ` +
        `${parts.join(' and ')} ${parts.length === 1 ? 'is' : 'are'} drawn as the figures leave open, then taken as ` +
        'measured, and the plate is designed with every check.',
    },
    ...(b.stops.length === 0
      ? []
      : [
          {
            kind: 'table' as const,
            caption: 'What stands in the way',
            columns: [
              { title: 'Check', align: 'left' as const },
              { title: 'In 100 trials', align: 'right' as const },
            ],
            rows: b.stops.slice(0, 6).map((s) => [s.what, String(Math.max(1, Math.round(100 * s.share)))]),
          },
        ]),
    ...(b.ask.length === 0
      ? [
          {
            kind: 'paragraph' as const,
            text:
              b.odds >= LIKELY || b.odds <= UNLIKELY
                ? 'Nothing that one could ask for changes that.'
                : 'No size by itself tells it: ask for all of them, or for a drawing.',
          },
        ]
      : [
          {
            kind: 'table' as const,
            caption: `Ask for these, most telling first, within ± ${say(ASKED, own, own.unit === 'in' ? 3 : 1)}`,
            columns: [
              { title: '', align: 'left' as const },
              { title: 'Size', align: 'left' as const },
              { title: `Said, ${own.unit}`, align: 'point' as const },
              { title: '±', align: 'point' as const },
              { title: 'Doubt left', align: 'right' as const },
              { title: 'Answer then right', align: 'left' as const },
            ],
            rows: [
              ['', 'as it is', '', '', '100 %', inHundred(b.right)],
              ...b.ask.map((a, i) => [
                String(i + 1),
                a.says,
                sayNumber(a.stated, own, own.unit === 'in' ? 3 : 2),
                sayNumber(a.plusMinus, own, own.unit === 'in' ? 3 : 2),
                `${Math.round(100 * a.doubtLeft)} %`,
                inHundred(a.right),
              ]),
            ],
          },
        ]),
  ];
};

/** Room to write a number on paper. */
const BLANK = '_____________';

/**
 * A sheet to hold while one asks: the odds, the window, what stands in the way, and the sizes to have measured, with
 * room to write each down.
 */
export const buySheet = (b: Buying, parts: readonly string[], speech: Speech): Report => {
  const own = { ...speech, fraction: null };
  const places = own.unit === 'in' ? 3 : 2;
  return [
    ...buyReport({ ...b, ask: [] }, parts, speech).filter(
      // The sentence for where nothing is asked; what is asked has a table of its own here.
      (block, i) => b.ask.length === 0 || !(i > 1 && block.kind === 'paragraph'),
    ),
    ...(b.ask.length === 0
      ? []
      : [
          {
            kind: 'table' as const,
            caption: `To ask for, most telling first, within ± ${say(ASKED, own, places)}`,
            columns: [
              { title: '', align: 'left' as const },
              { title: 'Please measure', align: 'left' as const },
              { title: `Said, ${own.unit}`, align: 'point' as const },
              { title: 'Measured', align: 'left' as const },
              { title: 'With', align: 'left' as const },
            ],
            rows: b.ask.map((a, i) => [
              String(i + 1),
              a.plainly,
              `${sayNumber(a.stated, own, places)} ± ${sayNumber(a.plusMinus, own, places)}`,
              BLANK,
              BLANK,
            ]),
          },
          {
            kind: 'paragraph' as const,
            text:
              'With the first the answer is predicted ' +
              inHundred(b.ask[0]?.right ?? b.right) +
              (b.ask.length === 1 ? '' : `, with all ${b.ask.length} ${inHundred(b.ask.at(-1)?.right ?? b.right)}`) +
              '; ' +
              `as it is ${inHundred(b.right)}. A caliper is better than a rule, and the same size read twice better ` +
              'than once. Write what comes back in place of the figures, with its ±, and ask again.',
          },
        ]),
  ];
};

/** The same for programs, mm. */
export const buyJson = (b: Buying): object => ({
  odds: b.odds,
  between: b.between,
  trials: b.trials,
  thickness: b.thickness,
  stops: b.stops,
  right: b.right,
  ask: b.ask.map((a) => ({
    says: a.says,
    plainly: a.plainly,
    stated: a.stated,
    plus_minus: a.plusMinus,
    doubt_left: a.doubtLeft,
    right: a.right,
  })),
});
