/** The same answer for the same thing, worked out when it is first asked for and kept as long as the thing is. */
export const oncePer = <Of extends object, Answer extends object>(make: (of: Of) => Answer): ((of: Of) => Answer) => {
  const made = new WeakMap<Of, Answer>();
  return (of) => {
    const known = made.get(of);
    if (known !== undefined) return known;
    const answer = make(of);
    made.set(of, answer);
    return answer;
  };
};
