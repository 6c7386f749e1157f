import { clearanceFits, clearanceHole } from '../holes/clearance.js';
import { parseThread } from '../threads/parse.js';
import { noThread, threadsOfSize } from './thread.js';
import type { Looked } from './words.js';
import { answer, both, figures, left, mmAndInch, source, table } from './words.js';

/** Words that the two standards use for the same three holes. */
const fits = {
  close: 'close',
  fine: 'close',
  normal: 'normal',
  medium: 'normal',
  loose: 'loose',
  coarse: 'loose',
  free: 'loose',
} as const;
const isFit = (word: string): word is keyof typeof fits => Object.hasOwn(fits, word);

/** `M10`, `3/8-16 UNC close`: the clearance holes of a thread. A fit alone (`M10 coarse`) is read as the fit. */
export const lookClearance = (what: string): Looked => {
  const words = what.trim().split(/[ ,]/);
  const last = words.length > 1 ? (words.at(-1) ?? '').toLowerCase() : '';
  const thread = isFit(last) ? words.slice(0, -1).join(' ') : what;
  const named = parseThread(thread);
  // A clearance hole goes by the diameter: 3/8 is one hole whatever its pitch.
  const t = named ?? threadsOfSize(thread)[0] ?? null;
  if (t === null) return noThread(thread);
  const title = named === null ? `${thread.trim().slice(0, 40)} screws of any pitch` : t.name;
  const fit = isFit(last) ? fits[last] : 'normal';
  const holes = clearanceFits.map((f) => clearanceHole(t, f));
  const chosen = clearanceHole(t, fit);
  return {
    ok: true,
    kind: 'clearance',
    json: {
      thread: t.name,
      fit,
      diameter: chosen.diameter,
      drill: chosen.drill?.name ?? null,
      holes: holes.map((h) => ({
        fit: h.fit,
        diameter: h.diameter,
        most: h.most,
        drill: h.drill === null ? null : { name: h.drill.name, diameter: h.drill.diameter },
      })),
      source: chosen.source,
    },
    report: [
      answer(
        `${title}, ${fit} fit: ${both(chosen.diameter)}${chosen.drill === null ? '' : `, drill ${chosen.drill.name}`}`,
      ),
      table(
        null,
        [
          left('Fit'),
          figures('Least, mm'),
          figures('Least, in'),
          figures('Most, mm'),
          figures('Most, in'),
          left('Drill'),
        ],
        holes.map((h) => [h.fit, ...mmAndInch(h.diameter), ...mmAndInch(h.most), h.drill?.name ?? 'bored']),
      ),
      source(chosen.source),
    ],
  };
};
