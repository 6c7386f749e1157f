import type { Report } from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { type CommonOptions, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';
import { suspectsOn } from '../suspects.js';
import type { AddCommand } from './command.js';

export interface Lacking {
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
  const complete = lacking.every((l) => l.undetermined.length === 0);
  return [
    {
      kind: 'verdict',
      ok: complete,
      text: complete
        ? `${job.name} reads without fault, and its readings fix every feature.`
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

export const check: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('check <job>'))
    .description('reads the file, reports all faults, says what each face still lacks')
    .addHelpText('after', '\nExamples:\n  fayplate check pump.yaml\n  cat pump.yaml | fayplate check -')
    .action(async (path: string, options: CommonOptions) => {
      done(
        await runJob('check', path, options, io, async ({ job, speech, warnings, warn, progress }) => {
          const [{ locatedIn }, { clockWarnings }, { contradictionsOn }, { fittedReport }] = await Promise.all([
            import('../located.js'),
            import('../clocks.js'),
            import('../contradictions.js'),
            import('@fayplate/survey'),
          ]);
          const setAside = options.setAside ?? [];
          const first = job.faces.map((face) => ({
            face,
            located: locatedIn(job, face, { setAside, warn, progress }),
          }));
          const lacking = first.map(({ face, located }) =>
            lackingOf(
              face,
              located.undetermined.length === 0 ? located : locatedIn(job, face, { setAside, next: true, progress }),
            ),
          );
          const doubts = first.flatMap(({ face, located }) => contradictionsOn(face.name, located));
          const suspects = first.flatMap(({ face, located }) => suspectsOn(face.name, located));
          return {
            code: lacking.every((l) => l.undetermined.length === 0) ? 0 : 1,
            json: {
              faces: Object.fromEntries(lacking.map(({ face, ...rest }) => [face, rest])),
              warnings,
              clocks: first.flatMap(({ face, located }) => clockWarnings(face, located)),
              suspects,
            },
            report: reportOf(job, lacking, doubts),
            more: () => first.flatMap(({ face, located }) => fittedReport(face, located, speech)),
          };
        }),
      );
    });
};
