import bidiFactory, { type Bidi } from 'bidi-js';

/** CommonJS under Node: its types say a namespace, what arrives is the function itself. */
const bidi = (bidiFactory as unknown as () => Bidi)();

/** Nothing to be seen: controls, direction marks, joiners, lone surrogates, unassigned. A name must never hide one. */
const unseen = /[\p{C}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/u;
/** Scripts whose letters change with their neighbours: letter by letter they would be drawn wrong. */
const joined = /[\p{Script=Arabic}\p{Script=Syriac}\p{Script=Mongolian}\p{Script=Nko}\p{Script=Mandaic}]/u;
/** What most labels are made of: nothing to compose, turn or hide. */
const plain = /^[\x20-\x7e]*$/;
const rightToLeft = /[\p{Script=Hebrew}]/u;

/** `U+6F22`: how a character that cannot be drawn is shown. */
export const codeOf = (character: string): string =>
  `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;

interface Spelled {
  /** Characters in the order they are seen, left to right. */
  readonly characters: readonly string[];
  /** Codes of what could not be drawn, each once, in the order met. */
  readonly missing: readonly string[];
}

const inSeenOrder = (text: string): string => {
  if (!rightToLeft.test(text)) return text;
  const levels = bidi.getEmbeddingLevels(text, 'ltr');
  // Turned round code unit by code unit: a pair that stands for one character is put back.
  return bidi.getReorderedString(text, levels).replace(/([\uDC00-\uDFFF])([\uD800-\uDBFF])/g, '$2$1');
};

/**
 * A text as drawable characters: composed (NFC), right-to-left words put in the order they are seen (UAX 9),
 * and whatever `draws` refuses or nobody could see spelt as its code in brackets.
 */
export const spell = (text: string, draws: (character: string) => boolean): Spelled => {
  if (plain.test(text)) {
    const characters = Array.from(text);
    if (characters.every((character) => draws(character))) return { characters, missing: [] };
  }
  const missing = new Set<string>();
  const shown = Array.from(text.normalize('NFC'), (character) => {
    if (!unseen.test(character) && !joined.test(character) && draws(character)) return character;
    const code = codeOf(character);
    missing.add(code);
    return `[${code}]`;
  }).join('');
  return { characters: Array.from(inSeenOrder(shown)), missing: [...missing] };
};
