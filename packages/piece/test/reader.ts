import lib3mf, { type Lent } from '@3mfconsortium/lib3mf';

/** A mesh as the reader of the 3MF Consortium itself (lib3mf) has it; its numbers are of single precision. */
export interface ReadMesh {
  readonly name: string;
  readonly closed: boolean;
  readonly warnings: number;
  readonly millimetres: boolean;
  readonly meta: ReadonlyMap<string, string>;
  readonly vertices: readonly (readonly [number, number, number])[];
  readonly triangles: readonly (readonly [number, number, number])[];
}

/** The one mesh of a 3MF file, read strictly; what the library lends is given back. */
export const read3mf = async (bytes: Uint8Array): Promise<ReadMesh> => {
  const library = await lib3mf();
  const lent: Lent[] = [];
  const borrow = <T extends Lent>(one: T): T => {
    lent.push(one);
    return one;
  };
  const once = <T extends Lent, R>(one: T, take: (one: T) => R): R => {
    const taken = take(one);
    one.delete();
    return taken;
  };
  try {
    const model = borrow(borrow(new library.CWrapper()).CreateModel());
    const reader = borrow(model.QueryReader('3mf'));
    reader.SetStrictModeActive(true);
    library.FS.writeFile('/piece.3mf', bytes);
    reader.ReadFromFile('/piece.3mf');
    const meshes = borrow(model.GetMeshObjects());
    if (!meshes.MoveNext()) throw new Error('no mesh in the file');
    const mesh = borrow(meshes.GetCurrentMeshObject());
    const meta = borrow(model.GetMetaDataGroup());
    const vertices = Array.from({ length: mesh.GetVertexCount() }, (_, i) =>
      once(mesh.GetVertex(i), (v) => [v.get_Coordinates0(), v.get_Coordinates1(), v.get_Coordinates2()] as const),
    );
    const triangles = Array.from({ length: mesh.GetTriangleCount() }, (_, i) =>
      once(mesh.GetTriangle(i), (t) => [t.get_Indices0(), t.get_Indices1(), t.get_Indices2()] as const),
    );
    if (meshes.MoveNext()) throw new Error('more than one mesh in the file');
    return {
      name: mesh.GetName(),
      closed: mesh.IsManifoldAndOriented(),
      warnings: reader.GetWarningCount(),
      millimetres: model.GetUnit().value === library.eModelUnit.MilliMeter.value,
      meta: new Map(
        Array.from({ length: meta.GetMetaDataCount() }, (_, i) =>
          once(meta.GetMetaData(i), (one) => [one.GetName(), one.GetValue()] as const),
        ),
      ),
      vertices,
      triangles,
    };
  } finally {
    for (const one of lent.toReversed()) one.delete();
  }
};

/** Volume by the divergence theorem, mm³: positive where triangles face outward. */
export const volumeOf = ({ vertices, triangles }: Pick<ReadMesh, 'vertices' | 'triangles'>): number =>
  triangles.reduce((sum, [a, b, c]) => {
    const [p, q, r] = [vertices[a], vertices[b], vertices[c]];
    if (p === undefined || q === undefined || r === undefined) throw new Error('a triangle of no vertex');
    const x = p[0] * (q[1] * r[2] - q[2] * r[1]);
    const y = p[1] * (q[2] * r[0] - q[0] * r[2]);
    const z = p[2] * (q[0] * r[1] - q[1] * r[0]);
    return sum + (x + y + z) / 6;
  }, 0);
