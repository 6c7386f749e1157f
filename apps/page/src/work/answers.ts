import { type Speech, speechFor } from '@fayplate/core';
import { type Face, type Job, jobSchema } from '@fayplate/job';
import {
  type PartAnswers,
  answer,
  caliperOf,
  clocksOf,
  fastenersOf,
  middleOf,
  nameOf,
  refuseSameName,
  starterJob,
  studyOf,
} from '@fayplate/study';
import type { JobCommand, Options, Study } from '@fayplate/study';
import { type LocatedFace, agrees, locateFace, planReadings } from '@fayplate/survey';
import { zipSync } from 'fflate';
import type { Ask, MadeFile, Part, PartWish, Places, Wish } from './protocol.js';
import { readAsk } from './read.js';
import { faceView, planItem, spareFor } from './views/face.js';
import { layoutView } from './views/layout.js';
import { lookView } from './views/look.js';
import { makeView } from './views/make.js';
import { plateView } from './views/plate.js';
import { proveView } from './views/prove.js';
import { stackView } from './views/stack.js';
import { wordTree } from './views/words.js';
import { locatedSoon } from './soon.js';
import { worldOf } from './world.js';

/** How one question is answered: pieces are handed out as they come; `go` is false once something newer waits. */
export interface Desk {
  readonly tell: (part: Part) => void;
  /** Whether nothing newer waits, after a pause of so many ms in which something newer may come. */
  readonly go: (pause?: number) => Promise<boolean>;
  readonly progress: (what: string) => (done: number, of: number) => void;
}

/**
 * Faces that were located last, by all that goes into it: a reading typed on one face leaves the others as they are.
 */
const kept = new Map<string, LocatedFace>();
const KEPT = 24;

const keyOf = (job: Job, face: Face): string =>
  JSON.stringify([face, [...job.instruments]], (_, v: unknown) => (v instanceof Map ? [...v] : v));

/** A study that takes a face as located before where nothing of it has changed. */
const studyIn = (job: Job, desk: Desk): Study => {
  const search = desk.progress('where the centres are');
  const before = studyOf(job, { progress: search });
  return studyOf(job, {
    trials: 5000,
    progress: desk.progress('the odds that it goes on'),
    located: (face) => {
      const key = keyOf(job, face);
      const known = kept.get(key);
      if (known !== undefined) return known;
      const located = before.located(face);
      if (kept.size >= KEPT) kept.delete(kept.keys().next().value ?? '');
      kept.set(key, located);
      return located;
    },
  });
};

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
        return ['over', 'between', 'step', 'wall'].includes(kind)
          ? [...ids.filter((id) => !sized.has(id)).map((id) => `dia ${id}`), head]
          : [head];
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

const bytesOf = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;

/** Files as one .zip, each as it was made; dated by no day, so that the same job gives the same bytes. */
const zipOf = (files: readonly MadeFile[]): Uint8Array =>
  zipSync(
    Object.fromEntries(
      files.map((f) => [f.name, [f.bytes, { level: f.name.endsWith('.pdf') ? 0 : 6, mtime: new Date(1980, 0, 1) }]]),
    ),
  );

type Asked = Extract<Wish, { readonly which: unknown }>;

const nameFor = (which: string, svg: boolean): string =>
  // A test piece is two files of one stem.
  which === 'test-piece' ? which : `${which}.${svg ? 'svg' : 'pdf'}`;

/** The command that answers a wish, and its options. */
const commandFor = ({ which, how, piece }: Asked): readonly [JobCommand, Options] => {
  const { earlier, full, way, ...printed } = how;
  const ofPiece = piece === null ? {} : { piece };
  switch (which) {
    case 'packet':
      return ['packet', { out: 'packet', ...(full === true ? { full } : {}) }];
    case 'prove':
      return ['prove', { out: 'rest', ...(way === undefined ? {} : { way }), ...ofPiece }];
    case 'buy-sheet':
      return ['print', { what: 'buy', out: 'buy.pdf' }];
    case 'buy':
    case 'trial':
      return [which, {}];
    case 'compare':
      return ['compare', earlier === undefined ? {} : { earlier }];
    default:
      return ['print', { what: which, out: nameFor(which, printed.svg === true), ...printed, ...ofPiece }];
  }
};

/** What an option of the command line is called in the page. */
const boxes: readonly (readonly [string, string])[] = [
  ['--kerf', 'the width of the laser’s burn'],
  ['--thick', 'the thickness'],
  ['--way', 'the way to go on'],
];
const inBoxes = (words: string): string => {
  const said = boxes.reduce((text, [option, box]) => text.replaceAll(option, box), words);
  return said.slice(0, 1).toUpperCase() + said.slice(1);
};

/** The files of a packet, the same bytes that the command line writes. */
const filesOf = async (ask: Ask, asked: Asked, desk: Desk): Promise<void> => {
  const { which } = asked;
  const [command, options] = commandFor(asked);
  const found = await answer(ask.text, command, options, worldOf(ask.lists, desk.progress('the packet')));
  if (found.error !== null || found.faults.length > 0)
    desk.tell({ kind: 'refused', screen: 'files', words: inBoxes(found.error ?? 'The job file has faults.') });
  else {
    const files = found.files.map((f) => ({ name: f.name, says: f.says, bytes: bytesOf(f.content) }));
    desk.tell({
      kind: 'files',
      which,
      report: found.report,
      files,
      zip: which === 'packet' || which === 'prove' || files.length > 1 ? zipOf(files) : null,
      sound: found.exit === 0,
      warnings: found.warnings,
    });
  }
};

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
