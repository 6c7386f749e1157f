import { indentAt, lineStart } from './set.js';

/** The little of JSON Schema that completion reads. */
export interface SchemaNode {
  readonly description?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly additionalProperties?: SchemaNode | boolean;
  readonly patternProperties?: Readonly<Record<string, SchemaNode>>;
  readonly items?: SchemaNode;
  readonly anyOf?: readonly SchemaNode[];
  readonly oneOf?: readonly SchemaNode[];
  readonly allOf?: readonly SchemaNode[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly examples?: readonly unknown[];
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, SchemaNode>>;
}

interface Offer {
  readonly label: string;
  readonly insert: string;
  readonly says: string;
  readonly kind: 'property' | 'enum';
}

/** A schema and all that it may be in its place. */
const spread = (node: SchemaNode, root: SchemaNode): readonly SchemaNode[] => {
  const ref = node.$ref?.replace('#/$defs/', '');
  const target = ref === undefined ? undefined : root.$defs?.[ref];
  return [
    node,
    ...(target === undefined ? [] : spread(target, root)),
    ...[...(node.anyOf ?? []), ...(node.oneOf ?? []), ...(node.allOf ?? [])].flatMap((n) => spread(n, root)),
  ];
};

/** What may stand under a key (or at a place of a list: null). */
const under = (nodes: readonly SchemaNode[], key: string | null, root: SchemaNode): readonly SchemaNode[] =>
  nodes.flatMap((n) => {
    if (key === null) return n.items === undefined ? [] : spread(n.items, root);
    const own = n.properties?.[key];
    if (own !== undefined) return spread(own, root);
    const any = [
      ...Object.values(n.patternProperties ?? {}),
      ...(typeof n.additionalProperties === 'object' ? [n.additionalProperties] : []),
    ];
    return any.flatMap((a) => spread(a, root));
  });

/** The keys over a line, by their indents: `faces`, `pump`, `features`. */
const pathByIndent = (text: string, at: number): readonly string[] => {
  const path: string[] = [];
  let indent = indentAt(text, at).length;
  const lines = text.slice(0, lineStart(text, at)).split('\n').reverse();
  for (const line of lines) {
    const colon = line.indexOf(':');
    const key = line.slice(0, Math.max(0, colon)).trim();
    if (key === '' || key.includes('#')) continue;
    const here = indentAt(line, line.length).length;
    if (here < indent) {
      path.unshift(key.replace(/^- /, '').replaceAll('"', '').trim());
      indent = here;
    }
    if (indent === 0) break;
  }
  return path;
};

/** The keys of the brackets about a place within its line, and whether a key or a value is to come. */
const within = (
  line: string,
): { readonly path: readonly string[]; readonly value: string | null; readonly word: string } => {
  const path: string[] = [];
  let key: string | null = null;
  let word = '';
  for (const c of line) {
    if (c === '{' || c === '[') {
      path.push(key ?? '');
      key = null;
      word = '';
    } else if (c === '}' || c === ']') {
      path.pop();
      key = null;
      word = '';
    } else if (c === ',') {
      key = null;
      word = '';
    } else if (c === ':' && key === null) {
      key = word.trim().replaceAll('"', '');
      word = '';
    } else word += c;
  }
  return { path: path.filter((p) => p !== ''), value: key, word: word.trimStart() };
};

/**
 * What the schema offers at a place of the text: keys of the section that it stands in, or the words that a value may
 * be.
 */
export const offersAt = (
  text: string,
  at: number,
  root: SchemaNode,
): { readonly from: number; readonly offers: readonly Offer[] } | null => {
  const line = text.slice(lineStart(text, at), at);
  if (/(?:^|\s)#/.test(line)) return null;
  const inner = within(line.replace(/^\s*- /, ''));
  const path = [...pathByIndent(text, at), ...inner.path];
  const nodes = path.reduce<readonly SchemaNode[]>((n, key) => under(n, key, root), spread(root, root));
  const from = at - inner.word.length;
  if (inner.value === null) {
    const keys = new Map(nodes.flatMap((n) => Object.entries(n.properties ?? {})));
    const offers = [...keys].map(([label, n]) => ({
      label,
      insert: `${label}: `,
      says: n.description ?? '',
      kind: 'property' as const,
    }));
    return offers.length === 0 ? null : { from, offers };
  }
  const values = under(nodes, inner.value, root);
  const words = [
    ...new Set(
      values.flatMap((n) => [...(n.enum ?? []), ...(n.const === undefined ? [] : [n.const]), ...(n.examples ?? [])]),
    ),
  ].filter((w) => typeof w === 'string');
  const says = values.find((n) => n.description !== undefined)?.description ?? '';
  return words.length === 0
    ? null
    : { from, offers: words.map((w) => ({ label: w, insert: w, says, kind: 'enum' as const })) };
};
