import { codeOf } from '../lettering/spell.js';

/** What XML 1.0 forbids, and what a reader could not see or be misled by: direction marks and other controls. */
const forbidden = /[\p{C}\p{Zl}\p{Zp}\uFFFE\uFFFF]/gu;
const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** A text in which nothing is hidden: what XML forbids or no reader could see is spelt as its code. */
export const visible = (text: string): string => text.replace(forbidden, (c) => `[${codeOf(c)}]`);

/** A text that can stand in XML as content or attribute and do nothing: markup escaped, controls as their code. */
export const inert = (text: string): string => visible(text).replace(/[&<>"']/g, (c) => entities[c] ?? c);
