import { type Block, type Speech, forReader, say, sayAll, sayNearest, sayNumber, toDegrees } from '@fayplate/core';
import { boreLimits, depthLimitsOf } from '../bores/limits.js';
import { inchThread, stockSource, threadOf } from '../treat/thread.js';
import type { BoltLength, CutCentres, CutFor, Plate, PlateBore, PlateHole, Side } from '../types.js';
import { places, short } from './say.js';

/** Odds from which a layout that nobody has chosen is asked about. */
const SURE = 0.99;

/** How far measured and laid out centres differ; '' where no layout is known, or where it would print as nothing. */
const differs = (c: CutCentres, speech: Speech): string => {
  const by = say(c.differs ?? 0, { ...speech, fraction: null }, speech.unit === 'in' ? 4 : 3);
  return Number.parseFloat(by) === 0 ? '' : by;
};

const from = (c: CutCentres, speech: Speech): string => {
  const by = differs(c, speech);
  if (c.from === 'drawn') return `${c.face} as drawn`;
  if (c.from === 'laid out')
    return `${c.face} as laid out${by === '' ? '' : `, up to ${by} from where it was measured`}`;
  return `${c.face} as measured${by === '' ? '' : `, up to ${by} from its likely layout`}`;
};

/**
 * Which centres are cut, in a sentence: as measured or as laid out, with the greatest difference where a layout is
 * known.
 */
export const centreWords = (plate: Pick<Plate, 'centres'>, speech: Speech): string =>
  plate.centres.length === 0 ? '' : `Centres: ${plate.centres.map((c) => from(c, speech)).join('; ')}.`;

/** The same in a few words, face by face, for a title block: `pump as measured (its layout up to 0.0037 in off)`. */
export const centresInShort = (plate: Pick<Plate, 'centres'>, speech: Speech): readonly string[] =>
  plate.centres.map((c) => {
    const other = c.from === 'laid out' ? 'measured' : 'its layout';
    const off = differs(c, speech);
    return `${c.face} as ${c.from}${off === '' ? '' : ` (${other} up to ${off} off)`}`;
  });

/**
 * What to decide where a layout is all but certain and nobody has said whether the plate is to have it; null where
 * nothing is.
 */
export const centresToDecide = (plate: Pick<Plate, 'centres'>, speech: Pick<Speech, 'atBench'>): string | null => {
  const open = plate.centres.filter((c) => c.undecided !== null && c.undecided >= SURE - 5e-4);
  return open.length === 0
    ? null
    : `The layout of ${sayAll(open.map((c) => c.face))} is nearly certain, but the plate is drawn as measured. Say ` +
        `${forReader('which you want: `layout: intended` or `layout: measured`', 'in the job which you want, the layout or the measured centres', speech)}.`;
};

/** Where depths on a side count from, where that is not its flat. */
const startOn = (h: PlateHole, side: Side, thickness: number): string => {
  if (h.land[1] <= h.land[0]) return '';
  const below = side === 'A' ? h.land[0] : thickness - h.land[1];
  return below > 1e-9 ? ' from the floor there' : below < -1e-9 ? ' from the top of the spigot there' : '';
};

/** The name of a cut that the job asks for, and why it is there. */
const cutName = ({ cut }: { readonly cut?: CutFor }): string | null =>
  cut === undefined ? null : cut.why === null ? cut.name : `${cut.name}: ${cut.why}`;

/** `M10 × 1.5`: a metric thread with its pitch, which the short name leaves out. */
export const withPitch = (name: string, pitch: number): string =>
  /^M\d+(?:\.\d+)?$/.test(name) ? `${name} × ${Number(pitch.toFixed(2))}` : name.replace(/(?<=\d)x(?=\d)/, ' × ');

/** The other end of a stepped stud. */
const steppedTo = ({ as, thread, fastening }: PlateHole): string =>
  as === 'set stud' && fastening?.thread != null && fastening.thread !== thread?.name
    ? `, stepped to ${fastening.thread}`
    : '';

/** A hole as a machinist would call it out. */
const callout = (h: PlateHole, thickness: number, speech: Speech): string => {
  const n = (mm: number): string => sayNumber(mm, speech, places(speech));
  const own = h.cut === undefined ? h.as : h.slot === null ? 'hole' : 'slot';
  const kind =
    h.thread === null
      ? own
      : `${h.as}${h.as === 'tapped' ? '' : ','} ` +
        withPitch(h.thread.name, h.thread.pitch) +
        (h.insert === undefined ? '' : ` for a wire insert ${n(h.insert)} long`);
  const blind =
    h.depth === null
      ? ''
      : ` from side ${h.from}, drilled ${n(h.depth)} ` +
        `deep${h.thread?.depth == null ? '' : `, thread ${n(h.thread.depth)}`}${startOn(h, h.from, thickness)}`;
  const slot =
    h.slot === null
      ? ''
      : `, ${n(h.slot.length)} between end centres at ${Number(toDegrees(h.slot.angle).toFixed(1))}°`;
  const sink =
    h.sink === null
      ? ''
      : `, ${h.sink.kind} ${n(h.sink.diameter)} × ${n(h.sink.depth)} deep on side ` +
        `${h.sink.side}${startOn(h, h.sink.side, thickness)}`;
  const reamed =
    (h.as === 'dowel' || h.as === 'slot') && h.limits !== null
      ? ` ${sayNumber(h.limits[0], speech)} to ${sayNumber(h.limits[1], speech)}`
      : '';
  const assembly = h.as === 'dowel' && h.feature === null ? ', reamed at assembly' : '';
  return `${kind}${reamed}${blind}${slot}${sink}${assembly}${steppedTo(h)}`;
};

