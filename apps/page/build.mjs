// The whole tool in one HTML file: script, worker, letters and style inside it, and a policy that forbids every
// request.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { build } from 'esbuild';
import { letterRanges, packOutlines } from '../../packages/drawing/dist/index.js';
import { define, evenJstat, inject } from '../print/even.mjs';
import { cutFonts } from '../print/fonts.mjs';
import { licencesIn, licencesText } from '../print/licences.mjs';

const here = import.meta.dirname;
const out = join(here, 'bundle');
const room = (name) => createRequire(join(here, name, 'package.json'));
const fonts = await cutFonts(letterRanges);

/**
 * The letters of the fonts as outlines, deflated, under the names by which the worker imports them: no library that
 * reads fonts stands in the page.
 */
const letters = {
  name: 'letters',
  setup: ({ onResolve, onLoad }) => {
    const files = { regular: 'DejaVuSansCondensed.ttf', bold: 'DejaVuSansCondensed-Bold.ttf' };
    onResolve({ filter: /^fayplate:/ }, ({ path }) => ({ path, namespace: 'letters' }));
    onLoad({ filter: /.*/, namespace: 'letters' }, ({ path }) => ({
      contents: deflateRawSync(packOutlines(Uint8Array.from(fonts.get(files[path.replace('fayplate:', '')])).buffer), {
        level: 9,
      }),
      loader: 'binary',
    }));
  },
};

const bundled = async (entry, format) => {
  const { outputFiles, metafile } = await build({
    entryPoints: [join(here, entry)],
    bundle: true,
    write: false,
    metafile: true,
    absWorkingDir: here,
    format,
    platform: 'browser',
    target: ['chrome109', 'firefox115', 'safari16.4'],
    minify: true,
    legalComments: 'none',
    charset: 'ascii',
    conditions: ['@fayplate/source'],
    jsx: 'automatic',
    jsxImportSource: 'preact',
    define: { 'process.env.NODE_ENV': '"production"', ...define },
    inject,
    alias: {
      '@pdf-lib/standard-fonts': join(here, 'stand-ins/standard-fonts.mjs'),
      '@pdf-lib/upng': join(here, 'stand-ins/upng.mjs'),
      pako: join(here, 'stand-ins/pako.mjs'),
      'pdf-lib': join(dirname(room('../print').resolve('pdf-lib/package.json')), 'es/index.js'),
    },
    plugins: [letters, evenJstat],
    logLevel: 'warning',
  });
  return { text: outputFiles[0].text, metafile };
};

/**
 * Script that cannot end the element that holds it, in ASCII alone: a browser holds such a text in half the memory, and
 * holds the worker's four times. What esbuild leaves as it is stands in expressions, where an escape means the same.
 */
const inElement = (script) =>
  script.replaceAll(/<(\/script|!--)/gi, '\\x3C$1').replaceAll(/[^\0-\x7f]/gu, (c) => {
    if (c.length > 1) throw new Error(`the script has ${c}, which takes more than one escape`);
    return `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
  });

const [main, worker] = [await bundled('src/main.tsx', 'iife'), await bundled('src/work/worker.ts', 'iife')];
const script = inElement(main.text);
const style = readFileSync(join(here, 'src/style.css'), 'utf8')
  .replaceAll(/\/\*[^*]*\*\//g, '')
  .replaceAll(/\n\s*/g, '\n');
const hash = createHash('sha256').update(script).digest('base64');
const policy = [
  "default-src 'none'",
  `script-src 'sha256-${hash}'`,
  'worker-src blob:',
  "style-src 'unsafe-inline'",
  'img-src data: blob:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
// The page is passed on by itself, so the terms of what it holds stand in it.
const licences = licencesText(
  licencesIn([
    [main.metafile, here],
    [worker.metafile, here],
  ]),
).replaceAll('--', '- -');
const page = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="Fayplate">
<meta name="color-scheme" content="light dark">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Fayplate</title>
<style>${style}</style>
</head>
<body>
<div id="page"><noscript>This page needs its script: open it in a browser that runs scripts from a local file.</noscript></div>
<script type="application/json" id="job">""</script>
<script type="text/plain" id="worker">${inElement(worker.text)}</script>
<script>${script}</script>
</body>
</html>
<!--
${licences}
-->
`;
mkdirSync(out, { recursive: true });
writeFileSync(join(out, 'page.html'), page);
writeFileSync(join(out, 'meta.json'), JSON.stringify({ main: main.metafile, worker: worker.metafile }));
