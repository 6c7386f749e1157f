import { type Block, type Report, type TableBlock, minusSign, verdictWord } from '@fayplate/core';
import type { JSX } from 'preact';

/** Cells of more letters than this may be broken into lines. */
const LONG = 24;

/** Width of a letter and of the gap between columns, in the width of a capital M. */
const LETTER = 0.6;
const GAP = 0.7;

const longest = (text: string, whole: boolean): number =>
  whole ? Array.from(text).length : Math.max(...text.split(/\s+/).map((w) => Array.from(w).length));

/** Below which width of its place a table folds, by the longest words of its columns; numbers are never broken. */
const foldsBelow = (table: TableBlock): 'few' | 'some' | 'more' | 'many' => {
  const need = table.columns.reduce(
    (sum, c, i) =>
      sum +
      GAP +
      LETTER * Math.max(longest(c.title, false), ...table.rows.map((row) => longest(row[i] ?? '', c.align !== 'left'))),
    0,
  );
  return need < 20 ? 'few' : need < 28 ? 'some' : need < 36 ? 'more' : 'many';
};

/** A table that folds on a narrow page: each row a block, each cell under its heading. */
const Table = ({ table }: { readonly table: TableBlock }): JSX.Element => {
  const long = table.columns.map((_, i) => table.rows.some((row) => (row[i] ?? '').length > LONG));
  return (
    <div class={`table ${foldsBelow(table)}`}>
      {table.caption === null ? null : <p class="caption">{table.caption}</p>}
      <table role="table">
        <thead role="rowgroup">
          <tr role="row">
            {table.columns.map((c, i) => (
              <th key={i} role="columnheader" scope="col" class={c.align === 'left' ? '' : 'number'}>
                {c.title === '' ? <span class="unseen">Result</span> : c.title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {table.rows.map((row, r) => (
            <tr key={r} role="row">
              {table.columns.map((c, i) => (
                <td
                  key={i}
                  role="cell"
                  data-title={c.title}
                  class={
                    (c.align === 'left' ? '' : 'number') +
                    (long[i] === true ? ' long' : '') +
                    ((row[i] ?? '') === '' ? ' empty' : '')
                  }
                >
                  {minusSign(row[i] ?? '')}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
};

const BlockView = ({ block }: { readonly block: Block }): JSX.Element => {
  switch (block.kind) {
    case 'heading':
      return block.level < 3 ? <h3>{block.text}</h3> : <h4>{block.text}</h4>;
    case 'verdict':
      return (
        <p class={`verdict${block.needed === false ? '' : block.ok ? ' yes' : ' no'}`}>
          <strong>{verdictWord(block)}</strong> {block.text}
        </p>
      );
    case 'paragraph':
      return <p>{block.text}</p>;
    case 'list':
      return (
        <ul>
          {block.items.map((item, i) => (
            <li key={i}>{item}</li>
          ))}
        </ul>
      );
    case 'caution':
      return (
        <p class="caution" role="note">
          <strong>Caution:</strong> {block.text}
        </p>
      );
    case 'table':
      return <Table table={block} />;
  }
};

/** A report as every medium has it, laid out for the page. */
export const ReportView = ({ report }: { readonly report: Report }): JSX.Element => (
  <div class="report">
    {report.map((block, i) => (
      <BlockView key={i} block={block} />
    ))}
  </div>
);
