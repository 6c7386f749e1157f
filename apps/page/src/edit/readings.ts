import { type Node, isMap, isNode, isScalar, isSeq } from 'yaml';
import type { Change } from './change.js';
import { type Path, endOf, indentAt, lineStart, linesAfter, nodeAt, removeAt, setAt, startOf } from './set.js';
import { flow, readingScalar } from './write.js';

/** Where a list of readings stands: a face of the job, or the drilled plate. */
export const readingsOf = (face: string | null): Path =>
  face === null ? ['drilled', 'readings'] : ['faces', face, 'readings'];

/** What a reading measures, without its number: `over P1 P3`. */
export const headOf = (reading: string): string =>
  (reading.replace(/^aside\s+/, '').split(/[=±#]|\sby\s/)[0] ?? '').trim().replace(/\s+/g, ' ');

/** A line that the starter left for this reading: `# - over P1 P3 =  by caliper`. */
const prepared = (
  text: string,
  face: string | null,
  head: string,
): { from: number; to: number; indent: string } | null => {
  const name = face === null ? null : nodeAt(text, ['faces', face]);
  const from = face === null ? text.search(/^drilled\s*:/m) : startOf(name);
  if (from < 0 || (face !== null && name === null)) return null;
  const line = /^( *)# - (.+)$/gm;
  line.lastIndex = lineStart(text, from);
  for (let found = line.exec(text); found !== null; found = line.exec(text)) {
    const between = text.slice(from, found.index);
    // Past the next face or section it is another's.
    if (/^\S/m.test(between.slice(between.indexOf('\n') + 1).replace(/^#.*$/gm, ''))) return null;
    if (headOf(found[2] ?? '') === head)
      return { from: found.index, to: found.index + found[0].length, indent: found[1] ?? '' };
  }
  return null;
};

/** The text of a reading in its list: the value of `r7: over …` where it has an id. */
const readingNode = (item: unknown): Node | null => {
  if (isMap(item)) {
    const value = item.items[0]?.value;
    return isNode(value) ? value : null;
  }
  return isNode(item) ? item : null;
};

/** The readings of a list as written, in order, without ids. */
export const readingLines = (text: string, face: string | null): readonly string[] => {
  const list = nodeAt(text, readingsOf(face));
  return isSeq(list)
    ? list.items.map((item) => {
        const node = readingNode(item);
        return isScalar(node) ? (node.source ?? '') : '';
      })
    : [];
};

/** The change that adds a reading at the end of its face's list, or in place of the line that was left for it. */
export const addReading = (text: string, face: string | null, reading: string): Change | null => {
  const list = nodeAt(text, readingsOf(face));
  const kept = list === null || !isSeq(list) ? prepared(text, face, headOf(reading)) : null;
  const line = `- ${readingScalar(reading)}`;
  if (kept !== null) return { from: kept.from, to: kept.to, insert: `${kept.indent}${line}` };
  if (isSeq(list) && list.items.length > 0) {
    if (list.flow === true) {
      const close = endOf(text, list) - 1;
      return { from: close, to: close, insert: `, ${flow(reading)}` };
    }
    const place = prepared(text, face, headOf(reading));
    if (place !== null) return { from: place.from, to: place.to, insert: `${place.indent}${line}` };
    return linesAfter(text, endOf(text, list), [`${indentAt(text, startOf(list))}${line}`]);
  }
  return setAt(text, readingsOf(face), [reading]);
};

/** The change that writes a reading again where it stands, its remark kept. */
export const setReading = (text: string, face: string | null, index: number, reading: string): Change | null => {
  const list = nodeAt(text, readingsOf(face));
  const node = isSeq(list) ? readingNode(list.items[index]) : null;
  if (!isSeq(list) || node === null) return null;
  const insert = list.flow === true ? flow(reading) : readingScalar(reading);
  return { from: startOf(node), to: endOf(text, node), insert };
};

export const removeReading = (text: string, face: string | null, index: number): Change | null =>
  removeAt(text, [...readingsOf(face), index]);
