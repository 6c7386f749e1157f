import type { Report } from '@fayplate/core';
import { beforeAll, describe, expect, test } from 'vitest';
import { type PacketSection, type PrintedPacket, layTemplate, packetPdf, templateFor } from '../../src/index.js';
import { input } from '../jobs.js';
import { letters } from '../fonts.js';
import { options } from '../plates.js';
import { bare, read } from '../pdf/reader.js';

const rows = Array.from({ length: 130 }, (_, i) => [
  `‹${i + 1}›`,
  (i * 1.25).toFixed(2),
  i % 3 === 0 ? 'spot' : 'drill',
]);
const caution: Report[number] = { kind: 'caution', text: 'Clamp the plate before drilling.' };

const summary: Report = [
  { kind: 'verdict', ok: true, text: 'The plate goes on.' },
  caution,
  { kind: 'paragraph', text: 'All studs were found.' },
  { kind: 'list', items: ['Measure P3 again.', 'One more reading of P6.'] },
];
const table: Report = [
  caution,
  {
    kind: 'table',
    caption: 'Drilling coordinates',
    columns: [
      { title: 'Hole', align: 'left' },
      { title: 'x, mm', align: 'point' },
      { title: 'Operation', align: 'left' },
    ],
    rows,
  },
];

const sections = (): readonly PacketSection[] => {
  const template = templateFor(input, { what: 'drill', side: 'B' }, options);
  if ('ok' in template) throw new Error(template.faults.join());
  const laid = layTemplate(input.job.name, template, options, letters);
  if (!laid.ok) throw new Error(laid.faults.join());
  return [
    { title: 'Summary', items: [{ kind: 'report', report: summary }] },
    { title: 'Table', items: [{ kind: 'report', report: table }] },
    {
      title: 'Plate',
      items: [
        {
          kind: 'picture',
          picture: {
            title: 'Seen from side B',
            box: template.box,
            shapes: template.shapes,
            notes: ['Hidden edges are broken lines.'],
            scale: 1,
            capital: 3,
          },
        },
      ],
    },
    { title: 'Drilling template', items: [{ kind: 'pages', pages: laid.pages }] },
  ];
};

describe('the packet', () => {
  let packet: PrintedPacket;
  let found: Awaited<ReturnType<typeof read>>;
  beforeAll(async () => {
    const out = await packetPdf(sections(), {
      job: input.job.name,
      paper: 'A4',
      date: options.date,
      lettering: letters,
    });
    if (!out.ok) throw new Error(out.faults.join());
    packet = out;
    found = await read(out.bytes);
  });

  test('contents on the first page and in the outline point to where each section starts', async () => {
    expect(found.pages[0]?.text).toMatch(/HeronLaneliftpump2024-03-01Summary1Table2Plate\dDrillingtemplate\d/);
    expect(found.outline.map((o) => o.title)).toEqual(['Summary', 'Table', 'Plate', 'Drilling template']);
    for (const [i, entry] of packet.contents.entries()) {
      expect(await found.pageOf(found.outline[i]?.dest)).toBe(entry.page);
      expect(found.pages[0]?.text).toContain(bare(`${entry.title} ${entry.page}`));
      expect(found.pages[entry.page - 1]?.text).toContain(
        bare(entry.title === 'Drilling template' ? 'Key sheet' : entry.title),
      );
    }
  });

  test('every page is numbered, in words and in the reader', () => {
    const own = found.pages.filter((p) => /page\d+of/.test(p.text));
    expect(own.map((p) => /page(\d+)of(\d+)/.exec(p.text)?.slice(1).map(Number))).toEqual(
      own.map((_, i) => [i + 1, packet.pages]),
    );
    // Bound sheets carry the packet's number too.
    for (const [i, p] of found.pages.slice(own.length).entries()) expect(p.text).toContain(`page${own.length + i + 1}`);
    expect(found.labels).toEqual(found.pages.map((_, i) => String(i + 1)));
  });

  test('a long table loses no row, repeats its head on each page, and leaves no row alone', () => {
    const parts = found.pages
      .filter((p) => /‹\d/.test(p.text))
      .map((p) => [...p.text.matchAll(/‹(\d+)›/g)].map((m) => Number(m[1])));
    expect(parts.length).toBeGreaterThan(2);
    expect(parts.flat()).toEqual(rows.map((_, i) => i + 1));
    for (const part of parts) expect(part.length).toBeGreaterThan(1);
    for (const p of found.pages.filter((q) => /‹\d/.test(q.text))) expect(p.text).toMatch(/Holex,mmOperation/);
  });

  test('a caution stands once', () => {
    expect(
      found.pages
        .map((p) => p.text)
        .join(' ')
        .split(bare('Clamp the plate before drilling.')),
    ).toHaveLength(2);
  });

  test('templates keep their own paper and true scale, words theirs', async () => {
    const letter = await packetPdf(sections(), {
      job: input.job.name,
      paper: 'Letter',
      date: options.date,
      lettering: letters,
    });
    if (!letter.ok) throw new Error(letter.faults.join());
    const { pages } = await read(letter.bytes);
    expect(pages[0]?.view[2]).toBeCloseTo(612, 6);
    expect(pages.at(-1)?.view[2]).toBeCloseTo((210 * 72) / 25.4, 6);
  });

  test('nothing to say is refused', async () => {
    expect((await packetPdf([], { job: 'x', paper: 'A4', date: null, lettering: letters })).ok).toBe(false);
  });

  test('words that lead to another sheet say its page, on whichever page it comes to lie', async () => {
    const [, ...behind] = sections();
    const lead: Report = [{ kind: 'list', items: ['Ease H5 (see Holes of the plate).'] }];
    const all: readonly PacketSection[] = [
      { title: 'Summary', items: [{ kind: 'report', report: lead }] },
      ...behind,
      { title: 'Holes of the plate', items: [{ kind: 'report', report: [{ kind: 'paragraph', text: 'Here.' }] }] },
    ];
    const made = await packetPdf(all, { job: 'leads', paper: 'A4', date: null, lettering: letters });
    if (!made.ok) throw new Error(made.faults.join());
    const at = made.contents.find((c) => c.title === 'Holes of the plate')?.page ?? 0;
    expect(at).toBeGreaterThan(4);
    const { pages } = await read(made.bytes);
    expect(pages[0]?.text).toContain(bare(`Ease H5 (see Holes of the plate, page ${at}).`));
    expect(pages[at - 1]?.text).toContain(bare('Holes of the plate'));
  });
});
