import { type Speech, type TableBlock, exactFraction, pathBox, say, sayAll, sayNumber } from '@fayplate/core';
import { hardware } from '@fayplate/handbook';
import type { Job } from '@fayplate/job';
import type { Gasket } from '../gasket/draw.js';
import { gasketUnder } from '../stack/gasket.js';
import { hasWasher, threadOf } from '../treat/thread.js';
import type { Fastening, Plate, PlateHole, StackResult } from '../types.js';
import { stockWords, withPitch } from './holes.js';
import { places, soldWords } from './say.js';

/** What to have on the bench: how many, of what, how long, and for which holes. */
interface Brought {
  readonly what: string;
  readonly size: string;
  readonly length: string;
  readonly count: number;
  readonly for: string;
}

/** Dowels go this far into each part, in diameters (common practice). */
const DOWEL_HOLD = 2;

/** Left round a gasket on its sheet, mm (common practice). */
const SHEET_EDGE = 5;

const headNames = { 'cap screw': 'cap screw', 'countersunk screw': 'countersunk screw', nut: 'bolt' } as const;

/** What a fastening is bought as; null for what stands in a part already. */
const boughtAs = ({ kind, head }: Fastening): string | null => {
  if (kind === 'stud') return null;
  if (kind === 'set stud') return 'stud';
  if (kind === 'dowel') return 'dowel';
  return head === null ? 'bolt' : headNames[head.kind];
};

const threadWords = (name: string): string => {
  const thread = threadOf(name);
  return thread === null ? name : withPitch(name, thread.pitch);
};

const lengthOf = (plate: Plate, hole: PlateHole): string => {
  const bolt = plate.bolts.find((b) => b.holes.includes(hole.id));
  if (bolt === undefined) return 'not known yet';
  if (bolt.most < bolt.least - 1e-9) return 'none will do';
  return bolt.stock === null ? 'cut to fit' : stockWords(bolt);
};

/** Lengths of dowel pins, mm. Source: ISO 8734, from memory. */
const PINS = [10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100];

/** The longest pin that is sold which goes through the plate and no farther into the part than it need. */
const dowelLength = (nominal: number, thickness: number, speech: Speech): string => {
  const most = thickness + DOWEL_HOLD * nominal;
  const least = thickness + nominal;
  const metric = soldWords(nominal, speech).endsWith(' mm');
  const pin = metric ? PINS.findLast((l) => l <= most + 1e-9) : Math.floor(most / EIGHTH + 1e-9) * EIGHTH;
  if (pin === undefined || pin < least - 1e-9) return `about ${say(most, speech, speech.unit === 'in' ? 2 : 0)}`;
  return metric ? `${pin} mm` : `${exactFraction(pin) ?? ''} in`;
};

/** Steps of inch dowel pins, mm (common practice). */
const EIGHTH = 25.4 / 8;

/** Holes that take the same thing are one line. */
const grouped = (all: readonly Brought[]): readonly Brought[] => {
  const lines = new Map<string, { readonly first: Brought; count: number; readonly for: string[] }>();
  for (const b of all) {
    const key = JSON.stringify([b.what, b.size, b.length]);
    const line = lines.get(key) ?? { first: b, count: 0, for: [] };
    line.count += b.count;
    if (b.for !== '') line.for.push(b.for);
    lines.set(key, line);
  }
  return [...lines.values()].map(({ first, count, for: ids }) => ({ ...first, count, for: sayAll(ids) }));
};

const fasteners = (plate: Plate, speech: Speech): readonly Brought[] =>
  plate.holes.flatMap((h): readonly Brought[] => {
    const own = h.fastening;
    const what = own === null ? null : boughtAs(own);
    if (own === null || what === null) return [];
    if (what === 'dowel') {
      // A dowel of a part is there already; one of the plate's own is set at assembly.
      if (h.feature !== null) return [];
      const length = dowelLength(own.nominal, plate.thickness, speech);
      return [{ what, size: soldWords(own.nominal, speech), length, count: 1, for: h.id }];
    }
    if (own.thread === null) return [];
    const stepped = own.kind === 'set stud' && h.thread !== null && h.thread.name !== own.thread;
    if (stepped)
      return [
        {
          what: 'stepped stud',
          size: `${threadWords(h.thread.name)} to ${threadWords(own.thread)}`,
          length: lengthOf(plate, h),
          count: 1,
          for: h.id,
        },
      ];
    return [{ what, size: threadWords(own.thread), length: lengthOf(plate, h), count: 1, for: h.id }];
  });

/** Wire thread inserts, by their thread and length. */
const inserts = (plate: Plate, speech: Speech): readonly Brought[] =>
  plate.holes.flatMap((h): readonly Brought[] =>
    h.insert === undefined || h.thread === null
      ? []
      : [
          {
            what: 'wire insert',
            size: threadWords(h.thread.name),
            length: say(h.insert, speech, places(speech)),
            count: 1,
            for: h.id,
          },
        ],
  );