/** Every hole with its place and its callout. */
export const holeTable = (plate: Plate, speech: Speech): Block => ({
  kind: 'table',
  caption: `Holes, ${speech.unit}, seen from side B (${plate.faces[1]}) looking at ${plate.faces[0]}; x right, y up`,
  columns: [
    { title: 'Hole', align: 'left' },
    { title: 'For', align: 'left' },
    { title: 'X', align: 'point' },
    { title: 'Y', align: 'point' },
    { title: 'Diameter', align: 'point' },
    { title: 'Drill', align: 'left' },
    { title: 'Kind', align: 'left' },
  ],
  rows: plate.holes.map((h) => [
    h.id,
    h.feature ?? cutName(h) ?? h.as,
    sayNearest(h.x, speech),
    sayNearest(h.y, speech),
    sayNumber(h.diameter, speech),
    h.drill ?? '',
    callout(h, plate.thickness, speech),
  ]),
});

/** What a bore is called: `raised spigot`, `recess`, `pocket`, `notch`. */
export const boreKind = ({ kind, cut, box }: PlateBore): string =>
  box?.notch === true ? 'notch' : kind === 'spigot' ? 'raised spigot' : cut === undefined ? kind : 'pocket';

/** The size of straight sides, `40 × 25, corners 4` or `20 wide, corners 10`; null for what is round. */
export const straightWords = ({ box }: PlateBore, size: (mm: number) => string): string | null =>
  box === undefined
    ? null
    : `${box.notch === true ? `${size(box.width)} wide` : `${size(box.length)} × ${size(box.width)}`}, corners ` +
      size(box.corner);

/** Bores, registers and pockets; nothing where there are none. */
export const boreTable = (plate: Plate, speech: Speech): readonly Block[] =>
  plate.bores.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: `Bores, ${speech.unit}`,
          columns: [
            { title: 'Bore', align: 'left' },
            { title: 'Kind', align: 'left' },
            { title: 'For', align: 'left' },
            { title: 'Diameter', align: 'left' },
            { title: 'Side', align: 'left' },
            { title: 'Depth', align: 'left' },
          ],
          rows: plate.bores.map((b) => [
            b.id,
            boreKind(b),
            b.feature ?? cutName(b) ?? '',
            straightWords(b, (mm) => sayNumber(mm, speech)) ??
              boreLimits(b)
                .map((d) => sayNumber(d, speech))
                .join(' to '),
            b.side,
            b.depth === null
              ? 'through'
              : (depthLimitsOf(b) ?? []).map((d) => sayNumber(d, speech, places(speech))).join(' to '),
          ]),
        },
      ];

/** As it is asked for in a shop, whatever the job is written in: metric bolts in mm, others in fractions of an inch. */
export const stockWords = ({ thread, stock }: BoltLength): string => {
  const named = threadOf(thread);
  return say(
    stock ?? 0,
    named !== null && inchThread(named) ? { unit: 'in', fraction: 8 } : { unit: 'mm', fraction: null },
    0,
  );
};

/** Nuts, and the washers under them that fit where they are let in. */
const nutWords = (plate: Plate, speech: Speech): readonly string[] => {
  const alike = new Map<string, string[]>();
  for (const h of plate.holes) {
    const head = h.fastening?.head ?? null;
    if (head === null || head.kind !== 'nut' || h.fastening?.thread == null) continue;
    const { washer } = head;
    const under =
      washer === undefined
        ? ''
        : ` with a washer of ${sayNumber(washer.outside, speech, 3)} × ${say(washer.thickness, speech, 3)} under ` +
          `each${h.sink === null ? '' : ' (a wider one does not go into the counterbore)'}`;
    const words = `nut ${h.fastening.thread}${under}`;
    alike.set(words, [...(alike.get(words) ?? []), h.id]);
  }
  return [...alike].map(([words, ids]) => `${ids.length} × ${words}, for ${sayAll(ids)}.`);
};

/** Which bolts, nuts and washers to buy. */
export const boltWords = (plate: Plate, speech: Speech): readonly Block[] => {
  const nuts = nutWords(plate, speech);
  return [...lengthWords(plate, speech), ...(nuts.length === 0 ? [] : [{ kind: 'list', items: nuts } as const])];
};

const lengthWords = (plate: Plate, speech: Speech): readonly Block[] =>
  plate.bolts.length === 0
    ? []
    : [
        {
          kind: 'list',
          items: plate.bolts
            .map((b) => {
              const through = plate.holes.some((h) => h.id === b.holes[0] && h.as === 'tapped' && h.depth === null);
              const range =
                b.most - b.least < 0.05
                  ? short(b.least, speech)
                  : `${short(b.least, speech)} to ${short(b.most, speech)}`;
              const buy =
                b.most < b.least - 1e-9
                  ? `none will do: ${short(b.least, speech)} under the head is needed for its thread, and at ` +
                    `${short(b.most, speech)} ${through ? 'its end comes out on the far side' : 'it bottoms'}`
                  : b.stock === null
                    ? `cut longer ones to ${range} under the head, as no stock length does it`
                    : `${stockWords(b)} long (${range} under the head)`;
              return `${b.holes.length} × ${b.thread} for ${sayAll(b.holes)}: ${buy}.`;
            })
            .concat(`Stock lengths: ${stockSource}.`),
        },
      ];
