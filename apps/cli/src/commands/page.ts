import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Refusal } from '@fayplate/study';
import { WriteRefused } from '../files/write.js';
import { readText, told } from '../run-job.js';
import type { AddCommand } from '../options.js';

interface Options {
  readonly out: string;
  readonly force?: boolean;
}

/** The page lies beside the bundle; run from the sources it is where its own room builds it. */
const pageText = (): string => {
  const places = [join(import.meta.dirname, 'page.html'), join(import.meta.dirname, '../../../page/bundle/page.html')];
  const found = places.find((p) => existsSync(p));
  if (found === undefined) throw new Refusal('the page has not been built; run npm run demo once, which builds all');
  return readFileSync(found, 'utf8');
};

const EMPTY = '<script type="application/json" id="job">""</script>';

/** The page with a job in it. As JSON without `<`: nothing in a job ends the element that holds it. */
const pageWith = (page: string, job: string): string =>
  page.replace(EMPTY, () => EMPTY.replace('""', () => JSON.stringify(job).replaceAll('<', '\\u003c')));

export const page: AddCommand = (program, io, done) => {
  program
    .command('page [job]')
    .description('the whole tool as one HTML file that opens in a browser, with the job in it')
    .requiredOption('--out <file.html>', 'the file to write')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText('after', '\nExamples:\n  fayplate page --out fayplate.html\n  fayplate page pump.yaml --out pump.html')
    .action((path: string | undefined, options: Options) => {
      try {
        const job = path === undefined ? '' : readText(io, path);
        io.write([{ path: options.out, content: pageWith(pageText(), job) }], options.force === true);
        if (options.out !== '-') io.out(`Saved: ${told(options.out)}. Open it in a browser: it needs no network.\n`);
        done(0);
      } catch (error) {
        if (!(error instanceof Refusal || error instanceof WriteRefused)) throw error;
        io.err(`fayplate page: ${told(error.message)}\n`);
        done(2);
      }
    });
};
