import { type Finding, gather, placed } from './faults/findings.js';
import { jobOf } from './sense/job.js';
import { readShape } from './shape.js';
import { readDocument } from './source/document.js';
import { type Source, most, tooMany, withLineFeeds } from './source/source.js';
import { type Node, nodeAt, sectionAt, spanAt } from './source/tree.js';
import type { Findings } from './faults/findings.js';
import type { JobRead } from './types.js';

/** What a reader of jobs may be handed. */
export interface ReadOptions {
  /**
   * The text of a CSV list of readings by its name as written in the job (never a path from the root or above); null:
   * there is none.
   */
  readonly csv?: (name: string) => string | null;
}

/** More than a job may hold is refused before it is read. */
const withinCounts = (tree: Node, findings: Findings): boolean => {
  let features = 0;
  let readings = 0;
  const over = (count: number, limit: number, what: string, keys: readonly PropertyKey[]): boolean => {
    if (count <= limit) return false;
    findings.fault({
      code: 'too-many',
      at: spanAt(tree, keys, 'key').from,
      found: `${count} ${what}`,
      expected: tooMany(limit, what),
      path: keys.map(String).join('.'),
    });
    return true;
  };
  const listLength = (keys: readonly PropertyKey[]): number => {
    const node = nodeAt(tree, keys);
    return node?.kind === 'list' ? node.items.length : 0;
  };
  for (const name of sectionAt(tree, 'faces')?.entries.keys() ?? []) {
    features += sectionAt(tree, 'faces', name, 'features')?.entries.size ?? 0;
    readings += listLength(['faces', name, 'readings']);
    if (over(features, most.features, 'features', ['faces', name, 'features'])) return false;
    if (over(readings, most.readings, 'readings', ['faces', name, 'readings'])) return false;
  }
  const pieces = [...(sectionAt(tree, 'drilled', 'pieces')?.entries.keys() ?? [])];
  const ofPieces = pieces.reduce((n, name) => n + listLength(['drilled', 'pieces', name, 'readings']), 0);
  const after = listLength(['drilled', 'readings']) + ofPieces + listLength(['assembled', 'readings']);
  return !over(readings + after, most.readings, 'readings', ['drilled', 'readings']);
};

/**
 * The text of a job file → the job with warnings, or every fault of it together, in the order of the file. Never throws
 * for anything that a text may hold.
 */
export const readJob = (text: string, options: ReadOptions = {}): JobRead => {
  const source: Source = { file: null, text: withLineFeeds(text) };
  const findings = gather();
  const refused = (faults: readonly Finding[]): JobRead => ({ ok: false, faults: placed(faults, source) });
  const document = readDocument(source, findings);
  if (document === null || !withinCounts(document.tree, findings)) return refused(findings.faults);
  const { soundUntil } = document;
  const shape = readShape(document.tree, source, findings);
  if (shape === null) return refused(trusted(findings.faults, soundUntil));
  const { tree, unit } = shape;
  const context = { source, tree, unit, findings, spoiled: shape.spoiled, csv: options.csv ?? (() => null) };
  const job = jobOf(context, shape.sheet);
  const drilled = [job, ...(job.drilledPieces?.values() ?? [])];
  const readings = [...job.faces, ...drilled.map((d) => d.drilled)].reduce((n, f) => n + (f?.readings.length ?? 0), 0);
  if (readings > most.readings)
    findings.fault({
      code: 'too-many',
      at: 0,
      found: `${readings} readings`,
      expected: tooMany(most.readings, 'readings'),
      path: '',
    });
  if (findings.faults.length > 0) return refused(trusted(findings.faults, soundUntil));
  return { ok: true, job, warnings: placed(findings.warnings, source) };
};

/** Where the syntax is broken, what follows from it is left unsaid: it would be echoes. */
const trusted = (faults: readonly Finding[], soundUntil: number): readonly Finding[] =>
  soundUntil === Infinity ? faults : faults.filter((f) => f.path === '' || (f.at < soundUntil && f.sense !== true));
