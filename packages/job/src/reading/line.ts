import { type LengthUnit, type Parsed, parsed, refused } from '@fayplate/core';
import type { FaultCode } from '../types/fault.js';
import { type Grammar, type LineRead, type Piece, grammarOf, readingKinds } from './grammar.js';
import { numbers, repeats } from './numbers.js';
import { readRunOut } from './run-out.js';

/** `text` from `from` to `to` without the spaces around it. */
const piece = (text: string, from: number, to: number): Piece => {
  const raw = text.slice(from, to);
  const lead = raw.length - raw.trimStart().length;
  return { text: raw.trim(), at: from + lead };
};

const words = (p: Piece): readonly Piece[] =>
  Array.from(p.text.matchAll(/[^\s–-]+|[–-]/g), (m) => ({ text: m[0], at: p.at + m.index }));

/** The parts of the line by their marks: `HEAD [= VALUE] [± TOLERANCE] [by INSTRUMENT] [# NOTE]`. */
const parts = (text: string) => {
  const hash = /(?:^|\s)#/.exec(text);
  const end = hash === null ? text.length : hash.index;
  const note =
    hash === null
      ? null
      : text
          .slice(hash.index)
          .replace(/^\s*#\s*/, '')
          .trim();
  const body = text.slice(0, end);
  const by = body.search(/(?:^|\s)by(?:\s|$)/i);
  const byAt = by === -1 ? end : body.toLowerCase().indexOf('by', by);
  const beforeBy = text.slice(0, byAt);
  const pm = /±|\+\/-|\+-/.exec(beforeBy);
  const pmAt = pm === null ? byAt : pm.index;
  const equals = text.slice(0, pmAt).indexOf('=');
  const headEnd = equals === -1 ? pmAt : equals;
  return {
    note: note === '' ? null : note,
    written: text.slice(0, end).trim(),
    head: piece(text, 0, headEnd),
    value: equals === -1 ? null : piece(text, equals + 1, pmAt),
    tolerance: pm === null ? null : piece(text, pmAt + pm[0].length, byAt),
    instrument: by === -1 ? null : piece(text, byAt + 2, end),
    end: byAt,
  };
};

/** Takes the features apart by the form of the kind; dashes join the two of a line. */
const takeFeatures = (
  tokens: readonly Piece[],
  grammar: Grammar,
  end: number,
): Parsed<readonly Piece[]> & { readonly at?: Piece } => {
  const features: Piece[] = [];
  const wanted = `features as in: ${grammar.example}`;
  let i = 0;
  const fail = (): Parsed<never> & { readonly at: Piece } => ({
    ...refused(wanted),
    at: tokens[i] ?? { text: '', at: end },
  });
  for (const slot of grammar.form) {
    for (const [n] of slot.split('-').entries()) {
      if (n > 0) {
        if (!/^[–-]$/.test(tokens[i]?.text ?? '')) return fail();
        i++;
      }
      const token = tokens[i];
      if (token === undefined || /^[–-]$/.test(token.text)) return fail();
      features.push(token);
      i++;
    }
  }
  return i === tokens.length ? parsed(features) : fail();
};

/** One reading line → its parts, or the word that cannot be read and what was expected there. */
export const readLine = (text: string, job: LengthUnit): LineRead => {
  const p = parts(text);
  const fault = (at: Piece, expected: string, code: FaultCode = 'value', among?: readonly string[]): LineRead => ({
    ok: false,
    fault: { code, at: at.at, found: at.text, expected, ...(among === undefined ? {} : { among }) },
  });
  const all = words(p.head);
  const aside = all[0]?.text.toLowerCase() === 'aside';
  const head = aside ? all.slice(1) : all;
  const [first, ...rest] = head;
  const kinds = `a kind of reading: ${readingKinds.join(', ')}`;
  if (first === undefined) return fault(p.head, kinds, 'unknown-kind');
  const grammar = grammarOf(first.text);
  if (grammar === undefined) return fault(first, kinds, 'unknown-kind', readingKinds);
  if (grammar.kind === 'runout') return readRunOut(text, first.at + first.text.length, aside, job);
  const end = p.head.at + p.head.text.length;
  const features = takeFeatures(rest, grammar, end);
  if (!features.ok) return fault(features.at ?? first, features.expected, 'features');
  if (grammar.implied !== null && p.value !== null && !repeats(grammar, p.value, job))
    return fault(
      p.value,
      `no value: ${grammar.kind} says its own; only a ± or an instrument, as in: ${grammar.example} by square`,
    );
  if (p.tolerance !== null && p.tolerance.text === '') return fault(p.tolerance, 'a value after the ±');
  if (p.instrument !== null && p.instrument.text === '')
    return fault(p.instrument, 'the name of an instrument after "by"');
  const n = numbers(grammar, p.value, p.tolerance, job);
  if (!n.ok) {
    const ofTolerance = p.tolerance !== null && (/±/.test(n.expected) || p.value === null);
    const at = ofTolerance ? p.tolerance : (p.value ?? { text: '', at: p.end });
    return fault(at ?? first, n.expected);
  }
  return {
    ok: true,
    line: {
      text: p.written,
      aside,
      grammar,
      features: features.value,
      ...n.value,
      instrument: p.instrument,
      note: p.note,
      written: p.value,
    },
  };
};
