import { describe, expect, test } from 'vitest';
import { readJob } from '@fayplate/job';
import {
  type JobCommand,
  type Options,
  Refusal,
  answer,
  formats,
  isOurs,
  refusalWords,
  studyOf,
} from '../src/index.js';
import { bareWorld, example, world } from './support.js';

const pump = example('lift-pump');
const all: readonly JobCommand[] = ['check', 'locate', 'layout', 'stack', 'plate', 'table', 'print', 'prove', 'packet'];
const quick: Options = { trials: 100 };
const headOf = (content: string | Uint8Array): string =>
  Buffer.from(content as Uint8Array)
    .subarray(0, 65_536)
    .toString('latin1');

describe('one answer for every app', () => {
  test.each(all)('%s says it to a person and to a program, under one name', async (command) => {
    const found = await answer(pump, command, quick, world);
    expect([found.exit, found.error, found.faults, found.thrown]).toEqual([0, null, [], undefined]);
    expect(found.report.length).toBeGreaterThan(0);
    expect(found.json).toMatchObject({ fayplate: 1, job: found.job, command });
    expect(found.job).toBe('Heron Lane lift pump');
  });

  test.each(all.filter((c) => c !== 'print' && c !== 'packet'))('%s needs nothing from outside', async (command) => {
    expect((await answer(pump, command, quick, bareWorld)).exit).toBe(0);
  });

  test.each(['locate', 'layout', 'stack', 'plate', 'table'] as const)(
    '%s draws where a picture is named',
    async (c) => {
      const { files } = await answer(pump, c, { ...quick, picture: 'out.svg' }, world);
      expect(files.length).toBeGreaterThan(0);
      for (const { name, content } of files) {
        expect(name).toMatch(/^out(?:-[a-z0-9-]+)?\.svg$/);
        expect(String(content)).toMatch(/^<svg /);
      }
    },
  );

  test('where no plate can be drawn, a page says the same verdict as the command line', async () => {
    const saw = example('barn-saw');
    const [verdict] = (await answer(saw, 'plate', quick, bareWorld)).report;
    const read = readJob(saw);
    let thrown: unknown = null;
    try {
      if (read.ok) studyOf(read.job).plate();
    } catch (error) {
      thrown = error;
    }
    if (!(thrown instanceof Refusal) || verdict?.kind !== 'verdict') throw new Error('a plate was drawn');
    expect(refusalWords(thrown)).toBe(`Not yet: ${verdict.text}`);
    expect(refusalWords(new Refusal('no such face'))).toBe('no such face');
  });

  test('faults of the file come with their line, and nothing else is worked out', async () => {
    const found = await answer(pump.replace('- over ', '- ovr '), 'locate', {}, bareWorld);
    expect([found.exit, found.job, found.error, found.report]).toEqual([2, null, null, []]);
    expect(found.faults[0]?.line).toBe(pump.slice(0, pump.indexOf('- over ')).split('\n').length);
    expect(found.json).toMatchObject({ command: 'locate', faults: found.faults });
  });

  test('a refusal is said in words', async () => {
    const found = await answer(pump, 'locate', { setAside: ['pump:99'] }, bareWorld);
    expect(found).toMatchObject({ exit: 2, faults: [], files: [], error: expect.stringContaining('no such reading') });
    expect(found.thrown).toBeUndefined();
  });

  test('a fault of ours is no refusal, and is handed on whole', async () => {
    const found = await answer(pump, 'packet', quick, bareWorld);
    expect(found).toMatchObject({ exit: 3, error: 'no press', files: [] });
    expect(found.thrown).toBeInstanceOf(Error);
  });

  test('what hides behind no name of a command is no command', async () => {
    for (const name of ['constructor', 'toString', 'nothing'])
      expect((await answer(pump, name as JobCommand, {}, bareWorld)).exit).toBe(3);
  });
});

