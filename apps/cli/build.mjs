// One ESM bundle with its lazy parts (PDF, fonts) as chunks of their own, and the font files beside it.
import { copyFileSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { build } from 'esbuild';

const here = import.meta.dirname;
const out = join(here, 'bundle');
rmSync(out, { recursive: true, force: true });
await build({
  entryPoints: { fayplate: join(here, 'src/entry.ts') },
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  minify: true,
  legalComments: 'none',
  conditions: ['@fayplate/source'],
  outdir: out,
  outExtension: { '.js': '.mjs' },
  banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
  logLevel: 'warning',
});
const { jobSchema } = await import(join(here, '../../packages/job/dist/index.js'));
writeFileSync(join(out, 'job.schema.json'), `${JSON.stringify(jobSchema(), null, 2)}\n`);
const fonts = join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf');
mkdirSync(join(out, 'fonts'), { recursive: true });
for (const font of ['DejaVuSansCondensed.ttf', 'DejaVuSansCondensed-Bold.ttf']) copyFileSync(join(fonts, font), join(out, 'fonts', font));
