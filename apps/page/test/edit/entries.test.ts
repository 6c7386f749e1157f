import { describe, expect, test } from 'vitest';
import { changed } from '../../src/edit/change.js';
import { addItem, clearAt, countAt, renameAt, writtenAt } from '../../src/edit/entries.js';
import { setAt } from '../../src/edit/set.js';

const job = `plate:
  between: [pump, motor]   # first lies on side A
  cuts:
    drain: { hole: 8 mm, why: drain }   # low side
    # remark of the next
    knob:
      pocket: 22
machine:
  drills:
    - 5 mm   # old one
    - 8 mm
`;

const after = (change: ReturnType<typeof addItem>): string => {
  if (change === null) throw new Error('no change');
  return changed(job, change);
};

describe('entries and lists of a job file', () => {
  test('an item goes to the end of its list, in brackets or one a line, and remarks stay', () => {
    expect(after(addItem(job, ['plate', 'between'], 'gear'))).toContain(
      'between: [pump, motor, gear]   # first lies on side A\n',
    );
    expect(after(addItem(job, ['machine', 'drills'], '10 mm'))).toContain(
      '    - 5 mm   # old one\n    - 8 mm\n    - 10 mm\n',
    );
    expect(after(addItem(job, ['machine', 'punches'], '3/8'))).toContain('  punches: [3/8]\n');
  });

  test('an entry gets another name, but not one that is taken', () => {
    expect(after(renameAt(job, ['plate', 'cuts', 'drain'], 'oil way'))).toContain(
      '    oil way: { hole: 8 mm, why: drain }   # low side\n',
    );
    expect(renameAt(job, ['plate', 'cuts', 'drain'], 'knob')).toBeNull();
    expect(renameAt(job, ['plate', 'cuts', 'none'], 'some')).toBeNull();
  });

  test('the last value taken out of an entry leaves its name; out of a section, nothing', () => {
    const knob = ['plate', 'cuts', 'knob'];
    const bare = after(clearAt(job, [...knob, 'pocket'], knob));
    expect(writtenAt(bare, knob)).toBe('section');
    expect(countAt(bare, knob)).toBe(0);
    expect(changed(bare, setAt(bare, [...knob, 'hole'], '9') ?? { from: 0, to: 0, insert: '' })).toContain(
      '{ hole: 9 }',
    );
    expect(after(clearAt(job, ['machine', 'drills'], null))).not.toContain('machine');
    // One of several goes alone.
    expect(after(clearAt(job, ['plate', 'cuts', 'drain', 'why'], ['plate', 'cuts', 'drain']))).toContain(
      'drain: { hole: 8 mm }   # low side',
    );
  });

  test('what stands at a place is told apart', () => {
    expect(['between', 'cuts', 'none'].map((key) => writtenAt(job, ['plate', key]))).toEqual(['list', 'section', null]);
    expect(writtenAt(job, ['plate', 'cuts', 'drain', 'hole'])).toBe('text');
  });
});
