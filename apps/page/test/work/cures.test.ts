import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { speechFor } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { studyOf } from '@fayplate/study';
import { describe, expect, test } from 'vitest';
import { changed } from '../../src/edit/change.js';
import { removeAt, setAt } from '../../src/edit/set.js';
import type { Cure } from '../../src/work/shown.js';
import { cureOf } from '../../src/work/views/cures.js';

const pump = readFileSync(join(import.meta.dirname, '../../../../examples/lift-pump/job.yaml'), 'utf8');

/** The plate of a job as text. */
const plateOf = (text: string) => {
  const read = readJob(text);
  if (!read.ok) throw new Error(`${JSON.stringify(read.faults)}\n${text}`);
  return studyOf(read.job, { trials: 200 }).plate().plate;
};
const failing = (text: string): ReadonlySet<string> =>
  new Set(
    plateOf(text)
      .checks.filter((c) => !c.ok)
      .map((c) => `${c.id} ${c.of.join(' ')}`),
  );
const applied = (text: string, { edits }: Pick<Cure, 'edits'>): string =>
  edits.reduce((now, { path, value }) => {
    const change = value === '' ? removeAt(now, path) : setAt(now, path, value);
    return change === null ? now : changed(now, change);
  }, text);

/** Checks of each job whose cures are tried: each takes a plate of its own. */
const MOST = 3;

/** With one more hole of the plate. */
const withHole = (words: string): string =>
  pump.replace('  outline: { shape: follow', `  ${words}\n  outline: { shape: follow`);

/** The lift pump with one thing wrong. */
const wrong = {
  'a margin too small': pump.replace('margin: 12 mm }', 'margin: 3 mm }'),
  'a plate too thin': pump.replace('thickness: from stack', 'thickness: 10 mm'),
  'a bore too wide': pump.replace('bore: { diameter: 4 1/4', 'bore: { diameter: 5.49'),
  'turned on to a stud': pump.replace('thickness: from stack', 'thickness: from stack\n  clocking: 15 deg'),
  'a jacking screw over a stud': withHole('jacking: { thread: M8, circle: 7 1/2, clock: [12, "6:30"] }'),
  'a lifting hole in another': withHole('lifting: { thread: M10, circle: 7 1/2, clock: 3 }'),
  'nuts out of reach, over threads of the part': pump
    .replaceAll(
      /(M\d): \{ kind: hole, diameter: 12.0 mm ± 0.04 mm,/g,
      '$1: { kind: hole, thread: M10, diameter: 8.5 mm,',
    )
    .replace(
      '{ as: tapped, thread: M10, engagement: 1.5 d }',
      '{ as: clearance, thread: M10, cap screw: counterbored }',
    ),
  'a register too small': pump.replace('register: 5.502', 'register: 5.490'),
} as const;

/** What one of the buttons must say. */
const buttons: Readonly<Record<string, RegExp>> = {
  'a jacking screw over a stud': /^move H\d+ to /,
  'a lifting hole in another': /^move H\d+ to /,
  'nuts out of reach, over threads of the part': /^open the holes of motor out to .* and tap the plate/,
};

describe('every cure that is offered as a button', () => {
  test.each(Object.entries(wrong))('of %s edits the job so that the check holds', (name, text) => {
    const { checks, clocking } = plateOf(text);
    const bad = checks.filter((c) => !c.ok);
    expect(bad.length).toBeGreaterThan(0);
    const said: string[] = [];
    const seen = new Set<string>();
    for (const check of bad.slice(0, MOST))
      for (const cure of check.cures) {
        const button = cureOf(cure, clocking, speechFor('in'));
        if (button.edits.length === 0 || seen.has(`${check.id} ${button.says}`)) continue;
        seen.add(`${check.id} ${button.says}`);
        said.push(button.says);
        const after = applied(text, button);
        expect(after).not.toBe(text);
        expect([button.says, failing(after).has(`${check.id} ${check.of.join(' ')}`)]).toEqual([button.says, false]);
      }
    expect(said.length).toBeGreaterThan(0);
    const wanted = buttons[name];
    if (wanted !== undefined) expect(said.filter((s) => wanted.test(s))).not.toEqual([]);
    // A value that must fail: the job as it stands.
    expect(failing(text).size).toBeGreaterThan(0);
  });
});
