import { byCodeUnit, inert } from '@fayplate/core';
import { FOREIGN, type Source, inUtf8, most, placeIn } from '../source/source.js';
import type { Fault } from '../types.js';
import type { FaultCode } from '../types/fault.js';
import { nearestName } from './names.js';

/** A fault or warning before it is put into lines and columns. */
export interface Finding {
  readonly code: FaultCode;
  /** Offset in its source. */
  readonly at: number;
  /** The job file where not given. */
  readonly source?: Source;
  readonly found: string;
  readonly expected: string;
  /** Names that `found` may have been meant for. */
  readonly among?: readonly string[];
  readonly path: string;
  /** True where it follows from what stands elsewhere, and so may be an echo of a fault of syntax. */
  readonly sense?: boolean;
}

/** Everything found in a job, gathered in any order. */
export interface Findings {
  readonly fault: (finding: Finding) => void;
  readonly warn: (finding: Finding) => void;
  readonly faults: readonly Finding[];
  readonly warnings: readonly Finding[];
}

export const gather = (): Findings => {
  const faults: Finding[] = [];
  const warnings: Finding[] = [];
  return { fault: (f) => faults.push(f), warn: (f) => warnings.push(f), faults, warnings };
};

/** Names held against wrong ones in one file: thousands of each would take seconds, and nobody reads so many. */
const MOST_COMPARED = 100_000;

/**
 * In the order of the file (lists beside it after it), each once, with lines, columns and near names; beyond 500 only
 * their number.
 */
export const placed = (findings: readonly Finding[], job: Source): readonly Fault[] => {
  const fileOf = (f: Finding): string => f.source?.file ?? '';
  const sorted = [...findings].sort((a, b) => byCodeUnit(fileOf(a), fileOf(b)) || a.at - b.at);
  const faults: Fault[] = [];
  const seen = new Set<string>();
  let compared = 0;
  for (const f of sorted) {
    const source = f.source ?? job;
    const key = `${source.file ?? ''}|${f.at}|${f.expected}`;
    if (seen.has(key)) continue;
    seen.add(key);
    if (seen.size > most.faults) continue;
    const foreign = f.found.includes(FOREIGN);
    const near = foreign || f.among === undefined || compared > MOST_COMPARED ? null : nearestName(f.found, f.among);
    compared += f.among?.length ?? 0;
    faults.push({
      code: foreign ? 'file' : f.code,
      ...placeIn(source, f.at),
      file: source.file,
      found: shortened(f.found),
      expected: foreign ? inUtf8 : inert(f.expected),
      nearest: near === null ? null : shortened(near),
      path: shortened(f.path, 200),
    });
  }
  const last = faults.at(-1);
  if (seen.size > most.faults && last !== undefined)
    faults.push({
      ...last,
      code: 'too-many',
      found: `${seen.size - most.faults} more`,
      expected: 'the faults above put right first',
      nearest: null,
      path: '',
    });
  return faults;
};
/** At most `longest` characters, on one line, safe to show. */
export const shortened = (text: string, longest = 60): string => {
  const line = text.trim().split(/[\r\n]/, 1)[0] ?? '';
  const letters = Array.from(line.slice(0, longest * 2 + 2));
  return inert(letters.length > longest ? `${letters.slice(0, longest - 1).join('')}…` : line);
};
