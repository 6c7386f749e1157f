/** A chance as a person says it: `85 times in 100`, `3 times in 1000`, `less than once in 1000`. */
export const chanceWords = (p: number): string => {
  if (p < 0.001) return 'less than once in 1000';
  const [times, of] = p < 0.02 ? [Math.round(p * 1000), 1000] : [Math.round(p * 100), 100];
  if (times >= of) return `more than ${of - 1} times in ${of}`;
  return times === 1 ? `once in ${of}` : `${times} times in ${of}`;
};

export const listWords = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;
