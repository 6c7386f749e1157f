import type { Speech } from '@fayplate/core';
import { midwayReport, prove, proveReport } from '@fayplate/machining';
import { platePicture } from '@fayplate/pictures';
import { type Study, restReport } from '@fayplate/study';
import { letters } from '../letters.js';
import type { ProveView } from '../shown.js';
import { drawnOf } from './drawn.js';
import { readingSays } from './face.js';

/** The drilled plate: what to read on it, and whether it goes on. Seen from side B, as it is drawn. */
export const proveView = (study: Study, speech: Speech): ProveView => {
  const { plate, mated } = study.plate();
  const proof = study.proof() ?? prove(study.named(), plate, mated);
  const midway = study.midway();
  const cuts = [...plate.holes, ...plate.bores].map((c) => ({ id: c.id, x: c.x, y: c.y, r: c.diameter / 2 }));
  const kinds = new Map(cuts.map(({ id }) => [id, id.startsWith('C') ? 'bore' : 'hole']));
  return {
    ok: proof.ok,
    report: proveReport(proof, speech),
    midway: midway === null ? [] : [...midwayReport(midway, speech), ...restReport(study, undefined, speech)],
    picture: drawnOf('drilled', platePicture(plate, mated, 'B', speech, letters())),
    marks: cuts.map(({ id, x, y, r }) => ({ id, x, y, r, says: `${kinds.get(id) ?? ''} ${id}` })),
    plan: proof.plan.readings.map((r) => ({
      head: r.reading,
      instrument: r.instrument,
      says: readingSays(r.reading, kinds),
    })),
    suspects: (proof.located?.suspects ?? []).flatMap((s) =>
      [s.reading, ...s.tiedWith].map((reading) => ({
        reading,
        says: 'does not agree with the rest. Read it again.',
      })),
    ),
  };
};
