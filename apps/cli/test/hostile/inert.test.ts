import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Went, go } from '../support/go.js';
import { wrongWith } from './world.js';

const example = readFileSync(join(import.meta.dirname, '../../../../examples/lift-pump/job.yaml'), 'utf8');

/** Texts that do harm where they are taken for something else than text. */
const jobNames: readonly string[] = [
  '../../../etc/passwd C:\\Windows\\con %s ${x} $(x) `x` {{x}}',
  '=HYPERLINK("http://a.example",1)',
  '"><svg onload=alert(1)><script>alert(1)</script><!-- ]]> --> &lt;',
  "'); ENDSEC; END-ISO-10303-21; #1=X('",
  'M30) G0 Z-99 (% \r\nN1 G0 Z-99\r\n%',
  '\u001b[2J\u001b]0;x\u0007 \u009b31m \u0000 a\u202Egpj\u2066 \u200b\ufeff',
  '(שלום عربي 水 😀👩‍🔧) Tj ET endstream endobj /JavaScript (x)',
  'x'.repeat(60),
];

/** As YAML: everything that is not plain ASCII by its code. */
const quoted = (text: string): string =>
  JSON.stringify(text).replace(/[^\x20-\x7e]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);

const hostile = (name: string): string =>
  example
    .replace('job: Heron Lane lift pump', `job: ${quoted(name)}`)
    .replace(
      '- over P4 P10 = 7.873 by caliper        # straight across',
      `- ${quoted(`over P4 P10 = 7.873 by caliper # ${name}`)}`,
    )
    .replace(
      'print: { paper: A4, margin: 8 mm, overlap: 10 mm }',
      `print: { paper: A4, printer: ${quoted(name.slice(0, 60))} }`,
    )
    .replaceAll('motor', 'שנאי')
    .replaceAll('pump', '水泵')
    .replaceAll(/\bP(\d+)\b/g, 'Ё$1')
    .replaceAll('caliper', 'κλίμαξ');

/** The printer's profile is there, so that the templates are made. */
const profileOf = (name: string): string =>
  JSON.stringify({
    profile: {
      name: name.slice(0, 60),
      wide: 1.001,
      high: 0.999,
      skew: 0,
      plusMinus: { wide: 0.001, high: 0.001, skew: null },
      date: '2026-01-31',
      paper: 'A4',
    },
  });
const packet = async (name: string): Promise<Went> =>
  await go(
    ['packet', 'job.yaml', '--out', 'out'],
    { 'job.yaml': hostile(name) },
    {
      read: (path) => {
        if (path === 'job.yaml') return hostile(name);
        expect(path).toMatch(/^settings\/printers\/[a-z0-9_-]+\.json$/);
        return profileOf(name);
      },
    },
  );

const tags = /<(?!\/?(?:svg|title|desc|g|path|metadata|defs|clipPath|rect|text)[\s/>])(?!!--)(?!\?xml )[^>]{0,60}/;
const svgWrong = (svg: string): string | null =>
  tags.exec(svg)?.[0] ?? /\son\w+\s*=|<!ENTITY|javascript:|(?:xlink:)?href\s*=/i.exec(svg)?.[0] ?? null;

const pageTags =
  /<(?!\/?(?:html|head|meta|title|style|body|header|nav|ul|li|a|main|metadata|section|h[1-6]|p|div|table|caption|thead|tbody|tr|th|td|strong|label|input|span|figure|figcaption|footer|svg|g|path|text|desc)[\s/>])(?!!doctype)(?!!--)[^>]{0,60}/i;
/**
 * The page without the one script that its own policy names by hash: the same on every page, whatever the job is
 * called.
 */
const withoutOwn = (html: string): string => {
  const [, named] = /script-src '(sha256-[^']+)'/.exec(html) ?? [];
  return html.replace(/<script>([\s\S]*?)<\/script>/, (whole, script: string) =>
    named === `sha256-${createHash('sha256').update(script).digest('base64')}` ? '' : whole,
  );
};
const htmlWrong = (page: string): string | null => {
  const html = withoutOwn(page);
  return (
    pageTags.exec(html)?.[0] ??
    /<[^>]*\son\w+\s*=[^>]*/i.exec(html)?.[0] ??
    /\b(?:href|src)="(?!#)[^"]*"/.exec(html)?.[0] ??
    null
  );
};

const cells = (csv: string): readonly string[] =>
  [...csv.matchAll(/(?:^|,|\r\n)(?:"((?:[^"]|"")*)"|([^,\r\n]*))/g)].map(
    (m) => m[1]?.replaceAll('""', '"') ?? m[2] ?? '',
  );
