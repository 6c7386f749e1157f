import { type Report, sayAll } from '@fayplate/core';
import { type Face, type Job, fingerprintOf } from '@fayplate/job';
import { type LocatedFace, fittedReport } from '@fayplate/survey';
import { alreadyLocated, clockWarnings, locatedIn } from '../located.js';
import type { Command } from '../command.js';
import { arrangementsOn, contradictionsOn, suspectsOn } from '../doubts.js';
import { studyFor } from '../study.js';
import { verdictJson, wholeJob } from '../verdict-words.js';
import { verdictSoFar } from '../verdict.js';

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
    .map((s) => `${s} ${job[s] === null ? 'missing' : 'present'}`)
    .join(', ');

/** What is not settled of readings that fix every feature: what contradicts, and what else fits. */
interface Open {
  readonly contradictions: readonly string[];
  readonly arrangements: readonly string[];
}

const openWords = (job: Job, { contradictions, arrangements }: Open, fixed: boolean): string => {
  if (job.faces.length === 0) return 'no part is in it yet: each part that was measured goes under `faces`';
  const bare = job.faces.filter((f) => f.features.length === 0).map((f) => f.name);
  if (bare.length > 0) return `nothing is on ${sayAll(bare)} yet: its holes, studs and bores go under \`features\``;
  if (!fixed) return 'some features are not fixed yet';
  return [
    ...(contradictions.length === 0 ? [] : ['readings contradict each other']),
    ...(arrangements.length === 0 ? [] : ['the arrangement of the centres is not settled']),
  ].join(', and ');
};

const reasons = (text: string, items: readonly string[]): Report =>
  items.length === 0
    ? []
    : [
        { kind: 'paragraph', text },
        { kind: 'list', items },
      ];

/** Whether something is measured, the readings fix all of it, and none is in doubt. */
const isSettled = (job: Job, lacking: readonly Lacking[], open: Open): boolean =>
  job.faces.length > 0 &&
  job.faces.every((f) => f.features.length > 0) &&
  lacking.every((l) => l.undetermined.length === 0) &&
  open.contradictions.length + open.arrangements.length === 0;

const reportOf = (job: Job, lacking: readonly Lacking[], open: Open): Report => {
  const fixed = lacking.every((l) => l.undetermined.length === 0);
  const complete = isSettled(job, lacking, open);
  return [
    {
      kind: 'verdict',
      ok: complete,
      answer: complete ? 'yes' : 'not yet',
      text: complete
        ? `The file of ${job.name} has no faults, and its readings fix every feature.`
        : `The file of ${job.name} has no faults, but ${openWords(job, open, fixed)}.`,
    },
    ...(lacking.length === 0 ? [] : [{ kind: 'list' as const, items: lacking.map(sentence) }]),
    ...reasons(
      'Readings contradict each other; `locate` says by how much, and what may be wrong:',
      open.contradictions,
    ),
    ...reasons('The arrangement of the centres is not settled; `locate` says what would settle it:', open.arrangements),
    ...lacking.flatMap((l): Report =>
      l.freedoms.length === 0
        ? []
        : [
            { kind: 'paragraph', text: `What can still move on ${l.face}:` },
            { kind: 'list', items: l.freedoms },
          ],
    ),
    ...lacking.flatMap((l): Report =>
      l.next.length === 0
        ? []
        : [
            { kind: 'paragraph', text: `Readings to take next on ${l.face}, the best first:` },
            { kind: 'list', items: l.next },
          ],
    ),
    { kind: 'paragraph', text: `Sections: ${sections(job)}.` },
    { kind: 'paragraph', text: `Fingerprint: ${fingerprintOf(job)}, as it stands on every sheet and file.` },
  ];
};

/** Reads the file, reports all faults, says what each face still lacks. */
export const check: Command = async (task) => {
  const { job, options, speech, unlikely, warn, world } = task;
  const { progress } = world;
  const shared = { setAside: options.setAside ?? [], ...(progress === undefined ? {} : { progress }) };
  const first = job.faces.map((face) => ({
    face,
    located: locatedIn(job, face, { ...shared, warn, next: 'where loose' }),
  }));
  const verdict = verdictSoFar(studyFor(task, { located: alreadyLocated(first) }));
  const lacking = first.map(({ face, located }) => lackingOf(face, located));
  const open: Open = {
    contradictions: first.flatMap(({ face, located }) => contradictionsOn(face.name, located)),
    arrangements: first.flatMap(({ face, located }) => arrangementsOn(face.name, located)),
  };
  return {
    // Readings that contradict each other, or fit two arrangements, are not settled, however many features they fix.
    exit: isSettled(job, lacking, open) ? 0 : 1,
    json: {
      faces: Object.fromEntries(lacking.map(({ face, ...rest }) => [face, rest])),
      warnings: unlikely,
      clocks: first.flatMap(({ face, located }) => clockWarnings(face, located)),
      suspects: first.flatMap(({ face, located }) => suspectsOn(face.name, located)),
      verdict: verdictJson(verdict),
    },
    report: [...reportOf(job, lacking, open), ...wholeJob(verdict)],
    more: () => first.flatMap(({ face, located }) => fittedReport(face, located, speech)),
  };
};
