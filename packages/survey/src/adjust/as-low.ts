/** Whether one sum of squares is no larger than another, but for what no shop could tell apart. */
export const asLow = (a: number, b: number): boolean => a <= b + 1e-6 * (1 + b);
