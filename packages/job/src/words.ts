import { once } from '@fayplate/core';
import { jobSchema } from './schema/file.js';

/** One key of the job file: where it stands, what it takes, and what it means. */
export interface JobWord {
  /** Dotted place; `*` stands for a name of the job's own: `faces.*.features.*.kind`. */
  readonly path: string;
  /** What may be written, one way a line: `a length such as 3.531, 3 17/32 or 89.7 mm`, `one of: hole, stud, …`. */
  readonly takes: readonly string[];
  /** What a number with no unit means: the job's units, degrees; null where it has none. */
  readonly unit: string | null;
  readonly needed: boolean;
  /** What holds where it is left out, in words; null where it is needed or nothing then is so. */
  readonly left: string | null;
  readonly means: string;
  readonly examples: readonly string[];
}

interface Node {
  readonly type?: string | readonly string[];
  readonly description?: string;
  readonly $comment?: string;
  readonly enum?: readonly unknown[];
  readonly examples?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly additionalProperties?: Node | boolean;
  readonly items?: Node;
  readonly anyOf?: readonly Node[];
  readonly required?: readonly string[];
}

const ways = (node: Node): readonly Node[] => node.anyOf?.flatMap(ways) ?? [node];

const takesOf = (node: Node): string => {
  if (node.$comment !== undefined) return node.$comment;
  if (node.type === 'array')
    return `a list, each ${ways(node.items ?? {})
      .map(takesOf)
      .join('; or ')}`;
  if (node.properties !== undefined) return `a section with ${Object.keys(node.properties).join(', ')}`;
  if (typeof node.additionalProperties === 'object') return 'a section of names';
  return node.description ?? 'text';
};

const unitOf = (takes: readonly string[]): string | null => {
  const some = takes.filter((t) => /\d/.test(t));
  const lengths = some.some((t) => /length|range such as 12|± such as ± 0\.002/.test(t));
  const angles = some.some((t) => /angle|deg\b/.test(t));
  if (lengths) return angles ? 'the job’s units, degrees' : 'the job’s units';
  return angles ? 'degrees' : null;
};

/** Where a clause begins: after a stop or a bracket. The point of a decimal has a digit behind it and is no stop. */
const startsAt = (text: string, i: number): boolean =>
  '();:'.includes(text[i] ?? '') || (text[i] === '.' && text[i + 1] === ' ');

/** The clause of a description that ends where `mark` begins: from the last stop or bracket before it. */
const clauseBefore = (description: string, mark: string): string | null => {
  const end = description.toLowerCase().indexOf(mark);
  if (end < 1) return null;
  const before = description.slice(0, end);
  const stop = [...before].findLastIndex((_, i) => startsAt(before, i));
  const clause = before.slice(stop + 1).trim();
  return clause === '' || clause.length > 60 ? null : clause;
};

/** The last of what is set side by side by "or": the default of "round or slot (the default)" is the slot. */
const lastOr = (clause: string): string =>
  clause.slice(Math.max(0, clause.lastIndexOf(' or ') + 1)).replace(/^or /, '');

const LEFT_OUT = 'left out: ';

/** What holds where a key is left out, as its description says it. */
const leftOut = (description: string): string | null => {
  const mark = description.toLowerCase().indexOf(LEFT_OUT);
  if (mark !== -1) {
    const said = `${description.slice(mark + LEFT_OUT.length)} `;
    return said.slice(
      0,
      [...said].findIndex((_, i) => said[i] === ';' || said.startsWith('. ', i)),
    );
  }
  const usual = clauseBefore(description, ' (the default)');
  return (
    (usual === null ? null : lastOr(usual)) ??
    clauseBefore(description, ' where not said') ??
    clauseBefore(description, ' where not stated') ??
    clauseBefore(description, ' where it is not said') ??
    clauseBefore(description, ' where it is not stated')
  );
};

