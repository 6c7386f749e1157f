export type { Io } from './io.js';
export { run } from './main.js';
