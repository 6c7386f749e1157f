import { describe, expect, test } from 'vitest';
import { changed, onPump, pump } from '../support/pump.js';

const fasteners = 'kind: stud, thread: 3/8-16 UNC, diameter: 0.371 ± 0.002, clock: 3';

describe('legal but unlikely is said on standard error, and changes nothing else', () => {
  test.each([
    [
      'a clock 120° and more from where the readings put the stud',
      changed(`P4: { ${fasteners}`, `P4: { ${fasteners.replace('clock: 3', 'clock: 8')}`),
      /P4 is written at 8 o'clock, but its readings put it near 3/,
    ],
    [
      'a clock half an hour off is none of these',
      changed(`P4: { ${fasteners}`, `P4: { ${fasteners.replace('clock: 3', 'clock: "3:30"')}`),
      null,
    ],
    [
      'a ± finer than the instrument is read to',
      changed('caliper: ± 0.002 in', 'caliper: ± 0.0002 in'),
      /a ± of at least half of what caliper is read to/,
    ],
    [
      'a stud thicker than its thread',
      changed(/P4: (.*)0\.371 ±/, 'P4: $1 0.391 ±'),
      /a stud no thicker than its thread: 3\/8-16 UNC/,
    ],
    [
      'an instrument that nothing is read with',
      changed('protractor: ± 0.5 deg', 'protractor: ± 0.5 deg\n  tape: ± 1/16'),
      /some reading by tape/,
    ],
  ] as const)('%s', async (_, job, words) => {
    for (const command of ['check', 'locate', 'plate']) {
      const { err } = await onPump([command, 'job.yaml'], job);
      if (words === null) expect(err).toBe('');
      else expect(err).toMatch(words);
      if (words !== null) expect(err).toMatch(/^Warning: /);
      expect((await onPump([command, 'job.yaml', '--quiet'], job)).err).toBe('');
    }
  });

  test('a program is told of clocks too', async () => {
    const clocks = async (job: string): Promise<unknown> =>
      (JSON.parse((await onPump(['check', 'job.yaml', '--json'], job)).out) as { clocks: unknown }).clocks;
    expect(await clocks(pump)).toEqual([]);
    expect(await clocks(changed(`P4: { ${fasteners}`, `P4: { ${fasteners.replace('clock: 3', 'clock: 8')}`))).toEqual([
      expect.stringMatching(/^on pump, P4 is written at 8/),
    ]);
  });

  test('a wrong clock of the feature that says where 12 lies is not passed over', async () => {
    const { err } = await onPump(['locate', 'job.yaml'], changed('clock: 12, stands', 'clock: 4, stands'));
    expect(err).toMatch(/^Warning: on pump, /m);
  });

  test('fractions asked for where lengths are said in mm', async () => {
    expect((await onPump(['locate', 'job.yaml', '--units', 'mm', '--fractions', '16'])).err).toContain('--units in');
    expect((await onPump(['locate', 'job.yaml', '--fractions', '16'])).err).toBe('');
  });
});

describe('check says what each face lacks, and that readings contradict each other', () => {
  const misread = changed('over P1 P3 = 4.121', 'over P1 P3 = 4.221');

  test('in words and in JSON', async () => {
    const { out } = await onPump(['check', 'job.yaml'], misread);
    expect(out).toMatch(/Readings contradict each other; `locate` says[^]*- pump: .*does not agree with the rest/);
    const { suspects } = JSON.parse((await onPump(['check', 'job.yaml', '--json'], misread)).out) as {
      suspects: readonly { face: string }[];
    };
    expect(suspects.length).toBeGreaterThan(0);
    expect(suspects.every((s) => s.face === 'pump')).toBe(true);
  });

  test('and nothing of it where they do not', async () => {
    expect((await onPump(['check', 'job.yaml'])).out).not.toContain('contradict');
    expect(JSON.parse((await onPump(['check', 'job.yaml', '--json'])).out)).toMatchObject({ suspects: [] });
  });
});

