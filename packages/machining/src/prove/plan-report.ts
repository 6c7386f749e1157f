import { type Block, type Speech, say, sayNumber } from '@fayplate/core';
import type { ReadingPlan } from './plan.js';

/**
 * What to measure on the drilled plate, in words: the one list that the table and the proof show; nothing where nothing
 * is left to tell.
 */
export const planBlocks = (plan: ReadingPlan, title: string, speech: Speech): readonly Block[] => {
  const own: Speech = { ...speech, fraction: null };
  const { readings, hand, handAtBench, mouths } = plan;
  const said = [mouths, own.atBench === true ? handAtBench : hand].filter((words) => words !== null);
  return [
    ...(readings.length === 0 ? [] : readingBlocks(plan, title, own)),
    ...said.map((text) => ({ kind: 'paragraph' as const, text })),
  ];
};

const readingBlocks = ({ readings, within }: ReadingPlan, title: string, own: Speech): readonly Block[] => {
  const needed = readings.filter((r) => r.why === 'needed').length;
  const spare = readings.length > needed ? `; the other ${readings.length - needed} show a misreading` : '';
  const good = within === null ? '' : ` Together they place every hole within ${say(within, own)}.`;
  return [
    { kind: 'heading', level: 2, text: title },
    {
      kind: 'paragraph',
      text:
        `The first ${needed} fix every hole${spare}. A read-out that gives every hole’s place (“at H1 = (…, …)”) ` +
        `also works.${good}`,
    },
    {
      kind: 'table',
      caption: 'Readings, and what they are on a perfect plate, in the unit of each instrument',
      columns: [
        { title: 'Reading', align: 'left' },
        { title: 'By', align: 'left' },
        { title: 'Perfect', align: 'point' },
        { title: 'Unit', align: 'left' },
        { title: '', align: 'left' },
      ],
      rows: readings.map((r) => [
        r.reading,
        r.instrument ?? '',
        sayNumber(r.expect, { unit: r.unit ?? own.unit, fraction: null }),
        r.unit ?? own.unit,
        r.why === 'check' ? 'to check' : '',
      ]),
    },
  ];
};
