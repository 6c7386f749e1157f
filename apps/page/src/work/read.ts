import { type Fault, type Job, type JobRead, readJob } from '@fayplate/job';
import type { Ask, Part } from './protocol.js';
import type { Told } from './shown.js';

const toldOf = (f: Fault): Told => ({
  line: f.line,
  column: f.column,
  path: f.path,
  found: f.found,
  file: f.file,
  words:
    `${f.found === '' ? '' : `Found “${f.found}”. `}Expected ` +
    `${f.expected}.${f.nearest === null ? '' : ` Did you mean “${f.nearest}”?`}`,
});

/** Lists that the job asks for and that the page has not been given. */
const missing = (asked: ReadonlySet<string>, lists: Ask['lists']): readonly string[] =>
  [...asked].filter((name) => !Object.hasOwn(lists, name));

interface Read {
  readonly job: Job | null;
  readonly part: Part;
}

export const readAsk = ({ text, lists }: Pick<Ask, 'text' | 'lists'>): Read => {
  const asked = new Set<string>();
  const read: JobRead = readJob(text, {
    csv: (name) => {
      asked.add(name);
      return Object.hasOwn(lists, name) ? (lists[name] ?? null) : null;
    },
  });
  return {
    job: read.ok ? read.job : null,
    part: {
      kind: 'read',
      ok: read.ok,
      faults: read.ok ? [] : read.faults.map(toldOf),
      warnings: read.ok ? read.warnings.map(toldOf) : [],
      lists: missing(asked, lists),
    },
  };
};
