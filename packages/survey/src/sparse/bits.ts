/** Sets of numbers below `width`, one to a row, as bits: the union of two takes one step for 32 numbers. */
interface BitRows {
  /** 32-bit words of a row. */
  readonly words: number;
  readonly bits: Int32Array;
}

export const bitRows = (count: number, width: number): BitRows => {
  const words = (width + 31) >> 5;
  return { words, bits: new Int32Array(count * words) };
};

export const put = ({ words, bits }: BitRows, row: number, n: number): void => {
  const at = row * words + (n >> 5);
  bits[at] = (bits[at] as number) | (1 << (n & 31));
};

export const takeOut = ({ words, bits }: BitRows, row: number, n: number): void => {
  const at = row * words + (n >> 5);
  bits[at] = (bits[at] as number) & ~(1 << (n & 31));
};

/** All of row `from` put into row `into`. */
export const unite = ({ words, bits }: BitRows, into: number, from: number): void => {
  const [a, b] = [into * words, from * words];
  for (let k = 0; k < words; k++) bits[a + k] = (bits[a + k] as number) | (bits[b + k] as number);
};

/** The numbers of a row, rising. */
export const numbersOf = ({ words, bits }: BitRows, row: number): number[] => {
  const out: number[] = [];
  for (let k = 0; k < words; k++)
    for (let word = bits[row * words + k] as number; word !== 0; word &= word - 1)
      out.push(32 * k + 31 - Math.clz32(word & -word));
  return out;
};

/** How many numbers a row holds (the sum of bits, by halves: from memory). */
export const countOf = ({ words, bits }: BitRows, row: number): number => {
  let sum = 0;
  for (let k = 0; k < words; k++) {
    let v = bits[row * words + k] as number;
    if (v === 0) continue;
    v -= (v >>> 1) & 0x5555_5555;
    v = (v & 0x3333_3333) + ((v >>> 2) & 0x3333_3333);
    sum += Math.imul((v + (v >>> 4)) & 0x0f0f_0f0f, 0x0101_0101) >>> 24;
  }
  return sum;
};
