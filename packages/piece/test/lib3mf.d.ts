// It has no types of its own; what the tests use of it.
declare module '@3mfconsortium/lib3mf' {
  interface Vertex {
    get_Coordinates0(): number;
    get_Coordinates1(): number;
    get_Coordinates2(): number;
  }
  interface Triangle {
    get_Indices0(): number;
    get_Indices1(): number;
    get_Indices2(): number;
  }
  interface MeshObject {
    GetName(): string;
    IsManifoldAndOriented(): boolean;
    GetVertexCount(): number;
    GetTriangleCount(): number;
    GetVertex(i: number): Vertex;
    GetTriangle(i: number): Triangle;
  }
  interface Model {
    QueryReader(kind: string): {
      SetStrictModeActive(strict: boolean): void;
      ReadFromFile(path: string): void;
      GetWarningCount(): number;
    };
    GetMeshObjects(): { MoveNext(): boolean; GetCurrentMeshObject(): MeshObject };
    GetMetaDataGroup(): {
      GetMetaDataCount(): number;
      GetMetaData(i: number): { GetName(): string; GetValue(): string };
    };
    GetUnit(): { readonly value: number };
  }
  interface Library {
    readonly CWrapper: new () => { CreateModel(): Model };
    readonly FS: { writeFile(path: string, bytes: Uint8Array): void };
    readonly eModelUnit: { readonly MilliMeter: { readonly value: number } };
  }
  export default function lib3mf(): Promise<Library>;
}
