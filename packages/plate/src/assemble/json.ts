import type { Assembly } from './types.js';

/** `assembly` of the plate's document: lengths mm. */
export const assemblyJson = (a: Assembly) => ({ ...a, enters: Object.fromEntries(a.enters) });
