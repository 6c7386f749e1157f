import type { Job } from '@fayplate/job';
import type { MachinistTable } from '@fayplate/machining';
import type { Plate } from '@fayplate/plate';
import { type Numbers, datumWords, datumsOf, size } from './dimension.js';

/** What the drawing is made of: the plate, where the machine is set for each hole, and hole → zone of its axis, mm. */
export interface WorkshopDrawing {
  readonly plate: Plate;
  readonly table: MachinistTable;
  readonly zones: ReadonlyMap<string, number>;
  readonly job: Job;
  /** Least and greatest thickness, mm. */
  readonly thickness: readonly [number, number];
  /** What stands across the sheet while readings are not settled; null: nothing. */
  readonly across: string | null;
}

/** Most that edges are broken by where the job does not say, mm. Source: common practice. */
const EDGES = 0.5;

/** Holes of one zone together, each with its tolerance frame: `H1 H2 H3`, 0.41. */
export const zoneGroups = (
  { zones }: WorkshopDrawing,
  n: Numbers,
): readonly { readonly before: string; readonly zone: string; readonly atMost: boolean }[] => {
  const alike = new Map<string, string[]>();
  for (const [id, zone] of zones) {
    const key = `${id.startsWith('C') ? 'C' : 'H'} ${size(zone, n)}`;
    alike.set(key, [...(alike.get(key) ?? []), id]);
  }
  return [...alike].map(([key, ids]) => ({
    before: ids.length > 6 ? `${ids[0] ?? ''} … ${ids.at(-1) ?? ''} (${ids.length})` : ids.join(' '),
    zone: key.slice(2),
    // A register is true to its axis whatever its size.
    atMost: key.startsWith('H'),
  }));
};

/** What holds for the whole sheet, each in a sentence or two. */
export const groundRules = (d: WorkshopDrawing, n: Numbers): readonly string[] => {
  const { plate, job } = d;
  const own = job.drawing ?? null;
  const general = n.asme
    ? `Where no limits stand: ± ${size(0.01 * 25.4, n)} ${n.unit}, angles ± 0.5° (common practice).`
    : 'Where no limits stand: ISO 2768-mK.';
  const edges = own?.edges ?? EDGES;
  const projected = plate.holes.some((h) => h.as === 'tapped' || h.as === 'set stud');
  return [
    datumWords(plate, datumsOf(plate)),
    'X and Y are exact; the position zone at maximum material says how far off an axis may be, so that its ' +
      'fastener still enters.',
    ...(plate.outline.shape === 'round'
      ? []
      : ['Outline: to each place in turn, straight, or by an arc of radius R (−: clockwise).']),
    ...(projected ? ['Zones of tapped holes stand out of the plate, through the part that is bolted on.'] : []),
    general,
    `Edges broken by at most ${size(edges, n)}; mouths of registers sharp and free of burrs. Surface ` +
      `${own?.surface ?? (n.asme ? '125 µin' : 'Ra 3.2')}.`,
    'Measure, do not scale. Ask before you change anything: every size here follows from measured parts.',
  ];
};
