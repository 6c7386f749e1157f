import type { Findings } from './faults/findings.js';
import { nearestName } from './faults/names.js';
import { type Node, type Section, join, nodeAt } from './source/tree.js';

/** A key that a section does not have, and those that it has. */
interface UnknownKey {
  readonly keys: readonly PropertyKey[];
  readonly expected: string;
  readonly known: readonly string[];
}

/** `diameter:8`: the space behind the colon left out. */
const runTogether = (key: string, known: readonly string[]): readonly [string, string] | null => {
  const [, name = '', value = ''] = /^([^:]+):(\S.*)$/.exec(key) ?? [];
  return known.includes(name) ? [name, value] : null;
};

const renamed = (section: Section, from: string, to: string, node: Node): Section => ({
  ...section,
  entries: new Map(
    [...section.entries].map(([key, entry]) => (key === from ? [to, { ...entry, node }] : [key, entry])),
  ),
});

const replaced = (node: Node, keys: readonly PropertyKey[], change: (node: Node) => Node): Node => {
  const [key, ...rest] = keys;
  if (key === undefined) return change(node);
  if (node.kind === 'section')
    return {
      ...node,
      entries: new Map(
        [...node.entries].map(([name, entry]) =>
          name === String(key) ? [name, { ...entry, node: replaced(entry.node, rest, change) }] : [name, entry],
        ),
      ),
    };
  if (node.kind === 'list')
    return { ...node, items: node.items.map((item, i) => (i === Number(key) ? replaced(item, rest, change) : item)) };
  return node;
};

/**
 * The tree with every misspelt key read as the one that it was likely meant for, each told once: what follows from a
 * slip in a key is not worth a fault of its own. A key with no name near it stays.
 */
export const respelt = (tree: Node, unknown: readonly UnknownKey[], findings: Findings): Node => {
  let mended = tree;
  for (const { keys, expected, known } of unknown) {
    const above = keys.slice(0, -1);
    const key = String(keys.at(-1) ?? '');
    const section = nodeAt(mended, above);
    if (section?.kind !== 'section') continue;
    const entry = section.entries.get(key);
    if (entry === undefined) continue;
    const free = known.filter((name) => !section.entries.has(name));
    const split = entry.node.kind === 'nothing' ? runTogether(key, free) : null;
    const near = split?.[0] ?? nearestName(key, free);
    if (near === null) continue;
    findings.fault({
      code: 'unknown-key',
      at: entry.key.from,
      found: key,
      expected: split === null ? expected : `a space behind the colon: ${split[0]}: ${split[1]}`,
      ...(split === null ? { among: free } : {}),
      path: above.map(String).reduce(join, '') === '' ? key : join(above.map(String).reduce(join, ''), key),
    });
    const node: Node = split === null ? entry.node : { kind: 'text', text: split[1], span: entry.key };
    mended = replaced(mended, above, (s) => (s.kind === 'section' ? renamed(s, key, near, node) : s));
  }
  return mended;
};
