/**
 * A font's own tables, read where the library would read far more of them than is asked for. OpenType 1.9: the table
 * directory, `cmap`, `post`.
 */
interface Entry {
  readonly tag: string;
  /** Where the entry stands in the directory, bytes. */
  readonly at: number;
  /** Where the table stands, bytes. */
  readonly offset: number;
}

const tagAt = (view: DataView, at: number): string =>
  String.fromCharCode(...[0, 1, 2, 3].map((k) => view.getUint8(at + k)));

/** Sixteen bytes an entry, after twelve. */
const directory = (view: DataView): readonly Entry[] =>
  Array.from({ length: view.getUint16(4) }, (_, i) => 12 + 16 * i)
    .filter((at) => at + 16 <= view.byteLength)
    .map((at) => ({ tag: tagAt(view, at), at, offset: view.getUint32(at + 8) }));

/** Substitutions, classes of glyphs and the programs that fit outlines to coarse screens. */
const idle: ReadonlySet<string> = new Set(['GSUB', 'GDEF', 'cvt ', 'fpgm', 'prep']);

/** A `post` table that names no glyph. */
const NAMELESS = 0x0003_0000;

/** Segmented coverage: groups of characters whose glyphs follow one another, in order, 12 bytes each after 16. */
const SEGMENTED = 12;

/** The last map of characters to glyphs, where it is of format 12: the one that the library takes. */
const segmented = (view: DataView, cmap: number): number | null => {
  const maps = view.getUint16(cmap + 2);
  if (maps === 0) return null;
  const map = cmap + view.getUint32(cmap + 4 + 8 * (maps - 1) + 4);
  return view.getUint16(map) === SEGMENTED ? map : null;
};

/** Glyph of a character, 0 for none; found by halving. */
const idIn =
  (view: DataView, map: number) =>
  (code: number): number => {
    let [low, high] = [0, view.getUint32(map + 12) - 1];
    while (low <= high) {
      const middle = (low + high) >> 1;
      const group = map + 16 + 12 * middle;
      const first = view.getUint32(group);
      if (code < first) high = middle - 1;
      else if (code > view.getUint32(group + 4)) low = middle + 1;
      else return view.getUint32(group + 8) + code - first;
    }
    return 0;
  };

interface Trimmed {
  /**
   * The same font without what nothing here asks for and takes long to read: idle tables, the old table of kerns where
   * positioning has its own, the glyphs' names, the map that `idOf` reads.
   */
  readonly bytes: ArrayBuffer;
  /** Code point → glyph; null where the font's map is of another kind and was left to the library. */
  readonly idOf: ((code: number) => number) | null;
}

/** Throws a RangeError on bytes too short for what they say they hold. */
export const trimmed = (bytes: ArrayBuffer): Trimmed => {
  const whole = new DataView(bytes);
  const view = new DataView(bytes.slice(0));
  const entries = directory(whole);
  const positions = entries.some((e) => e.tag === 'GPOS');
  let idOf: Trimmed['idOf'] = null;
  for (const { tag, at, offset } of entries) {
    if (idle.has(tag) || (positions && tag === 'kern')) view.setUint8(at, '-'.charCodeAt(0));
    if (tag === 'post') view.setUint32(offset, NAMELESS);
    const map = tag === 'cmap' ? segmented(whole, offset) : null;
    if (map !== null) {
      idOf = idIn(whole, map);
      view.setUint32(map + 12, 0);
    }
  }
  return { bytes: view.buffer, idOf };
};
