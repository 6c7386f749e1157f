import { type Block, type Report, type Speech, say, sayNumber, toDegrees } from '@fayplate/core';
import { CHANCE } from '../fit/together.js';
import { alignmentReport } from '../alignment/report.js';
import { goesOnReport } from '../assembly/report.js';
import type { Check, Plate, PlateHole } from '../types.js';
import { sayCure, sayDegrees } from './cure.js';

const places = (speech: Speech): number => (speech.unit === 'in' ? 3 : 2);

/** A value with its unit, as its check counts it. */
const sayValue = (c: Check, value: number, speech: Speech): string => {
  if (c.unit === 'mm') return say(value, speech, places(speech));
  if (c.unit === 'deg') return `${Number(value.toFixed(2))}°`;
  if (c.unit === '%') return `${value > 99 ? value.toFixed(2) : value.toFixed(1)} %`;
  return c.unit === 'd' ? `${value.toFixed(2)} d` : String(Math.round(value));
};

const names = (c: Check): string => c.of.join(' and ');

/** What is wrong, as one would say it across the bench. */
export const sayFault = (c: Check, speech: Speech): string => {
  const short = (mm: number): string => say(mm, speech, speech.unit === 'in' ? 3 : 1);
  const [a = '', b = ''] = c.of;
  if (c.rule === 'web between cuts' && c.value < 0) return `${a} breaks into ${b} by ${short(-c.value)}`;
  if (c.rule === 'web between cuts') return `only ${short(c.value)} of metal between ${a} and ${b}, where ${short(c.limit)} is wanted`;
  if (c.rule === 'hole to edge') return `${a} is ${sayValue(c, c.value, speech)} from the edge, where ${sayValue(c, c.limit, speech)} is wanted`;
  if (c.rule.endsWith('under the other part')) return `${a}: ${c.rule.startsWith('stud') ? 'the end of the stud' : `the ${c.rule.split(' under ')[0] ?? 'nut'}`} stands ${short(c.value)} into ${b}`;
  if (c.rule.startsWith('fasteners out of reach')) return `${c.value} fasteners cannot be reached once the other part is on, whichever goes on last`;
  if (c.rule === CHANCE) return `${a} goes on ${sayValue(c, c.value, speech).replace(' %', '')} times in 100`;
  return `${names(c)}: ${c.rule} is ${sayValue(c, c.value, speech)}, ${c.sense === 'least' ? 'at least' : 'at most'} ${sayValue(c, c.limit, speech)} is wanted`;
};

/** Failures that keep the parts from going together at all; others make the plate too weak, or leave a fastener too little. */
const hinders = (c: Check): boolean => {
  if (c.rule === CHANCE) return c.value < 50;
  return c.value < 0 && c.sense === 'least' ? c.unit === 'mm' : /under the other part|out of reach|clear of|clear above|goes on|bottoms|passes|leaning|room for|fight|locate the same/.test(c.rule);
};

const gravity = (c: Check): number => (hinders(c) ? 2 : c.rule === CHANCE ? 1 : 0);

/** Cures that break nothing else; those that do only where there are no others, and then it is said. */
const sayCures = (c: Check, speech: Speech, most: number): string => {
  const clean = c.cures.filter((cure) => cure.clean);
  if (clean.length > 0) return clean.slice(0, most).map((cure) => sayCure(cure, speech)).join(' or ');
  return c.cures.slice(0, most).map((cure) => `${sayCure(cure, speech)} (other checks then fail)`).join(' or ');
};

/** One failure with all that fail in the same way: H1, H2 and H3 in place of three lines. */
interface Alike {
  readonly check: Check;
  readonly of: string;
  readonly count: number;
}

const alike = (checks: readonly Check[], speech: Speech): readonly Alike[] => {
  const groups = new Map<string, Check[]>();
  for (const c of checks) {
    const key = [c.rule, c.of.slice(1).join(' '), sayValue(c, c.value, speech), sayValue(c, c.limit, speech), sayCures(c, speech, 3)].join('|');
    groups.set(key, [...(groups.get(key) ?? []), c]);
  }
  return [...groups.values()].flatMap((group) => {
    const [check] = group;
    if (check === undefined) return [];
    const firsts = group.map((c) => c.of[0] ?? '').join(', ');
    return [{ check, of: group.length === 1 ? names(check) : [firsts, ...check.of.slice(1)].join(' and '), count: group.length }];
  });
};

