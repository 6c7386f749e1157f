import { type Block, type Report, type Speech, say, sayAll, sayNumber } from '@fayplate/core';
import { plateStock } from '@fayplate/handbook';
import type { StackBound, StackConflict, StackResult } from '../types.js';

/** The `stack` document, mm. */
export const stackJson = (r: StackResult): object => ({
  unknown: r.unknown,
  worst: r.worst,
  statistical: r.statistical,
  chosen: r.chosen,
  spacer: r.spacer,
  shims: r.shims,
  total: r.total,
  limits: r.limits,
  costs: r.costs.map((c) => ({ link: c.link, plus_minus: c.plusMinus, worst: c.worst, statistical: c.statistical })),
  conflict:
    r.conflict === null
      ? null
      : { between: r.conflict.between, by: r.conflict.by, even_when_exact: r.conflict.evenWhenExact },
  ok: r.ok,
});

const bound = (b: StackBound, unknown: string, speech: Speech): string => {
  const who = b.limit === null ? `the range given for ${unknown}` : `${b.limit} (its ${b.end})`;
  return b.at === null ? who : `${who} asks for ${b.asks === 'from' ? 'no less' : 'no more'} than ${say(b.at, speech)}`;
};

const conflictInWords = (c: StackConflict, unknown: string, speech: Speech): string => {
  const [a, b] = c.between;
  const cure = c.evenWhenExact
    ? 'Better measuring does not help: with every link exact they still conflict. Change a link or a limit.'
    : 'With every link exact there is room: measure the costliest links better, or ease a limit.';
  if (a.asks === null)
    return `${a.limit} (its ${a.end}) is missed by ${say(c.by, speech)} whatever ${unknown} is. ${cure}`;
  if (a.limit !== null && a.limit === b.limit)
    return `The ± of its links is wider than ${a.limit} allows: its two ends are ${say(c.by, speech)} apart. ${cure}`;
  return `${bound(a, unknown, speech)}; ${bound(b, unknown, speech)}: ${say(c.by, speech)} apart. ${cure}`;
};

/** A thickness to be made, no finer than it is faced: 0.01 mm, 0.001 in. */
const made = (mm: number, speech: Speech): string => say(mm, speech, speech.unit === 'in' ? 3 : 2);

/** `a shim of 0.500 mm`, `shims 2 × 0.800 mm + 0.100 mm`. */
const pile = (shims: readonly number[], speech: Speech): string => {
  const sizes = [...new Set(shims)].map((size) => {
    const many = shims.filter((s) => s === size).length;
    return `${many === 1 ? '' : `${many} × `}${say(size, speech)}`;
  });
  return shims.length === 1 ? `a shim of ${sizes.join('')}` : `shims ${sizes.join(' + ')}`;
};

/** What lies with the unknown: nothing, a spacer, shims or both. */
const besides = (r: StackResult, before: string, after: string): string => {
  const what = [...(r.spacer === null ? [] : ['spacer']), ...(r.shims.length === 0 ? [] : ['shims'])];
  return what.length === 0 ? '' : `${before} ${what.join(' and ')}${after}`;
};

/** A sentence that begins with a name from the job. */
const begun = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const verdict = (r: StackResult, speech: Speech): string => {
  if (r.conflict !== null) {
    const names = [...new Set(r.conflict.between.map((b) => b.limit ?? `the range of ${r.unknown}`))].join(' and ');
    const likely =
      r.chosen === null ? '' : `; at ${made(r.chosen, speech)} all limits hold in all but about 3 builds in 1,000`;
    return (
      `No ${r.unknown} meets every limit in the worst case: ${names} ` +
      `${r.conflict.between[0].limit === r.conflict.between[1].limit ? 'alone leaves' : 'leave'} no room${likely}.`
    );
  }
  if (r.chosen === null && r.worst !== null)
    return (
      `Nothing on hand fits between ${made(r.worst.from, speech)} and ${made(r.worst.to, speech)}, alone, two ` +
      `together or with shims; one milled to ${made(r.at, speech)} would.`
    );
  if (r.chosen === null) return `Nothing on hand fits.`;
  const beside = sayAll([
    ...(r.spacer === null ? [] : [`a spacer of ${say(r.spacer, speech)}`]),
    ...(r.shims.length === 0 ? [] : [pile(r.shims, speech)]),
  ]);
  const window =
    r.worst === null || beside !== '' ? '' : ` (${made(r.worst.from, speech)} to ${made(r.worst.to, speech)} will do)`;
  return (
    `Make the ${r.unknown} ${made(r.chosen, speech)}${window}${beside === '' ? '' : ` with ${beside}`}: every limit ` +
    'holds even in the worst case.'
  );
};

