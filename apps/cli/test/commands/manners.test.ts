import { describe, expect, test } from 'vitest';
import type { Io } from '../../src/index.js';
import { onRoot as fayplate, pump as text } from '../support/pump.js';

const pump = 'examples/lift-pump/job.yaml';
const from = (job: string): Partial<Io> => ({ read: () => job });

describe('exit status', () => {
  test('0 for a sound answer', async () => expect((await fayplate(['locate', pump])).code).toBe(0));

  test('1 where the answer is no: a misread line is named', async () => {
    const wrong = text.replace(/over P1 P3 = [\d.]+/, 'over P1 P3 = 4.222');
    expect(wrong).not.toBe(text);
    const { code, out } = await fayplate(['locate', '-'], from(wrong));
    expect(code).toBe(1);
    expect(out).toContain('over P1 P3 = 4.222');
  });

  test('2 for a faulty input: line, caret, what was expected, the nearest name; nothing on standard output', async () => {
    const { code, out, err } = await fayplate(
      ['locate', '-'],
      from(text.replace('between P3 spigot', 'between P3 spigt')),
    );
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('spigt');
    expect(err).toContain('^');
    expect(err).toContain('spigot');
    expect(err).not.toMatch(/\bat .*\.(?:ts|js|mjs):\d+/);
  });

  test('2 for a file that is not there, a wrong option, an unknown command', async () => {
    for (const args of [
      ['locate', 'nowhere.yaml'],
      ['locate', pump, '--units', 'ft'],
      ['fly', pump],
      ['table', pump, '--horizontal', 'H1'],
    ]) {
      const { code, err } = await fayplate(args);
      expect([args[0], code]).toEqual([args[0], 2]);
      expect(err).not.toBe('');
    }
  });

  test('0 for help and version, which go to standard output', async () => {
    for (const args of [['--help'], ['-h'], ['help'], ['help', 'plate'], ['plate', '--help'], ['--version']]) {
      const { code, out, err } = await fayplate(args);
      expect([code, err]).toEqual([0, '']);
      expect(out).not.toBe('');
    }
  });
});

describe('words and documents', () => {
  test.each(['check', 'locate', 'layout', 'stack', 'plate', 'table', 'prove'])(
    '%s --json prints one document and nothing else',
    async (command) => {
      const { out, err } = await fayplate([command, pump, '--json']);
      const document = JSON.parse(out) as Record<string, unknown>;
      expect(document).toMatchObject({ fayplate: 1, job: 'Heron Lane lift pump', command });
      expect(err).toBe('');
    },
  );

  test('--units and --fractions change words, never the JSON', async () => {
    const [mm, inch] = await Promise.all([fayplate(['locate', pump, '--units', 'mm']), fayplate(['locate', pump])]);
    expect(mm?.out).toContain('X, mm');
    expect(inch?.out).toContain('X, in');
    const [a, b] = await Promise.all([
      fayplate(['locate', pump, '--units', 'mm', '--json']),
      fayplate(['locate', pump, '--json']),
    ]);
    expect(a?.out).toBe(b?.out);
    expect((await fayplate(['locate', pump, '--fractions', '16'])).out).toContain('3 3/4');
    // A thickness rounded to an eighth would not hold what is said of it.
    expect((await fayplate(['stack', pump, '--fractions', '8'])).out).toContain('Make the plate 0.724 in');
  });

  test('every command has help with an example', async () => {
    for (const command of [
      'new',
      'check',
      'locate',
      'layout',
      'stack',
      'plate',
      'table',
      'print',
      'printer',
      'prove',
      'packet',
      'look',
      'watch',
      'completions',
    ])
      expect((await fayplate([command, '--help'])).out).toMatch(/Examples?:/);
  });

  test('a reading set aside on the command line takes no part', async () => {
    const whole = JSON.parse((await fayplate(['locate', pump, '--json'])).out) as {
      faces: { pump: { fit: { dof: number } } };
    };
    const less = JSON.parse((await fayplate(['locate', pump, '--json', '--set-aside', 'pump:8'])).out) as typeof whole;
    expect(less.faces.pump.fit.dof).toBe(whole.faces.pump.fit.dof - 1);
  });
});

describe('a job is started', () => {
  const parts = ['--part', 'pump, spigot, studs, 12 2 4 9:30', '--part', 'motor, none, holes, 1:30 4:30 7:30'];

  test('and reads without fault, its readings still to be taken', async () => {
    const { code, files } = await fayplate(['new', 'job.yaml', ...parts]);
    expect(code).toBe(0);
    const written = String(files.get('job.yaml'));
    const { code: checked, err } = await fayplate(['check', '-', '--quiet'], from(written));
    expect([checked, err]).toEqual([1, '']);
    expect(written).toMatch(/# - \w+ \w+ \w+ = {2}by caliper/);
  });

  test('or says what it needs', async () => {
    expect((await fayplate(['new', 'job.yaml'])).err).toContain('--part twice');
    expect(
      (await fayplate(['new', 'job.yaml', '--part', 'pump, spigot, studs, 25', '--part', parts[3] ?? ''])).err,
    ).toContain('not a place on the clock');
    expect(
      (await fayplate(['new', 'job.yaml', '--part', 'pump spigot studs 12 2', '--part', parts[3] ?? ''])).err,
    ).toContain('commas between');
  });
});

describe('printers', () => {
  test('of names that file names cannot bear keep a file each, whatever their case', async () => {
    const kept = async (name: string) =>
      [...(await fayplate(['printer', name, '--wide', '149.4/150', '--high', '199.1/200'])).files.keys()][0] ?? '';
    const paths = await Promise.all(['shed', '水', '火', 'shed 1', 'shed-1', '../shed'].map(kept));
    expect(new Set(paths).size).toBe(paths.length);
    for (const path of paths) expect(path).toMatch(/^settings\/printers\/[a-z0-9-]+\.json$/);
    expect(await kept('SHED')).toBe(paths[0]);
    expect((await fayplate(['printer', ' ', '--wide', '149.4/150', '--high', '199.1/200'])).code).toBe(2);
  });

  test('a measured scale is kept and used; one that no printer has is refused with advice', async () => {
    const kept = await fayplate(['printer', 'shed', '--wide', '149.4/150', '--high', '199.1/200']);
    expect(kept.code).toBe(0);
    const [path, profile] = [...kept.files][0] ?? [];
    const { code, out } = await fayplate(['print', pump, '--printer', 'shed', '--json'], {
      read: (p) => (p === path ? String(profile) : text),
    });
    expect(code).toBe(0);
    expect((JSON.parse(out) as { scale: { wide: number } }).scale.wide).toBeCloseTo(149.4 / 150, 9);
    const scaled = await fayplate(['printer', 'shed', '--wide', '141/150', '--high', '199.1/200']);
    expect(scaled.code).toBe(2);
    expect(scaled.err).toContain('scaled the page');
    const turned = await fayplate(['printer', 'shed', '--wide', '150/149.4', '--high', '199.1/200']);
    expect([turned.code, turned.files.size]).toEqual([2, 0]);
    expect(turned.err).toContain('the measured length first: 149.4/150');
    expect((await fayplate(['print', pump, '--printer', 'nobody'])).code).toBe(2);
  });
});
