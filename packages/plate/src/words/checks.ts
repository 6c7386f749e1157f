import { type Block, type Column, type Speech, say, sayAll } from '@fayplate/core';
import { checks } from '../checks/all.js';
import { type Meaning, marginOf } from '../checks/check.js';
import type { Check, Plate } from '../types.js';
import { names, places, sayBoth, sayCures } from './say.js';

/**
 * What failing a check means here and now: cuts that break into each other, or a chance below half, mean that it will
 * not go together; a register within its ± may.
 */
const meaning = (c: Check): Meaning => {
  const usual = checks[c.id].meaning;
  if (usual === 'chance') return c.value < 50 ? 'apart' : 'chance';
  if (c.id === 'register-fit' && c.value >= 0) return 'chance';
  return usual === 'weak' && c.sense === 'least' && c.unit === 'mm' && c.value < 0 ? 'apart' : usual;
};

const openings = {
  apart: 'Will not go together',
  chance: 'May not go together',
  line: 'Goes together, but the shafts are out of line',
  weak: 'Goes together, but not soundly',
} as const;
const order = Object.keys(openings);

/** The answer in a sentence: what is wrong, by how much, and what cures it; or that all holds. */
export const verdict = (plate: Plate, speech: Speech): Block => {
  const fails = plate.checks
    .filter((c) => !c.ok)
    .toSorted((a, b) => order.indexOf(meaning(a)) - order.indexOf(meaning(b)));
  const [worst] = fails;
  if (worst === undefined) {
    const least = plate.checks
      .filter((c) => c.id === 'web-between-cuts' || c.id === 'floor-between-cuts')
      .toSorted((a, b) => a.value - b.value)[0];
    const web =
      least === undefined
        ? ''
        : `; least metal between cuts ${say(least.value, speech, places(speech))} (${names(least)})`;
    const open = plate.unknowns.length === 0 ? '' : ' Not everything could be checked: see the end.';
    return {
      kind: 'verdict',
      ok: true,
      text: `The plate goes together: all ${plate.checks.length} checks hold${web}.${open}`,
    };
  }
  const cures = sayCures(worst, speech, 3);
  const more =
    fails.length > 1 ? ` ${fails.length - 1} more ${fails.length === 2 ? 'check fails' : 'checks fail'}.` : '';
  return {
    kind: 'verdict',
    ok: false,
    text:
      `${openings[meaning(worst)]}: ${checks[worst.id].say(worst, speech)}` +
      (cures === '' ? '' : `; ${cures}`) +
      `.${more}`,
  };
};

/** One failure with all that fail in the same way: H1, H2 and H3 in place of three lines. */
interface Alike {
  readonly check: Check;
  readonly of: string;
}

/** What a check is about beside its first hole; the hole's own feature goes without saying. */
const shared = (c: Check, plate: Plate): readonly string[] => {
  const own = plate.holes.find((h) => h.id === c.of[0])?.feature;
  return c.of.slice(1).filter((id) => id !== own);
};

const alike = (checks: readonly Check[], plate: Plate, speech: Speech): readonly Alike[] => {
  const groups = new Map<string, Check[]>();
  for (const c of checks) {
    const key = [c.id, shared(c, plate).join(' '), ...sayBoth(c, speech), sayCures(c, speech, 3)].join('|');
    groups.set(key, [...(groups.get(key) ?? []), c]);
  }
  return [...groups.values()].flatMap((group) => {
    const [check] = group;
    if (check === undefined) return [];
    return [
      {
        check,
        of: group.length === 1 ? names(check) : sayAll([...group.map((c) => c.of[0] ?? ''), ...shared(check, plate)]),
      },
    ];
  });
};

/** Of each rule that holds, the one with least to spare. */
const tightest = (plate: Plate): readonly Check[] => {
  const ids = [...new Set(plate.checks.map((c) => c.id))];
  return ids.flatMap((id) =>
    plate.checks
      .filter((c) => c.id === id && c.ok)
      .toSorted((a, b) => marginOf(a) - marginOf(b))
      .slice(0, 1),
  );
};

const row = ({ check: c, of }: Alike, sources: readonly string[], speech: Speech): readonly string[] => [
  c.ok ? 'holds' : 'FAILS',
  c.rule,
  of,
  sayBoth(c, speech)[0],
  `${c.sense === 'least' ? '≥' : '≤'} ${sayBoth(c, speech)[1]}`,
  sayCures(c, speech, 3),
  String(sources.indexOf(c.source) + 1),
];

/** Where the cure stands in a row; a table in which nothing wants one goes without. */
const CURE = 5;

/** All that fail, then the tightest of each kind (`every`: all of them), and below them where each limit comes from. */
export const checkWords = (plate: Plate, speech: Speech, every = false): readonly Block[] => {
  const fails = alike(
    plate.checks.filter((c) => !c.ok),
    plate,
    speech,
  );
  const shown = [
    ...fails,
    ...(every ? plate.checks.filter((c) => c.ok) : tightest(plate)).map((check) => ({ check, of: names(check) })),
  ];
  if (shown.length === 0) return [];
  const sources = [...new Set(shown.map((s) => s.check.source))];
  const rows = shown.map((s) => row(s, sources, speech));
  const cured = rows.some((r) => r[CURE] !== '');
  const used = <T>(cells: readonly T[]): readonly T[] => cells.filter((_, i) => cured || i !== CURE);
  return [
    {
      kind: 'table',
      caption:
        'Checks: ' +
        (fails.length === 0 ? '' : 'all that fail, then ') +
        (every ? 'every one' : 'the tightest of each kind') +
        ' that holds',
      columns: used<Column>([
        { title: '', align: 'left' },
        { title: 'Check', align: 'left' },
        { title: 'Between', align: 'left' },
        { title: 'Value', align: 'right' },
        { title: 'Limit', align: 'right' },
        { title: 'Cure', align: 'left' },
        { title: 'Source', align: 'right' },
      ]),
      rows: rows.map(used),
    },
    { kind: 'list', items: sources.map((s, i) => `Source ${i + 1}: ${s}.`) },
  ];
};
