import { type Block, type Report, sayAll } from '@fayplate/core';
import { type JobWord, jobWords, jobWordsAt, nearestName } from '@fayplate/job';

/** A name of the job's own in a path, as the words show it. */
const NAMES: Readonly<Record<string, string>> = {
  instruments: 'caliper',
  faces: 'pump',
  features: 'P1',
  readings: 'r1',
  locate: 'pump',
  fasten: 'pump',
  except: 'P3',
  links: 'reach',
  limits: 'engagement',
  gaskets: 'pump',
  clocks: 'H1',
};

/** What a word takes, where that is one of a list. */
const LISTED = 'one of: ';

const nameAfter = (section: string | undefined): string => NAMES[section ?? ''] ?? 'name';

/** `faces.NAME.features.NAME.kind`. */
const shown = (path: string): string => path.replace(/\*/g, 'NAME');

/** How the words of the job file are looked up: an answer, or why not and what comes closest. */
export type LookedWords =
  | { readonly ok: true; readonly json: Readonly<Record<string, unknown>>; readonly report: Report }
  | { readonly ok: false; readonly why: string; readonly nearest: string | null };

const rows = (words: readonly JobWord[]): Block => ({
  kind: 'table',
  caption: null,
  columns: [
    { title: 'Word', align: 'left' },
    { title: 'Takes', align: 'left' },
    { title: 'Bare numbers', align: 'left' },
    { title: 'Left out', align: 'left' },
  ],
  rows: words.map((w) => [shown(w.path), w.takes.join('; or '), w.unit ?? '', w.needed ? 'needed' : (w.left ?? '')]),
});

const one = (w: JobWord): Report => [
  { kind: 'heading', level: 2, text: shown(w.path) },
  { kind: 'paragraph', text: w.means },
  {
    kind: 'list',
    items: [
      `Takes ${w.takes.join('; or ')}.`,
      ...(w.unit === null ? [] : [`A number with no unit: ${w.unit}. A written unit always wins.`]),
      w.needed ? 'Needed.' : w.left === null ? 'May be left out.' : `Left out: ${w.left}.`,
      ...(w.examples.length === 0 ? [] : [`Such as ${w.examples.join(', ')}.`]),
    ],
  },
];

/** Words that take this as one of their values: `boss` of a feature's kind, `set stud` of how a face is fastened. */
const wordsTaking = (what: string): readonly JobWord[] => {
  const value = what.trim().toLowerCase();
  return jobWords().filter((w) =>
    w.takes.some(
      (t) =>
        t.startsWith(LISTED) &&
        t
          .slice(LISTED.length)
          .split(', ')
          .some((v) => v.toLowerCase() === value),
    ),
  );
};

/** Every word of the job file, or those at a place: `plate.fasten`, `faces.pump.features.P1.stands`, `stands`. */
export const lookWords = (what: string): LookedWords => {
  const all = what.trim() === '' || /^all$/i.test(what.trim());
  const named = all ? jobWords() : jobWordsAt(what);
  const words = named.length > 0 ? named : wordsTaking(what);
  const [first, ...inside] = words;
  if (first === undefined) {
    const ends = [...new Set(jobWords().flatMap((w) => w.path.split('.').filter((p) => p !== '*')))];
    const sections = [...new Set(jobWords().map((w) => w.path.split('.')[0] ?? ''))];
    return {
      ok: false,
      why: `the job file has no word “${what.trim().slice(0, 60)}”; its sections are ${sections.join(', ')}`,
      nearest: nearestName(what.trim().split('.').at(-1) ?? '', ends),
    };
  }
  const json = {
    words: words.map((w) => ({
      path: w.path,
      takes: w.takes,
      unit: w.unit,
      needed: w.needed,
      left_out: w.left,
      means: w.means,
      examples: w.examples,
    })),
  };
  if (all)
    return {
      ok: true,
      json,
      report: [
        { kind: 'heading', level: 1, text: 'Words of the job file' },
        {
          kind: 'paragraph',
          text: 'NAME stands for a name of your own. look words plate.fasten says what each of a section means.',
        },
        rows(words),
      ],
    };
  const value: Report =
    named.length > 0
      ? []
      : [{ kind: 'paragraph', text: `${what.trim()} is a value of ${sayAll(words.map((w) => shown(w.path)))}.` }];
  return { ok: true, json, report: [...value, ...one(first), ...inside.flatMap(one)] };
};

const plainKey = (name: string): string => (/^[A-Za-z][A-Za-z0-9_ ]*$/.test(name) ? name : JSON.stringify(name));

/** A value as YAML that can be taken for nothing else. */
const sample = (w: JobWord): string => {
  const [example = ''] = w.examples;
  const listed = /^one of: ([^,]+)/.exec(w.takes[0] ?? '')?.[1];
  const text = example !== '' ? example : (listed ?? (w.takes.includes('true or false') ? 'true' : '…'));
  return /[:#[\]{}"]/.test(text) ? JSON.stringify(text) : text;
};

const isSection = (w: JobWord): boolean => w.takes.every((t) => t.startsWith('a section'));

/**
 * Every section and key of the job file as commented lines, with an example and what it means: what `new --full` adds
 * to a starter.
 */
export const wordLines = (): readonly string[] => [
  '# Every word of the job file: take the # off what you need, and put your own names for pump, P1, reach ….',
  ...jobWords().flatMap((w): readonly string[] => {
    const parts = w.path.split('.');
    const last = parts.at(-1) ?? '';
    const name = last === '*' ? nameAfter(parts.at(-2)) : last;
    const under = jobWords().some((o) => w.path.startsWith(`${o.path}.`) && !isSection(o));
    const line = `${'  '.repeat(parts.length - 1)}${plainKey(name)}:${isSection(w) ? '' : ` ${sample(w)}`}`;
    // What it means may have said already what holds where it is left out.
    const left = w.left === null || w.means.includes(w.left) ? '' : ` Left out: ${w.left}.`;
    const hint = `${w.means}${w.needed ? ' Needed.' : left}`.replace(/\s+/g, ' ');
    return [`# ${under ? '# ' : ''}${line.padEnd(44)} # ${hint}`];
  }),
];
