import { type Block, type Report, type Speech, say, sayAll } from '@fayplate/core';
import type { Midway, Way } from './types.js';
import { wayWords, wrongWords } from './words.js';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const chance = (way: Way, speech: Speech): string =>
  [...way.goesOn]
    .map(
      ([face, g]) =>
        `${face} ${say(g.slack, { ...speech, fraction: null }, speech.unit === 'in' ? 3 : 2)} to spare, ` +
        `${Math.round(1000 * g.probability)} in 1000`,
    )
    .join('; ');

/** Ways that do not do, told in this number and no more. */
const TOLD = 4;

/** Where the plate stands, and what can be done, best first. */
export const midwayReport = (m: Midway, speech: Speech): Report => {
  const does = m.ways.filter((w) => w.holds);
  const not = m.ways.filter((w) => !w.holds).slice(0, TOLD);
  const stands =
    m.left.length === 0
      ? 'All holes are drilled.'
      : `Drilled so far: ${sayAll(m.drilled)}. Still to drill: ${sayAll(m.left)}.`;
  const [first] = does;
  if (m.wrong.length === 0 && first?.kind === 'go on')
    return m.left.length === 0
      ? []
      : [
          { kind: 'heading', level: 2, text: 'How to go on' },
          { kind: 'paragraph', text: `${stands} What is drilled is good: go on as drawn (${chance(first, speech)}).` },
        ];
  const rows = does.map((w, i) => [String(i + 1), capital(wayWords(w, m, speech)), chance(w, speech)]);
  const blocks: readonly Block[] = [
    { kind: 'heading', level: 2, text: 'What can be done' },
    {
      kind: 'paragraph',
      text: [stands, ...m.wrong.map((w) => `${wrongWords(w, speech)}.`)].join(' '),
    },
    {
      kind: 'table',
      caption: 'Ways that were tried on the whole plate with every check, best first',
      columns: [
        { title: 'Way', align: 'left' },
        { title: 'What to do', align: 'left' },
        { title: 'Goes on', align: 'left' },
      ],
      rows,
    },
    ...(not.length === 0
      ? []
      : [
          {
            kind: 'list' as const,
            items: not.map((w) => `Does not do: ${wayWords(w, m, speech)} (${w.fails[0] ?? 'it cannot be drawn'}).`),
          },
        ]),
    ...(m.stopped === null
      ? []
      : [
          {
            kind: 'paragraph' as const,
            text:
              'So many holes can stand for each other that not every ' +
              'turn of the plate was tried: there may be a better one.',
          },
        ]),
    ...(does.some((w) => w.kind === 'bush' || w.kind === 'plug')
      ? [
          {
            kind: 'caution' as const,
            text:
              'A bush or plug must not turn or come out under load: press, pin or lock it, and do not put one under ' +
              'a fastener that lifts or holds people.',
          },
        ]
      : []),
  ];
  return blocks;
};
