import type { Block, Report, TableBlock } from '@fayplate/core';
import { escapeHtml as e } from './escape.js';

const tableHtml = (table: TableBlock): string => {
  const align = (i: number): string => (table.columns[i]?.align === 'left' ? '' : ' class="n"');
  const head = table.columns.map((c, i) => `<th scope="col"${align(i)}>${e(c.title)}</th>`).join('');
  const rows = table.rows
    .map((row) => `<tr>${table.columns.map((_, i) => `<td${align(i)}>${e(row[i] ?? '')}</td>`).join('')}</tr>`)
    .join('\n');
  const label = table.caption ?? table.columns.map((c) => c.title).join(', ');
  const caption = table.caption === null ? '' : `<caption>${e(table.caption)}</caption>`;
  // A wide table scrolls inside its own region, which the keyboard can reach.
  return `<div class="wide" role="region" aria-label="${e(label)}" tabindex="0"><table>${caption}<thead><tr>${head}</tr></thead><tbody>\n${rows}\n</tbody></table></div>`;
};

/** One block as HTML; headings start a level below the section's own. */
export const blockHtml = (block: Block): string => {
  switch (block.kind) {
    case 'heading': {
      const level = Math.min(block.level + 2, 6);
      return `<h${level}>${e(block.text)}</h${level}>`;
    }
    case 'verdict':
      return `<p class="verdict ${block.ok ? 'yes' : 'no'}"><strong>${block.ok ? 'Yes' : 'No'}:</strong> ${e(block.text)}</p>`;
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

export const reportHtml = (report: Report): string => report.map(blockHtml).join('\n');
