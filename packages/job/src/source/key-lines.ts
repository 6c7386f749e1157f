import { type Mend, type TextLine, UNDER, indentOf, isEmpty, linesOf, withoutComment } from './mend.js';

export const COLON = 'a colon and a space after the name';
const SPACES = 'ordinary spaces at the start of the line: these are of another width';

/** How many brackets a line opens beyond those it closes, signs in quotes and in the comment left out. */
const bracketsOf = (line: string): number => {
  let open = 0;
  let quote = '';
  const body = withoutComment(line);
  for (const [i, c] of Array.from(body).entries()) {
    if (quote !== '') quote = c === quote ? '' : quote;
    // A mark behind a number is inches or feet, and opens nothing.
    else if ((c === '"' || c === "'") && /[\s[{,:]/.test(body[i - 1] ?? ' ')) quote = c;
    else if (c === '{' || c === '[') open++;
    else if (c === '}' || c === ']') open--;
  }
  return open;
};

interface KeyLine extends TextLine {
  /** Within brackets that an earlier line opened, or under a block mark: the line is no key of its own. */
  readonly inside: boolean;
}

const keyLinesOf = (text: string): readonly KeyLine[] => {
  let open = 0;
  /** Lines deeper than this belong to the text under a block mark; null outside of one. */
  let block: number | null = null;
  return linesOf(text)
    .filter((l) => !isEmpty(l.text))
    .map((l) => {
      if (block !== null && indentOf(l.text) <= block) block = null;
      const inside = open > 0 || block !== null;
      if (block === null) open = Math.max(0, open + bracketsOf(l.text));
      if (!inside && /[|>][+-]?$/.test(withoutComment(l.text))) block = indentOf(l.text);
      return { ...l, inside };
    });
};

/** Spaces as telephones and word processors set them. */
const ODD_SPACES = /^[ \u00a0\u2000-\u200a\u202f]*[\u00a0\u2000-\u200a\u202f][ \u00a0\u2000-\u200a\u202f]*/;

/** Lines indented with spaces of another width, read as if with ordinary ones: each counts as one. */
export const spaceMends = (text: string): readonly Mend[] =>
  keyLinesOf(text).flatMap(({ from, text: line, inside }): readonly Mend[] => {
    const lead = ODD_SPACES.exec(line)?.[0] ?? '';
    const body = line.slice(lead.length);
    if (inside || lead === '' || !/^(?:-\s|[^\s#:]+(?: [^\s#:]+)*:(?:\s|$))/.test(body)) return [];
    return [
      {
        at: from,
        found: lead,
        expected: SPACES,
        edit: { at: from, remove: lead.length, insert: ' '.repeat(lead.length) },
      },
    ];
  });

/** A line that names nothing: no colon, and no item of a list. */
const isNameless = (body: string): boolean => !/^-(?:\s|$)/.test(body) && !/:(?:\s|$)/.test(body);

/** `units:mm` lacks the space, `centre bore` the colon; where nothing stands behind the name, both. */
const colonMend = ({ from, text: line }: TextLine): Mend => {
  const indent = indentOf(line);
  const body = withoutComment(line).slice(indent);
  const [, name = body, gap = ''] = /^([A-Za-z]+)(:| +|$)/.exec(body) ?? [];
  const edit = { at: from + indent + name.length, remove: gap.length, insert: ': ' };
  const value = body.slice(name.length + gap.length);
  const expected = value === '' ? `a colon after the name: ${name}:` : `${COLON}: ${name}: ${value}`;
  return { at: from + indent, found: body, expected, edit };
};

/**
 * Names without their colon, and lines that start a little beside the others of their section, read as if they stood
 * right: otherwise each hides all that follows it.
 */
export const keyLineMends = (text: string): readonly Mend[] => {
  const mends: Mend[] = [];
  /** Where the lines of each open section start, the outermost first, and whether they are items of a list. */
  let starts: readonly { readonly at: number; readonly items: boolean }[] = [{ at: 0, items: false }];
  let opens = false;
  for (const line of keyLinesOf(text)) {
    if (line.inside) continue;
    const indent = indentOf(line.text);
    const body = withoutComment(line.text).slice(indent);
    const items = /^-(?:\s|$)/.test(body);
    const top = starts.at(-1)?.at ?? 0;
    const deeper = indent > top;
    // A text that runs on over several lines lies deeper, and is none of a key's.
    if (deeper && !opens && isNameless(body)) continue;
    const fits = starts.findLast((s) => s.at === indent && s.items === items);
    // A list may stand right under its name.
    if (opens && (deeper || (items && indent === top))) starts = [...starts, { at: indent, items }];
    else if (fits === undefined) {
      const near = [...starts.filter((s) => s.items === items), ...starts.filter((s) => s.items !== items)];
      const start = near.reduce((best, s) =>
        s.items === best.items && Math.abs(s.at - indent) <= Math.abs(best.at - indent) ? s : best,
      );
      mends.push({
        at: line.from + indent,
        found: body,
        expected: UNDER,
        edit: { at: line.from, remove: indent, insert: ' '.repeat(start.at) },
      });
      starts = starts.slice(0, starts.indexOf(start) + 1);
      opens = body.endsWith(':');
      continue;
    } else starts = starts.slice(0, starts.indexOf(fits) + 1);
    const item = /^(?:-\s+)+/.exec(body)?.[0] ?? '';
    if (item !== '' && /^[^\s:"'{[]+:(?:\s|$)/.test(body.slice(item.length)))
      starts = [...starts, { at: indent + item.length, items: false }];
    const nameless = item === '' && isNameless(body);
    if (nameless) mends.push(colonMend(line));
    opens = body.endsWith(':') || (item !== '' && item === `${body} `) || (nameless && !body.includes(' '));
  }
  return mends;
};
