import { parseLength } from '@fayplate/core';
import { type Drill, drills } from '../drills/list.js';
import { nearestDrill } from '../drills/list.js';
import { parseDrill } from '../drills/list.js';
import { pointLength } from '../drills/list.js';
import type { Looked } from './words.js';
import { answer, both, drillInWords, figures, left, mmAndInch, refuse, source, table } from './words.js';

const wanted = (what: string): number | null => {
  const drill = parseDrill(what);
  if (drill !== null) return drill.diameter;
  const t = what.trim();
  const length = parseLength(t, /[/⁄]/.test(t) ? 25.4 : 1);
  const last = drills().at(-1)?.diameter ?? 0;
  return length.ok && length.value > 0 && length.value <= last ? length.value : null;
};

/** Drills about a size, the three below and the three above. */
const about = (mm: number): readonly Drill[] => {
  const below = drills()
    .filter((d) => d.diameter < mm - 1e-6)
    .slice(-3);
  const above = drills()
    .filter((d) => d.diameter > mm + 1e-6)
    .slice(0, 3);
  return [...below, ...drills().filter((d) => Math.abs(d.diameter - mm) <= 1e-6), ...above];
};

/** `#7`, `F`, `13/32`, `10.3 mm`, or any size: the nearest drill to it and its neighbours. */
export const lookDrill = (what: string): Looked => {
  const mm = wanted(what);
  if (mm === null)
    return refuse(
      what,
      'a drill or a size such as #7, F, 13/32, 10.3 mm or .257 in, up to 100 mm',
      drills().map((d) => d.name),
    );
  const named = parseDrill(what);
  const { drill, error } = named === null ? nearestDrill(mm) : { drill: named, error: 0 };
  return {
    ok: true,
    kind: 'drill',
    json: {
      wanted: mm,
      name: drill.name,
      diameter: drill.diameter,
      error,
      point: pointLength(drill.diameter),
      source: drill.source,
      neighbours: about(mm).map((d) => ({ name: d.name, diameter: d.diameter, error: d.diameter - mm })),
    },
    report: [
      answer(
        Math.abs(error) < 1e-6
          ? `${drill.name} is ${both(drill.diameter)}`
          : `nearest to ${both(mm)} is ${drillInWords(drill)}: ${both(Math.abs(error))} ${error > 0 ? 'over' : 'under'}`,
      ),
      table(
        'Drills about it',
        [left('Drill'), figures('mm'), figures('in'), figures('Off by, mm')],
        about(mm).map((d) => [d.name, ...mmAndInch(d.diameter), (d.diameter - mm).toFixed(3)]),
      ),
      {
        kind: 'paragraph',
        text: `Its 118° point reaches ${both(pointLength(drill.diameter))} beyond the full diameter.`,
      },
      source(drill.source),
    ],
  };
};
