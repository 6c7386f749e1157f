import type { Block, Report } from '@fayplate/core';

/** What the job file calls it, and what a person at the bench does about it; the first that fits. */
const plain: readonly (readonly [RegExp, string])[] = [
  [/; write `alignment: [^`]*` for yours/g, ''],
  [
    /Say which you want: `layout: intended` or `layout: measured`/g,
    'Say in the job which you want, the layout or the measured centres',
  ],
  [/give the `rim` of ([^,.;]+)/g, 'measure the outline of $1 (its diameter, where it is round)'],
  [/give `parallel` in the plate section, or measure/g, 'measure'],
  [/to within `second setting`, or what an indicator usually gives/g, 'to within what an indicator usually gives'],
  [/give `([^`]+)` in the plate section/g, 'state $1 in the job'],
  [/write `(?:stands|height|deep|flange)`/g, 'measure it'],
  [/give (?:the )?`diameter`/g, 'measure the diameter'],
  [/give `centre`/g, 'say which feature is the middle'],
  [/give `([a-z ]+)`/g, 'state the $1'],
  [/\bName it there, such as `[^`]*`\./g, 'Add it to the stack.'],
  [/`([^`]*)`/g, '$1'],
];

/** A sentence as a page in the shop has it: no keyword of the job file. */
export const shopWords = (text: string): string => plain.reduce((words, [from, to]) => words.replace(from, to), text);

const inBlock = (block: Block): Block => {
  switch (block.kind) {
    case 'list':
      return { ...block, items: block.items.map(shopWords) };
    case 'table':
      return {
        ...block,
        caption: block.caption === null ? null : shopWords(block.caption),
        rows: block.rows.map((row) => row.map(shopWords)),
      };
    default:
      return { ...block, text: shopWords(block.text) };
  }
};

/** A report for paper and for the page at the machine. */
export const forTheShop = (report: Report): Report => report.map(inBlock);
