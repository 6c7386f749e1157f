import type { LineFault } from '../reading/grammar.js';

/** `sum: reach - plate - 2 gasket` → each link's name with its whole-number factor. */
type SumRead =
  | { readonly ok: true; readonly sum: ReadonlyMap<string, number> }
  | { readonly ok: false; readonly faults: readonly LineFault[] };

/** Names are parted by + and −; a whole number before a name (with or without ×) takes it several times. */
export const readSum = (text: string, links: readonly string[]): SumRead => {
  const sum = new Map<string, number>();
  const faults: LineFault[] = [];
  const expected =
    links.length === 0 ? 'a link of the stack, and it has none' : `a link of the stack: ${links.join(', ')}`;
  const term = /([-+−]?)([^-+−]*)/y;
  let first = true;
  while (term.lastIndex < text.length) {
    const from = term.lastIndex;
    const m = term.exec(text);
    const [all = '', sign = '', body = ''] = m ?? [];
    if (all === '') break;
    const at = from + sign.length + (body.length - body.trimStart().length);
    const words = body.trim();
    if (words === '' && first && sign === '') {
      first = false;
      continue;
    }
    first = false;
    const times = links.includes(words) ? null : /^(\d{1,3}) ?[×x*·]? ?(?=\S)/.exec(words);
    const name = times === null ? words : words.slice(times[0].length);
    if (links.includes(name)) {
      const factor = (sum.get(name) ?? 0) + (sign === '' || sign === '+' ? 1 : -1) * Number(times?.[1] ?? 1);
      sum.set(name, factor);
    } else
      faults.push(
        name === 'shims'
          ? {
              code: 'out-of-place',
              at,
              found: name,
              expected: 'links only: shims lie with the plate and are added to it',
            }
          : {
              code: 'unknown-name',
              at,
              found: words,
              expected: words === '' ? `a link after ${sign === '' ? 'the start' : sign}` : expected,
              among: links,
            },
      );
  }
  for (const [name, factor] of sum) if (factor === 0) sum.delete(name);
  if (faults.length === 0 && sum.size === 0)
    faults.push({
      code: 'conflict',
      at: 0,
      found: text,
      expected: 'links that do not cancel, such as reach - plate - gasket',
    });
  return faults.length === 0 ? { ok: true, sum } : { ok: false, faults };
};
