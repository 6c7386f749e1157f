import {
  type Motion,
  type Point,
  apply,
  compose,
  distance,
  flipX,
  heading,
  identity,
  norm,
  register,
  rotation,
  subtract,
  thePart,
  toDegrees,
  translation,
} from '@fayplate/core';
import type { MatedFace, Plate } from '@fayplate/plate';

/** A way in which a plate may have been drilled otherwise than drawn. */
export interface Mistake {
  readonly kind: 'mirrored' | 'swapped' | 'turned';
  readonly says: string;
  /** Every hole and bore where the mistake puts it, plate frame. */
  readonly places: ReadonlyMap<string, Point>;
}

const swapXY: Motion = compose(rotation(Math.PI / 2), flipX);
const flipY: Motion = compose(rotation(Math.PI), flipX);

/**
 * Mistakes worth looking for: the whole plate in a mirror, and each face's own holes mirrored, with X and Y swapped, or
 * turned about the face's centre.
 */
export const likelyMistakes = (plate: Plate, mated: readonly MatedFace[]): readonly Mistake[] => {
  const whole: Mistake = {
    kind: 'mirrored',
    says:
      'it is drilled as its mirror image: one axis was taken with the wrong sign, X and Y were swapped, or it was ' +
      'marked out from the wrong side (all three give the same plate)',
    places: placesUnder(plate, () => flipX),
  };
  const groups = plate.faces.map((face) => ({
    face,
    ids: new Set(plate.holes.filter((h) => h.part?.face === face).map((h) => h.id)),
  }));
  if (groups.some((g) => g.ids.size === 0)) return [whole];
  return [
    whole,
    ...groups.flatMap(({ face, ids }) => {
      const centre = mated.find((m) => m.face === face)?.centre ?? { x: 0, y: 0 };
      const about = (m: Motion): Motion =>
        compose(translation(centre.x, centre.y), compose(m, translation(-centre.x, -centre.y)));
      const of = (kind: Mistake['kind'], words: string, m: Motion): Mistake => ({
        kind,
        says: `${thePart(face)}’s holes are drilled ${words}`,
        places: placesUnder(plate, (id) => (ids.has(id) ? about(m) : identity)),
      });
      return [
        of('mirrored', 'with X the wrong way (as in a mirror)', flipX),
        of('mirrored', 'with Y the wrong way (as in a mirror)', flipY),
        of('swapped', 'with X and Y swapped', swapXY),
        ...turns(plate, ids, centre).map(({ angle, words }) => of('turned', words, rotation(angle))),
      ];
    }),
  ];
};

const placesUnder = (plate: Plate, motion: (id: string) => Motion): ReadonlyMap<string, Point> =>
  new Map([...plate.holes, ...plate.bores].map((h) => [h.id, apply(motion(h.id), { x: h.x, y: h.y })]));

/** A division of the holes' own circle either way, and half a turn. */
const turns = (
  plate: Plate,
  ids: ReadonlySet<string>,
  centre: Point,
): readonly { readonly angle: number; readonly words: string }[] => {
  const n = divisionsOf(
    plate.holes.filter((h) => ids.has(h.id)),
    centre,
  );
  const step = n === null ? null : (2 * Math.PI) / n;
  const one =
    step === null
      ? []
      : ([-1, 1] as const).map((k) => ({
          angle: k * step,
          words:
            `turned one division (${Number(toDegrees(step).toFixed(2))}°) ${k < 0 ? 'clockwise' : 'anticlockwise'} ` +
            'as seen from side B',
        }));
  return [...one, { angle: Math.PI, words: 'turned half round' }];
};

/** The fewest equal divisions on which all holes on the most common radius lie, up to 36; null where there are none. */
export const divisionsOf = (holes: readonly Point[], centre: Point): number | null => {
  const spokes = holes
    .map((h) => ({ radius: distance(h, centre), angle: heading(subtract(h, centre)) }))
    .filter((s) => s.radius > 1e-6);
  const ring = spokes
    .map((a) => spokes.filter((b) => Math.abs(a.radius - b.radius) < 0.01 * a.radius))
    .reduce<typeof spokes>((best, r) => (r.length > best.length ? r : best), []);
  const [first] = ring;
  if (first === undefined || ring.length < 3) return null;
  for (let n = 3; n <= 36; n++) {
    const off = Math.max(
      ...ring.map((s) => {
        const share = ((s.angle - first.angle) * n) / (2 * Math.PI);
        return Math.abs(share - Math.round(share)) * ((2 * Math.PI) / n);
      }),
    );
    if (off < 0.02) return n;
  }
  return null;
};

/**
 * Root mean square distance between the measured places and those of a layout laid on them as well as can be;
 * `mirrorToo`: in a mirror where that fits better.
 */
const layingError = (
  ids: readonly string[],
  measured: readonly Point[],
  places: ReadonlyMap<string, Point>,
  mirrorToo: boolean,
): number => {
  const wanted = ids.map((id) => places.get(id) ?? { x: 0, y: 0 });
  const error = (to: readonly Point[]): number => {
    const m = register(to, measured);
    return Math.sqrt(
      to.reduce((s, p, i) => s + norm(subtract(apply(m, p), measured[i] ?? p)) ** 2, 0) / Math.max(1, to.length),
    );
  };
  return mirrorToo ? Math.min(error(wanted), error(wanted.map((p) => apply(flipX, p)))) : error(wanted);
};

/**
 * Least misplacement that is put down to a mistake and not to drilling, mm root mean square: a punch mark wanders half
 * a millimetre.
 */
const plain = (making: number): number => Math.max(0.5, 3 * making);

/**
 * Whether the measured places lie plainly elsewhere than designed, more than drilling explains; `making`: its ±, mm.
 */
export const isPlainlyOff = (
  ids: readonly string[],
  measured: readonly Point[],
  designed: ReadonlyMap<string, Point>,
  mirrorToo: boolean,
  making: number,
): boolean => ids.length >= 3 && layingError(ids, measured, designed, mirrorToo) >= plain(making);

/**
 * The mistake that explains the measured places: plainly off as drawn, and at least four times nearer as mistaken,
 * within what drilling errors leave.
 */
export const mistakeIn = (
  ids: readonly string[],
  measured: readonly Point[],
  designed: ReadonlyMap<string, Point>,
  mistakes: readonly Mistake[],
  handKnown: boolean,
  making: number,
): Mistake | null => {
  if (!isPlainlyOff(ids, measured, designed, !handKnown, making)) return null;
  const tried = mistakes.map((mistake) => ({ mistake, error: layingError(ids, measured, mistake.places, !handKnown) }));
  const best = tried.reduce<(typeof tried)[number] | null>(
    (b, t) => (b === null || t.error < b.error - 1e-6 ? t : b),
    null,
  );
  const asDrawn = layingError(ids, measured, designed, !handKnown);
  return best !== null && best.error < asDrawn / 4 && best.error < plain(making) ? best.mistake : null;
};
