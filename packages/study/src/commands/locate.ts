import { type Block, sayAll } from '@fayplate/core';
import { recognise, recognitionJson, recognitionReport } from '@fayplate/layout';
import {
  type FittedReading,
  type LocatedFace,
  fittedReport,
  isSound,
  locateJson,
  locateReport,
} from '@fayplate/survey';
import type { Command } from '../command.js';
import { alreadyLocated, locatedIn } from '../located.js';
import { pictureFiles } from '../pictures.js';
import { studyFor } from '../study.js';
import { verdictJson, wholeJob } from '../verdict-words.js';
import { verdictSoFar } from '../verdict.js';

/** A reading that nothing else checks: a misreading of it would not show. `take`: a reading that would. */
interface Unchecked {
  readonly reading: string;
  readonly text: string;
  readonly take: string;
}

/** Below this share of a reading is checked by the others: none of it. */
const NONE = 1e-6;
/** More than this many are named alone. */
const FEW = 6;

/** The same distance from the other side of what is measured: a slip of one does not happen to both. */
const beside: Readonly<Record<string, string>> = { over: 'between', between: 'over', wall: 'over', centres: 'over' };

const checking = (r: FittedReading): string => {
  const [kind = '', a = '', b = ''] = r.text.trim().split(/\s+/);
  const other = beside[kind];
  if (other !== undefined && b !== '') return `\`${other} ${a} ${b}\``;
  return kind === 'dia'
    ? `\`${r.text.split('=')[0]?.trim() ?? ''}\` once more, a quarter turn on`
    : 'it once more, set up afresh';
};

/** Readings of a face that nothing else checks, in their order; stated diameters and zero errors are not listed. */
const uncheckedOn = (located: LocatedFace): readonly Unchecked[] =>
  located.readings
    .filter((r) => r.kind !== 'diameter' && r.kind !== 'zero' && r.redundancy < NONE)
    .map((r) => ({ reading: r.id, text: r.text, take: checking(r) }));

/** A reading as its line says it, without its value: `at P1`, which is one line for both of its lengths. */
const lineOf = (u: Unchecked): string => (u.text.split('=')[0] ?? u.text).trim();

const uncheckedBlocks = (face: string, all: readonly Unchecked[]): readonly Block[] => {
  if (all.length === 0) return [];
  const lines = [...new Map(all.map((u) => [u.text, u])).values()];
  const one = lines.length === 1;
  const names = sayAll(lines.map((u) => `\`${lineOf(u)}\``));
  const misreading = `a misreading ${one ? 'there' : 'of one of them'} would not show`;
  const head = `On ${face} nothing checks ${names}: ${misreading}.`;
  return [
    { kind: 'paragraph', text: lines.length > FEW ? `${head} Any distance across would check several.` : head },
    ...(lines.length > FEW
      ? []
      : [{ kind: 'list' as const, items: lines.map((u) => `\`${u.text.trim()}\`: take ${u.take}.`) }]),
  ];
};

/** Each face's own document with the standard that it may be, as `standard`. */
const withStandards = ({ faces }: ReturnType<typeof locateJson>, found: readonly ReturnType<typeof recognise>[]) => ({
  faces: Object.fromEntries(
    Object.entries(faces).map(([name, face]) => [
      name,
      { ...face, standard: recognitionJson(found.find((f) => f?.name === name) ?? null) },
    ]),
  ),
});

/** Readings → centres with their ±; suspect readings; what to measure next. */
export const locate: Command = async (task) => {
  const { job, options, speech, warn, world } = task;
  const { progress } = world;
  const choices = {
    setAside: options.setAside ?? [],
    next: true,
    warn,
    ...(progress === undefined ? {} : { progress }),
  };
  const faces = job.faces.map((face) => ({ face, located: locatedIn(job, face, choices) }));
  const verdict = verdictSoFar(studyFor(task, { located: alreadyLocated(faces) }));
  const found = faces.map(({ face, located }) => recognise(face, located));
  return {
    exit: faces.every(({ located }) => isSound(located)) ? 0 : 1,
    json: {
      ...withStandards(locateJson(faces.map((f) => f.located)), found),
      unchecked: Object.fromEntries(faces.map(({ face, located }) => [face.name, uncheckedOn(located)])),
      verdict: verdictJson(verdict),
    },
    report: [
      ...faces.flatMap(({ face, located }, i) => [
        ...locateReport(face, located, speech),
        ...uncheckedBlocks(face.name, uncheckedOn(located)),
        ...recognitionReport(found[i] ?? null, speech),
      ]),
      ...wholeJob(verdict),
    ],
    more: () => faces.flatMap(({ face, located }) => fittedReport(face, located, speech)),
    files: await pictureFiles(task, (draw, letters) =>
      faces.map(({ face, located }) => ({
        name: face.name,
        drawing: draw.facePicture(face, located, speech, letters),
      })),
    ),
  };
};
