// One bundle in chunks: what a command does not need is not read. The font files, the schema and the page lie beside it.
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { build, transform } from 'esbuild';
import { cutFonts } from '../print/fonts.mjs';

const here = import.meta.dirname;
const out = join(here, 'bundle');
const target = 'node20.19';
/** Where a package lies that another room of the workspace asks for. */
const packageFolder = (name, room) =>
  dirname(createRequire(join(here, room, 'package.json')).resolve(`${name}/package.json`));
rmSync(out, { recursive: true, force: true });
await build({
  entryPoints: { fayplate: join(here, 'src/entry.ts'), press: join(here, 'src/press/entry.ts') },
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target,
  minify: true,
  legalComments: 'none',
  conditions: ['@fayplate/source'],
  define: { 'import.meta.dirname': '__dirname', 'import.meta.url': '__filename' },
  // The streams of a PDF are compressed by fflate before pdf-lib sees them, and letters are drawn as outlines: its own compressor and the
  // metrics of its standard fonts, which it unpacks with that as it is loaded, are never asked for.
  // And commander starts other programs only for commands kept as files of their own; there are none, and the module is slow to load.
  // And yaml's build for Node asks the environment at every word whether it should print it; its other build is the same without.
  // Of pdf-lib the modules are read, which load sooner than its CommonJS.
  alias: {
    pako: join(here, 'stand-ins/none.cjs'),
    '@pdf-lib/standard-fonts': join(here, 'stand-ins/standard-fonts.cjs'),
    'node:child_process': join(here, 'stand-ins/none.cjs'),
    yaml: join(packageFolder('yaml', '../../packages/job'), 'browser/index.js'),
    'pdf-lib': join(packageFolder('pdf-lib', '../print'), 'es/index.js'),
  },
  outdir: out,
  logLevel: 'warning',
});
// Only esbuild's ESM output comes in chunks, and only CommonJS can be loaded with its machine code kept (bin/load.js): so one after the other.
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
copyFileSync(join(here, '../page/bundle/page.html'), join(out, 'page.html'));
const { status, stderr } = spawnSync(process.execPath, [join(here, 'warm.cjs')], {
  encoding: 'utf8',
  stdio: ['ignore', 'ignore', 'pipe'],
});
if (status !== 0)
  console.warn(`The bundle works but starts slower than it could; its machine code was not kept:\n${stderr}`);
