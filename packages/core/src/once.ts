/** Where answers are kept: a Map, or a WeakMap where they should go with what they were asked of. */
interface Keep<Of, Answer> {
  get(of: Of): Answer | undefined;
  set(of: Of, answer: Answer): unknown;
}

/** The same answer for the same thing, worked out when it is first asked for. An answer is never undefined. */
export const oncePer =
  <Of, Answer>(make: (of: Of) => Answer, kept: Keep<Of, Answer> = new Map<Of, Answer>()): ((of: Of) => Answer) =>
  (of) => {
    const known = kept.get(of);
    if (known !== undefined) return known;
    const answer = make(of);
    kept.set(of, answer);
    return answer;
  };

/** The same, of nothing: worked out when it is first asked for. */
export const once = <Answer>(make: () => Answer): (() => Answer) => {
  const answer = oncePer<null, Answer>(make);
  return () => answer(null);
};
