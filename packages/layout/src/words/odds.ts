/** Odds as a person says them: `97 in 100`, `998 in 1000`; the far ends are not overstated. */
export const sayOdds = (odds: number): string => {
  if (odds >= 0.9995) return 'more than 999 in 1000';
  if (odds >= 0.985) return `${Math.floor(odds * 1000)} in 1000`;
  if (odds < 0.0005) return 'less than 1 in 1000';
  if (odds < 0.015) return `${Math.max(1, Math.round(odds * 1000))} in 1000`;
  return `${Math.round(odds * 100)} in 100`;
};
