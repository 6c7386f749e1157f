import fc from 'fast-check';

/** What a slip, a broken editor or a stranger puts into a file. */
const tokens = [
  '[',
  ']',
  '{',
  '}',
  '"',
  "'",
  ':',
  ': ',
  '- ',
  '? ',
  '& ',
  '&a',
  '*a',
  '!!str ',
  '|',
  '>',
  '%',
  '@',
  '`',
  '#',
  ' #',
  ',',
  '\t',
  '\r',
  '\n',
  '\n\n',
  '---\n',
  '...\n',
  '<<: ',
  '±',
  '+/-',
  '=',
  '(',
  ')',
  '1e999',
  '-0',
  '.nan',
  '.inf',
  '0x1F',
  '١٢',
  '½',
  '3 17/32',
  '99999999999',
  '1/0',
  '2\' 3"',
  '4,5',
  '..',
  ' by ',
  'aside ',
  'null',
  'true',
  '~',
  '\u0000',
  '\u001b[31m',
  '\u202e',
  '\ufeff',
  '\u2028',
  '\ud800',
  '😀',
  '孔',
  '=1+1',
  '<script>',
  '../',
  '${x}',
  '__proto__',
  'constructor',
  'P1',
  'spigot',
  'rule',
];

type Step =
  | { readonly kind: 'insert'; readonly at: number; readonly what: string }
  | { readonly kind: 'delete'; readonly at: number; readonly length: number }
  | { readonly kind: 'copy'; readonly from: number; readonly length: number; readonly to: number }
  | { readonly kind: 'swap lines'; readonly a: number; readonly b: number }
  | { readonly kind: 'indent'; readonly line: number; readonly by: number };

const share = fc.double({ min: 0, max: 1, noNaN: true });

const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    kind: fc.constant('insert' as const),
    at: share,
    what: fc.oneof({ weight: 4, arbitrary: fc.constantFrom(...tokens) }, fc.string({ unit: 'binary', maxLength: 6 })),
  }),
  fc.record({ kind: fc.constant('delete' as const), at: share, length: fc.integer({ min: 1, max: 30 }) }),
  fc.record({ kind: fc.constant('copy' as const), from: share, length: fc.integer({ min: 1, max: 200 }), to: share }),
  fc.record({ kind: fc.constant('swap lines' as const), a: share, b: share }),
  fc.record({ kind: fc.constant('indent' as const), line: share, by: fc.integer({ min: -4, max: 4 }) }),
);

const pick = (length: number, at: number): number => Math.min(length, Math.floor(at * (length + 1)));

const applied = (text: string, s: Step): string => {
  if (s.kind === 'insert') {
    const at = pick(text.length, s.at);
    return text.slice(0, at) + s.what + text.slice(at);
  }
  if (s.kind === 'delete') {
    const at = pick(text.length, s.at);
    return text.slice(0, at) + text.slice(at + s.length);
  }
  if (s.kind === 'copy') {
    const from = pick(text.length, s.from);
    const to = pick(text.length, s.to);
    return text.slice(0, to) + text.slice(from, from + s.length) + text.slice(to);
  }
  const lines = text.split('\n');
  if (s.kind === 'swap lines') {
    const [a, b] = [pick(lines.length - 1, s.a), pick(lines.length - 1, s.b)];
    const [first = '', second = ''] = [lines[a], lines[b]];
    lines[a] = second;
    lines[b] = first;
  } else {
    const n = pick(lines.length - 1, s.line);
    const line = lines[n] ?? '';
    lines[n] = s.by > 0 ? ' '.repeat(s.by) + line : line.slice(Math.min(-s.by, /^ */.exec(line)?.[0].length ?? 0));
  }
  return lines.join('\n');
};

/** One of the texts with one to six changes. */
export const mutated = (texts: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(fc.constantFrom(...texts), fc.array(step, { minLength: 1, maxLength: 6 }))
    .map(([text, steps]) => steps.reduce(applied, text));
