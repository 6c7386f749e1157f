import { type CommonOptions, withCommonOptions } from '../options.js';
import { refuseUnknownHoles } from '../plate-names.js';
import { runJob } from '../run-job.js';
import { suspectsOn } from '../suspects.js';
import type { AddCommand } from './command.js';

export const prove: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('prove <job>'))
    .description('as-drilled readings against the plate: does it go on, and by how much')
    .addHelpText(
      'after',
      '\nExample:\n  fayplate prove pump.yaml\n\nWithout a `drilled:` section it says which readings to take.',
    )
    .action(async (path: string, options: CommonOptions) => {
      done(
        await runJob('prove', path, options, io, async ({ job, speech, warn, progress }) => {
          const [{ fittedWords, platedFaces, studyOf }, { doubtsOf }, { prove: proveDrilled, proveJson, proveReport }] =
            await Promise.all([import('../study.js'), import('../doubts.js'), import('@fayplate/machining')]);
          const study = studyOf(job, { setAside: options.setAside ?? [], warn, progress });
          const { plate, mated } = study.plate();
          refuseUnknownHoles(job, plate);
          const doubts = doubtsOf(study);
          const proof = proveDrilled(job, plate, mated);
          return {
            code: proof.ok === false || !doubts.ok ? 1 : 0,
            json: { ...proveJson(proof), suspects: [...doubts.suspects, ...suspectsOn('drilled', proof.located)] },
            report: [...doubts.report, ...proveReport(proof, speech)],
            more: fittedWords(study, platedFaces(job), speech),
          };
        }),
      );
    });
};
