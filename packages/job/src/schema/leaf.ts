import * as z from 'zod/mini';
import type { Parsed } from '@fayplate/core';

// A file is read once in a run: compiling each schema into code costs more than it saves.
z.config({ jitless: true });

/** The schema with the description that editors show. */
export const described = <S extends z.core.$ZodType>(schema: S, help: Readonly<Record<string, unknown>>): S => {
  z.globalRegistry.add(schema, help);
  return schema;
};

interface LeafHelp {
  /** For the person who types: shown by editors. */
  readonly description: string;
  readonly examples?: readonly (string | number | boolean)[];
  /** What JSON calls it; text and plain numbers where not said. */
  readonly type?: readonly ('string' | 'number' | 'boolean')[];
  readonly enum?: readonly string[];
  readonly pattern?: string;
}

/** Words expected → the words among which a slip of the pen is looked for. */
const vocabulary = new Map<string, readonly string[]>();
export const wordsAmong = (expected: string): readonly string[] | undefined => vocabulary.get(expected);
const knowWords = (expected: string, words: readonly string[]): string => {
  vocabulary.set(expected, words);
  return expected;
};

/** A written value: its text is read by `read`; a fault says what was expected. */
export const leaf = <T>(expected: string, read: (text: string) => Parsed<T>, help: LeafHelp) => {
  const { type = ['string', 'number'], ...rest } = help;
  const written = described(z.string({ error: expected }), {
    ...rest,
    type: type.length === 1 ? type[0] : [...type],
    // What a fault would ask for, for whoever looks the word up.
    $comment: expected,
  });
  return z.pipe(
    written,
    z.transform((text, context): T => {
      const value = read(text);
      if (value.ok) return value.value;
      context.issues.push({ code: 'custom', message: value.expected, input: text });
      return z.NEVER;
    }),
  );
};

/** One of a few words, in any case: a telephone's keyboard starts with a capital. */
export const word = <const W extends string>(words: readonly W[], description: string) => {
  const expected = knowWords(words.length === 1 ? `"${words[0]}"` : `one of: ${words.join(', ')}`, words);
  return leaf<W>(
    expected,
    (text) => {
      const found = words.find((w) => w.toLowerCase() === text.replace(/\s+/g, ' ').toLowerCase());
      return found === undefined ? { ok: false, expected } : { ok: true, value: found };
    },
    { description, type: ['string'], enum: words },
  );
};

/** Any text on one line. */
export const text = (expected: string, help: LeafHelp, longest = 200) =>
  leaf<string>(
    expected,
    (t) =>
      t === ''
        ? { ok: false, expected }
        : t.length > longest
          ? { ok: false, expected: `${expected}, at most ${longest} characters` }
          : { ok: true, value: t },
    { ...help, type: help.type ?? ['string', 'number', 'boolean'] },
  );

export const yes = (description: string) =>
  leaf<boolean>(
    'true or false',
    (t) =>
      /^true$/i.test(t)
        ? { ok: true, value: true }
        : /^false$/i.test(t)
          ? { ok: true, value: false }
          : { ok: false, expected: 'true or false' },
    { description, type: ['boolean'] },
  );

/** A plain whole number from `least` to `greatest`. */
export const whole = (least: number, greatest: number, help: LeafHelp) => {
  const expected = `a whole number from ${least} to ${greatest}`;
  return leaf<number>(
    expected,
    (t) =>
      /^\d{1,9}$/.test(t) && Number(t) >= least && Number(t) <= greatest
        ? { ok: true, value: Number(t) }
        : { ok: false, expected },
    { type: ['number'], ...help },
  );
};

/** A section with the keys given and no others. */
export const section = <S extends z.core.$ZodShape>(what: string, shape: S, description = what) => {
  const keys = Object.keys(shape);
  const unknown = knowWords(keys.length === 1 ? `the key ${keys[0]}` : `one of the keys ${keys.join(', ')}`, keys);
  return described(z.strictObject(shape, { error: (issue) => (issue.code === 'unrecognized_keys' ? unknown : what) }), {
    description,
  });
};
