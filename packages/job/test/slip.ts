import fc from 'fast-check';

/** Signs that fingers, keyboards and cameras put where a number was meant. */
const signs = [...`0123456789.,-/ '"±½oOlIe°+mintho:;xsp`, '”', '’', '–', '\t', '\u00a0', ' mm', ' in', ' thou', '± '];

/** One to three slips within the values of a text: only behind `=`, `±` and `:` on a line. */
export const slipped = (texts: readonly string[]): fc.Arbitrary<string> =>
  fc.constantFrom(...texts).chain((text) => {
    const places = Array.from(text.matchAll(/(?<==|±|: )[^\n#]*/g)).flatMap((m) =>
      Array.from({ length: m[0].length + 1 }, (_, k) => m.index + k),
    );
    const one = fc.record({
      at: fc.constantFrom(...places),
      how: fc.constantFrom('in', 'out', 'for', 'swap'),
      sign: fc.constantFrom(...signs),
    });
    return fc.array(one, { minLength: 1, maxLength: 3 }).map((slips) =>
      [...slips]
        .sort((a, b) => b.at - a.at)
        .reduce((t, { at, how, sign }) => {
          if (how === 'in') return t.slice(0, at) + sign + t.slice(at);
          if (how === 'out') return t.slice(0, at) + t.slice(at + 1);
          if (how === 'for') return t.slice(0, at) + sign + t.slice(at + 1);
          return t.slice(0, at) + t.slice(at + 1, at + 2) + t.slice(at, at + 1) + t.slice(at + 2);
        }, text),
    );
  });
