// It has no types of its own; what the tests use of it.
declare module '@3mfconsortium/lib3mf' {
  /** It lives in the library's own memory until it is given back. */
  export interface Lent {
    delete(): void;
  }
  interface Vertex extends Lent {
    get_Coordinates0(): number;
    get_Coordinates1(): number;
    get_Coordinates2(): number;
  }
  interface Triangle extends Lent {
    get_Indices0(): number;
    get_Indices1(): number;
    get_Indices2(): number;
  }
  interface MeshObject extends Lent {
    GetName(): string;
    IsManifoldAndOriented(): boolean;
    GetVertexCount(): number;
    GetTriangleCount(): number;
    GetVertex(i: number): Vertex;
    GetTriangle(i: number): Triangle;
  }
  interface Model extends Lent {
    QueryReader(kind: string): Lent & {
      SetStrictModeActive(strict: boolean): void;
      ReadFromFile(path: string): void;
      GetWarningCount(): number;
    };
    GetMeshObjects(): Lent & { MoveNext(): boolean; GetCurrentMeshObject(): MeshObject };
    GetMetaDataGroup(): Lent & {
      GetMetaDataCount(): number;
      GetMetaData(i: number): Lent & { GetName(): string; GetValue(): string };
    };
    GetUnit(): { readonly value: number };
  }
  interface Library {
    readonly CWrapper: new () => Lent & { CreateModel(): Model };
    readonly FS: { writeFile(path: string, bytes: Uint8Array): void };
    readonly eModelUnit: { readonly MilliMeter: { readonly value: number } };
  }
  export default function lib3mf(): Promise<Library>;
}