const csvWrong = (csv: string): string | null =>
  cells(csv).find((c) => /^\s*[=+\-@\t\r]/.test(c) && !/^-\d+(?:\.\d+)?$/.test(c)) ?? null;

const block = /^(?:%|%?\d*|:?\d+|(?:\/?N\d+ ?)?(?:[GMXYZIJRQPFSTDHLOK]-?\d*\.?\d* ?)*)$/;
const cncWrong = (program: string): string | null =>
  program
    .split(/\r?\n/)
    .find((line) => !/^[\x20-\x7e]*$/.test(line) || !block.test(line.replaceAll(/\([^()]*\)/g, '').trim())) ?? null;

const stepWrong = (step: string): string | null => {
  const bare = step.replaceAll(/'(?:[^']|'')*'/g, "''");
  if (!/^[\x20-\x7e\r\n]*$/.test(step)) return 'not plain ASCII';
  return bare.split('ENDSEC;').length === 3 && bare.split('END-ISO-10303-21;').length === 2
    ? null
    : 'sections do not close as they open';
};

/** The file with every compressed stream opened. */
const opened = (pdf: Uint8Array): string => {
  const raw = Buffer.from(pdf).toString('latin1');
  return raw.replaceAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g, (whole, body: string) => {
    try {
      return inflateSync(Buffer.from(body, 'latin1')).toString('latin1');
    } catch {
      return whole;
    }
  });
};
const pdfWrong = (pdf: Uint8Array): string | null =>
  /\/(?:JavaScript|JS|AA|OpenAction|URI|Launch|EmbeddedFile|SubmitForm|GoToR)\b/.exec(opened(pdf))?.[0] ?? null;

const text = (content: string | Uint8Array | undefined): string => String(content ?? '');

describe.each(jobNames.map((name) => [JSON.stringify(name).slice(0, 40), name] as const))(
  'a job called %s',
  (_, name) => {
    let went: Went;
    beforeAll(async () => {
      went = await packet(name);
    });

    test('goes to a packet, inside its folder, and steers no terminal', () => {
      expect(went.err).not.toContain('nothing was worked out');
      expect(wrongWith(went, 'out')).toEqual([]);
      expect([0, 1]).toContain(went.code);
    });

    test('comes out as nothing but text in every file', () => {
      const wrong = [...went.files].map(([path, content]) => {
        if (path.endsWith('.svg')) return svgWrong(text(content));
        if (path.endsWith('.html')) return htmlWrong(text(content));
        if (path.endsWith('.csv')) return csvWrong(text(content));
        if (path.endsWith('.cnc')) return cncWrong(text(content));
        if (path.endsWith('.step')) return stepWrong(text(content));
        if (path.endsWith('.pdf')) return content instanceof Uint8Array ? pdfWrong(content) : 'not bytes';
        return path.endsWith('.json') && typeof JSON.parse(text(content)) === 'object'
          ? null
          : `a file of another kind: ${path}`;
      });
      expect(wrong.filter((w) => w !== null)).toEqual([]);
      expect(new Set([...went.files.keys()].map((path) => path.slice(path.lastIndexOf('.'))))).toEqual(
        new Set(['.pdf', '.html', '.svg', '.csv', '.cnc', '.step', '.json']),
      );
    });
  },
);

test('what is not inert is seen', () => {
  expect(svgWrong('<svg><script>1</script></svg>')).not.toBeNull();
  expect(svgWrong('<svg onload="x"></svg>')).not.toBeNull();
  expect(htmlWrong('<p><img src=x onerror=y></p>')).not.toBeNull();
  expect(htmlWrong('<a href="http://a.example">x</a>')).not.toBeNull();
  expect(htmlWrong('<meta content="script-src \'sha256-AAAA\'"><script>1</script>')).not.toBeNull();
  expect(csvWrong('a,b\r\n1,=1+1\r\n')).toBe('=1+1');
  expect(csvWrong('a,"@SUM(A1)"\r\n')).toBe('@SUM(A1)');
  expect(cncWrong('(a) G0 Z1 X)')).not.toBeNull();
  expect(cncWrong('N10 (waiting) HELLO')).not.toBeNull();
  expect(stepWrong("DATA;#1=X('');ENDSEC;DATA;ENDSEC;ENDSEC;END-ISO-10303-21;")).not.toBeNull();
  expect(pdfWrong(Buffer.from('1 0 obj<</OpenAction 2 0 R>>'))).toBe('/OpenAction');
});

test('faces whose names leave nothing for a file name keep a file each', async () => {
  const { files } = await packet('names');
  expect([...files.keys()].filter((path) => path.startsWith('out/face'))).toEqual(['out/face.svg', 'out/face-2.svg']);
});
