import { type Speech, say, sayAll } from '@fayplate/core';
import type { Plate } from '../types.js';
import { withPitch } from '../words/holes.js';
import { capital, nameOfPlate, places } from '../words/say.js';
import type { Entering } from './types.js';

/** How it comes apart again: in reverse order, pushed off, never prised at a register or a dowel. */
export const apartWords = (plate: Plate): readonly string[] => {
  const [first, second] = plate.assembly.order;
  const jacks = plate.holes.filter((h) => h.as === 'jacking');
  const [jack] = jacks;
  const own = nameOfPlate(plate);
  const bare = plate.joint === undefined ? 'plate' : own;
  const held = plate.faces.filter(
    (f) =>
      plate.bores.some((b) => b.part?.face === f && (b.kind === 'recess' || b.kind === 'spigot')) ||
      plate.holes.some((h) => h.part?.face === f && (h.as === 'dowel' || h.as === 'slot')),
  );
  const covered = plate.assembly.tightening.filter((t) => t.covered !== 'no').flatMap((t) => t.holes);
  return [
    `Mark ${second}, ${bare} and ${first} across their edges, so that they go together again the same way round.`,
    `${second.startsWith('the ') ? capital(second) : second} comes off first, then ${own}: slacken crosswise, in ` +
      `rounds, with the parts held.${covered.length === 0 ? '' : ` ${sayAll(covered)} are reached only then.`}`,
    ...(jack === undefined
      ? held.length === 0
        ? []
        : [
            `${capital(own)} has no jacking screws, and its fit on ${sayAll(held)} may hold it: two wedges at ` +
              'opposite places of the joint’s edge, or a soft hammer; never a screwdriver in the joint. Jacking ' +
              'screws can be asked for in the plate.',
          ]
      : [
          `Jack ${own} off ${plate.faces[0]} with screws ` +
            `${jack.thread === null ? '' : withPitch(jack.thread.name, jack.thread.pitch)} in ` +
            `${sayAll(jacks.map((h) => h.id))}: turn and turn about, half a turn each, so that it comes off square. ` +
            'They are taken out before it goes together again.',
        ]),
  ];
};

const nameOf = (e: Entering, own: string): string => {
  switch (e.what) {
    case 'shaft':
      return `the shaft of ${e.of.join(', ')}`;
    case 'studs':
    case 'dowels':
      return `${e.what} ${e.of.join(' ')}`;
    case 'set studs':
      return `the set studs ${e.of.join(' ')}`;
    case 'raised spigot':
      return `${own}’s spigot ${e.of.join(' ')}`;
    default:
      return e.of.includes(e.what) ? `the ${e.what}` : `the ${e.what} ${e.of.join(' ')}`;
  }
};

const intoWords = (e: Entering): string =>
  e.what === 'studs' || e.what === 'dowels' || e.what === 'set studs' ? '' : ` into ${sayAll(e.into)}`;

const reachWords = (e: Entering, speech: Speech): string =>
  e.stands === null ? '' : ` (${say(e.stands, { ...speech, fraction: null }, places(speech))})`;

/** What enters first as a part and the plate meet: `Enters first: the shaft of motor into C1 (61.2 mm); then …`. */
export const enterWords = (plate: Plate, face: string, speech: Speech): string => {
  const own = nameOfPlate(plate);
  const all = plate.assembly.enters.get(face) ?? [];
  if (all.length === 0) return 'Nothing guides it: hold it in place until two fasteners are in.';
  const said = all.map((e) => `${nameOf(e, own)}${intoWords(e)}${reachWords(e, speech)}`);
  const unsure =
    all.length > 1 && all.some((e) => e.stands === null) ? ' What is not measured may enter earlier or later.' : '';
  const [only = ''] = said;
  const many = all[0]?.what === 'studs' || all[0]?.what === 'dowels' || all[0]?.what === 'set studs';
  return all.length === 1
    ? `${only.charAt(0).toUpperCase()}${only.slice(1)} ${many ? 'enter' : 'enters'}.`
    : `Enters first: ${said.join('; then ')}.${unsure}`;
};