const verdict = (plate: Plate, speech: Speech): Block => {
  const fails = plate.checks.filter((c) => !c.ok).toSorted((a, b) => gravity(b) - gravity(a));
  const [worst] = fails;
  if (worst === undefined) {
    const least = plate.checks.filter((c) => c.rule === 'web between cuts').toSorted((a, b) => a.value - b.value)[0];
    const web = least === undefined ? '' : `; least metal between cuts ${say(least.value, speech, places(speech))} (${names(least)})`;
    return { kind: 'verdict', ok: true, text: `The plate goes together: all ${plate.checks.length} checks hold${web}.` };
  }
  const cures = sayCures(worst, speech, 3);
  const more = fails.length > 1 ? ` ${fails.length - 1} more ${fails.length === 2 ? 'check fails' : 'checks fail'}.` : '';
  const opening = hinders(worst) ? 'Will not go together' : worst.rule === CHANCE ? 'May not go together' : 'Goes together, but not soundly';
  return { kind: 'verdict', ok: false, text: `${opening}: ${sayFault(worst, speech)}${cures === '' ? '' : `; ${cures}`}.${more}` };
};

/** A hole as a machinist would call it out. */
const callout = (h: PlateHole, speech: Speech): string => {
  const n = (mm: number): string => sayNumber(mm, speech, places(speech));
  const kind = h.thread === null ? h.as : h.as === 'tapped' ? `tapped ${h.thread.name}` : `${h.as}, ${h.thread.name}`;
  const blind = h.depth === null ? '' : ` from side ${h.from}, drilled ${n(h.depth)} deep${h.thread?.depth == null ? '' : `, thread ${n(h.thread.depth)}`}`;
  const slot = h.slot === null ? '' : `, ${n(h.slot.length)} between end centres at ${Number(toDegrees(h.slot.angle).toFixed(1))}°`;
  const sink = h.sink === null ? '' : `, ${h.sink.kind} ${n(h.sink.diameter)} × ${n(h.sink.depth)} deep on side ${h.sink.side}`;
  const assembly = h.as === 'dowel' && h.feature === null ? ', reamed at assembly' : '';
  return `${kind}${blind}${slot}${sink}${assembly}`;
};

const holeTable = (plate: Plate, speech: Speech): Block => ({
  kind: 'table',
  caption: `Holes, ${speech.unit}, seen from side B (${plate.faces[1]}) looking at ${plate.faces[0]}; x right, y up`,
  columns: [
    { title: 'Hole', align: 'left' },
    { title: 'For', align: 'left' },
    { title: 'x', align: 'point' },
    { title: 'y', align: 'point' },
    { title: 'Diameter', align: 'point' },
    { title: 'Drill', align: 'left' },
    { title: 'Kind', align: 'left' },
  ],
  rows: plate.holes.map((h) => [h.id, h.feature ?? 'plate', sayNumber(h.x, speech), sayNumber(h.y, speech), sayNumber(h.diameter, speech), h.drill ?? '', callout(h, speech)]),
});

const boreTable = (plate: Plate, speech: Speech): readonly Block[] =>
  plate.bores.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: `Bores, ${speech.unit}`,
          columns: [
            { title: 'Bore', align: 'left' },
            { title: 'Kind', align: 'left' },
            { title: 'For', align: 'left' },
            { title: 'Diameter', align: 'point' },
            { title: 'Side', align: 'left' },
            { title: 'Depth', align: 'point' },
          ],
          rows: plate.bores.map((b) => [
            b.id, b.kind === 'spigot' ? 'raised spigot' : b.kind, b.feature ?? '', b.limits === null ? sayNumber(b.diameter, speech) : `${sayNumber(b.limits[0], speech)} to ${sayNumber(b.limits[1], speech)}`,
            b.side, b.depth === null ? 'through' : sayNumber(b.depth, speech),
          ]),
        },
      ];

const boltWords = (plate: Plate, speech: Speech): readonly Block[] =>
  plate.bolts.length === 0
    ? []
    : [
        {
          kind: 'list',
          items: plate.bolts.map((b) => {
            const range = `${say(b.least, speech, speech.unit === 'in' ? 3 : 1)} to ${say(b.most, speech, speech.unit === 'in' ? 3 : 1)} under the head`;
            const buy = b.stock === null ? `no stock length lies in ${range}` : `${say(b.stock, speech, speech.unit === 'in' ? 3 : 0)} long (${range})`;
            return `${b.holes.length} × ${b.thread} for ${b.holes.join(', ')}: ${buy}.`;
          }),
        },
      ];

