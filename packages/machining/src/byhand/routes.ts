import type { Feature, Job, Tool } from '@fayplate/job';
import { type Plate, type PlateHole, isTapped } from '@fayplate/plate';

/** A way of placing holes without a read-out, and how near it really comes. */
export interface Route {
  readonly name: string;
  readonly says: string;
  readonly holes: readonly string[];
  /** Half-width of the band that holds a hole's place 95 times in 100, mm, in any direction. */
  readonly plusMinus: number;
  readonly source: string;
  /** Holes of this route whose clearance a place that far off uses up. */
  readonly tooCoarseFor: readonly string[];
}

const practice = 'common practice';

interface Mate {
  readonly hole: PlateHole;
  readonly feature: Feature | null;
}

/** The routes that the plate and its parts allow, each with the holes it serves, the nearest first. */
export const routes = (plate: Pick<Plate, 'holes'>, job: Pick<Job, 'faces' | 'machine'>): readonly Route[] => {
  const mates = matesOf(plate, job);
  const newDowels = mates.filter((m) => (m.hole.as === 'dowel' || m.hole.as === 'slot') && m.hole.feature === null);
  const open = mates.filter((m) => m.feature?.kind === 'hole');
  const tapped = open.filter((m) => carriesThread(m.feature));
  const plain = open.filter((m) => !carriesThread(m.feature));
  const standing = mates.filter((m) => m.feature?.kind === 'stud' || m.feature?.kind === 'dowel');
  const found: readonly (Route | null)[] = [
    reamed(newDowels),
    spotThrough(plain),
    transferScrews(tapped),
    transferPunches(plain, job.machine?.punches ?? null),
    blued(standing),
    template(mates),
  ];
  // A way that is too coarse for all that it could place is none.
  return found
    .flatMap((r) => (r === null || r.tooCoarseFor.length === r.holes.length ? [] : [r]))
    .sort((a, b) => a.plusMinus - b.plusMinus);
};

const matesOf = (plate: Pick<Plate, 'holes'>, job: Pick<Job, 'faces'>): readonly Mate[] =>
  plate.holes.map((hole) => ({ hole, feature: featureOf(hole, job) }));

/** ± of a centre pricked through a paper template and punched, mm in any direction (common practice). */
export const PUNCHED = 0.5;

/** Holes that paper and punch would place too far off for their fasteners: they are placed by read-out. */
export const tooCloseToPunch = (plate: Pick<Plate, 'holes'>, job: Pick<Job, 'faces'>): readonly string[] =>
  matesOf(plate, job)
    .filter((m) => play(m) < PUNCHED)
    .map((m) => m.hole.id);

const featureOf = (hole: PlateHole, job: Pick<Job, 'faces'>): Feature | null => {
  const { part } = hole;
  return job.faces.find((f) => f.name === part?.face)?.features.find((f) => f.id === part?.feature) ?? null;
};

/** A hole that is tapped, not one that only names the bolt that passes it. */
const carriesThread = (feature: Feature | null): boolean =>
  feature !== null && isTapped({ feature, diameter: feature.diameter?.value ?? null });

const route = (mates: readonly Mate[], name: string, plusMinus: number, says: string): Route | null =>
  mates.length === 0
    ? null
    : {
        name,
        says,
        plusMinus,
        source: practice,
        holes: mates.map((m) => m.hole.id),
        tooCoarseFor: mates.filter((m) => play(m) < plusMinus).map((m) => m.hole.id),
      };

/**
 * How far a hole may stand off before its fastener touches, mm, all else being true. What is tapped bears the play of
 * its bolt in the part's own hole; a hole that is reamed with its mate takes its place.
 */
const play = ({ hole: h, feature }: Mate): number => {
  if (h.as === 'dowel' || h.as === 'slot') return h.feature === null ? Infinity : 0;
  if (h.fastener !== null) return (h.diameter - h.fastener) / 2;
  const bolt = h.as === 'tapped' || h.as === 'set stud' ? (h.fastening?.largest ?? null) : null;
  const passed = feature?.kind === 'hole' ? (feature.diameter?.value ?? null) : null;
  return bolt === null || passed === null ? Infinity : Math.max(0, passed - bolt) / 2;
};

const reamed = (mates: readonly Mate[]): Route | null =>
  route(
    mates,
    'dowels reamed at assembly',
    0.02,
    'Bolt up, bring the shafts into line by dial indicator, then drill and ream part and plate together: the ' +
      'dowels hold what you set, so the ± is that of the alignment.',
  );

const spotThrough = (mates: readonly Mate[]): Route | null =>
  route(
    mates,
    'spotted through the part',
    0.1,
    'Clamp the plate to the part in its working place, spot through each hole with a drill that just fills it, ' +
      'take the plate off and drill to size.',
  );

const transferScrews = (mates: readonly Mate[]): Route | null =>
  route(
    mates,
    'transfer screws',
    0.2,
    `Screw pointed transfer screws (${threadsOf(mates)}) into the tapped holes, points level, lay the plate in ` +
      'place and strike it once over each; centre-drill the marks.',
  );

const threadsOf = (mates: readonly Mate[]): string =>
  [...new Set(mates.map((m) => m.feature?.thread ?? ''))].join(', ');

/** A punch that does not fill its hole may lie off by half the difference. */
const transferPunches = (mates: readonly Mate[], punches: readonly Tool[] | null): Route | null => {
  const gaps = mates.map(({ feature, hole }) => {
    const size = feature?.diameter?.value ?? hole.diameter;
    const fitting = (punches ?? []).filter((p) => p.diameter <= size).sort((a, b) => b.diameter - a.diameter)[0];
    return { size, punch: fitting ?? null };
  });
  if (punches !== null && gaps.some((g) => g.punch === null)) return null;
  const slack = Math.max(0, ...gaps.map((g) => (g.punch === null ? 0 : (g.size - g.punch.diameter) / 2)));
  const names = [...new Set(gaps.flatMap((g) => (g.punch === null ? [] : [g.punch.name])))].join(', ');
  return route(
    mates,
    'transfer punches',
    Math.hypot(0.2, slack),
    'Clamp the plate to the part and strike a transfer punch that fills each ' +
      `hole${names === '' ? '' : ` (${names})`}; centre-drill the marks.`,
  );
};

const blued = (mates: readonly Mate[]): Route | null =>
  route(
    mates,
    'blued ends',
    0.5,
    'Blue the ends of what stands out, lay the plate squarely against them, and punch the middle of each print: ' +
      'good for clearance holes only.',
  );

const template = (mates: readonly Mate[]): Route | null =>
  route(
    mates,
    'paper template and punch',
    PUNCHED,
    'Check the printed rulers, glue the sheet down, prick each centre through the paper with a fine punch under a ' +
      'lens, deepen it, then centre-drill.',
  );
