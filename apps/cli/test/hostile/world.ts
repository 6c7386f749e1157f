import type { Went } from '../support/go.js';

// What must not reach a terminal: controls but line ends, marks that turn the direction, lone surrogates.
const steering = /[^\P{Cc}\n]|[\p{Cs}\p{Zl}\p{Zp}\p{Bidi_Control}]/u;

/** What is wrong with how a command went, whatever it was given; nothing should be. */
export const wrongWith = ({ code, out, err, files }: Went, folder: string): readonly string[] => [
  ...([0, 1, 2].includes(code) ? [] : [`exit ${code}: ${err}`]),
  ...(code === 2 && err === '' ? ['refused without a word'] : []),
  ...(code === 2 && files.size > 0 ? ['refused, and yet something was written'] : []),
  ...(steering.test(err) ? ['a steering character on standard error'] : []),
  ...(steering.test(out) ? ['a steering character on standard output'] : []),
  // Standard error may quote the file.
  ...(/\bNaN\b|Infinity|undefined|\[object/.test(out)
    ? [`a number that is none: ${/.*(?:\bNaN\b|Infinity|undefined|\[object).*/.exec(out)?.[0] ?? ''}`]
    : []),
  ...[...files.keys()]
    .filter((path) => !new RegExp(`^${folder}/[a-z0-9_-]+\\.[a-z]+$`).test(path))
    .map((path) => `written outside: ${path}`),
];
