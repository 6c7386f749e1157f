import { describe, expect, test } from 'vitest';
import { wantsColour, widthOf } from '../../src/terminal/table.js';
import { onPump } from '../support/pump.js';

const tooWide = (text: string, columns: number): readonly string[] =>
  text.split('\n').filter((line) => widthOf(line) > columns);

describe('the width of the terminal is kept', () => {
  test.each(['check', 'locate', 'layout', 'stack', 'plate', 'table', 'prove'])('%s', async (command) => {
    for (const columns of [40, 60, 80, 100, 120, 140])
      expect(tooWide((await onPump([command, 'job.yaml'], undefined, { columns })).out, columns)).toEqual([]);
    // Words give way, figures never: every figure of the wide answer stands in the narrow one.
    const figures = (text: string): readonly string[] => (text.match(/-?\d+\.\d{3,}/g) ?? []).toSorted();
    expect(figures((await onPump([command, 'job.yaml'], undefined, { columns: 40 })).out)).toEqual(
      figures((await onPump([command, 'job.yaml'], undefined, { columns: 140 })).out),
    );
  });

  test('help, but for the lines to be copied', async () => {
    for (const command of ['', 'locate', 'plate', 'table', 'print', 'printer', 'packet', 'look'])
      expect(
        tooWide(
          (
            await onPump(
              [command, '--help'].filter((w) => w !== ''),
              undefined,
              { columns: 80 },
            )
          ).out,
          80,
        ).filter((l) => !l.startsWith('  fayplate')),
      ).toEqual([]);
  });

  test('a line that is too wide is seen', () => expect(tooWide('x'.repeat(81), 80)).toHaveLength(1));
});

describe('colour', () => {
  test('only on a terminal that has some, and never against NO_COLOR', () => {
    expect(wantsColour(true, { TERM: 'xterm-256color' })).toBe(true);
    expect(wantsColour(true, { NO_COLOR: '' })).toBe(true);
    for (const [onTerminal, env] of [
      [false, {}],
      [true, { NO_COLOR: '1' }],
      [true, { NO_COLOR: '0' }],
      [true, { TERM: 'dumb' }],
    ] as const)
      expect(wantsColour(onTerminal, env)).toBe(false);
  });

  test('only where it is asked for, and the words are the same', async () => {
    const plain = await onPump(['plate', 'job.yaml']);
    const painted = await onPump(['plate', 'job.yaml'], undefined, { colour: true });
    expect(plain.out).not.toContain('\u001b');
    expect(painted.out).toContain('\u001b[1;32m');
    // eslint-disable-next-line no-control-regex
    expect(painted.out.replaceAll(/\u001b\[[\d;]*m/g, '')).toBe(plain.out);
  });
});
