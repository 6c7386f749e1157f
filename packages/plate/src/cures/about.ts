import type { Finding } from '../checks/check.js';
import type { Draft } from '../draft.js';

/** Names that stay when holes are numbered anew: the feature that a hole or bore is for, else which of its kind it is. */
const namesIn = (draft: Draft): ReadonlyMap<string, string> => {
  const own = draft.holes.filter((h) => h.feature === null);
  return new Map([
    ...draft.holes.map((h): [string, string] => [
      h.id,
      h.feature === null ? `${h.as} ${own.indexOf(h)}` : `hole ${h.feature}`,
    ]),
    ...draft.bores.map((b): [string, string] => [b.id, `${b.kind} ${b.feature ?? ''}`]),
  ]);
};

/** What a finding of this draft is about, so that the same can be looked for in another draft of the job. */
export const aboutIn = (draft: Draft): ((f: Finding) => string) => {
  const names = namesIn(draft);
  return (f) => [f.id, ...f.of.map((id) => names.get(id) ?? id).toSorted()].join('|');
};
