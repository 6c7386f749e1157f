import { parseLength } from '@fayplate/core';
import {
  type Drill,
  drills,
  inchDrills,
  millimetreDrills,
  nearestDrill,
  parseDrill,
  pointLength,
} from '../drills/list.js';
import { tapDrill, threadShare } from '../drills/tap.js';
import { classLimits } from '../threads/limits.js';
import { parseThread } from '../threads/parse.js';
import { noThread } from './thread.js';
import {
  type Looked,
  answer,
  both,
  drillInWords,
  figures,
  left,
  mmAndInch,
  percent,
  refuse,
  source,
  table,
} from './words.js';

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
          : `nearest to ${both(mm)} is ${drillInWords(drill)}: ${both(Math.abs(error))} ` +
              (error > 0 ? 'over' : 'under'),
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

const asked = /^(.{0,60}?)[ ,]{0,9}(?:(?:at )?(\d{1,3}(?:\.\d{1,2})?) ?%)$/;

/** `M10`, `3/8-16 UNC`, `M10 60 %`: with a percentage of thread the hole is computed for it. */
export const lookTapDrill = (what: string): Looked => {
  const m = asked.exec(what.trim());
  const t = parseThread(m?.[1] ?? what);
  if (t === null) return noThread(m?.[1] ?? what);
  const share = m === null ? null : Number(m[2]) / 100;
  if (share !== null && (share < 0.3 || share > 1))
    return { ok: false, why: 'a percentage of thread runs from 30 to 100', nearest: `${t.name} 75 %` };
  const found = share === null ? tapDrill(t) : tapDrill(t, { share });
  if (found === null) return noThread(what);
  const limits = classLimits(t).internal;
  const kind = drills().find((d) => d.name === found.drill.name)?.kind === 'metric' ? millimetreDrills() : inchDrills();
  const others = kind.filter((d) => threadShare(t, d.diameter) >= 0.5 && threadShare(t, d.diameter) <= 0.9);
  return {
    ok: true,
    kind: 'tap drill',
    json: {
      thread: t.name,
      drill: found.drill.name,
      diameter: found.drill.diameter,
      percent: found.share * 100,
      asked_percent: share === null ? null : share * 100,
      ideal: found.ideal,
      within_class: found.withinClass,
      minor: { class: limits.name, least: limits.least, most: limits.most },
      others: others.map((d) => ({ name: d.name, diameter: d.diameter, percent: threadShare(t, d.diameter) * 100 })),
      source: found.source,
    },
    report: [
      answer(`${t.name}: drill ${drillInWords(found.drill)}, leaves ${percent(found.share)} of thread`),
      ...(found.withinClass
        ? []
        : [
            {
              kind: 'paragraph' as const,
              text:
                `This hole lies outside the limits of a class ${limits.name} thread, ${both(limits.least)} to ` +
                `${both(limits.most)}.`,
            },
          ]),
      table(
        'Drills that leave half to nine tenths of thread',
        [left('Drill'), figures('mm'), figures('in'), figures('% of thread')],
        others.map((d) => [d.name, ...mmAndInch(d.diameter), (threadShare(t, d.diameter) * 100).toFixed(0)]),
      ),
      source(found.source),
    ],
  };
};
