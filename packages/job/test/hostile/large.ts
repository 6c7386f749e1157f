/**
 * Texts of up to 1 MiB (times `share`) that are built, not kept: what makes a reader slow, deep or quarrelsome. A name
 * that starts with `reads:` is a sound job.
 */

const head = 'job: x\nunits: mm\n';
const face =
  `${head}faces:\n  a:\n    features:\n      A: { kind: hole, diameter: ` +
  `5 }\n      B: { kind: hole, diameter: 5 }\n    readings:\n`;

/** Numbered lines behind `before`, to about `size`. */
const lines = (line: (i: number) => string, before: string, size: number): string => {
  const parts = [before];
  for (let i = 0, length = before.length; length < size; i++) {
    const l = line(i);
    parts.push(l);
    length += l.length;
  }
  return parts.join('');
};

export const large = (share: number): Readonly<Record<string, () => string>> => {
  const mib = 1_048_576 * share;
  /** As many of `unit` as fit behind `before`. */
  const filled = (unit: string, before = ''): string =>
    before + unit.repeat(Math.floor((mib - before.length) / unit.length));
  /** Half of it: few enough words to be read, many enough to show what grows too fast. */
  const numbered = (line: (i: number) => string, before = head): string => lines(line, before, mib / 2);
  return {
    ...Object.fromEntries(
      ['[', '{', '- ', '? ', '"', "'", '&a ', '*a ', '!a ', '#', ' ', '\t', 'x', '[{', '\\', '± '].map((unit) => [
        `one line of ${JSON.stringify(unit)}`,
        () => filled(unit).slice(0, mib / 2),
      ]),
    ),
    ...Object.fromEntries(
      [
        '\n',
        ']\n',
        '}\n',
        '"a"\n',
        ' a: 1\nb: 2\n',
        '- !a b\n',
        '- &a b\n',
        'a: 1\n',
        '? a\n',
        '[,\n',
        '%\n',
        '---\n',
        '...\n',
        'a: |\n',
        ':\n',
        '\u0001\n',
      ].map((unit) => [`lines of ${JSON.stringify(unit)}`, () => filled(unit)]),
    ),
    'one value over many lines': () => filled('a\n', 'job: "'),
    'bad escapes': () => filled(`"${'\\q'.repeat(900)}"\n`),
    'one key too many': () => numbered((i) => `k${i}-${'x'.repeat(40)}: 1\n`),
    'instruments and no rule': () => numbered((i) => `  i${i} ${'x'.repeat(20)}: ± 1 mn\n`, `${head}instruments:\n`),
    'faces that read with what is not there': () =>
      numbered(
        (i) => `  f${i}: { readings: ["dia A = 1 by q${i} # ${'x'.repeat(40)}"] }\n`,
        `${head}instruments:\n  r: ± 1 mm\nfaces:\n`,
      ),
    'features that are not there': () =>
      numbered((i) => (i < 19_990 ? `      - over A Z${i} = 3 ± 1\n` : `#${'x'.repeat(100)}\n`), face),
    'near names by the thousand': () =>
      numbered(
        (i) => `      - over ${'n'.repeat(30)}${i} A = 3 ± 1\n`,
        `${head}faces:\n  a:\n    features:\n${Array.from({ length: 1900 * share }, (_, i) => `      ${'n'.repeat(36)}${i}: { kind: hole }\n`).join('')}    readings:\n`,
      ),
    'too many features': () => numbered((i) => `      f${i}: {kind: hole}\n`, `${head}faces:\n  a:\n    features:\n`),
    'links that are not there': () =>
      numbered(
        (i) => `    l${i}: { sum: a - b${i} + ccccccccccccccccccc }\n`,
        `${head}stack:\n  links:\n    a: 1 ± 1 mm\n    p: { find: 1 .. 2 }\n  limits:\n`,
      ),
    'layouts of what is not there': () =>
      numbered(
        (i) => `        - feature${i}\n`,
        `${head}faces:\n  a:\n    layout:\n      circle: 5\n      features:\n`,
      ),
    ...Object.fromEntries(
      [
        `over ${'A '.repeat(4000)}`,
        `over A B = ${'1 '.repeat(4000)}`,
        `over A B = 1 ${'± '.repeat(4000)}`,
        `over A B = 1 ${' '.repeat(8000)} by`,
        `"${'# '.repeat(4000)}"`,
        `touch A = ${'(1,'.repeat(3000)}`,
        `touch A = (${' 1 , 2'.repeat(1500)}) ± ${'1/'.repeat(300)}`,
        `square ${'A-'.repeat(4000)}`,
        `angle A B A = ${'1° '.repeat(3000)}`,
        `over A B = 1 by ${'by '.repeat(3000)}`,
      ].map((line) => [`lines of ${line.slice(0, 18)} …`, () => numbered(() => `      - ${line}\n`, face)]),
    ),
    'reads: as many readings as may be': () =>
      face +
      Array.from(
        { length: 4000 * share },
        (_, i) => `      - over A B = 3${i % 10}.${i % 7} ± 0.1 mm   # note ${i}\n`,
      ).join(''),
    'reads: a MiB of remarks': () => head + `#${'x'.repeat(9999)}\n`.repeat(104 * share),
  };
};
