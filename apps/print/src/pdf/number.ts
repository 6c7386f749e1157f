/** A length in mm for a content stream: to 0.00001 mm, without an exponent (which PDF does not know). */
export const mm = (v: number): string => String(Math.round(v * 1e5) / 1e5 + 0);

/** A factor of a matrix, to twelve places: a metre multiplied by it stays true to a millionth of a mm. */
export const factor = (v: number): string =>
  Math.abs(v) < 5e-13
    ? '0'
    : Number.isInteger(v)
      ? String(v)
      : v
          .toFixed(12)
          .replace(/(?<!0)0+$/, '')
          .replace(/\.$/, '');
