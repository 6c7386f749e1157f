/** One stretch of a text replaced: what stood from `from` to `to` becomes `insert`. */
export interface Change {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
}

/** The text after a change. */
export const changed = (text: string, { from, to, insert }: Change): string =>
  text.slice(0, from) + insert + text.slice(to);

/** The change that takes `changed(text, change)` back to `text`. */
export const undoing = (text: string, { from, to, insert }: Change): Change => ({
  from,
  to: from + insert.length,
  insert: text.slice(from, to),
});

/** The one stretch by which two texts differ; null where they are alike. */
export const between = (before: string, after: string): Change | null => {
  if (before === after) return null;
  let from = 0;
  const least = Math.min(before.length, after.length);
  while (from < least && before[from] === after[from]) from++;
  let end = 0;
  while (end < least - from && before[before.length - 1 - end] === after[after.length - 1 - end]) end++;
  return { from, to: before.length - end, insert: after.slice(from, after.length - end) };
};
