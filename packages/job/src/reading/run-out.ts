import {
  type LengthUnit,
  type Parsed,
  headingOfClock,
  parseAngle,
  parseClock,
  parseLength,
  parsed,
  perUnit,
  refused,
} from '@fayplate/core';
import { isAngle, parseAngleBand } from '../schema/values.js';
import {
  type Grammar,
  type LineFault,
  type LineRead,
  type Piece,
  type ReadLine,
  type WrittenRunOut,
  readingGrammar,
} from './grammar.js';
import { numbers } from './numbers.js';

/**
 * ± of the place of a high spot where none is written, radians: common practice, between two equal readings either side
 * of it.
 */
const FOUND_WITHIN = Math.PI / 12;

const ofRim = 'runout A about B = 0.004 high toward C by dial';
const ofFace = 'runout face about B at 60 mm = 0.004 high toward C by dial';

const isPlusMinus = /±|\+\/-|\+-/g;
/** Words that begin a part of the line. */
const openers = ['about', 'at', '=', 'high', 'by'] as const;
type Opener = (typeof openers)[number];
const prepositions = ['toward', 'towards', 'at'];

interface Parts {
  readonly head: Piece;
  readonly of: ReadonlyMap<Opener, Piece>;
  readonly note: string | null;
  /** The line without its note. */
  readonly written: string;
}

const trimmed = (text: string, from: number, to: number): Piece => {
  const raw = text.slice(from, to);
  return { text: raw.trim(), at: from + raw.length - raw.trimStart().length };
};

/** Where the note behind the line begins: a # at its start or after a space. */
const noteFrom = (text: string): number => {
  for (let i = 0; i < text.length; i++) if (text[i] === '#' && (i === 0 || /\s/.test(text[i - 1] ?? ''))) return i;
  return text.length;
};

