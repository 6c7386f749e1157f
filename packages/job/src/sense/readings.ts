import type { FaultCode } from '../types/fault.js';
import type { Finding, Findings } from '../faults/findings.js';
import { featureName } from '../faults/names.js';
import type { Piece, ReadLine } from '../reading/grammar.js';
import { readLine } from '../reading/line.js';
import { type RawLine, rawLines } from '../reading/lines.js';
import { listName, listedLines } from '../reading/list.js';
import { placeIn } from '../source/source.js';
import { nodeAt } from '../source/tree.js';
import type { Instrument } from '../types.js';
import { type Context, type Taken, faultAt, listed, namesAt } from './context.js';
import { runOutOf } from './run-out.js';

/** The features that readings may name. */
export interface Namable {
  readonly names: readonly string[];
  readonly has: (name: string) => boolean;
  readonly expected: string;
}

/** A feature named under a key that must be there: reports it where it is not. */
export const namedFeature = (context: Context, keys: readonly PropertyKey[], name: string, namable: Namable): void => {
  if (!namable.has(name))
    faultAt(context, keys, 'unknown-name', namable.expected, { found: name, inside: name, among: namable.names });
};

/** The readings of a list, and its lines that could not be read. */
export interface TakenList {
  readonly taken: readonly Taken[];
  readonly failed: readonly RawLine[];
}

interface Listed {
  readonly raw: RawLine | null;
  readonly note: string | null;
}

/** The list under `keys`, from the file itself or from a CSV beside it. */
const listOf = (context: Context, keys: readonly PropertyKey[]): readonly Listed[] => {
  const node = nodeAt(context.tree, keys);
  const path = keys.map(String).join('.');
  if (node?.kind === 'list')
    return rawLines(context.source, node.items, path, ({ span, expected, path }) => {
      if (!context.spoiled.has(path))
        context.findings.fault({
          code: 'syntax',
          at: span.from,
          found: context.source.text.slice(span.from, span.to),
          expected,
          path,
        });
    }).map((raw) => ({ raw, note: null }));
  if (node?.kind !== 'text') return [];
  const refused = listName(node.text);
  if (refused !== null) {
    faultAt(context, keys, 'list', refused);
    return [];
  }
  const text = context.csv(node.text);
  if (text === null) {
    faultAt(context, keys, 'list', 'the name of a CSV file that can be read, beside the job');
    return [];
  }
  const list = listedLines(node.text, text, path, context.findings);
  return list === null ? [] : list.lines.map((raw, i) => ({ raw, note: list.notes[i] ?? null }));
};

/**
 * Readings of one face or of the drilled plate, each told from the others by its id. `usual`: ± of a length that says
 * neither its ± nor its instrument, mm; null where each must.
 */
export const readingsOf = (
  context: Context,
  keys: readonly PropertyKey[],
  namable: Namable,
  instruments: ReadonlyMap<string, Instrument>,
  usual: number | null = null,
): TakenList => {
  const taken: Taken[] = [];
  const failed: RawLine[] = [];
  const ids = new Set<string>();
  const strangers: Strangers = new Map();
  for (const [i, { raw, note }] of listOf(context, keys).entries()) {
    if (raw === null) continue;
    const id = idOf(raw, i, ids, context.findings);
    const line = lineOf(context, raw, { namable, instruments, strangers, usual });
    if (line === null) {
      failed.push(raw);
      continue;
    }
    const { grammar, instrument, plusMinus } = line;
    const measured = plusMinus ?? (instrument === null ? usual : (instruments.get(instrument.text)?.each ?? null));
    if (measured === null) continue;
    taken.push({
      line,
      raw,
      reading: {
        id,
        text: line.text,
        kind: grammar.kind,
        ...runOutOf(line),
        value: line.value,
        point: line.point,
        plusMinus: measured,
        instrument: instrument?.text ?? null,
        aside: line.aside,
        note: note ?? line.note,
        unit: line.unit,
        place: placeIn(raw.source, raw.offset(0)),
      },
    });
  }
  for (const { finding, more } of strangers.values())
    context.findings.fault(
      more === 0
        ? finding
        : {
            ...finding,
            expected: `${finding.expected} (${more} more ${more === 1 ? 'reading names' : 'readings name'} it)`,
          },
    );
  return { taken, failed };
};

