// What ships is bundled with sines, logarithms and powers that have the same digits in every engine: the same job, the
// same bytes.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const names = [
  'Sin',
  'Cos',
  'Tan',
  'Asin',
  'Acos',
  'Atan',
  'Atan2',
  'Exp',
  'Log',
  'Log10',
  'Log1p',
  'Log2',
  'Pow',
  'Cbrt',
];

/** For esbuild: which names stand for which, and where they are. */
export const define = Object.fromEntries(names.map((n) => [`Math.${n.toLowerCase()}`, `even${n}`]));
export const inject = [join(import.meta.dirname, '../../packages/core/src/numbers/even.ts')];

/**
 * jstat hands `Math` to itself under that name, so that it is no global there: its calls are named anew as it is read.
 */
export const evenJstat = {
  name: 'even jstat',
  setup: ({ onLoad }) =>
    onLoad({ filter: /[\\/]jstat[\\/].*\.js$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8').replaceAll(/\bMath\.(\w+)\b/g, (whole) => define[whole] ?? whole),
      loader: 'js',
    })),
};
