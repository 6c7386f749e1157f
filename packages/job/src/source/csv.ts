/** A cell as RFC 4180 has it: its text with the quotes taken off, and where it starts. */
export interface Cell {
  readonly text: string;
  readonly at: number;
}

/**
 * Rows of a list parted by commas, or by semicolons where the heading has no comma. A quoted cell may hold the mark, line
 * breaks and doubled quotes; an unclosed quote runs to the end of the text. Empty rows are left out.
 */
export const csvRows = (text: string): readonly (readonly Cell[])[] => {
  const start = text.startsWith('\ufeff') ? 1 : 0;
  const heading = text.slice(start, text.search(/[\r\n]|$/));
  const mark = heading.includes(',') || !heading.includes(';') ? ',' : ';';
  const rows: Cell[][] = [];
  let row: Cell[] = [];
  let i = start;
  while (i < text.length) {
    const lead = /[ \t]*/y;
    lead.lastIndex = i;
    lead.exec(text);
    const at = lead.lastIndex;
    let cell: string;
    if (text[at] === '"') {
      let end = at + 1;
      for (;;) {
        end = text.indexOf('"', end);
        if (end === -1) end = text.length;
        else if (text[end + 1] === '"') {
          end += 2;
          continue;
        }
        break;
      }
      cell = text.slice(at + 1, end).replaceAll('""', '"');
      i = Math.min(end + 1, text.length);
      while (i < text.length && text[i] !== mark && text[i] !== '\n') i++;
    } else {
      while (i < text.length && text[i] !== mark && text[i] !== '\n') i++;
      cell = text.slice(at, Math.max(at, i));
      i = Math.max(at, i);
    }
    row.push({ text: cell.trim(), at: Math.min(at, text.length) });
    if (i >= text.length || text[i] === '\n') {
      if (row.some((c) => c.text !== '')) rows.push(row);
      row = [];
    }
    i++;
  }
  return rows;
};
