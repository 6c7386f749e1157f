import { parseLength } from '@fayplate/core';
import { type FitLimits, isoFit, isoFitPair } from '../fits/limits.js';
import type { Looked, Refused } from './words.js';
import { answer, both, figures, left, source, table } from './words.js';

const words = /^([a-zA-Z]{1,2}\d{1,2}(?:\/[a-zA-Z]{1,2}\d{1,2})?)[ ,](.+)$/;
const turned = /^(.{1,60}?)[ ,]{1,9}([a-zA-Z]{1,2}\d{1,2}(?:\/[a-zA-Z]{1,2}\d{1,2})?)$/;

const no: Refused = {
  ok: false,
  why: 'write a fit and a size up to 500 mm, such as H7 60 mm or H7/g6 60 mm',
  nearest: 'H7/g6 60 mm',
};

const limitsJson = (f: FitLimits): object => ({
  name: f.name,
  lower: f.lower,
  upper: f.upper,
  least: f.least,
  most: f.most,
});

/** `H7 60`, `H7/g6 60 mm`, `60 H7`: limits of a hole, a shaft or both. */
export const lookFit = (what: string): Looked => {
  const t = what.trim().slice(0, 60);
  const a = words.exec(t);
  const b = a === null ? turned.exec(t) : null;
  const name = a?.[1] ?? b?.[2];
  const size = parseLength(a?.[2]?.replace(/^[ ,]*(?:at )?/, '') ?? b?.[1] ?? '', 1);
  if (name === undefined || !size.ok) return no;
  const pair = name.includes('/') ? isoFitPair(name, size.value) : null;
  const single = name.includes('/') ? null : isoFit(name, size.value);
  const parts = pair === null ? (single === null ? [] : [single]) : [pair.hole, pair.shaft];
  const [first] = parts;
  if (first === undefined) return no;
  const micrometres = (mm: number): string => (mm * 1000).toFixed(0);
  return {
    ok: true,
    kind: 'fit',
    json: {
      name,
      nominal: size.value,
      parts: parts.map(limitsJson),
      clearance: pair === null ? null : { least: pair.least, most: pair.most },
      source: first.source,
    },
    report: [
      answer(
        pair === null
          ? `${name} at ${both(size.value)}: ${both(first.least)} to ${both(first.most)}`
          : pair.most <= 0
            ? `${name} at ${both(size.value)}: the shaft is larger by ${both(-pair.most)} to ${both(-pair.least)}`
            : pair.least < 0
              ? `${name} at ${both(size.value)}: from ${both(-pair.least)} tight to ${both(pair.most)} clear`
              : `${name} at ${both(size.value)}: clear by ${both(pair.least)} to ${both(pair.most)}`,
      ),
      table(
        null,
        [left(''), figures('Lower, µm'), figures('Upper, µm'), figures('Least, mm'), figures('Most, mm')],
        parts.map((f) => [f.name, micrometres(f.lower), micrometres(f.upper), f.least.toFixed(3), f.most.toFixed(3)]),
      ),
      source(first.source),
    ],
  };
};