const nuts = (plate: Plate): readonly Brought[] =>
  plate.holes.flatMap((h): readonly Brought[] =>
    h.fastening?.head?.kind !== 'nut' || h.fastening.thread === null
      ? []
      : [{ what: 'nut', size: threadWords(h.fastening.thread), length: '', count: 1, for: h.id }],
  );

/**
 * Washers under nuts and heads on the plate, and under bolts whose heads lie on the part where the job asks for them.
 */
const washers = (plate: Plate, job: Job, speech: Speech): readonly Brought[] =>
  plate.holes.flatMap((h): readonly Brought[] => {
    const spec = job.plate?.fasten.get(h.part?.face ?? '') ?? null;
    const thread = threadOf(h.fastening?.thread ?? null);
    const onPart =
      spec !== null && thread !== null && h.fastening?.kind === 'bolt' && h.fastening.head === null
        ? hasWasher(spec, 'bolt')
          ? hardware(thread).washer
          : null
        : null;
    const washer = h.fastening?.head?.washer ?? onPart;
    if (washer === null || washer === undefined) return [];
    const size = `${sayNumber(washer.outside, speech, places(speech))} × ${say(washer.thickness, speech, places(speech))}`;
    return [{ what: 'washer', size: `${size}, no wider`, length: '', count: 1, for: h.id }];
  });

/** Screws that press the plate off, and eye bolts. */
const screws = (plate: Plate): readonly Brought[] =>
  plate.holes.flatMap((h): readonly Brought[] =>
    h.thread === null || (h.as !== 'jacking' && h.as !== 'lifting')
      ? []
      : [
          {
            what: h.as === 'jacking' ? 'jacking screw' : 'eye bolt',
            size: withPitch(h.thread.name, h.thread.pitch),
            length: '',
            count: 1,
            for: h.id,
          },
        ],
  );

const sheets = (job: Job, gaskets: readonly Gasket[], speech: Speech): readonly Brought[] =>
  gaskets.map((g) => {
    const { left, right, bottom, top } = pathBox(g.outline);
    const thick = gasketUnder(job, g.face);
    const step = speech.unit === 'in' ? 25.4 / 4 : 5;
    const up = (mm: number): string =>
      sayNumber(Math.ceil((mm + 2 * SHEET_EDGE) / step) * step, speech, speech.unit === 'in' ? 2 : 0);
    return {
      what: 'gasket sheet',
      size:
        `${up(right - left)} × ${up(top - bottom)} ` +
        `${speech.unit}${thick === null || thick === 0 ? '' : `, ${say(thick, speech, places(speech))} thick`}`,
      length: '',
      count: 1,
      for: g.face,
    };
  });

const packing = (stack: StackResult | null, speech: Speech): readonly Brought[] => [
  ...(stack?.spacer == null
    ? []
    : [{ what: 'spacer', size: `${say(stack.spacer, speech)} thick`, length: '', count: 1, for: 'the stack' }]),
  ...(stack?.shims ?? []).map((s) => ({
    what: 'shim',
    size: `${say(s, speech)} thick`,
    length: '',
    count: 1,
    for: '',
  })),
];

/**
 * Bolts, nuts, washers, dowels, gasket sheet and shims, with sizes, lengths and counts; no row where nothing is wanted.
 */
export const bringHardware = (
  whole: Plate,
  job: Job,
  gaskets: readonly Gasket[],
  stack: StackResult | null,
  speech: Speech,
): TableBlock => {
  const plate = { ...whole, holes: whole.holes.filter((h) => !isOfOther(whole, h)) };
  return {
    kind: 'table',
    caption: 'Fasteners and sheet',
    columns: [
      { title: '', align: 'right' },
      { title: 'What', align: 'left' },
      { title: 'Size', align: 'left' },
      { title: 'Long', align: 'left' },
      { title: 'For', align: 'left' },
    ],
    rows: [
      ...grouped([
        ...fasteners(plate, speech),
        ...inserts(plate, speech),
        ...nuts(plate),
        ...washers(plate, job, speech),
        ...screws(plate),
      ]),
      ...sheets(job, gaskets, speech),
      ...grouped(packing(stack, speech)),
    ].map((b) => [`${b.count} ×`, b.what, b.size, b.length, b.for]),
  };
};

/** Screws and dowels of the joint between two pieces are bought once, with the piece that they go through. */
const isOfOther = ({ joint }: Plate, h: PlateHole): boolean =>
  joint?.takes === true && (h.part?.face === joint.face || (h.as === 'dowel' && h.feature === null));
