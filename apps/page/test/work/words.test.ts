import { jobWords } from '@fayplate/job';
import { expect, test } from 'vitest';
import type { WordNode } from '../../src/work/protocol.js';
import { wordTree } from '../../src/work/views/words.js';

/** Every place that the forms can write to, as `look words` names it. */
const placesIn = (path: string, node: WordNode): readonly string[] => [
  ...(path === '' ? [] : [path]),
  ...node.ways.flatMap((way) => {
    switch (way.kind) {
      case 'section':
        return way.keys.flatMap((k) => placesIn(path === '' ? k.key : `${path}.${k.key}`, k));
      case 'names':
        return [
          ...way.keys.flatMap((k) => placesIn(`${path}.${k.key}`, k)),
          ...placesIn(path === '' ? '*' : `${path}.*`, way.each),
        ];
      case 'list':
        return placesIn(path, way.each);
      default:
        return [];
    }
  }),
];

test('the forms have a place for every word that `look words` names', () => {
  const places = new Set(placesIn('', wordTree()));
  expect(jobWords().filter((w) => !places.has(w.path))).toEqual([]);
  expect(jobWords().length).toBeGreaterThan(150);
  // A value that must fail.
  expect(places.has('plate.cuts.*.nothing')).toBe(false);
});

test('no way to write a word stands twice, and few words are a list to choose from', () => {
  const walk = (node: WordNode): readonly WordNode[] => [
    node,
    ...node.ways.flatMap((w) =>
      w.kind === 'section'
        ? w.keys.flatMap(walk)
        : w.kind === 'names'
          ? [...w.keys, w.each].flatMap(walk)
          : w.kind === 'list'
            ? walk(w.each)
            : [],
    ),
  ];
  for (const { key, ways } of walk(wordTree())) {
    expect([key, ways.length]).toEqual([key, new Set(ways.map((w) => w.kind)).size]);
    expect([key, ways.length > 0]).toEqual([key, true]);
  }
  const kind = walk(wordTree()).find((n) => n.key === 'kind');
  expect(kind?.ways).toEqual([{ kind: 'words', of: ['hole', 'stud', 'dowel', 'bore', 'spigot', 'edge', 'boss'] }]);
});