/** What a plate is bought as: the next thicker that is sold, faced, or what lies in the window as it comes. */
const bought = (r: StackResult, speech: Speech): readonly Block[] => {
  if (r.chosen === null || r.worst === null || r.spacer !== null || r.shims.length > 0 || !/plate/i.test(r.unknown))
    return [];
  const [from, to] = [r.worst.from, r.worst.to];
  const chosen = r.chosen;
  const sold = plateStock(speech.unit);
  if (sold.some((s) => Math.abs(s.thickness - chosen) < 0.01)) return [];
  const next = sold.find((s) => s.thickness > chosen);
  const asBought = [...sold, ...plateStock(speech.unit === 'in' ? 'mm' : 'in')]
    .filter((s) => s.thickness >= from - 1e-9 && s.thickness <= to + 1e-9)
    .map((s) => s.name);
  const ways = [
    ...(next === undefined ? [] : [`${next.name} faced to ${made(chosen, speech)}`]),
    ...(asBought.length === 0 ? [] : [`${asBought.join(' or ')} as bought, stated as its thickness`]),
  ];
  return ways.length === 0 ? [] : [{ kind: 'paragraph', text: `Stock: ${ways.join('; or ')}.` }];
};

const windows = (r: StackResult, speech: Speech): Block => ({
  kind: 'table',
  caption: `Window for ${r.unknown}${besides(r, ' and its', ' together')}, ${speech.unit}`,
  columns: [
    { title: 'Method', align: 'left' },
    { title: 'From', align: 'point' },
    { title: 'To', align: 'point' },
  ],
  rows: [
    [
      'worst case, every link at the end of its ±',
      ...(r.worst === null ? ['none', ''] : [sayNumber(r.worst.from, speech), sayNumber(r.worst.to, speech)]),
    ],
    [
      'statistical, 99.73 in 100 builds',
      ...(r.statistical === null
        ? ['none', '']
        : [sayNumber(r.statistical.from, speech), sayNumber(r.statistical.to, speech)]),
    ],
  ],
});

const limits = (r: StackResult, speech: Speech): Block => {
  const optional = (mm: number | null): string => (mm === null ? '' : sayNumber(mm, speech));
  return {
    kind: 'table',
    caption:
      `Limits, ${speech.unit}, with ${r.unknown}${besides(r, ' and its', '')} ` +
      sayNumber(r.at, speech, speech.unit === 'in' ? 3 : 2) +
      (r.conflict !== null && r.total === null ? ', where they are missed least' : ''),
    columns: [
      { title: 'Limit', align: 'left' },
      { title: 'Nominal', align: 'point' },
      { title: 'Worst, from', align: 'point' },
      { title: 'To', align: 'point' },
      { title: 'Least', align: 'point' },
      { title: 'Most', align: 'point' },
      { title: '', align: 'left' },
    ],
    rows: r.limits.map((l) => [
      l.name,
      sayNumber(l.nominal, speech),
      sayNumber(l.worst[0], speech),
      sayNumber(l.worst[1], speech),
      optional(l.least),
      optional(l.most),
      l.ok ? 'holds' : 'fails',
    ]),
  };
};

const costs = (r: StackResult, speech: Speech): Block => ({
  kind: 'table',
  caption: `What each ± costs the window, ${speech.unit}`,
  columns: [
    { title: 'Link', align: 'left' },
    { title: '±', align: 'point' },
    { title: 'Worst case', align: 'point' },
    { title: 'Statistical', align: 'point' },
  ],
  rows: r.costs.map((c) => [
    c.link,
    sayNumber(c.plusMinus, speech),
    sayNumber(c.worst, speech),
    sayNumber(c.statistical, speech),
  ]),
});

/** Where one link outweighs the rest three standard deviations of it are more than the whole ±, which is two. */
const chanceIsWider = (r: StackResult): boolean =>
  r.limits.some((l) => l.statistical[1] - l.statistical[0] > l.worst[1] - l.worst[0] + 1e-9);

/** The chain in words: the window, what is chosen, each limit, and what each ± costs. */
export const stackReport = (r: StackResult, speech: Speech): Report => {
  const [dearest] = r.costs;
  const most = r.costs.filter((c) => dearest !== undefined && c.worst > dearest.worst - 1e-9).map((c) => c.link);
  return [
    { kind: 'verdict', ok: r.ok, text: verdict(r, speech) },
    ...(r.conflict === null
      ? []
      : [{ kind: 'paragraph' as const, text: begun(conflictInWords(r.conflict, r.unknown, speech)) }]),
    ...bought(r, speech),
    windows(r, speech),
    ...(chanceIsWider(r)
      ? [
          {
            kind: 'paragraph' as const,
            text:
              'With few links, or one large ±, the statistical window is narrower than the worst case: a ± holds 95 ' +
              'times in 100, and the statistical method goes on to 99.73.',
          },
        ]
      : []),
    limits(r, speech),
    ...(dearest === undefined ? [] : [costs(r, speech)]),
    ...(dearest === undefined || r.conflict?.evenWhenExact === true
      ? []
      : [
          {
            kind: 'paragraph' as const,
            text:
              `Measure ${sayAll(most)} better: ` +
              (most.length === 1 ? 'its ± costs' : 'their ± cost') +
              ' the window most.',
          },
        ]),
  ];
};
