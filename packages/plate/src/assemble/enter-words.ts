import { type Speech, say, sayAll } from '@fayplate/core';
import { places } from '../words/say.js';
import type { Assembly, Entering } from './types.js';

const nameOf = (e: Entering): string => {
  switch (e.what) {
    case 'shaft':
      return `the shaft of ${e.of.join(', ')}`;
    case 'studs':
    case 'dowels':
      return `${e.what} ${e.of.join(' ')}`;
    case 'set studs':
      return `the set studs ${e.of.join(' ')}`;
    case 'raised spigot':
      return `the plate’s spigot ${e.of.join(' ')}`;
    default:
      return e.of.includes(e.what) ? `the ${e.what}` : `the ${e.what} ${e.of.join(' ')}`;
  }
};

const intoWords = (e: Entering): string =>
  e.what === 'studs' || e.what === 'dowels' || e.what === 'set studs' ? '' : ` into ${sayAll(e.into)}`;

const reachWords = (e: Entering, speech: Speech): string =>
  e.stands === null ? '' : ` (${say(e.stands, { ...speech, fraction: null }, places(speech))})`;

/** What enters first as a part and the plate meet: `Enters first: the shaft of motor into C1 (61.2 mm); then …`. */
export const enterWords = (assembly: Assembly, face: string, speech: Speech): string => {
  const all = assembly.enters.get(face) ?? [];
  if (all.length === 0) return 'Nothing guides it: hold it in place until two fasteners are in.';
  const said = all.map((e) => `${nameOf(e)}${intoWords(e)}${reachWords(e, speech)}`);
  const unsure =
    all.length > 1 && all.some((e) => e.stands === null) ? ' What is not measured may enter earlier or later.' : '';
  const [only = ''] = said;
  const many = all[0]?.what === 'studs' || all[0]?.what === 'dowels' || all[0]?.what === 'set studs';
  return all.length === 1
    ? `${only.charAt(0).toUpperCase()}${only.slice(1)} ${many ? 'enter' : 'enters'}.`
    : `Enters first: ${said.join('; then ')}.${unsure}`;
};