/** What holds where a key is left out, and its description does not say so: as `sense` reads it. */
const holds: Readonly<Record<string, string>> = {
  'faces.*.viewed': 'from outside',
  'faces.*.centre': 'the mean of the centres is (0, 0); of a standard face its register',
  'faces.*.up':
    'up is where the clock positions agree best; without any, the y of places that were read, else the first feature',
  'faces.*.layout': 'measured',
  'faces.*.shaft': 'the shaft runs on the face’s centre',
  'faces.*.features.*.vacant': 'false',
  'faces.*.features.*.diameter': 'from its `dia` reading, else from its thread',
  'old.reach.each': 'that of the instrument',
  'plate.clocking': '0 deg',
  'plate.meet': 'shafts',
  'plate.bore.side': 'through',
  'plate.locate.*.second': 'round',
  'plate.fasten.*.fit': 'normal',
  'plate.fasten.*.washer': 'under nuts alone',
  'plate.fasten.*.blind': 'false',
  'plate.fasten.*.engagement': 'the rule for the plate’s material',
  'plate.limits.web': '0.5 d of the smaller hole',
  'plate.limits.edge': '1.5 d',
  'plate.drilling': '± 0.5 mm',
  'gaskets.*.outline': 'plate where there is one, else follow',
  'drilled.viewed': 'from side B',
  'trial.where': 'joint',
  'print.paper': 'A4',
};

const walk = (path: string, node: Node, needed: boolean): readonly JobWord[] => {
  const each = ways(node);
  const takes = [...new Set(each.map(takesOf))];
  const means = node.description ?? each.map((n) => n.description ?? '').find((d) => d !== '') ?? '';
  const own: JobWord = {
    path,
    takes,
    unit: unitOf(takes),
    needed,
    left: needed
      ? null
      : (holds[path] ?? each.map((n) => leftOut(n.description ?? '')).find((l) => l !== null) ?? leftOut(means)),
    means,
    examples: [...new Set(each.flatMap((n) => (n.examples ?? []).map(String)))],
  };
  const inside = each
    .flatMap((n) => [n, ...ways(n.items ?? {})])
    .flatMap((n) => [
      ...Object.entries(n.properties ?? {}).flatMap(([key, value]) =>
        walk(path === '' ? key : `${path}.${key}`, value, n.required?.includes(key) === true),
      ),
      ...(typeof n.additionalProperties === 'object'
        ? walk(path === '' ? '*' : `${path}.*`, n.additionalProperties, false)
        : []),
    ]);
  return path === '' ? inside : [own, ...inside];
};

/** Two ways to write a section may share a key: it is one word, with what either takes. */
const merged = (words: readonly JobWord[]): readonly JobWord[] => {
  const byPath = new Map<string, JobWord>();
  for (const w of words) {
    const there = byPath.get(w.path);
    byPath.set(
      w.path,
      there === undefined
        ? w
        : {
            ...there,
            takes: [...new Set([...there.takes, ...w.takes])],
            needed: there.needed && w.needed,
            left: there.left ?? w.left,
            examples: [...new Set([...there.examples, ...w.examples])],
          },
    );
  }
  return [...byPath.values()];
};

/** Every section and key of the job file in its order, from the one schema that files are read with. */
export const jobWords = once((): readonly JobWord[] => merged(walk('', jobSchema() as Node, true)));

/**
 * A word by its place as people write it: `plate.cuts`, `faces.pump.features.P1.stands`, or its last part alone where
 * only one word ends so.
 */
export const jobWordsAt = (text: string): readonly JobWord[] => {
  const asked = text
    .trim()
    .toLowerCase()
    .split('.')
    .map((p) => p.trim());
  const fits = (path: string): boolean => {
    const parts = path.toLowerCase().split('.');
    return parts.length === asked.length && parts.every((p, i) => p === '*' || p === asked[i]);
  };
  const whole = jobWords().filter((w) => fits(w.path));
  const found =
    whole.length > 0
      ? whole
      : jobWords().filter((w) => fits(w.path.split('.').slice(-asked.length).join('.')) && !w.path.endsWith('*'));
  return found.flatMap((f) => jobWords().filter((w) => w.path === f.path || w.path.startsWith(`${f.path}.`)));
};
