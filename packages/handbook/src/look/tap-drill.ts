import { drills, inchDrills, millimetreDrills } from '../drills/list.js';
import { tapDrill, threadShare } from '../drills/tap.js';
import { classLimits } from '../threads/limits.js';
import { parseThread } from '../threads/parse.js';
import { noThread } from './thread.js';
import type { Looked } from './words.js';
import { answer, both, drillInWords, figures, left, mmAndInch, percent, source, table } from './words.js';

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
              text: `This hole lies outside the limits of a class ${limits.name} thread, ${both(limits.least)} to ${both(limits.most)}.`,
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
