/** The part of jstat that is used here; the package carries no types. */
declare module 'jstat' {
  const jstat: {
    readonly chisquare: { cdf(x: number, dof: number): number; inv(p: number, dof: number): number };
    readonly normal: {
      cdf(x: number, mean: number, sd: number): number;
      inv(p: number, mean: number, sd: number): number;
    };
  };
  export default jstat;
}
