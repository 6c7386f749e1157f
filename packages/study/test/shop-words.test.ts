import { expect, test } from 'vitest';
import { forTheShop, shopWords } from '../src/packet/shop-words.js';

test.each([
  [
    'Whether motor reaches over H1 is not known: give the `rim` of motor, or sink them.',
    'Whether motor reaches over H1 is not known: measure the outline of motor (its diameter, where it is round), or sink them.',
  ],
  [
    'How far the studs of pump stand out is not given (P1): write `stands`, so that their length can be checked.',
    'How far the studs of pump stand out is not given (P1): measure it, so that their length can be checked.',
  ],
  [
    'common practice: what a flexible coupling takes; write `alignment: { offset: … }` for yours',
    'common practice: what a flexible coupling takes',
  ],
  ['Something with `any word` left.', 'Something with any word left.'],
  ['Nothing to change.', 'Nothing to change.'],
])('%s', (said, onPaper) => expect(shopWords(said)).toBe(onPaper));

test('every kind of block', () => {
  const report = forTheShop([
    { kind: 'heading', level: 1, text: '`a`' },
    { kind: 'list', items: ['`b`'] },
    { kind: 'table', caption: '`c`', columns: [{ title: 'T', align: 'left' }], rows: [['`d`']] },
    { kind: 'verdict', ok: true, text: '`e`' },
  ]);
  expect(JSON.stringify(report)).not.toContain('`');
});