describe('a test piece', () => {
  const piece = async (options: Options) =>
    await answer(pump, 'print', { ...quick, what: 'test-piece', ...options }, world);
  test('is a drawing and a solid, or the one whose ending is asked for', async () => {
    expect((await piece({})).files.map((f) => f.name)).toEqual([
      'heron-lane-lift-pump-test-piece.svg',
      'heron-lane-lift-pump-test-piece.3mf',
    ]);
    expect((await piece({ out: 'try.svg' })).files.map((f) => f.name)).toEqual(['try.svg']);
    const { json, files } = await piece({ out: 'try.3mf', thick: '4 mm' });
    expect(files.map((f) => f.name)).toEqual(['try.3mf']);
    expect(json).toMatchObject({ thickness: 4, kerf: 0, side: 'B' });
  });
  test.each([
    [{ out: 'try.pdf' }, '.svg or .3mf'],
    [{ kerf: 'wide' }, '--kerf takes'],
    [{ thick: '0' }, '--thick takes'],
    [{ kerf: '30 mm' }, 'narrower than the burn'],
    [{ out: '-' }, 'two files'],
    [{ what: 'drill', kerf: '0.2 mm' }, 'add --what test-piece'],
  ] as const)('%j is refused in words', async (options, says) => {
    expect(await piece(options)).toMatchObject({ exit: 2, files: [], error: expect.stringContaining(says) });
  });
});

describe('an exploded view', () => {
  test('is a page or a picture, and says at what scale and what of it is not measured', async () => {
    const page = await answer(pump, 'print', { ...quick, what: 'exploded', paper: 'Letter' }, world);
    expect(page.files.map((f) => f.name)).toEqual(['heron-lane-lift-pump-exploded.pdf']);
    expect(page.json).toMatchObject({ what: 'exploded', scale: 0.25, paper: 'Letter', pages: 1 });
    const drawn = await answer(pump, 'print', { ...quick, what: 'exploded', svg: true }, world);
    expect(drawn.files.map((f) => f.name)).toEqual(['heron-lane-lift-pump-exploded.svg']);
    const words = drawn.report.flatMap((b) => (b.kind === 'list' ? b.items : [])).join(' ');
    expect(words).toMatch(/shows its side B.*only to show the place: the rim of pump/);
  });
});

describe('the outline as a program', () => {
  const withCutter = (cutter: string): string =>
    pump.replace('room: 18 }', `room: 18, outline: { cutter: ${cutter} } }`);
  test('is one more file, run last', async () => {
    const found = await answer(withCutter('3/8'), 'table', { ...quick, cnc: true, out: 'a.cnc' }, world);
    expect(found.files.at(-1)).toMatchObject({ name: expect.stringMatching(/^a-side-[ab]-outline\.cnc$/) });
    expect(found.warnings).toEqual([]);
  });
});

describe('formats', () => {
  test('each file of a packet and each test piece is known as ours by the format of its ending, and by no other', async () => {
    const packet = await answer(pump, 'packet', quick, world);
    const piece = await answer(pump, 'print', { ...quick, what: 'test-piece' }, world);
    const files = [...packet.files, ...piece.files];
    const endings = new Set(files.map((f) => f.name.slice(f.name.lastIndexOf('.') + 1)));
    expect([...endings].sort()).toEqual(formats.map((f) => f.extension).sort());
    for (const { name, content } of files) {
      const known = formats.filter((f) => f.isOurs(headOf(content))).map((f) => f.extension);
      expect([name, known]).toEqual([name, [name.slice(name.lastIndexOf('.') + 1)]]);
    }
  });

  test('a job file is never ours to replace, nor what somebody else wrote', () => {
    for (const text of [
      pump,
      '',
      'notes',
      '<svg xmlns="http://www.w3.org/2000/svg"/>',
      '%PDF-1.7\n',
      'ISO-10303-21;\n',
    ])
      expect([text.slice(0, 20), isOurs(text)]).toEqual([text.slice(0, 20), false]);
  });
});
