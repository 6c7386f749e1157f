import { toDegrees } from '@fayplate/core';
import { hardware } from '../hardware/hardware.js';
import { material, materials } from '../materials/materials.js';
import { paper, papers } from '../paper/paper.js';
import { parseThread } from '../threads/parse.js';
import { noThread } from './thread.js';
import { type Looked, answer, both, figures, left, mmAndInch, refuse, source, table } from './words.js';

/** Nut, cap screw, countersunk screw and washer of a thread. */
export const lookHardware = (what: string): Looked => {
  const t = parseThread(what);
  if (t === null) return noThread(what);
  const { nut, oldNut, capScrew, countersunk, washer } = hardware(t);
  const row = (name: string, mm: number): readonly string[] => [name, ...mmAndInch(mm)];
  const rows = [
    ...(nut === null
      ? []
      : [
          row('nut across flats', nut.acrossFlats),
          row('nut across corners, at most', nut.acrossCorners),
          row('nut height', nut.height),
          row('room for a socket on the nut', nut.socket.diameter),
        ]),
    ...(oldNut === null
      ? []
      : [
          row('nut before 1940, across flats', oldNut.acrossFlats),
          row('nut before 1940, across corners', oldNut.acrossCorners),
          row('nut before 1940, height', oldNut.height),
          row('room for a socket on that nut', oldNut.socket.diameter),
        ]),
    ...(capScrew === null
      ? []
      : [
          row('cap screw head', capScrew.head),
          row('cap screw head height', capScrew.height),
          row('cap screw key', capScrew.key),
          row('counterbore for it', capScrew.counterbore),
        ]),
    ...(countersunk === null
      ? []
      : [
          row(`countersunk head (${toDegrees(countersunk.angle).toFixed(0)}°)`, countersunk.head),
          row('countersunk head height', countersunk.height),
        ]),
    ...(washer === null
      ? []
      : [
          row('washer hole', washer.hole),
          row('washer outside', washer.outside),
          row('washer thickness', washer.thickness),
        ]),
  ];
  if (rows.length === 0)
    return { ok: false, why: `the tables have no nut, screw or washer for ${t.name}`, nearest: null };
  const sources = [
    nut?.source,
    oldNut?.source,
    nut?.socket.source,
    capScrew?.source,
    countersunk?.source,
    washer?.source,
  ].filter((s) => s !== undefined);
  return {
    ok: true,
    kind: 'hardware',
    json: {
      thread: t.name,
      nut:
        nut === null
          ? null
          : {
              across_flats: nut.acrossFlats,
              across_corners: nut.acrossCorners,
              height: nut.height,
              socket: nut.socket.diameter,
              source: nut.source,
            },
      old_nut:
        oldNut === null
          ? null
          : {
              across_flats: oldNut.acrossFlats,
              across_corners: oldNut.acrossCorners,
              height: oldNut.height,
              socket: oldNut.socket.diameter,
              source: oldNut.source,
            },
      cap_screw: capScrew,
      countersunk: countersunk === null ? null : { ...countersunk, angle: toDegrees(countersunk.angle) },
      washer,
    },
    report: [
      answer(`What goes with ${t.name}`),
      table(null, [left(''), figures('mm'), figures('in')], rows),
      ...(oldNut === null && t.series !== 'BSF'
        ? []
        : [
            {
              kind: 'caution' as const,
              text: `Measure the nut. ${
                oldNut === null
                  ? 'BSF hexagons stayed as they were in 1940, when BSW took them over: a spanner marked for one ' +
                    'size of BSF fits the next smaller BSW made before.'
                  : 'Before 1940 a BSW nut had the hexagon of the next size up; since then it has that of BSF. ' +
                    'Spanners are marked by the thread, not the flats, and a 1/2 in one may be of either kind.'
              } An unmarked old nut or bolt says nothing of its strength: do not reuse it where its failing could hurt someone.`,
            },
          ]),
      source([...new Set(sources)].join('; ')),
    ],
  };
};

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
            `${from.toFixed(0)} to ${to.toFixed(0)} m/min (${(from / 0.3048).toFixed(0)} to ` +
              `${(to / 0.3048).toFixed(0)} ft/min)`,
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
