import { MM_PER_INCH, parseLength, toDegrees } from '@fayplate/core';
import { classLimits } from '../threads/limits.js';
import { threads } from '../threads/list.js';
import { parseThread } from '../threads/parse.js';
import type { Thread } from '../threads/forms.js';
import { lookOtherThread } from './identify.js';
import type { Looked, Refused } from './words.js';
import { answer, both, figures, left, mmAndInch, refuse, source, table } from './words.js';

/**
 * Of a metric size or a BA number the nearest one there is; of inch threads those of the series that the words name,
 * else all.
 */
const nearestThread = (what: string): readonly Thread[] => {
  const spaced = what.replace(/(\d)(?=[a-z])/gi, '$1 ');
  const series = /^m ?\d/i.test(what)
    ? 'metric coarse'
    : /\b(unc|unf|unef|bsw|bsf|bsc|ba)\b/i.exec(spaced)?.[1]?.toUpperCase();
  const own = threads.filter((t) => t.series === series);
  const size = /\d+(?:\.\d+)?/.exec(what);
  if (own.length === 0) return threads;
  if (size === null || (series !== 'metric coarse' && series !== 'BA')) return own;
  const off = (t: Thread): number =>
    Math.abs((series === 'BA' ? Number.parseInt(t.name, 10) : t.major) - Number(size[0]));
  return own.toSorted((a, b) => off(a) - off(b)).slice(0, 1);
};

export const noThread = (what: string): Refused =>
  refuse(
    what,
    'a thread such as 3/8-16 UNC, #10-24, M10, M10x1.25, 5/16 BSF, 2 BA or G1/8, or its diameter and pitch (9.4 mm ' +
      '1.6 mm, 0.370 in 16 tpi)',
    nearestThread(what.trim().slice(0, 60)).map((t) => t.name),
  );

const pitchInWords = (t: Thread): string => (t.tpi === null ? `${t.pitch} mm pitch` : `${t.tpi} threads to the inch`);

/**
 * Threads of one bare size, `3/8`, `0.375 in`, `10 mm`: those whose nominal diameter it is; empty where it is no size.
 */
export const threadsOfSize = (what: string): readonly Thread[] => {
  const text = what.trim().slice(0, 40);
  const written = /\d *\/|in|"|″|^\d$|^1 /i.test(text) && !/mm/i.test(text);
  const size = parseLength(text.replace(/ ?in(?:ch)?$|["″]$/i, ''), written ? MM_PER_INCH : 1);
  return size.ok && size.value > 0
    ? threads.filter((t) => t.series !== 'G' && Math.abs(t.major - size.value) < 1e-3)
    : [];
};

/** A bare size is several threads: they are set side by side. */
const severalThreads = (what: string, found: readonly Thread[]): Looked => ({
  ok: true,
  kind: 'thread',
  json: {
    asked: what.trim().slice(0, 40),
    threads: found.map((t) => ({ name: t.name, series: t.series, major: t.major, pitch: t.pitch, tpi: t.tpi })),
  },
  report: [
    answer(`${what.trim().slice(0, 40)} is the size of ${found.length} threads`),
    table(
      null,
      [left('Thread'), left('Series'), figures('Major, mm'), figures('Pitch, mm'), left('To the inch'), left('Angle')],
      found.map((t) => [
        t.name,
        t.series,
        t.major.toFixed(3),
        t.pitch.toFixed(4),
        t.tpi === null ? '' : String(t.tpi),
        `${Number(toDegrees(t.angle).toFixed(1))}°`,
      ]),
    ),
    { kind: 'paragraph', text: 'Measure the pitch as well to tell which: look thread 0.370 in 16 tpi.' },
  ],
});

export const lookThread = (what: string): Looked => {
  const other = lookOtherThread(what);
  if (other !== null) return other;
  const t = parseThread(what);
  if (t === null) {
    const several = threadsOfSize(what);
    return several.length === 0 ? noThread(what) : severalThreads(what, several);
  }
  const { external, internal, source: rule } = classLimits(t);
  const row = (name: string, mm: number): readonly string[] => [name, ...mmAndInch(mm)];
  return {
    ok: true,
    kind: 'thread',
    json: {
      name: t.name,
      size: t.size,
      series: t.series,
      major: t.major,
      pitch: t.pitch,
      tpi: t.tpi,
      angle: toDegrees(t.angle),
      depth: t.depth,
      pitch_diameter: t.pitchDiameter,
      minor: t.minor,
      source: t.source,
      limits: {
        external: { class: external.name, major: [external.least, external.most] },
        internal: { class: internal.name, minor: [internal.least, internal.most] },
        source: rule,
      },
    },
    report: [
      answer(
        `${t.name}: ${both(t.major)} over the threads, ${pitchInWords(t)}, ` +
          `${Number(toDegrees(t.angle).toFixed(3))}° (${t.series})`,
      ),
      table(
        null,
        [left(''), figures('mm'), figures('in')],
        [
          row('major diameter', t.major),
          row('pitch', t.pitch),
          row('effective diameter', t.pitchDiameter),
          row('minor diameter of the nut', t.minor),
          row('depth of thread on a bolt', t.depth),
          row(`bolt over threads, least (${external.name})`, external.least),
          row(`bolt over threads, most (${external.name})`, external.most),
          row(`tapped hole, least (${internal.name})`, internal.least),
          row(`tapped hole, most (${internal.name})`, internal.most),
        ],
      ),
      source(rule === t.source ? rule : `${t.source}; limits: ${rule}`),
    ],
  };
};
