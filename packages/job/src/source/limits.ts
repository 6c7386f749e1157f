/**
 * What a job file may hold at most; a file beyond any of these is refused before it costs time. `check` ends on so many features and readings
 * within 20 s and 1 GB (apps/cli/bench/largest.ts).
 */
export const most = {
  bytes: 1_048_576,
  features: 1_000,
  readings: 4_000,
  /** Characters of one line, and of one value that runs over several. */
  lineLength: 20_000,
  /** Lists and sections within one another. */
  depth: 32,
  /** Words, marks and gaps as YAML counts them: 4,000 readings need about 24,000, and comments and flow lists more. */
  tokens: 300_000,
  /** Faults reported one by one. */
  faults: 500,
} as const;

/** `4,000`; the language's own formatter takes 20 ms to wake up, for numbers that never change. */
export const inThousands = (n: number): string => {
  const digits = String(n);
  const first = digits.length % 3 || 3;
  return [digits.slice(0, first), ...(digits.slice(first).match(/\d{3}/g) ?? [])].join(',');
};

export const tooMany = (limit: number, what: string): string => `at most ${inThousands(limit)} ${what} in one job`;

/** Length of the text in UTF-8. */
export const utf8Bytes = (text: string): number => {
  let bytes = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    bytes += c < 0x80 ? 1 : c < 0x800 || (c >= 0xd800 && c < 0xe000) ? 2 : 3;
  }
  return bytes;
};
