import { MM_PER_INCH, formatLength, parseLength, toDegrees } from '@fayplate/core';
import { type Sized, type StandardFace, faceHoles } from '../faces/face.js';
import { facesHeld, standardFace, standardFaces } from '../faces/list.js';
import { type FaceSizes, facesNear, namesNear } from '../faces/near.js';
import type { Looked } from './words.js';
import { answer, both, figures, left, mmAndInch, source, table } from './words.js';

const checked = {
  'two places': 'read in two places that agree',
  'one source': 'read in one place: check against the part',
  'from memory': 'from memory: check against the part',
} as const;

const sizedJson = (s: Sized): object => ({ nominal: s.nominal, least: s.least, most: s.most, fit: s.fit });

const json = (f: StandardFace): Readonly<Record<string, unknown>> => ({
  name: f.name,
  also: f.also,
  standard: f.standard,
  what: f.what,
  register: f.register === null ? null : { kind: f.register.kind, ...sizedJson(f.register), reach: f.register.reach },
  holes: {
    count: f.holes.count,
    circle: f.holes.circle,
    thread: f.holes.thread,
    size: f.holes.size === null ? null : sizedJson(f.holes.size),
    place: f.holes.place,
    place_source: f.holes.placeSource,
    places: faceHoles(f).map((h) => ({ id: h.id, x: h.at.x, y: h.at.y, clock: toDegrees(Math.PI / 2 - h.clock) })),
  },
  dowel: f.dowel === null ? null : { ...sizedJson(f.dowel), place: f.dowel.place },
  outside: f.outside,
  thick: f.thick,
  shafts: f.shafts,
  read: f.read,
  source: f.source,
  disagree: f.disagree,
});

const limits = (s: Sized): string =>
  `${formatLength(s.least, 'mm')} to ${formatLength(s.most, 'mm')} mm${s.fit === null ? '' : ` (${s.fit})`}`;

const short = ({ holes, register }: StandardFace): string =>
  `${holes.count} ${holes.thread === null ? 'holes' : holes.thread} on ${both(holes.circle)}${
    register === null ? '' : `, ${register.kind} ${both(register.nominal)}`
  }`;

const oneFace = (f: StandardFace): Looked => {
  const row = (name: string, mm: number, note = ''): readonly string[] => [name, ...mmAndInch(mm), note];
  const { register, holes } = f;
  return {
    ok: true,
    kind: 'face',
    json: json(f),
    report: [
      answer(`${f.name}: ${short(f)}`),
      {
        kind: 'paragraph',
        text: `A ${f.what}. ${f.standard}. ${checked[f.read][0]?.toUpperCase()}${checked[f.read].slice(1)}.`,
      },
      table(
        null,
        [left(''), figures('mm'), figures('in'), left('')],
        [
          row('bolt circle', holes.circle, `each hole within ${formatLength(holes.place, 'mm')} mm of its place`),
          ...(holes.size === null
            ? [[`tapped holes`, '', '', holes.thread ?? '']]
            : [row('plain holes', holes.size.nominal, limits(holes.size))]),
          ...(register === null ? [] : [row(register.kind, register.nominal, limits(register))]),
          ...(register === null || register.reach === null
            ? []
            : [row(register.kind === 'spigot' ? 'spigot stands out' : 'bore is deep', register.reach)]),
          ...(f.dowel === null ? [] : [row('dowel hole on the circle at 12', f.dowel.nominal, limits(f.dowel))]),
          ...(f.outside === null ? [] : [row('outside', f.outside)]),
          ...(f.thick === null ? [] : [row('thickness, at least', f.thick)]),
          ...f.shafts.flatMap((s) => [row(`shaft of ${s.frame}`, s.diameter), row('stands out of the face', s.length)]),
        ],
      ),
      table(
        'Holes, clockwise from 12 as seen from off the part',
        [left('Hole'), figures('X, mm'), figures('Y, mm'), figures('X, in'), figures('Y, in')],
        faceHoles(f).map((h) => [
          h.id,
          h.at.x.toFixed(3),
          h.at.y.toFixed(3),
          (h.at.x / MM_PER_INCH).toFixed(4),
          (h.at.y / MM_PER_INCH).toFixed(4),
        ]),
      ),
      ...(f.disagree.length === 0
        ? []
        : [{ kind: 'list' as const, items: f.disagree.map((d) => `Sources disagree: ${d}.`) }]),
      source(`${f.source}; places of the holes: ${holes.placeSource}`),
    ],
  };
};

