import { describe, expect, test } from 'vitest';
import { widthOf } from '../../src/terminal/columns.js';
import { onPump } from '../commands/support.js';

const tooWide = (text: string, columns: number): readonly string[] => text.split('\n').filter((line) => widthOf(line) > columns);

describe('the width of the terminal is kept', () => {
  test.each(['check', 'locate', 'layout', 'stack', 'plate', 'table', 'prove'])('%s', async (command) => {
    for (const columns of [80, 100, 140]) expect(tooWide((await onPump([command, 'job.yaml'], undefined, { columns })).out, columns)).toEqual([]);
    // Figures never give way, words do: the narrowest telephone still shows three tables in four whole.
    expect((await onPump([command, 'job.yaml'], undefined, { columns: 60 })).out).not.toBe((await onPump([command, 'job.yaml'], undefined, { columns: 100 })).out);
  });

  test('help, but for the lines to be copied', async () => {
    for (const command of ['', 'locate', 'plate', 'table', 'print', 'printer', 'packet', 'look'])
      expect(tooWide((await onPump([command, '--help'].filter((w) => w !== ''), undefined, { columns: 80 })).out, 80).filter((l) => !l.startsWith('  fayplate'))).toEqual([]);
  });

  test('a line that is too wide is seen', () => expect(tooWide('x'.repeat(81), 80)).toHaveLength(1));
});

describe('colour', () => {
  test('only where it is asked for, and the words are the same', async () => {
    const plain = await onPump(['plate', 'job.yaml']);
    const painted = await onPump(['plate', 'job.yaml'], undefined, { colour: true });
    expect(plain.out).not.toContain('\u001b');
    expect(painted.out).toContain('\u001b[1;32m');
    // eslint-disable-next-line no-control-regex
    expect(painted.out.replaceAll(/\u001b\[[\d;]*m/g, '')).toBe(plain.out);
  });
});
