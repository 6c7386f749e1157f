/** The little of opentype.js that is used here; its own types pull in the browser's. */
declare module 'opentype.js' {
  export type Command =
    | { type: 'M' | 'L'; x: number; y: number }
    | { type: 'Q'; x1: number; y1: number; x: number; y: number }
    | { type: 'C'; x1: number; y1: number; x2: number; y2: number; x: number; y: number }
    | { type: 'Z' };

  export interface Glyph {
    index: number;
    advanceWidth: number;
    /** y down. */
    getPath(x: number, y: number, size: number): { commands: Command[] };
  }

  export interface Font {
    unitsPerEm: number;
    charToGlyph(character: string): Glyph;
    glyphs: { get(index: number): Glyph };
    position: {
      getKerningTables(script: string): unknown[] | undefined;
      getKerningValue(tables: unknown[], left: number, right: number): number;
    };
  }

  const opentype: { parse(bytes: ArrayBuffer, options?: { lowMemory?: boolean }): Font };
  export default opentype;
}
