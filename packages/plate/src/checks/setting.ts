import { amongBolts } from '../alignment/sources.js';
import { locatedShaft } from '../alignment/shaft.js';
import { looser, fitsFor } from '../cures/fasteners.js';
import { diameterPlusMinus } from '../desk.js';
import type { Draft } from '../draft.js';
import { readingOf, usualDrilling } from '../limits.js';
import { meetingsOf } from '../fit/meetings.js';
import { short } from '../words/say.js';
import { type CheckKind, type Found, failingAndLeast, found, marginOf } from './check.js';

/**
 * Room to shift a part that is set true by indicator: what its bolts and the recess round its spigot let it move every
 * way, at their tightest, against how far off its shaft may be as measured and as the holes are made, less what may
 * stay of it. It need not be shifted by what may stay.
 */
const rooms = (draft: Draft): readonly Found[] =>
  draft.desk.faces.flatMap((face, index) => {
    const reading = readingOf(draft.desk.spec, face.name);
    const mated = draft.desk.mated[index];
    if (reading === null || mated === undefined) return [];
    const { meetings } = meetingsOf(face, mated, draft, draft.desk.spec.drilling ?? usualDrilling);
    const joints = meetings.map((m) => m.joint);
    const shaft = locatedShaft(face, mated, joints, draft.desk.spec.locate.get(face.name));
    const needed = Math.max(0, amongBolts(shaft) - reading / 2);
    const source =
      'geometry, every size at its tightest; the ± of the places as measured and as made, two standard deviations';
    const bolts = meetings
      .filter((m) => m.joint.role === 'fastener')
      .map((m) => found([face.name, m.cut.id], m.joint.clearance[0], needed, { source, at: m.cut }));
    const recess = draft.bores.flatMap((b) => {
      const spigot = draft.desk.placed.find((p) => p.name === b.feature && p.feature.id === face.centre);
      if (b.kind !== 'relief' || spigot?.face !== face || spigot.diameter === null) return [];
      const clear = ((b.limits?.[0] ?? b.diameter) - spigot.diameter - diameterPlusMinus(spigot)) / 2;
      return [found([face.name, b.id], clear, needed, { source, at: b })];
    });
    return failingAndLeast([...recess, ...bolts]);
  });

export const setRoom: CheckKind = {
  id: 'set-room',
  title: 'room to set it true',
  meaning: 'line',
  margin: marginOf,
  find: rooms,
  cures: (t, f) =>
    fitsFor(
      t,
      t.draft.holes.filter((h) => f.of.includes(h.id)),
      looser,
    ),
  say: (c, speech) =>
    `${c.of[1] ?? ''} lets ${c.of[0] ?? ''} be shifted only ${short(c.value, speech)}, where ` +
    `${short(c.limit, speech)} may be needed to set it true`,
};
