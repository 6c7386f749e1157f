import { oncePer } from '@fayplate/core';
import type { Job } from './types.js';

/**
 * What a sheet does not rest on: how it was written, where, and what was measured or wanted of the paper afterwards.
 */
const besides: ReadonlySet<string> = new Set([
  'name',
  'place',
  'text',
  'note',
  'unit',
  'rimWritten',
  'print',
  'drilled',
  'drilledSizes',
  'drilledFrom',
  'soFar',
  'drilledPieces',
  'assembled',
  'trial',
  'joint',
]);

/** Names whose order means nothing. */
const unordered: ReadonlySet<string> = new Set(['instruments', 'locate', 'fasten', 'except', 'limits']);

const isEmpty = (v: unknown): boolean => v === undefined || v === null || (Array.isArray(v) && v.length === 0);

/** Numbers to twelve figures: a length is the same whichever unit it was written in. */
const plain = (value: unknown, key: string): unknown => {
  if (typeof value === 'number') return Number(value.toPrecision(12));
  if (value instanceof Map) {
    const entries = [...value].map(([k, v]) => [k, plain(v, '')] as const);
    return unordered.has(key) ? entries.toSorted(([a], [b]) => (String(a) < String(b) ? -1 : 1)) : entries;
  }
  if (Array.isArray(value)) {
    const taking = value.filter((v: unknown) => (v as { readonly aside?: boolean } | null)?.aside !== true);
    return taking.map((v: unknown) => plain(v, ''));
  }
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      // A reading's id is where it stands in its list.
      .filter(([k, v]) => !besides.has(k) && !isEmpty(v) && !(k === 'id' && 'aside' in value))
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([k, v]) => [k, plain(v, k)]),
  );
};

/** Crockford's base 32: no I, L, O or U, which are taken for others when read aloud. */
const letters = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

const HALF = 2 ** 32;

/**
 * FNV-1a, 64 bits, over the UTF-8 of a text. Source: Fowler, Noll, Vo and Eastlake, The FNV Non-Cryptographic Hash
 * Algorithm (IETF draft), from memory.
 */
export const fnv1a64 = (text: string): bigint => {
  // The prime is 2⁴⁰ + 435: in halves of 32 bits every product stays below 2⁵³.
  let [high, low] = [0xcbf29ce4, 0x84222325];
  for (const char of text) {
    // Characters to bytes by hand: no encoder belongs to the language alone.
    const c = char.codePointAt(0) ?? 0;
    const bytes =
      c < 0x80
        ? [c]
        : c < 0x800
          ? [0xc0 | (c >> 6), 0x80 | (c & 63)]
          : c < 0x10000
            ? [0xe0 | (c >> 12), 0x80 | ((c >> 6) & 63), 0x80 | (c & 63)]
            : [0xf0 | (c >> 18), 0x80 | ((c >> 12) & 63), 0x80 | ((c >> 6) & 63), 0x80 | (c & 63)];
    for (const b of bytes) {
      low = (low ^ b) >>> 0;
      const product = 435 * low;
      high = (435 * high + Math.floor(product / HALF) + 256 * low) % HALF;
      low = product % HALF;
    }
  }
  return (BigInt(high) << 32n) | BigInt(low);
};

/**
 * Eight letters of what a job's design rests on, `7K2Q-F9M3`: the same for the same meaning however it is written, with
 * what remarks, in which unit; another one as soon as a reading, a size or a wish is another. What was measured of the
 * drilled plate takes no part, so that the sheets stay good.
 */
export const fingerprintOf = (job: Job): string => markOf(job);

// Every sheet and file of a packet carries it.
const markOf = oncePer((job: Job): string => {
  const hash = fnv1a64(JSON.stringify(plain(job, '')));
  const eight = Array.from({ length: 8 }, (_, i) => letters[Number((hash >> BigInt(59 - 5 * i)) & 31n)] ?? '0').join(
    '',
  );
  return `${eight.slice(0, 4)}-${eight.slice(4)}`;
}, new WeakMap<Job, string>());

/** Whether a text is one, as it stands on a sheet. */
export const isFingerprint = (text: string): boolean =>
  text.length === 9 && text[4] === '-' && [...text.replace('-', '')].every((c) => letters.includes(c));
