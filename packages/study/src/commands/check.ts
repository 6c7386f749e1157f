import type { Report } from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import { type LocatedFace, fittedReport } from '@fayplate/survey';
import { clockWarnings } from '../clocks.js';
import type { Command } from '../command.js';
import { contradictionsOn, suspectsOn } from '../doubts.js';
import { locatedIn } from '../located.js';
import { studyFor } from '../study.js';
import { verdictJson, verdictSoFar, wholeJob } from '../verdict.js';

interface Lacking {
  readonly face: string;
  readonly readings: number;
  /** Features that the readings do not fix yet. */
  readonly undetermined: readonly string[];
  /** In plain words: what can still move. */
  readonly freedoms: readonly string[];
  /** Readings to take next, in the reading language, the most telling first. */
  readonly next: readonly string[];
}

const lackingOf = (face: Face, located: LocatedFace): Lacking => ({
  face: face.name,
  readings: face.readings.filter((r) => !r.aside).length,
  undetermined: located.undetermined,
  freedoms: located.freedoms,
  next: located.undetermined.length === 0 ? [] : located.next.map((n) => n.reading),
});

const sentence = (l: Lacking): string =>
  l.undetermined.length === 0
    ? `${l.face}: ${l.readings} readings fix every feature.`
    : `${l.face}: ${l.readings} readings; not fixed yet: ${l.undetermined.join(', ')}.`;

const sections = (job: Job): string =>
  (['stack', 'plate', 'machine', 'drilled'] as const)
    .map((s) => `${s} ${job[s] === null ? 'not yet' : 'there'}`)
    .join(', ');

const reportOf = (job: Job, lacking: readonly Lacking[], doubts: readonly string[]): Report => {
  const fixed = lacking.every((l) => l.undetermined.length === 0);
  const complete = fixed && doubts.length === 0;
  return [
    {
      kind: 'verdict',
      ok: complete,
      answer: complete ? 'yes' : 'not yet',
      text: complete
        ? `${job.name} reads without fault, and its readings fix every feature.`
        : fixed
          ? `${job.name} reads without fault, but its readings contradict each other.`
          : `${job.name} reads without fault, but readings are still missing.`,
    },
    { kind: 'list', items: lacking.map(sentence) },
    ...(doubts.length === 0
      ? []
      : [
          {
            kind: 'paragraph',
            text: 'But readings contradict each other; `locate` says by how much, and what may be wrong:',
          } as const,
          { kind: 'list', items: doubts } as const,
        ]),
    ...lacking.flatMap((l): Report =>
      l.freedoms.length === 0
        ? []
        : [
            { kind: 'paragraph', text: `On ${l.face}, what can still move:` },
            { kind: 'list', items: l.freedoms },
          ],
    ),
    ...lacking.flatMap((l): Report =>
      l.next.length === 0
        ? []
        : [
            { kind: 'paragraph', text: `Readings to take next on ${l.face}, the most telling first:` },
            { kind: 'list', items: l.next },
          ],
    ),
    { kind: 'paragraph', text: `Sections: ${sections(job)}.` },
  ];
};

/** Reads the file, reports all faults, says what each face still lacks. */
export const check: Command = async (task) => {
  const { job, options, speech, unlikely, warn, world } = task;
  const verdict = verdictSoFar(studyFor({ ...task, warn: () => undefined }));
  const { progress } = world;
  const shared = { setAside: options.setAside ?? [], ...(progress === undefined ? {} : { progress }) };
  const first = job.faces.map((face) => ({ face, located: locatedIn(job, face, { ...shared, warn }) }));
  const lacking = first.map(({ face, located }) =>
    lackingOf(face, located.undetermined.length === 0 ? located : locatedIn(job, face, { ...shared, next: true })),
  );
  const doubts = first.flatMap(({ face, located }) => contradictionsOn(face.name, located));
  return {
    // Readings that contradict each other are not settled, however many they fix.
    exit: lacking.every((l) => l.undetermined.length === 0) && doubts.length === 0 ? 0 : 1,
    json: {
      faces: Object.fromEntries(lacking.map(({ face, ...rest }) => [face, rest])),
      warnings: unlikely,
      clocks: first.flatMap(({ face, located }) => clockWarnings(face, located)),
      suspects: first.flatMap(({ face, located }) => suspectsOn(face.name, located)),
      verdict: verdictJson(verdict),
    },
    report: [...reportOf(job, lacking, doubts), ...wholeJob(verdict)],
    more: () => first.flatMap(({ face, located }) => fittedReport(face, located, speech)),
  };
};