/** Of each rule that holds, the one with least to spare. */
const tightest = (plate: Plate): readonly Check[] => {
  const spare = (c: Check): number => (c.sense === 'least' ? c.value - c.limit : c.limit - c.value);
  const rules = [...new Set(plate.checks.map((c) => c.rule))];
  return rules.flatMap((r) => plate.checks.filter((c) => c.rule === r && c.ok).toSorted((a, b) => spare(a) - spare(b)).slice(0, 1));
};

const checkTable = (plate: Plate, speech: Speech): Block => ({
  kind: 'table',
  caption: 'Checks: all that fail, then the tightest of each kind',
  columns: [
    { title: '', align: 'left' },
    { title: 'Check', align: 'left' },
    { title: 'Between', align: 'left' },
    { title: 'Value', align: 'right' },
    { title: 'Limit', align: 'right' },
    { title: 'Cure', align: 'left' },
    { title: 'Source', align: 'left' },
  ],
  rows: [...alike(plate.checks.filter((c) => !c.ok), speech), ...tightest(plate).map((check) => ({ check, of: names(check), count: 1 }))].map(({ check: c, of }) => [
    c.ok ? 'holds' : 'FAILS', c.rule, of, sayValue(c, c.value, speech), `${c.sense === 'least' ? '≥' : '≤'} ${sayValue(c, c.limit, speech)}`, sayCures(c, speech, 3), c.source,
  ]),
});

const turningWords = (plate: Plate, speech: Speech): readonly Block[] => {
  const { clockings, turning } = plate;
  if (clockings === null) return [];
  const list = (spans: Plate['turning']['spans']): string => spans.map((s) => `${toDegrees(s.from).toFixed(3)}° to ${toDegrees(s.to).toFixed(3)}°`).join(', ');
  const best = turning.best === null ? '' : ` Widest margin at ${toDegrees(turning.best.angle).toFixed(3)}°: ${say(turning.best.margin, speech, places(speech))} more than the limits ask.`;
  const still = plate.ok ? '' : ' The checks that fail above do not depend on the angle.';
  const text =
    clockings.length > 0
      ? `With the second face turned ${list(clockings)} (clockwise as drawn) everything that depends on the angle holds.${best}${still}`
      : `At no angle between ${sayDegrees(turning.range.from)} and ${sayDegrees(turning.range.to)} does everything that depends on it hold.${best}`;
  return [{ kind: 'heading', level: 2, text: 'Clocking' }, { kind: 'paragraph', text }];
};

const cautions: readonly Block[] = [
  { kind: 'caution', text: 'Grade and tightening torque of the fasteners are not chosen here. Where lives depend on the joint, have it designed and checked by licensed practice under your local codes.' },
];

/** A part's own verdict told as a plain sentence: the plate has one verdict only. */
const asParagraphs = (report: Report): readonly Block[] => report.map((b): Block => (b.kind === 'verdict' ? { kind: 'paragraph', text: `${b.text}.` } : b));

const together = (plate: Plate, speech: Speech): readonly Block[] =>
  plate.goesOn.size === 0 ? [] : [{ kind: 'heading', level: 2, text: 'Does it go on?' }, ...[...plate.goesOn].flatMap(([face, g]) => asParagraphs(goesOnReport(face, g, speech)))];

const inLine = (plate: Plate, speech: Speech): readonly Block[] =>
  plate.alignment === null ? [] : [{ kind: 'heading', level: 2, text: 'Shafts in line' }, ...asParagraphs(alignmentReport(plate.alignment, speech))];

/** Verdict first, then holes, bores, checks, clocking, what is not known, and the cautions. */
export const plateReport = (plate: Plate, speech: Speech): Report => [
  { kind: 'heading', level: 1, text: `Plate between ${plate.faces[0]} and ${plate.faces[1]}` },
  verdict(plate, speech),
  {
    kind: 'paragraph',
    text: `${say(plate.thickness, speech)} thick${plate.material === null ? '' : `, ${plate.material.name}`}; blank ${say(plate.outline.blank.width, speech, 1)} × ${say(plate.outline.blank.height, speech, 1)}${plate.outline.mass === null ? '' : `; ${plate.outline.mass.toFixed(2)} kg finished`}. Side A lies on ${plate.faces[0]}, side B on ${plate.faces[1]}.`,
  },
  checkTable(plate, speech),
  { kind: 'heading', level: 2, text: 'Holes' },
  holeTable(plate, speech),
  ...boltWords(plate, speech),
  ...boreTable(plate, speech),
  ...turningWords(plate, speech),
  ...together(plate, speech),
  ...inLine(plate, speech),
  ...(plate.unknowns.length === 0 ? [] : [{ kind: 'heading', level: 2, text: 'Not checked' } as const, { kind: 'list', items: plate.unknowns } as const]),
  ...cautions,
];
