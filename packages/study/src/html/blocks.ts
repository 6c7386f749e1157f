import { type Block, type Report, type TableBlock, inert, minusSign, verdictWord } from '@fayplate/core';

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text that can stand in HTML as content or attribute and do nothing. */
export const escapeHtml = (text: string): string => inert(text).replace(/[&<>"']/g, (c) => entities[c] ?? c);

const e = escapeHtml;

/** Cells of more letters than this may be broken into lines; shorter ones never are. */
const LONG = 27;

const tableHtml = (table: TableBlock): string => {
  const classes = table.columns.map((c, i) => {
    const long = table.rows.some((row) => Array.from(row[i] ?? '').length > LONG);
    const names = [...(c.align === 'left' ? [] : ['n']), ...(long && c.align === 'left' ? ['long'] : [])];
    return names.length === 0 ? '' : ` class="${names.join(' ')}"`;
  });
  const side = table.cutsOf;
  const hole = side === undefined ? -1 : table.columns.findIndex((c) => c.title === 'Hole');
  const tickHead = side === undefined ? '' : '<th role="columnheader" scope="col">Done</th>';
  const head =
    tickHead +
    table.columns.map((c, i) => `<th role="columnheader" scope="col"${classes[i] ?? ''}>${e(c.title)}</th>`).join('');
  const cellOf = (row: readonly string[], i: number): string => {
    const text = e(minusSign(row[i] ?? ''));
    return i === hole && side !== undefined ? `<a href="#hole-${side}-${text}">${text}</a>` : text;
  };
  const cellsOf = (row: readonly string[]): string =>
    table.columns
      .map(
        (c, i) =>
          `<td role="cell"${classes[i] ?? ''}${(row[i] ?? '') === '' ? ' data-empty' : ''} ` +
          `data-title="${e(c.title)}">${cellOf(row, i)}</td>`,
      )
      .join('');
  const span = table.columns.length + (side === undefined ? 0 : 1);
  const titles = new Map(
    (table.groups ?? []).map((g) => [
      g.from,
      `<tr role="row"><th role="rowheader" scope="rowgroup" colspan="${span}">${e(g.title)}</th></tr>\n`,
    ]),
  );
  const rows = table.rows
    .map((row) => {
      if (side === undefined) return `<tr role="row">${cellsOf(row)}</tr>`;
      const n = e(row[0] ?? '');
      const tick =
        `<td role="cell" class="tick"><label><input type="checkbox" data-cut="${n}"><span>Cut ${n} is ` +
        'done</span></label></td>';
      return `<tr role="row" id="cut-${n}">${tick}${cellsOf(row)}</tr>`;
    })
    .map((row, i) => `${titles.get(i) ?? ''}${row}`)
    .join('\n');
  const label =
    table.caption ??
    table.columns
      .map((c) => c.title)
      .filter((t) => t !== '')
      .join(', ');
  // The caption stands outside, where it is broken to the width of the page.
  const caption = table.caption === null ? '' : `<p class="caption">${e(table.caption)}</p>`;
  // A wide table scrolls inside its own region, which the keyboard can reach.
  return (
    `${caption}<div class="wide" role="region" aria-label="${e(label)}" tabindex="0"><table role="table"><thead ` +
    `role="rowgroup"><tr role="row">${head}</tr></thead><tbody role="rowgroup">\n${rows}\n</tbody></table></div>`
  );
};

/** One block as HTML; headings start a level below the section's own. */
const blockHtml = (block: Block): string => {
  switch (block.kind) {
    case 'heading': {
      const level = Math.min(block.level + 2, 6);
      return `<h${level}>${e(block.text)}</h${level}>`;
    }
    case 'verdict':
      return (
        '<p ' +
        'class="verdict' +
        (block.needed === false ? '' : block.ok ? ' yes' : ' no') +
        `"><strong>${verdictWord(block)}</strong> ` +
        `${e(block.text)}</p>`
      );
    case 'paragraph':
      return `<p>${e(block.text)}</p>`;
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${e(item)}</li>`).join('')}</ul>`;
    case 'caution':
      return `<p class="caution" role="note"><strong>Caution:</strong> ${e(block.text)}</p>`;
    case 'table':
      return tableHtml(block);
  }
};

/** A report as HTML, block by block. */
export const reportHtml = (report: Report): string => report.map(blockHtml).join('\n');
