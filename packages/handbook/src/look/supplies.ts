import { type Looked, answer, both, left, refuse, source, table } from './words.js';
import { material, materials } from '../materials/materials.js';
import { paper, papers } from '../paper/paper.js';

export const lookMaterial = (what: string): Looked => {
  const m = material(what);
  if (m === null)
    return refuse(
      what,
      `one of ${materials.rows.map((r) => r.name).join(', ')}`,
      materials.rows.flatMap((r) => [r.name, ...r.also]),
    );
  const [from, to] = m.speed;
  return {
    ok: true,
    kind: 'material',
    json: {
      name: m.name,
      density: m.density,
      cutting_speed: { from, to, unit: 'm/min', source: m.speedSource },
      engagement: { least: m.engagement, unit: 'd', source: m.engagementSource },
      source: materials.source,
    },
    report: [
      answer(`${m.name}: ${m.density} kg/m³`),
      table(
        null,
        [left(''), left(''), left('Source')],
        [
          [
            'drilling with high-speed steel',
            `${from.toFixed(0)} to ${to.toFixed(0)} m/min (${(from / 0.3048).toFixed(0)} to ${(to / 0.3048).toFixed(0)} ft/min)`,
            m.speedSource,
          ],
          ['least thread engagement', `${m.engagement} × the diameter`, m.engagementSource],
        ],
      ),
      source(materials.source),
    ],
  };
};

export const lookPaper = (what: string): Looked => {
  const p = paper(what);
  if (p === null)
    return refuse(
      what,
      'a paper such as A4, Letter, ANSI D or 210 x 297 mm',
      papers.map((x) => x.name),
    );
  return {
    ok: true,
    kind: 'paper',
    json: { name: p.name, width: p.width, height: p.height, source: p.source },
    report: [answer(`${p.name}: ${both(p.width)} wide, ${both(p.height)} high`), source(p.source)],
  };
};
