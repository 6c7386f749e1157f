// The terms of everything that a build puts into one file, read from the packages themselves: they go wherever the
// build goes.
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';

const inPackage = /^(.*node_modules\/((?:@[^/]+\/)?[^/]+))\//;

/**
 * The folders of the packages of which something stands in what esbuild wrote, by their names. Paths count from `base`.
 */
const foldersOf = (metafile, base) =>
  Object.values(metafile.outputs).flatMap(({ inputs }) =>
    Object.entries(inputs).flatMap(([path, { bytesInOutput }]) => {
      const [, folder, name] = inPackage.exec(path) ?? [];
      return folder === undefined || bytesInOutput === 0 ? [] : [[name, resolve(base, folder)]];
    }),
  );

/** The words of the MIT licence (SPDX), which go with a package that names it and has no file of it. */
const mit = `Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated documentation files (the "Software"), to deal
in the Software without restriction, including without limitation the rights to use, copy, modify, merge, publish, distribute, sublicense, and/or sell
copies of the Software, and to permit persons to whom the Software is furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY,
FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER
LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN
THE SOFTWARE.`;

/** Terms as the package prints them; where it prints none, its manifest's word and where it comes from. */
const termsOf = (folder, { license, homepage, author }) => {
  const file = readdirSync(folder).find((f) => /^(?:licen[cs]e|copying)/i.test(f));
  if (file !== undefined) return readFileSync(join(folder, file), 'utf8').replaceAll('\r', '').trim();
  const by = typeof author === 'string' ? author : (author?.name ?? '');
  const from = [by, homepage].filter(Boolean).join(', ');
  const said = `${license} (the package has no file of its terms). ${from}`;
  return license === 'MIT' ? `${said}\n\n${mit}` : said;
};

/**
 * Every package in these builds, with its licence and terms; the fonts with them. `builds`: esbuild's metafile and the
 * folder it was run in.
 */
export const licencesIn = (builds) => {
  const fonts = dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json'));
  const folders = new Map([
    ...builds.flatMap(([metafile, base]) => foldersOf(metafile, base)),
    ['dejavu-fonts-ttf', fonts],
  ]);
  return [...folders]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, folder]) => {
      const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
      const licence = manifest.license ?? manifest.licenses?.[0]?.type ?? 'see its terms';
      return { name, version: manifest.version, licence, terms: termsOf(folder, manifest) };
    });
};

const grouped = (licences) => {
  const groups = new Map();
  for (const l of licences) groups.set(l.terms, [...(groups.get(l.terms) ?? []), l]);
  return groups;
};

/** As one text: each package with its terms, those of the same words once. */
export const licencesText = (licences) => {
  const parts = [...grouped(licences)].map(
    ([terms, of]) => `${of.map((l) => `${l.name} ${l.version} (${l.licence})`).join('\n')}\n\n${terms}\n`,
  );
  return `Fayplate holds code and letters of others, under these terms.\n\n${parts.join(`\n${'-'.repeat(80)}\n\n`)}`;
};
