import { once } from '@fayplate/core';
import { actuatorFaces } from './actuators.js';
import type { StandardFace } from './face.js';
import { iecFaces } from './iec.js';
import { nemaFaces } from './nema.js';
import { pipeFaces } from './pipes.js';
import { pumpFaces } from './pumps.js';

/** Every face of the tables, by standard and then by size; listed when first asked for. */
export const standardFaces = once((): readonly StandardFace[] => [
  ...iecFaces(),
  ...nemaFaces(),
  ...pumpFaces(),
  ...pipeFaces(),
  ...actuatorFaces(),
]);

/** What is held, a phrase a standard, for answers to names that are not. */
export const facesHeld: readonly string[] = [
  'IEC FF55 to FF500 and FT55 to FT300',
  'NEMA 42C to 445TC, 143TD to 326TD, NEMA 17, 23 and 34',
  'SAE AA to F 2-bolt and 4-bolt, ISO 3019-2 63 A2 to 200 B4',
  'ASME B16.5 class 150 NPS 1/2 to 12',
  'EN 1092-1 PN 10 and PN 16 DN 15 to 300',
  'ISO 9409-1 25 to 125',
  'ISO 5211 F03 to F30',
];

/** Lower case, one kind of dash, `FF 165` and `FF-165` as `ff165`; words that add nothing left out. */
const tidy = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[‐‑‒–—−]/g, '-')
    .replace(/["″”]/g, ' in ')
    .replace(/(?<=\d),(?=\d)/g, '.')
    .replace(/\b(?:flange|face|frame|motor|mount|type)\b/g, ' ')
    .replace(/\b(iec|ff|ft|pn|dn|nps|class|nema|f)[ -]+(?=\d)/g, '$1')
    .replace(/\s+/g, ' ')
    .trim();

/** The same whatever the order of words and the dashes between them. */
const loose = (text: string): string => tidy(text).replace(/-/g, ' ').split(' ').toSorted().join(' ');
const close = (text: string): string => tidy(text).replace(/[ -]/g, '');

const byName = once((): ReadonlyMap<string, StandardFace> => {
  const map = new Map<string, StandardFace>();
  for (const key of [close, loose])
    for (const face of standardFaces())
      for (const name of [face.name, ...face.also]) if (!map.has(key(name))) map.set(key(name), face);
  return map;
});

/**
 * A face by its name or another name for it, in any case, spacing and order of words: `IEC FF165`, `ff-165`, `56C`,
 * `PN16 DN50`,
 * `SAE B 2-bolt`, `50-4-M6`, `F05`. Null where none is held under that name.
 */
export const standardFace = (text: string): StandardFace | null =>
  text.length > 60 ? null : (byName().get(close(text)) ?? byName().get(loose(text)) ?? null);
