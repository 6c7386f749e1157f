import { sayAll } from '@fayplate/core';
import type { Plate } from '../types.js';
import { withPitch } from '../words/holes.js';

/** How it comes apart again: in the reverse order, pushed off and never prised at a register or a dowel. */
export const apartWords = (plate: Plate): readonly string[] => {
  const [first, second] = plate.assembly.order;
  const jacks = plate.holes.filter((h) => h.as === 'jacking');
  const [jack] = jacks;
  const held = plate.faces.filter(
    (f) =>
      plate.bores.some((b) => b.part?.face === f && (b.kind === 'recess' || b.kind === 'spigot')) ||
      plate.holes.some((h) => h.part?.face === f && (h.as === 'dowel' || h.as === 'slot')),
  );
  const covered = plate.assembly.tightening.filter((t) => t.covered !== 'no').flatMap((t) => t.holes);
  return [
    `Mark ${second}, plate and ${first} across their edges, so that they go together again the same way round.`,
    `${second} comes off first, then the plate: slacken crosswise, in rounds, with the parts held.${covered.length === 0 ? '' : ` ${sayAll(covered)} are reached only then.`}`,
    ...(jack === undefined
      ? held.length === 0
        ? []
        : [
            `The plate has no jacking screws, and its fit on ${sayAll(held)} may hold it: two wedges at opposite places of the joint’s edge, or a soft hammer; never a screwdriver in the joint. Jacking screws can be asked for in the plate.`,
          ]
      : [
          `Jack the plate off ${plate.faces[0]} with screws ${jack.thread === null ? '' : withPitch(jack.thread.name, jack.thread.pitch)} in ${sayAll(jacks.map((h) => h.id))}: turn and turn about, half a turn each, so that it comes off square. They are taken out before it goes together again.`,
        ]),
  ];
};
