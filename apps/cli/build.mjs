// One bundle in chunks: what a command does not need is not read. The font files, the schema, the page and everyone's
// licences lie beside it.
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, transform } from 'esbuild';
import { define, evenJstat, inject } from '../print/even.mjs';
import { cutFonts } from '../print/fonts.mjs';
import { licencesIn, licencesText } from '../print/licences.mjs';

const here = import.meta.dirname;
const out = join(here, 'bundle');
const target = 'node20.19';
rmSync(out, { recursive: true, force: true });
const { metafile } = await build({
  entryPoints: { fayplate: join(here, 'src/entry.ts'), press: join(here, 'src/press/entry.ts') },
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target,
  minify: true,
  legalComments: 'none',
  conditions: ['@fayplate/source'],
  inject,
  plugins: [evenJstat],
  define: { ...define, 'import.meta.dirname': '__dirname', 'import.meta.url': '__filename' },
  outdir: out,
  metafile: true,
  absWorkingDir: here,
  logLevel: 'warning',
});
// Only esbuild's ESM output comes in chunks, and only CommonJS can be loaded with its machine code kept (bin/load.js):
// so one after the other.
for (const name of readdirSync(out)) {
  const path = join(out, name);
  const { code } = await transform(readFileSync(path, 'utf8'), {
    format: 'cjs',
    platform: 'node',
    target,
    minify: true,
    supported: { 'dynamic-import': false },
  });
  writeFileSync(path, code);
}
writeFileSync(join(out, 'package.json'), '{ "type": "commonjs" }\n');
const { jobSchema } = await import(join(here, '../../packages/job/dist/index.js'));
writeFileSync(join(out, 'job.schema.json'), `${JSON.stringify(jobSchema(), null, 2)}\n`);
mkdirSync(join(out, 'fonts'), { recursive: true });
const { letterRanges } = await import(join(here, '../../packages/drawing/dist/index.js'));
for (const [font, bytes] of await cutFonts(letterRanges)) writeFileSync(join(out, 'fonts', font), bytes);
const page = join(here, '../page');
copyFileSync(join(page, 'bundle/page.html'), join(out, 'page.html'));
const { main, worker } = JSON.parse(readFileSync(join(page, 'bundle/meta.json'), 'utf8'));
const licences = licencesIn([
  [metafile, here],
  [main, page],
  [worker, page],
]);
writeFileSync(join(out, 'LICENCES.txt'), licencesText(licences));
writeFileSync(
  join(out, 'licences.json'),
  JSON.stringify(licences.map(({ terms, ...l }) => ({ ...l, letters: terms.length }))),
);
const { status, stderr } = spawnSync(process.execPath, [join(here, 'warm.cjs')], {
  encoding: 'utf8',
  stdio: ['ignore', 'ignore', 'pipe'],
});
if (status !== 0)
  console.warn(`The bundle works but starts slower than it could; its machine code was not kept:\n${stderr}`);