describe('the proof of a drilled plate', () => {
  test('names the readings that do not fit to a program too', async () => {
    const places = (await onPump(['prove', 'job.yaml', '--json'])).out;
    const { take } = JSON.parse(places) as { take: { readings: readonly { reading: string; expect: number }[] } };
    const lines = take.readings.map(
      (r, i) =>
        `    - ${r.reading} = ${(r.expect + (i === take.readings.length - 1 ? 2.54 : 0)).toFixed(3)} mm ± 0.05 mm`,
    );
    const drilled = `${pump}\ndrilled:\n  viewed: from side B\n  readings:\n${lines.join('\n')}\n`;
    const { code, out } = await onPump(['prove', 'job.yaml', '--json'], drilled);
    expect(code).toBe(1);
    expect((JSON.parse(out) as { suspects: unknown }).suspects).toContainEqual({
      face: 'drilled',
      reading: String(lines.length),
    });
  });
});

test('a hole that the plate does not have is refused, not taken for one that is measured and missed', async () => {
  const drilled = (lines: string): string =>
    `${pump}\ndrilled:\n  viewed: from side B\n${lines}  readings:\n    - over H1 H22 = 5 in ± 0.002 in\n`;
  for (const command of [
    ['prove', 'job.yaml'],
    ['packet', 'job.yaml', '--out', 'out'],
  ]) {
    const { code, err, files } = await onPump(command, drilled(''));
    expect([code, files.size]).toEqual([2, 0]);
    expect(err).toMatch(
      /drilled reading 1, `over H1 H22 = 5 in ± 0\.002 in`: the plate has no H22; did you mean H2\. Its holes and bores are H1, /,
    );
  }
});

test('a stated layout that does not fit is told of in the units of the job', async () => {
  const { code, err } = await onPump(
    ['plate', 'job.yaml'],
    changed('    centre: spigot', '    layout: { circle: 9, divisions: 12 }\n    centre: spigot'),
  );
  expect(code).toBe(2);
  expect(err).toMatch(/would move \d\.\d{4} in against its ± 0\.\d{4}/);
});

test('what a print leaves off is said in the units of the job, or those asked for', async () => {
  expect((await onPump(['print', 'job.yaml'])).out).toMatch(/print itself may be off by \d\.\d{3} in\b/);
  expect((await onPump(['print', 'job.yaml', '--units', 'mm'])).out).toMatch(
    /print itself may be off by \d\.\d{2} mm\b/,
  );
});

describe('a reading set aside that is not there is refused, not passed over', () => {
  test.each([
    ['pump:99', 'no such reading'],
    ['99', 'no such reading'],
    ['pumpp:3', 'the faces are pump, motor'],
    ['pump:diametre P1', 'did you mean diameter P1?'],
  ])('%s', async (entry, words) => {
    const { code, out, err } = await onPump(['locate', 'job.yaml', '--set-aside', entry]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });

  test('one that is there is left out', async () => {
    for (const entry of ['pump:15', '15', 'pump:diameter P1'])
      expect((await onPump(['locate', 'job.yaml', '--set-aside', entry])).code).toBe(0);
  });
});

test('--verbose says how every reading fits, and every check', async () => {
  const plain = await onPump(['locate', 'job.yaml']);
  const more = await onPump(['locate', 'job.yaml', '--verbose']);
  expect(more.out.startsWith(plain.out.trimEnd())).toBe(true);
  const added = more.out.slice(plain.out.length);
  for (const [reading] of pump.matchAll(/(?<=- )(?:over|between|angle) [A-Za-z0-9 ]+(?= =)/g))
    expect(added).toContain(reading);
  expect(added).toMatch(/Fits at +Off by +± +w +Checked/);
  const holds = (text: string): number => text.match(/^holds/gm)?.length ?? 0;
  expect(holds((await onPump(['plate', 'job.yaml', '--verbose'])).out)).toBeGreaterThan(
    2 * holds((await onPump(['plate', 'job.yaml'])).out),
  );
  expect((await onPump(['locate', 'job.yaml', '--verbose', '--json'])).out).toBe(
    (await onPump(['locate', 'job.yaml', '--json'])).out,
  );
});