/** The parts of the line by the words that open them; a fault where one stands twice. */
const partsOf = (text: string, from: number): Parts | LineFault => {
  const end = noteFrom(text);
  const words = Array.from(text.slice(from, end).matchAll(/=|[^\s=]+/g), (m) => ({ text: m[0], at: from + m.index }));
  const cuts: { readonly opener: Opener; readonly at: number; readonly inside: number }[] = [];
  for (const [i, word] of words.entries()) {
    const said = word.text.toLowerCase();
    const before = words[i - 1]?.text.toLowerCase();
    const opener = openers.find((o) => o === said);
    if (opener === undefined || (opener === 'at' && before === 'high')) continue;
    const next = words[i + 1];
    const second = opener === 'high' && next !== undefined && prepositions.includes(next.text.toLowerCase());
    if (opener === 'high' && !second)
      return { code: 'value', at: next?.at ?? end, found: next?.text ?? '', expected: `"toward", as in: ${ofRim}` };
    const last = second ? next : word;
    if (cuts.some((c) => c.opener === opener))
      return { code: 'twice', at: word.at, found: word.text, expected: `"${opener}" once only, as in: ${ofRim}` };
    cuts.push({ opener, at: word.at, inside: last.at + last.text.length });
  }
  const note = text.slice(end).replace(/^#/, '').trim();
  return {
    head: trimmed(text, from, cuts[0]?.at ?? end),
    of: new Map(cuts.map((c, i) => [c.opener, trimmed(text, c.inside, cuts[i + 1]?.at ?? end)])),
    note: note === '' ? null : note,
    written: text.slice(0, end).trim(),
  };
};

/** A value and the bands behind it, each after its ±. */
const splitBands = (p: Piece): readonly [Piece, ...Piece[]] => {
  const marks = [...p.text.matchAll(isPlusMinus)];
  const ends = [...marks.map((m) => m.index), p.text.length];
  const first = trimmed(p.text, 0, ends[0] ?? 0);
  const rest = marks.map((m, i) => trimmed(p.text, m.index + m[0].length, ends[i + 1] ?? p.text.length));
  const lift = (q: Piece): Piece => ({ text: q.text, at: p.at + q.at });
  return [lift(first), ...rest.map(lift)];
};

/** `S2`, `60 deg`, `2:30`, `2 o'clock`. */
const towardOf = (text: string): Parsed<{ readonly feature: string } | { readonly clockwise: number }> => {
  const words = `a feature, an angle clockwise from 12 o'clock such as 60 deg, or 2 o'clock`;
  if (text === '') return refused(words);
  const spoken = ["o'clock", 'o’clock', 'oclock'].find((s) => text.toLowerCase().endsWith(s));
  const hours = spoken === undefined ? text : text.slice(0, -spoken.length).trim();
  if (hours !== text || hours.includes(':')) {
    const clock = parseClock(hours);
    return clock.ok ? parsed({ clockwise: headingOfClock(0) - clock.value }) : refused(words);
  }
  if (!isAngle(text) || !/^[-−+]?[\d.]/.test(text))
    return text.includes(' ') ? refused(words) : parsed({ feature: text });
  const angle = parseAngle(text);
  return angle.ok ? parsed({ clockwise: angle.value }) : refused(words);
};

const oneWord = (p: Piece | undefined): p is Piece => p !== undefined && p.text !== '' && !p.text.includes(' ');

/** The direction, its ±, and the reading's own ± where it stands behind it. */
const highOf = (p: Piece): LineFault | { readonly high: WrittenRunOut['high']; readonly tolerance: Piece | null } => {
  const [where, ...bands] = splitBands(p);
  const toward = towardOf(where.text);
  if (!toward.ok) return { code: 'value', at: where.at, found: where.text, expected: toward.expected };
  let within = FOUND_WITHIN;
  let tolerance: Piece | null = null;
  for (const band of bands) {
    if (!isAngle(band.text)) {
      tolerance = band;
      continue;
    }
    const b = parseAngleBand(band.text);
    if (!b.ok) return { code: 'value', at: band.at, found: band.text, expected: b.expected };
    within = b.value;
  }
  return { high: { toward: toward.value, within, at: where }, tolerance };
};

const isFault = (x: object): x is LineFault => 'expected' in x;

/**
 * `runout A about B = 0.004 high toward S2 ± 10 deg by dial`, `runout face about B at 60 mm = 0.02 mm`: the parts in
 * any order behind the features. `from`: just behind the word runout.
 */
export const readRunOut = (text: string, from: number, aside: boolean, job: LengthUnit): LineRead => {
  const grammar: Grammar = readingGrammar('runout');
  const fail = (fault: LineFault): LineRead => ({ ok: false, fault });
  const parts = partsOf(text, from);
  if (isFault(parts)) return fail(parts);
  const { head } = parts;
  const [about, at, value, high, by] = openers.map((o) => parts.of.get(o));
  const asked = (p: Piece, expected: string, code: LineFault['code'] = 'value'): LineRead =>
    fail({ code, at: p.at, found: p.text, expected });
  if (!oneWord(head) && about !== undefined) return asked(head, `one feature, or "face", as in: ${ofRim}`, 'features');
  if (!oneWord(head) || !oneWord(about))
    return asked(about ?? head, `"about" and one feature on the axis, as in: ${ofRim}`, 'features');
  const face = head.text.toLowerCase() === 'face';
  if (face !== (at !== undefined))
    return face
      ? asked(head, `"at" and the radius at which the face was swept, as in: ${ofFace}`)
      : asked(at ?? head, `no radius: a rim has its own; a face has one, as in: ${ofFace}`);
  const radius = at === undefined ? null : parseLength(at.text, perUnit(job));
  if (radius !== null && (!radius.ok || !(radius.value > 0)))
    return asked(at ?? head, radius.ok ? 'a radius above zero' : radius.expected);
  if (value === undefined) return asked({ text: '', at: head.at }, `= and a value, as in: ${face ? ofFace : ofRim}`);
  const found = high === undefined ? { high: null, tolerance: null } : highOf(high);
  if (isFault(found)) return fail(found);
  const [number, ...bands] = splitBands(value);
  const [tolerance = null, third] = [...bands, ...(found.tolerance === null ? [] : [found.tolerance])];
  if (third !== undefined) return asked(third, 'one ± of the reading only; that of the direction is in deg');
  if (tolerance !== null && tolerance.text === '') return asked(tolerance, 'a value after the ±');
  if (by !== undefined && by.text === '') return asked(by, 'the name of an instrument after "by"');
  const n = numbers(grammar, number, tolerance, job);
  if (!n.ok) return asked(tolerance !== null && n.expected.includes('±') ? tolerance : number, n.expected);
  const features: ReadLine['features'] = [
    ...(face ? [] : [head]),
    about,
    ...(found.high !== null && 'feature' in found.high.toward ? [found.high.at] : []),
  ];
  return {
    ok: true,
    line: {
      text: parts.written,
      aside,
      grammar,
      features,
      ...n.value,
      instrument: by ?? null,
      note: parts.note,
      written: number,
      runOut: { radius: radius === null ? null : radius.value, high: found.high },
    },
  };
};
