/**
 * The skin of a solid in a STEP text (ISO 10303-21), counted from the words of the file alone, with no geometry: how
 * often each edge is used each way, and the corners, edges, faces and loops.
 */
export interface Topology {
  readonly vertices: number;
  readonly edges: number;
  readonly faces: number;
  readonly loops: number;
  /** Edges that are not used once each way. */
  readonly open: number;
  /** Loops whose edges do not follow one another head to tail. */
  readonly broken: number;
  /** Pairs of corners nearer than 1e-6 mm: one point made twice. */
  readonly twins: number;
}

export const topologyOf = (text: string): Topology => {
  const instances = new Map<string, { readonly name: string; readonly args: string }>();
  for (const [, id = '', name = '', args = ''] of text.matchAll(/^(#\d+)=([A-Z_0-9]+)\((.*)\);$/gm))
    instances.set(id, { name, args });
  const refs = (args: string): readonly string[] => args.match(/#\d+/g) ?? [];
  const all = (name: string) => [...instances].flatMap(([id, i]) => (i.name === name ? [{ id, args: i.args }] : []));
  const edges = new Map(all('EDGE_CURVE').map(({ id, args }) => [id, refs(args)]));
  const oriented = new Map(
    all('ORIENTED_EDGE').map(({ id, args }) => [id, { edge: refs(args)[0] ?? '', forward: args.endsWith('.T.') }]),
  );
  const uses = new Map<string, { forward: number; back: number }>();
  let broken = 0;
  const loops = all('EDGE_LOOP');
  for (const { args } of loops) {
    const walk = refs(args).map((id) => {
      const o = oriented.get(id);
      const [from = '', to = ''] = edges.get(o?.edge ?? '') ?? [];
      const use = uses.get(o?.edge ?? '') ?? { forward: 0, back: 0 };
      use[o?.forward === true ? 'forward' : 'back']++;
      uses.set(o?.edge ?? '', use);
      return o?.forward === true ? [from, to] : [to, from];
    });
    if (walk.some(([, end], i) => end !== walk[(i + 1) % walk.length]?.[0])) broken++;
  }
  const used = new Set([...edges.values()].flatMap(([a = '', b = '']) => [a, b]));
  const places = [...used].map((v) =>
    (instances.get(refs(instances.get(v)?.args ?? '')[0] ?? '')?.args.match(/-?\d+\.\d*(?:E-?\d+)?/g) ?? []).map(
      Number,
    ),
  );
  const twins = places.filter((p, i) =>
    places.slice(i + 1).some((q) => Math.hypot(...p.map((v, k) => v - (q[k] ?? 0))) < 1e-6),
  ).length;
  return {
    vertices: used.size,
    edges: edges.size,
    faces: all('ADVANCED_FACE').length,
    loops: loops.length,
    open: [...edges.keys()].filter((e) => uses.get(e)?.forward !== 1 || uses.get(e)?.back !== 1).length,
    broken,
    twins,
  };
};

/** Through passages of one closed body by Euler and Poincaré: V − E + F − (L − F) = 2 (1 − G). */
export const passages = (t: Topology): number => 1 - (t.vertices - t.edges + t.faces - (t.loops - t.faces)) / 2;
