import { press, sheets } from '@fayplate/print';
import type { World } from '@fayplate/study';
import { letters } from './letters.js';

const lettering: World['lettering'] = () => Promise.resolve(letters());

/**
 * What a study takes from outside, as the page has it. `lists`: lists of readings that the page was given, by the name
 * that the job calls them.
 */
export const worldOf = (
  lists: Readonly<Record<string, string>>,
  progress: (done: number, of: number) => void,
): World => ({
  lettering,
  sheets: () => Promise.resolve(sheets),
  press: () => Promise.resolve(press(lettering)),
  beside: (name) => (Object.hasOwn(lists, name) ? (lists[name] ?? null) : null),
  progress,
});
