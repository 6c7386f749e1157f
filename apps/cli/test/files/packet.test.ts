import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isOurs } from '@fayplate/study';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { MANIFEST, packetPlan } from '../../src/files/packet.js';
import { writeWhole } from '../../src/files/write.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fayplate-packet-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const program = (n: number): string => `%\n(FAYPLATE ${n})\n`;
const write = (files: Readonly<Record<string, string>>) => {
  const plan = packetPlan(
    folder,
    Object.entries(files).map(([name, content]) => ({ name, content })),
    isOurs,
  );
  writeWhole(plan.files, { force: false, isOurs });
  return plan;
};
const text = (name: string): string => readFileSync(join(folder, name), 'utf8');

describe('a packet over an older one', () => {
  test('takes away what it no longer has, and says so', () => {
    write({ 'side-a.cnc': program(1), 'side-b.cnc': program(1) });
    const { removed, kept } = write({ 'side-a.cnc': program(2) });
    expect([removed, kept]).toEqual([['side-b.cnc'], []]);
    expect(readdirSync(folder).sort()).toEqual([MANIFEST, 'side-a.cnc']);
    expect(text('side-a.cnc')).toBe(program(2));
  });

  test('keeps beside what somebody changed since, and never under a name that is taken', () => {
    write({ 'side-a.cnc': program(1), 'side-b.cnc': program(1) });
    const [a, b] = [`${program(1)}(mine)`, `${program(1)}(mine too)`];
    writeFileSync(join(folder, 'side-a.cnc'), a);
    writeFileSync(join(folder, 'side-b.cnc'), b);
    writeFileSync(join(folder, 'side-a-changed.cnc'), 'older');
    const { removed, kept } = write({ 'side-a.cnc': program(2) });
    expect(removed).toEqual([]);
    expect(kept).toEqual([
      { name: 'side-a.cnc', as: 'side-a-changed-2.cnc' },
      { name: 'side-b.cnc', as: 'side-b-changed.cnc' },
    ]);
    expect(['side-a.cnc', 'side-a-changed.cnc', 'side-a-changed-2.cnc', 'side-b-changed.cnc'].map(text)).toEqual([
      program(2),
      'older',
      a,
      b,
    ]);
    expect(existsSync(join(folder, 'side-b.cnc'))).toBe(false);
    // What is kept is the person's: the next packet leaves it.
    expect(write({ 'side-a.cnc': program(3) })).toMatchObject({ removed: [], kept: [] });
    expect(text('side-a-changed-2.cnc')).toBe(a);
  });

  test('a change to what it would write anyway is none', () => {
    write({ 'side-a.cnc': program(1) });
    writeFileSync(join(folder, 'side-a.cnc'), program(2));
    expect(write({ 'side-a.cnc': program(2) }).kept).toEqual([]);
  });

  test('what stands on no list stays, and a list that lies takes nothing away that Fayplate did not write', () => {
    write({ 'side-a.cnc': program(1) });
    writeFileSync(join(folder, 'notes.txt'), 'mine');
    writeFileSync(join(folder, 'other.cnc'), program(7));
    const list = JSON.parse(text(MANIFEST)) as { files: { name: string; sha256: string }[] };
    const [one] = list.files;
    if (one === undefined) throw new Error('nothing is listed');
    // SHA-256 of "mine", as sha256sum (GNU coreutils) prints it.
    const mine = '3fd30542fe3f61b14bd4a4b2dc0b6fb30fa6f63ebce52dd1778aaa8c4dc02cff';
    for (const name of ['notes.txt', '../notes.txt', '..', MANIFEST]) list.files.push({ name, sha256: mine });
    writeFileSync(join(folder, MANIFEST), JSON.stringify({ fayplate: 1, ...list }));
    write({ 'side-a.cnc': program(2) });
    const left = readdirSync(folder).map((n) => (n.startsWith('notes') ? text(n) : n));
    expect(left.sort()).toEqual(['mine', 'other.cnc', MANIFEST, 'side-a.cnc'].sort());
    for (const nonsense of ['', '{', 'null', '[]', '{"files":[null,1,{"name":3}]}']) {
      writeFileSync(join(folder, MANIFEST), `{"fayplate":1}${nonsense}`);
      expect(write({ 'side-a.cnc': program(3) }).removed).toEqual([]);
    }
  });
});
