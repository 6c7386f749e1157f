import lib3mf from '@3mfconsortium/lib3mf';

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

/** The one mesh of a 3MF file, read strictly. */
export const read3mf = async (bytes: Uint8Array): Promise<ReadMesh> => {
  const library = await lib3mf();
  const model = new library.CWrapper().CreateModel();
  const reader = model.QueryReader('3mf');
  reader.SetStrictModeActive(true);
  library.FS.writeFile('/piece.3mf', bytes);
  reader.ReadFromFile('/piece.3mf');
  const meshes = model.GetMeshObjects();
  if (!meshes.MoveNext()) throw new Error('no mesh in the file');
  const mesh = meshes.GetCurrentMeshObject();
  const meta = model.GetMetaDataGroup();
  const vertices = Array.from({ length: mesh.GetVertexCount() }, (_, i) => {
    const v = mesh.GetVertex(i);
    return [v.get_Coordinates0(), v.get_Coordinates1(), v.get_Coordinates2()] as const;
  });
  const triangles = Array.from({ length: mesh.GetTriangleCount() }, (_, i) => {
    const t = mesh.GetTriangle(i);
    return [t.get_Indices0(), t.get_Indices1(), t.get_Indices2()] as const;
  });
  if (meshes.MoveNext()) throw new Error('more than one mesh in the file');
  return {
    name: mesh.GetName(),
    closed: mesh.IsManifoldAndOriented(),
    warnings: reader.GetWarningCount(),
    millimetres: model.GetUnit().value === library.eModelUnit.MilliMeter.value,
    meta: new Map(
      Array.from({ length: meta.GetMetaDataCount() }, (_, i) => {
        const one = meta.GetMetaData(i);
        return [one.GetName(), one.GetValue()] as const;
      }),
    ),
    vertices,
    triangles,
  };
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
