import { jobSchema, jobWords } from '@fayplate/job';
import { once } from '@fayplate/core';
import type { SchemaNode } from '../../edit/schema.js';
import type { Way, WordNode } from '../protocol.js';

interface Node extends SchemaNode {
  readonly $comment?: string;
  readonly type?: string | readonly string[];
  readonly items?: Node;
  readonly anyOf?: readonly Node[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly additionalProperties?: Node | boolean;
  readonly required?: readonly string[];
}

const ways = (node: Node): readonly Node[] => node.anyOf?.flatMap(ways) ?? [node];

/** The few words that a value may be, where it may be nothing else. */
const wordsOf = (node: Node): readonly string[] | null =>
  node.enum?.map(String) ??
  (node.$comment === 'true or false' ? ['true', 'false'] : node.$comment === 'yes or no' ? ['yes', 'no'] : null);

const examplesOf = (nodes: readonly Node[]): readonly string[] => [
  ...new Set(nodes.flatMap((n) => [...(wordsOf(n) ?? []), ...(n.examples ?? []).map(String)])),
];

/** Boxes and lists of words are one way to write: a box takes the words too. */
const scalarWay = (nodes: readonly Node[]): readonly Way[] => {
  if (nodes.length === 0) return [];
  const words = nodes.map(wordsOf);
  const takes = [...new Set(nodes.map((n) => n.$comment ?? n.description ?? 'text'))].join('; or ');
  return words.every((w) => w !== null)
    ? [{ kind: 'words', of: [...new Set(words.flat())] }]
    : [{ kind: 'text', takes, examples: examplesOf(nodes) }];
};

/** Two sections that may stand in one place are one form, with the keys of either. */
const sectionWay = (path: string, nodes: readonly Node[]): readonly Way[] => {
  if (nodes.length === 0) return [];
  const keys = [...new Set(nodes.flatMap((n) => Object.keys(n.properties ?? {})))];
  return [
    {
      kind: 'section',
      keys: keys.map((key) => {
        const all = nodes.flatMap((n) => (n.properties?.[key] === undefined ? [] : [n.properties[key]]));
        const [first = {}] = all;
        return wordAt(
          path === '' ? key : `${path}.${key}`,
          key,
          all.length === 1 ? first : { ...first, anyOf: all },
          nodes.every((n) => n.required?.includes(key) === true),
        );
      }),
    },
  ];
};

const waysOf = (path: string, node: Node): readonly Way[] => {
  const all = ways(node);
  const kinds: readonly (readonly [Way['kind'], readonly Way[]])[] = [
    [
      'text',
      scalarWay(
        all.filter(
          (n) => n.type !== 'array' && n.properties === undefined && typeof n.additionalProperties !== 'object',
        ),
      ),
    ],
    [
      'section',
      sectionWay(
        path,
        all.filter((n) => n.properties !== undefined && typeof n.additionalProperties !== 'object'),
      ),
    ],
    [
      'names',
      all.flatMap((n) =>
        typeof n.additionalProperties === 'object'
          ? [
              {
                kind: 'names',
                each: wordAt(`${path}.*`, '', n.additionalProperties, false),
                keys: sectionWay(path, n.properties === undefined ? [] : [n]).flatMap((w) =>
                  w.kind === 'section' ? w.keys : [],
                ),
              } as const,
            ]
          : [],
      ),
    ],
    [
      'list',
      all.flatMap((n) =>
        n.type === 'array' && n.items !== undefined
          ? [{ kind: 'list', each: wordAt(path, '', n.items, true) } as const]
          : [],
      ),
    ],
  ];
  const order = (kind: Way['kind']): number => all.findIndex((n) => kindOf(n) === kind);
  return kinds
    .filter(([, w]) => w.length > 0)
    .toSorted(([a], [b]) => order(a) - order(b))
    .flatMap(([, w]) => w.slice(0, 1));
};

const kindOf = (n: Node): Way['kind'] =>
  n.type === 'array'
    ? 'list'
    : typeof n.additionalProperties === 'object'
      ? 'names'
      : n.properties !== undefined
        ? 'section'
        : 'text';

const wordAt = (path: string, key: string, node: Node, needed: boolean): WordNode => {
  const said = jobWords().find((w) => w.path === path);
  return {
    key,
    means: (node.description ?? ways(node).find((n) => n.description !== undefined)?.description ?? '').replaceAll(
      '`',
      '',
    ),
    needed,
    left: said?.left ?? null,
    unit: said?.unit ?? null,
    ways: waysOf(path, node),
  };
};

/** Every word of the job file as a tree, for the forms: the one schema that files are read with. */
export const wordTree = once((): WordNode => wordAt('', '', jobSchema() as Node, true));