/** Names that nothing has, each told where it stands first: the cure of one is the cure of all. */
type Strangers = Map<string, { readonly finding: Finding; more: number }>;

/** Position in the list from 1, or the id written. */
const idOf = (raw: RawLine, i: number, ids: Set<string>, findings: Findings): string => {
  const id = raw.id ?? String(i + 1);
  if (raw.id !== null && !featureName.test(raw.id))
    findings.fault({
      code: 'bad-name',
      at: raw.idAt,
      source: raw.source,
      found: raw.id,
      expected: `an id that is ${featureName.expected}`,
      path: raw.path,
    });
  else if (ids.has(id))
    findings.fault({
      code: 'twice',
      at: raw.idAt,
      source: raw.source,
      found: id,
      expected: 'an id that no other reading of this face has',
      path: raw.path,
    });
  ids.add(id);
  return id;
};

/** The line taken apart with every name looked up; null where it has a fault. */
interface Amid {
  readonly namable: Namable;
  readonly instruments: ReadonlyMap<string, Instrument>;
  readonly strangers: Strangers;
  readonly usual: number | null;
}

const lineOf = (context: Context, raw: RawLine, { namable, instruments, strangers, usual }: Amid): ReadLine | null => {
  let sound = true;
  const finding = (
    code: FaultCode,
    at: number,
    found: string,
    expected: string,
    among?: readonly string[],
  ): Finding => {
    sound = false;
    return {
      code,
      at: raw.offset(at),
      source: raw.source,
      found,
      expected,
      path: raw.path,
      sense: true,
      ...(among === undefined ? {} : { among }),
    };
  };
  const fault = (...of: Parameters<typeof finding>): void => context.findings.fault(finding(...of));
  const stranger = (what: string, at: Piece, expected: string, among: readonly string[]): void => {
    const told = finding('unknown-name', at.at, at.text, expected, among);
    const known = strangers.get(`${what} ${at.text}`);
    if (known === undefined) strangers.set(`${what} ${at.text}`, { finding: told, more: 0 });
    else known.more++;
  };
  const read = readLine(raw.text, context.unit);
  if (!read.ok) {
    fault(read.fault.code, read.fault.at, read.fault.found, read.fault.expected, read.fault.among);
    return null;
  }
  const { line } = read;
  for (const f of line.features) if (!namable.has(f.text)) stranger('feature', f, namable.expected, namable.names);
  const twice = repeated(line);
  if (twice !== null) fault('twice', twice.at, twice.text, 'another feature: this one stands in the reading already');
  const written = namesAt(context, ['instruments']);
  const { instrument } = line;
  if (instrument !== null && !written.includes(instrument.text))
    stranger(
      'instrument',
      instrument,
      written.length === 0
        ? 'an instrument of the job, and it names none'
        : `an instrument of the job: ${listed(written)}`,
      written,
    );
  const known = instrument === null ? undefined : instruments.get(instrument.text);
  const measures = line.grammar.measures === 'angle' ? 'angle' : 'length';
  if (instrument !== null && known !== undefined && known.measures !== measures)
    fault(
      'wrong-instrument',
      instrument.at,
      instrument.text,
      `an instrument that measures ${measures === 'angle' ? 'an angle (its ± in deg)' : 'a length'}`,
    );
  if (instrument === null && line.plusMinus === null && (usual === null || measures === 'angle')) {
    const last = line.text.length;
    fault(
      'no-plus-minus',
      Math.max(0, last - 1),
      line.text,
      `a ± or "by" an instrument at the end, such as ${written[0] === undefined ? '± 0.5 mm' : `by ${written[0]}`}`,
    );
  }
  return sound ? line : null;
};

/** The first feature that stands twice; two lines of a `square` may share a corner. */
const repeated = (line: ReadLine) => {
  const names = line.features.map((f) => f.text);
  if (line.grammar.kind !== 'square') return line.features.find((f, i) => names.indexOf(f.text) < i) ?? null;
  const [a, b, c, d] = names;
  if (a === b) return line.features[1] ?? null;
  if (c === d || (a === c && b === d) || (a === d && b === c)) return line.features[3] ?? null;
  return null;
};
