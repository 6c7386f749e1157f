import { widthOf, wrap } from './columns.js';

const between = ' · ';
const indent = '  ';

/** One row of a table where the terminal is too narrow for its columns: what it is of, and below it each figure behind its title. */
export const recordLines = (titles: readonly string[], cells: readonly string[], width: number): readonly string[] => {
  const first = cells.findIndex((c) => c !== '');
  const items = cells.flatMap((cell, i) =>
    cell === '' || i === first ? [] : [titles[i] === undefined || titles[i] === '' ? cell : `${titles[i]} ${cell}`],
  );
  const room = width - indent.length;
  const lines: string[] = [];
  for (const item of items) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(last) + widthOf(between) + widthOf(item) <= room)
      lines[lines.length - 1] = `${last}${between}${item}`;
    else lines.push(...wrap(item, room));
  }
  return [...wrap(cells[first] ?? '', width), ...lines.map((l) => indent + l)];
};
