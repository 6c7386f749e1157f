import { type Block, type Report, type VerdictBlock, inert, verdictWord } from '@fayplate/core';
import { tableLines, widthOf, wrap } from './table.js';

interface Manner {
  readonly columns: number;
  readonly colour: boolean;
}

const paint = (code: string, text: string, manner: Manner): string =>
  manner.colour ? `\u001b[${code}m${text}\u001b[0m` : text;

const colourOf = ({ ok, answer, needed }: VerdictBlock): string =>
  needed === false ? '1' : ok ? '1;32' : answer === 'not yet' ? '1;33' : '1;31';

const lines = (block: Block, manner: Manner): readonly string[] => {
  const width = Math.min(manner.columns, 100);
  switch (block.kind) {
    case 'heading': {
      const text = wrap(inert(block.text), width);
      return [
        ...text.map((l) => paint('1', l, manner)),
        ...(block.level === 1 ? ['═'.repeat(Math.max(...text.map(widthOf)))] : []),
      ];
    }
    case 'verdict':
      return wrap(`${verdictWord(block)} ${inert(block.text)}`, width).map((l) => paint(colourOf(block), l, manner));
    case 'paragraph':
      return wrap(inert(block.text), width);
    case 'list':
      return block.items.flatMap((item) => wrap(inert(item), width - 2).map((l, i) => `${i === 0 ? '- ' : '  '}${l}`));
    case 'caution':
      return wrap(`Caution: ${inert(block.text)}`, width).map((l) => paint('33', l, manner));
    case 'table':
      return [
        ...(block.caption === null ? [] : wrap(inert(block.caption), width)),
        ...tableLines(block, manner.columns),
      ];
  }
};

/** The blocks as lines for a terminal, one empty line between blocks. */
export const terminalText = (report: Report, manner: Manner): string =>
  report.map((block) => lines(block, manner).join('\n')).join('\n\n') + (report.length > 0 ? '\n' : '');
