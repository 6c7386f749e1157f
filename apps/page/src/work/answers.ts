import { type Speech, speechFor } from '@fayplate/core';
import { type Face, type Job, isDistance, jobSchema, readingGrammar } from '@fayplate/job';
import {
  type PartAnswers,
  type Study,
  caliperOf,
  clocksOf,
  fastenersOf,
  middleOf,
  nameOf,
  refuseSameName,
  starterJob,
} from '@fayplate/study';
import { type LocatedFace, agrees, locateFace, planReadings } from '@fayplate/survey';
import { type Desk, kept, keyOf, studyIn } from './desk.js';
import { filesOf } from './files.js';
import type { Ask, Part, PartWish, Places, Wish } from './protocol.js';
import { readAsk } from './read.js';
import { locatedSoon } from './soon.js';
import { faceView, planItem, spareFor } from './views/face.js';
import { layoutView } from './views/layout.js';
import { lookView } from './views/look.js';
import { makeView } from './views/make.js';
import { plateView } from './views/plate.js';
import { proveView } from './views/prove.js';
import { stackView } from './views/stack.js';
import { wordTree } from './views/words.js';

const settled = (study: Study, face: Face): LocatedFace | string => {
  try {
    return study.located(face);
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
};

/** Jaws touch rims: a reading over, between or past them says nothing before the diameters are read. */
const withDiameters = (heads: readonly string[], face: Face): readonly string[] => {
  const sized = new Set(face.features.filter((f) => f.diameter !== null).map((f) => f.id));
  return [
    ...new Set(
      heads.flatMap((head) => {
        const [kind = '', ...ids] = head.split(' ');
        const touched = isDistance(kind) ? readingGrammar(kind).radius.flatMap((i) => ids[i] ?? []) : [];
        return [...touched.filter((id) => !sized.has(id)).map((id) => `dia ${id}`), head];
      }),
    ),
  ];
};

const plans = new Map<string, Part>();

/** The readings to take on a face, in the order that fixes its shape soonest. */
const planOf = (job: Job, face: Face): Part => {
  // A standard gives every place: readings only test it.
  if (face.standard !== null) return { kind: 'plan', face: face.name, plan: [] };
  const key = JSON.stringify([face.name, face.features, face.centre, face.up, face.across, [...job.instruments]]);
  const before = plans.get(key);
  if (before !== undefined) return before;
  const planned = planReadings(
    { face: { ...face, readings: [] }, instruments: job.instruments },
    { spare: spareFor(face) },
  );
  const by = new Map(planned.map((p) => [p.reading, p.instrument]));
  const part: Part = {
    kind: 'plan',
    face: face.name,
    plan: withDiameters(
      planned.map((p) => p.reading),
      face,
    ).map((head) => planItem(head, by.get(head) ?? null, face)),
  };
  plans.set(key, part);
  return part;
};

/**
 * A number half typed contradicts all others: what is wrong is looked for when the keys rest for so long, ms. A larger
 * face takes longer to look through, and is left alone for longer.
 */
const restFor = ({ features }: Face): number => 250 * Math.max(1, features.length / 12);

/** The picture as soon as it can be drawn from where it was; false where something newer has come meanwhile. */
const drawnSoon = async (
  job: Job,
  face: Face,
  speech: Speech,
  { near, turn }: { readonly near: Places; readonly turn: number },
  desk: Desk,
): Promise<boolean> => {
  if (kept.has(keyOf(job, face))) return true;
  const soon = locatedSoon(job, face, near);
  // A number far from every shape draws none; without places drawn before there is nothing to wait for.
  if (soon === null) return await desk.go(Object.keys(near).length > 0 ? restFor(face) : 0);
  desk.tell({ kind: 'face', view: faceView(face, soon, speech, { weighed: false, turn }) });
  return await desk.go(agrees(soon) ? 0 : restFor(face));
};

type Shown = Extract<Wish, { readonly face: unknown }>;

const turnOf = ({ turns }: Shown, face: string): number => (Object.hasOwn(turns, face) ? (turns[face] ?? 0) : 0);

const measure = async (
  job: Job,
  study: Study,
  speech: Speech,
  what: Shown,
  near: Places,
  desk: Desk,
): Promise<void> => {
  const face = job.faces.find((f) => f.name === what.face) ?? job.faces[0];
  if (face === undefined) return;
  const turn = turnOf(what, face.name);
  if (!(await drawnSoon(job, face, speech, { near, turn }, desk))) return;
  const located = settled(study, face);
  desk.tell({ kind: 'face', view: faceView(face, typeof located === 'string' ? null : located, speech, { turn }) });
  if (typeof located === 'string') desk.tell({ kind: 'refused', screen: 'measure', words: located });
  if (!(await desk.go())) return;
  desk.tell(planOf(job, face));
  for (const other of job.faces.filter((f) => f !== face)) {
    if (!(await desk.go())) return;
    const there = settled(study, other);
    desk.tell({
      kind: 'face',
      view: faceView(other, typeof there === 'string' ? null : there, speech, { turn: turnOf(what, other.name) }),
    });
  }
  if (typeof located === 'string' || located.undetermined.length > 0 || !(await desk.go())) return;
  const { next } = locateFace({ face, instruments: job.instruments }, { next: true });
  desk.tell({
    kind: 'improving',
    face: face.name,
    improving: next.map((n) => planItem(n.reading, n.instrument, face)),
  });
};

/** The study of the piece that is looked at; the job's own where its plate is of one. */
const pieceIn = (study: Study, { piece }: Shown): Study =>
  study.pieces()?.find((p) => p.name === piece)?.study ?? study;

const workedOut = async (job: Job, study: Study, speech: Speech, what: Shown, ask: Ask, desk: Desk): Promise<void> => {
  switch (what.screen) {
    case 'measure':
      await measure(job, study, speech, what, ask.near, desk);
      return;
    case 'understand':
      for (const face of [...job.faces].sort((a, b) => Number(b.name === what.face) - Number(a.name === what.face))) {
        desk.tell({
          kind: 'face',
          view: faceView(face, study.located(face), speech, { turn: turnOf(what, face.name) }),
        });
        desk.tell({ kind: 'layout', face: face.name, view: layoutView(study, face, speech, what.times) });
        if (!(await desk.go())) return;
      }
      return;
    case 'stack': {
      const view = stackView(study, speech);
      if (view !== null) desk.tell({ kind: 'stack', view });
      return;
    }
    case 'plate':
      desk.tell({ kind: 'plate', view: plateView(pieceIn(study, what), speech, what.piece !== null) });
      return;
    case 'make':
      desk.tell({ kind: 'make', view: makeView(pieceIn(study, what), speech) });
      return;
    case 'prove':
      desk.tell({ kind: 'prove', view: proveView(pieceIn(study, what), speech) });
      return;
  }
};

const partOf = (wish: PartWish): PartAnswers => ({
  name: nameOf(wish.name),
  middle: middleOf(wish.middle),
  fasteners: fastenersOf(wish.fasteners),
  clocks: clocksOf(wish.clocks),
});

/** Answers one question, piece by piece. Refusals in words are pieces too; what is thrown is a fault of ours. */
export const answerAsk = async (ask: Ask, desk: Desk): Promise<void> => {
  const { what } = ask;
  if (what.screen === 'schema') return desk.tell({ kind: 'schema', schema: jobSchema(), words: wordTree() });
  if (what.screen === 'look') return desk.tell({ kind: 'looked', view: lookView(what.kind, what.what) });
  if (what.screen === 'new') {
    const { job, units, caliper, parts } = what.starter;
    const [first, second] = [partOf(parts[0]), partOf(parts[1])];
    refuseSameName(first.name, second.name);
    const answers = { job, units, caliper: caliperOf(caliper, units), parts: [first, second] as const };
    return desk.tell({ kind: 'begun', text: starterJob(answers) });
  }
  if (what.screen === 'files') return await filesOf(ask, what, desk);
  const { job, part } = readAsk(ask);
  desk.tell(part);
  if (job === null || !(await desk.go())) return;
  await workedOut(job, studyIn(job, desk), speechFor(job.units), what, ask, desk);
};
