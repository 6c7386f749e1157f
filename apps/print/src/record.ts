import type { Lettering } from '@fayplate/drawing';

/** The same lettering, keeping note of every character that had to be shown as its code. */
export const recording = (
  lettering: Lettering,
): { readonly lettering: Lettering; readonly missing: ReadonlySet<string> } => {
  const missing = new Set<string>();
  return {
    missing,
    lettering: {
      ...lettering,
      lay: (words, capital, weight) => {
        const laid = lettering.lay(words, capital, weight);
        for (const code of laid.missing) missing.add(code);
        return laid;
      },
    },
  };
};

export const missingWords = (missing: ReadonlySet<string>): readonly string[] =>
  missing.size === 0
    ? []
    : [
        `the lettering cannot draw ${[...missing].slice(0, 12).join(', ')}${missing.size > 12 ? ' and more' : ''}: shown as codes in brackets`,
      ];