const holesAsked = /(\d{1,2}) ?(?:-|x )?(?:holes?|bolts?|studs?|screws?)\b/i;
const registerAsked = /\b(?:spigot|register|pilot|bore|rabbet) ?(?:of )?([\d./ -]+(?: ?(?:mm|in|"))?)/i;

/**
 * `165 mm 4 holes`, `4 holes on 5 7/8 in`, `146 mm 2 holes spigot 101.6`: bare numbers are mm. Null where no size is in
 * it.
 */
const sizesIn = (text: string): FaceSizes | null => {
  const count = holesAsked.exec(text);
  const register = registerAsked.exec(text);
  const rest = [count?.[0], register?.[0]]
    .reduce((t: string, part) => (part === undefined ? t : t.replace(part, ' ')), text)
    .replace(/\b(?:on|circle|pcd|bolt|pitch|diameter|dia|of|a|and|with)\b|[,;]/gi, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  const circle = parseLength(rest, 1);
  if (!circle.ok || !(circle.value > 0)) return null;
  const at = register === null ? null : parseLength((register[1] ?? '').trim(), 1);
  return {
    circle: circle.value,
    count: count === null ? null : Number(count[1]),
    register: at !== null && at.ok && at.value > 0 ? at.value : null,
  };
};

const bySize = (sizes: FaceSizes): Looked => {
  const near = facesNear(sizes);
  const asked = `${sizes.count === null ? '' : `${sizes.count} holes on `}${both(sizes.circle)}${
    sizes.register === null ? '' : `, register ${both(sizes.register)}`
  }`;
  if (near.length === 0)
    return {
      ok: false,
      why: `no standard face on file has ${sizes.count ?? 0} holes; on file are ${facesHeld.join('; ')}`,
      nearest: null,
    };
  return {
    ok: true,
    kind: 'face',
    json: {
      asked: { circle: sizes.circle, count: sizes.count, register: sizes.register },
      nearest: near.map(({ face, off }) => ({ off, ...json(face) })),
    },
    report: [
      answer(`Nearest to ${asked}`),
      table(
        null,
        [
          left('Face'),
          figures('Circle, mm'),
          figures('Circle, in'),
          figures('Off, mm'),
          left('Holes'),
          left('Register, mm'),
        ],
        near.map(({ face: f, off }) => [
          f.name,
          ...mmAndInch(f.holes.circle),
          off.toFixed(2),
          `${f.holes.count} × ${f.holes.thread ?? `${formatLength(f.holes.size?.nominal ?? 0, 'mm')} mm`}`,
          f.register === null ? '' : `${f.register.kind} ${formatLength(f.register.nominal, 'mm')}`,
        ]),
      ),
      {
        kind: 'paragraph',
        text: 'Measure the face and run fayplate locate for the odds; look face NAME gives one whole.',
      },
    ],
  };
};

const allAsked = /^(?:all|list|held|\*)?$/i;

/** What is held: each standard's faces by how they were read, and every name. */
const listed = (): Looked => {
  const families = new Map<string, StandardFace[]>();
  for (const f of standardFaces()) {
    const family = f.standard.split(',')[0] ?? f.standard;
    families.set(family, [...(families.get(family) ?? []), f]);
  }
  const count = (faces: readonly StandardFace[], read: StandardFace['read']): string =>
    String(faces.filter((f) => f.read === read).length);
  const total = standardFaces();
  const row = (name: string, faces: readonly StandardFace[]): readonly string[] => [
    name,
    String(faces.length),
    count(faces, 'two places'),
    count(faces, 'one source'),
    count(faces, 'from memory'),
    String(faces.filter((f) => f.disagree.length > 0).length),
  ];
  return {
    ok: true,
    kind: 'face',
    json: { faces: total.map((f) => ({ name: f.name, standard: f.standard, read: f.read })) },
    report: [
      answer(`${total.length} standard faces are on file`),
      table(
        null,
        [
          left('Standard'),
          figures('Faces'),
          figures('Two places'),
          figures('One source'),
          figures('From memory'),
          figures('Disagree'),
        ],
        [...[...families].map(([name, faces]) => row(name, faces)), row('all', total)],
      ),
      { kind: 'list', items: [...families.values()].map((faces) => faces.map((f) => f.name).join(', ')) },
    ],
  };
};

/**
 * `all`, or nothing: what is held. `FF165`, `NEMA 56C`, `PN16 DN50`; or sizes, `165 mm 4 holes`: one face whole, or the
 * nearest by size.
 */
export const lookFace = (what: string): Looked => {
  if (allAsked.test(what.trim())) return listed();
  const named = standardFace(what);
  if (named !== null) return oneFace(named);
  const sizes = sizesIn(what.slice(0, 60));
  if (sizes !== null) return bySize(sizes);
  const near = namesNear(what);
  const asked = what.trim().slice(0, 60);
  return {
    ok: false,
    why: `no face “${asked}” is on file; on file are ${facesHeld.join('; ')}${
      near.length < 2 ? '' : `. Near it: ${near.join(', ')}`
    }`,
    nearest: near[0] ?? null,
  };
};
