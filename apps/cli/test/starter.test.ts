import { formatClock } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { go } from './support/go.js';

/** The starter begun by typing `lines`, one a question; nothing typed after the last. */
const typed = async (lines: readonly string[]) => {
  const questions: string[] = [];
  const left = [...lines];
  const went = await go(
    ['new', 'job.yaml'],
    {},
    {
      interactive: true,
      ask: (question) => {
        questions.push(question);
        return Promise.resolve(left.shift() ?? null);
      },
    },
  );
  return { ...went, questions, text: String(went.files.get('job.yaml') ?? '') };
};

const checked = async (job: string) => await go(['check', 'job.yaml', '--json'], { 'job.yaml': job });
const read = (text: string) => {
  const job = readJob(text);
  if (!job.ok) throw new Error(job.faults[0]?.expected);
  return job.job;
};
const clocksOf = (text: string, face: string) =>
  read(text)
    .faces.find((f) => f.name === face)
    ?.features.flatMap((f) => (f.clock === null ? [] : [formatClock(f.clock)]));

describe('a job begun by answers on the terminal', () => {
  test('empty lines take what stands in brackets', async () => {
    const { code, text, questions } = await typed(Array.from({ length: 13 }, () => ''));
    expect(code).toBe(0);
    expect(questions.every((q) => /\[.+\] $/.test(q))).toBe(true);
    expect(read(text)).toMatchObject({ name: 'Adapter plate', units: 'in' });
    expect(text).toContain('\n  caliper: ± 0.002 in\n');
    // Of the machine that wrote it, nothing: the file goes to others.
    expect(text).not.toMatch(/file:|\$schema|\/(?:home|root|tmp|Users)\//);
    expect(clocksOf(text, 'pump')).toEqual(['12', '2', '4', '6', '8', '10']);
    expect(clocksOf(text, 'motor')).toEqual(['1:30', '4:30', '7:30', '10:30']);
    expect((await checked(text)).err).toBe('');
  });

  test('and a plate asked for too soon is told what to write, with the names of its own faces', async () => {
    const { text } = await typed(['', '', '', 'saw bench', ...Array.from({ length: 9 }, () => '')]);
    const { code, err } = await go(['plate', 'job.yaml'], { 'job.yaml': text });
    expect(code).toBe(2);
    expect(err).toContain('plate: { between: ["saw bench", motor], thickness: 3/4 }');
  });

  test('what is typed is what is written', async () => {
    const { code, text } = await typed([
      'Mill: "old" #1',
      'MM',
      '0.05',
      'mill',
      'none',
      'Hole',
      '3',
      '1 5 9',
      'wheel',
      'bore',
      'studs',
      '5',
      '',
    ]);
    expect(code).toBe(0);
    expect(read(text)).toMatchObject({ name: 'Mill: "old" #1', units: 'mm' });
    expect(text).toContain('\n  caliper: ± 0.05\n');
    expect(clocksOf(text, 'mill')).toEqual(['1', '5', '9']);
    // Five evenly, half a division from 12: every 2 h 24 min.
    expect(clocksOf(text, 'wheel')).toEqual(['1:12', '3:36', '6', '8:24', '10:48']);
    expect((await checked(text)).err).toBe('');
  });

  test('what cannot be understood is asked again, with what was expected', async () => {
    const { code, err, text } = await typed([
      '',
      'feet',
      'in',
      'good',
      '',
      '7 up!',
      'pump',
      'hat',
      'bore',
      'glue',
      'studs',
      'many',
      '0',
      '3',
      '12 4',
      '12 4 26',
      '12 4 8',
      'Pump',
      'motor',
      '',
      '',
      '',
      '',
    ]);
    expect(code).toBe(0);
    for (const words of [
      'in or mm',
      'is not the ± of a caliper',
      'cannot be a part',
      'spigot, bore or none',
      'studs or holes',
      'whole number from 1',
      '3 places are needed, and 2 are given',
      'not a place on the clock',
      'different names',
    ])
      expect(err).toContain(words);
    expect(clocksOf(text, 'pump')).toEqual(['12', '4', '8']);
  });

  test.each([
    ['inches', 'in'],
    ['Inch', 'in'],
    ['millimetres', 'mm'],
    ['mm', 'mm'],
  ])('a unit in full is understood: %s', async (said, units) => {
    expect(read((await typed(['', said, ...Array.from({ length: 12 }, () => '')])).text).units).toBe(units);
  });

  test('back asks the question before again, and what an answer draws is shown', async () => {
    const { code, err, text } = await typed([
      '',
      '',
      '',
      'pump',
      'bore',
      'Back',
      'spigot',
      'studs M10',
      '3',
      '12 4 8',
      'back',
      'half past nine, "2:30" 6.30',
      ...Array.from({ length: 5 }, () => ''),
    ]);
    expect(code).toBe(0);
    // P1 at half past nine stands left of the middle, P2 at half past two right of it, P3 below.
    const dial = err.split('\n').filter((line) => line.includes('P') || line.includes('+'));
    expect(dial.join('\n')).toMatch(/P1[^]*\+[^]*P3/);
    expect(clocksOf(text, 'pump')).toEqual(['9:30', '2:30', '6:30']);
    expect(text).toContain('spigot: { kind: spigot }');
    expect(text).toContain('P1: { kind: stud, clock: "9:30", thread: M10 }');
  });

  test('a part from behind, its x axis across two holes, and a rule beside the caliper', async () => {
    const { code, err, text } = await typed([
      '',
      'mm',
      '± 0.05 mm, rule ± 0.5 mm',
      'mill',
      'none',
      'holes',
      '4',
      '10:30 1:30 4:30 7:30, from behind, across 10:30 5',
      '10:30 1:30 4:30 7:30, from behind, across 10:30 1:30',
      ...Array.from({ length: 5 }, () => ''),
    ]);
    expect(code).toBe(0);
    expect(err).toContain('across names 5, where no fastener stands');
    expect(err).toContain('That is mill as you look at it from behind');
    expect(read(text).faces[0]).toMatchObject({ viewed: 'from behind', across: ['M1', 'M2'] });
    expect([...read(text).instruments.values()].find((i) => i.name === 'rule')).toMatchObject({ each: 0.5 });
  });

  test('Ctrl-C and Ctrl-D end it: nothing is written, and nobody is to blame', async () => {
    for (const answers of [[], ['x'], ['', '', '', 'pump', '']]) {
      const { code, err, files } = await typed(answers);
      expect([code, files.size]).toEqual([2, 0]);
      expect(err).toContain('nothing was written');
    }
  });
});

const parts = ['--part', 'pump, spigot, studs, 12 2 3 5 7', '--part', 'motor, none, holes, 1:30 4:30 7:30 10:30'];

describe('a job begun by flags', () => {
  test('seen from behind, across, threaded, with a rule beside the caliper', async () => {
    const { code, err, files } = await go(
      [
        'new',
        'job.yaml',
        '--units',
        'mm',
        '--instrument',
        'rule ± 0.5',
        '--part',
        'mill, none, holes M10, 10:30 1:30 4:30 7:30, from behind, across 7:30 4:30',
        '--part',
        "motor, spigot, studs M8, quarter past three, 7 o'clock, 11",
      ],
      {},
    );
    expect([code, err]).toEqual([0, '']);
    const text = String(files.get('job.yaml'));
    const [mill] = read(text).faces;
    expect(mill).toMatchObject({ viewed: 'from behind', across: ['M4', 'M3'], centre: null });
    expect(mill?.features.map((f) => f.thread)).not.toContain(null);
    expect(clocksOf(text, 'motor')).toEqual(['3:15', '7', '11']);
    expect(text).toContain('\n  rule: ± 0.5\n');
    expect(text).not.toContain('# rule');
    const stops = ['Enough to draw', 'Enough to cut metal'].map((words) => text.indexOf(words));
    expect(stops[0]).toBeGreaterThan(0);
    expect(stops[1]).toBeGreaterThan(stops[0] ?? 0);
  });

  test.each([
    ['across 2 6', /across names 2, where no fastener stands/],
    ['across 12', /2 places are needed/],
    ['half past', /not a place on the clock/],
  ])('%s is refused in words', async (more, words) => {
    const went = await go(
      ['new', 'job.yaml', '--part', `mill, none, holes, 12 6, ${more}`, '--part', parts[3] ?? ''],
      {},
    );
    expect(went.code).toBe(2);
    expect(went.err).toMatch(words);
  });

  test('to standard output, and nothing else there', async () => {
    const { code, out, files } = await go(['new', '-', ...parts], {});
    expect([code, out]).toEqual([0, '']);
    expect((await checked(String(files.get('-')))).code).toBe(1);
  });

  test.each([
    [['--caliper', 'good'], 'not the ± of a caliper'],
    [['--part', 'third, none, holes, 1 2 3'], '--part twice'],
  ])('refuses %j', async (more, words) => {
    const { code, err, files } = await go(['new', 'job.yaml', ...parts, ...more], {});
    expect([code, files.size]).toEqual([2, 0]);
    expect(err).toContain(words);
  });

  test('parts whose names begin alike, and names that YAML would take for something else', async () => {
    const { files } = await go(
      ['new', 'job.yaml', '--part', 'no, none, studs, 12 4 8', '--part', 'Nest, bore, holes, 1 5 9'],
      {},
    );
    const { err, out } = await checked(String(files.get('job.yaml')));
    expect(err).toBe('');
    expect(Object.keys((JSON.parse(out) as { faces: object }).faces)).toEqual(['no', 'Nest']);
  });
});

test('check tells what is still missing as the readings come in, in the order of the file', async () => {
  const { files } = await go(
    [
      'new',
      'job.yaml',
      '--part',
      'pump, spigot, studs, 12 2 3 5 7',
      '--part',
      'motor, none, holes, 1:30 4:30 7:30 10:30',
      '--units',
      'mm',
    ],
    {},
  );
  let job = String(files.get('job.yaml'));
  // A pump and a motor of our own making: radii and centres, mm, y up.
  const at = (radius: number, clock: number) =>
    [radius * Math.sin((clock * Math.PI) / 6), radius * Math.cos((clock * Math.PI) / 6)] as const;
  const true_: Readonly<Record<string, readonly [x: number, y: number, r: number]>> = {
    spigot: [0, 0, 60],
    ...Object.fromEntries([12, 2, 3, 5, 7].map((c, i) => [`P${i + 1}`, [...at(90, c), 5]])),
    ...Object.fromEntries([1.5, 4.5, 7.5, 10.5].map((c, i) => [`M${i + 1}`, [...at(70, c), 6]])),
  };
  const measured = (kind: string, a: string, b: string | undefined): number => {
    const [ax, ay, ar] = true_[a] ?? [0, 0, 0];
    const [bx, by, br] = true_[b ?? a] ?? [0, 0, 0];
    const apart = Math.hypot(ax - bx, ay - by);
    return kind === 'dia' ? 2 * ar : kind === 'over' ? apart + ar + br : apart - ar - br;
  };
  const missing = async (): Promise<number> => {
    const { out, err } = await checked(job);
    expect(err).toBe('');
    return Object.values(
      (JSON.parse(out) as { faces: Record<string, { undetermined: readonly string[] }> }).faces,
    ).reduce((n, f) => n + f.undetermined.length, 0);
  };
  const counts = [await missing()];
  const lines = [...job.matchAll(/^ {6}# - (\w+) (\w+)(?: (\w+))? = {2}by caliper$/gm)];
  expect(lines.length).toBeGreaterThan(20);
  for (const [line, kind = '', a = '', b] of lines) {
    job = job.replace(
      line,
      `      - ${kind} ${a}${b === undefined ? '' : ` ${b}`} = ${measured(kind, a, b).toFixed(2)} by caliper`,
    );
    counts.push(await missing());
  }
  expect(counts[0]).toBe(9);
  expect(counts.at(-1)).toBe(0);
  // Never does a reading leave more to be done, and the last lines of each face are to check the others.
  for (const [i, n] of counts.entries()) expect(n).toBeLessThanOrEqual(counts[i - 1] ?? n);
  const { code, out } = await go(['check', 'job.yaml'], { 'job.yaml': job });
  expect([code, out.slice(0, 4)]).toEqual([0, 'Yes:']);
});
