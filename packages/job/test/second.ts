/**
 * A second reader of lengths, written from the page JOB-FILE.md and not from the first: it goes through the text sign
 * by sign and keeps whole numbers only. Gives the exact value as a fraction of what its unit counts, or null for what
 * the page does not have.
 */
export interface Second {
  readonly over: bigint;
  readonly under: bigint;
  readonly unit: 'mm' | 'in' | 'thou' | 'ft' | 'micron' | 'bare';
}

const units: Readonly<Record<string, Second['unit']>> = {
  '': 'bare',
  mm: 'mm',
  in: 'in',
  'in.': 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  "''": 'in',
  thou: 'thou',
  thousandths: 'thou',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  micron: 'micron',
  microns: 'micron',
};
export const signs: Readonly<Record<string, readonly [bigint, bigint]>> = {
  '½': [1n, 2n],
  '¼': [1n, 4n],
  '¾': [3n, 4n],
  '⅛': [1n, 8n],
  '⅜': [3n, 8n],
  '⅝': [5n, 8n],
  '⅞': [7n, 8n],
};

const isDigit = (c: string): boolean => c >= '0' && c <= '9' && c.length === 1;

export const second = (text: string): Second | null => {
  let rest = text.trim();
  let sign = 1n;
  if (rest.startsWith('-') || rest.startsWith('−')) [sign, rest] = [-1n, rest.slice(1).trim()];
  else if (rest.startsWith('+')) rest = rest.slice(1).trim();
  let i = 0;
  const digits = (): string => {
    const from = i;
    while (isDigit(rest[i] ?? '')) i++;
    return rest.slice(from, i);
  };
  const gap = (): number => {
    const from = i;
    while (rest[i] === ' ') i++;
    return i - from;
  };
  const number = (): readonly [bigint, bigint] | null => {
    const first = digits();
    if (rest[i] === '.') {
      i++;
      const tail = digits();
      return first === '' && tail === '' ? null : [BigInt(first + tail), 10n ** BigInt(tail.length)];
    }
    const after = i;
    if (first !== '' && rest[i] === '-') i++;
    else gap();
    const whole = first === '' ? 0n : BigInt(first);
    const one = signs[rest[i] ?? ''];
    if (one !== undefined) {
      i++;
      return [whole * one[1] + one[0], one[1]];
    }
    const stroke = (over: string, units: bigint): readonly [bigint, bigint] | null => {
      if (rest[i] === ' ' && '/⁄'.includes(rest[i + 1] ?? 'x')) i++;
      if (!'/⁄'.includes(rest[i] ?? 'x') || over === '') return null;
      i++;
      if (rest[i] === ' ') i++;
      const under = digits();
      if (under === '' || BigInt(over) >= BigInt(under)) return null;
      return [units * BigInt(under) + BigInt(over), BigInt(under)];
    };
    if (isDigit(rest[i] ?? '') && i > after) {
      const start = i;
      const f = stroke(digits(), whole);
      if (f !== null) return f;
      i = start;
      return null;
    }
    i = after;
    if (first === '') return null;
    const kept = i;
    const f = stroke(first, 0n);
    if (f !== null) return f;
    if (rest.slice(kept).trimStart().startsWith('/') || rest.slice(kept).trimStart().startsWith('⁄')) return null;
    i = kept;
    return [whole, 1n];
  };
  const n = number();
  if (n === null) return null;
  const behind = rest.slice(i).trim();
  const unit = units[behind.toLowerCase()];
  if (unit !== undefined) return { over: sign * n[0], under: n[1], unit };
  const feet = /^(?:['′’]|ft)/i.exec(behind);
  if (feet === null || n[1] !== 1n) return null;
  const parted = /^[ -]/.test(behind.slice(feet[0].length));
  const inches = second(behind.slice(feet[0].length).replace(/^ *-? */, ''));
  if (inches === null || /^[ +−-]/.test(behind.slice(feet[0].length).replace(/^ *-? */, ''))) return null;
  if (inches.unit !== 'in' && !(inches.unit === 'bare' && parted)) return null;
  if (inches.over >= 12n * inches.under) return null;
  return { over: sign * (n[0] * 12n * inches.under + inches.over), under: inches.under, unit: 'in' };
};

/** mm in one of each; a bare number counts sevens, so that it is taken for no other. */
export const perOne: Readonly<Record<Second['unit'], number>> = {
  mm: 1,
  in: 25.4,
  thou: 0.0254,
  ft: 304.8,
  micron: 0.001,
  bare: 7,
};

/** A length as the second reader has it, mm; a bare number is in `bare`, mm. Null where the page does not have it. */
export const secondLength = (text: string, bare: number): number | null => {
  const read = second(text);
  return read === null
    ? null
    : (Number(read.over) / Number(read.under)) * (read.unit === 'bare' ? bare : perOne[read.unit]);
};
