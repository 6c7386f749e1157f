import { capital } from '../words/say.js';
import { type Point, formatClock, heading, norm, once, origin, randomFrom, subtract } from '@fayplate/core';
import type { Alignment, AlignmentSource, AlignmentSpec, LocatedShaft, Misalignment } from '../types.js';
import { tiltOf } from './shaft.js';
import { type Source, againSet, sourcesOf } from './sources.js';

/** Why the second register may be bored about another axis than the first. */
const AGAIN = 'setting the plate up again for its second side';

const draws = 20_000;
const seed = 1;

/** The 95 % value is worked out when it is first read: most plates that are tried never need it. */
const judge = (nominal: number, worst: number | null, p95: () => number | null, limit: number | null): Misalignment => {
  const within = once(p95);
  return {
    nominal,
    worst,
    get p95() {
      return within();
    },
    limit,
    ok: limit === null || worst === null ? null : worst <= limit,
  };
};

/** The offset that 95 of 100 draws stay within, mm: each source drawn once and added to the nominal offset. */
const drawnOffset = (off: Point, sources: readonly Source[]): number => {
  const random = randomFrom(seed);
  const offsets = Float64Array.from({ length: draws }, () => {
    let { x, y } = off;
    for (const source of sources) {
      const d = source.draw(random);
      x += d.x;
      y += d.y;
    }
    return Math.hypot(x, y);
  }).sort();
  return offsets[Math.ceil(0.95 * draws) - 1] ?? norm(off);
};

const fromCentre = (s: LocatedShaft): string =>
  s.feature === null && s.circle !== undefined
    ? `The shaft of ${s.face} is taken to run at the centre of its circle, which nothing marks: check with a dial ` +
      'indicator that it does.'
    : s.feature === null
      ? `Where the shaft of ${s.face} runs is not known, as the face ` +
        'names neither a shaft nor a centre: its origin is used.'
      : `Where the shaft of ${s.face} runs is taken from ` +
        `${s.face}.${s.feature}: check with a dial indicator that it runs true.`;

/** What no measurement of the faces shows about one part. */
const untold: Readonly<Record<LocatedShaft['by'], (s: LocatedShaft) => string>> = {
  register: (s) =>
    `Whether ${s.face}.${s.feature} runs true with the shaft of ${s.face} is not measured yet: put a dial ` +
    'indicator on it while the shaft turns.',
  dowels: fromCentre,
  fasteners: fromCentre,
  // Of two pieces the other is no part's own name.
  'set at assembly': (s) =>
    `${s.face.startsWith('the ') ? capital(s.face) : s.face} is set true by indicator before its dowels are ` +
    'reamed: it runs as true as you set it, as far as its bolt holes let it move.',
};

/**
 * Offset and tilt of the two shafts. Offset: play in registers, dowels or bolts (anywhere within it alike), the places
 * as measured and as made (normal), summed at the worst and by 20,000 seeded draws for 95 in 100. Tilt: a plate whose
 * thickness differs by ± over its face leans by 2 ± / width at the most; the ± being two standard deviations, 95 in 100
 * lie within 1.96 of them. Two registers are bored in two settings: the second misses the first's axis by its own ±,
 * and leans by as much over the face.
 */
export const alignShafts = (spec: AlignmentSpec): Alignment => {
  const [a, b] = spec.faces;
  const sources: { readonly face: string | null; readonly source: Source }[] = [a, b].flatMap((s) =>
    sourcesOf(s).map((source) => ({ face: s.face, source })),
  );
  const off = subtract(subtract(b.shaft, a.shaft), spec.apart ?? origin);
  const nominal = norm(off);
  const setAgain = a.by === 'register' && b.by === 'register' ? spec.secondSetting : 0;
  if (setAgain > 0) sources.push({ face: null, source: againSet(setAgain) });
  const loose = [a, b].filter((s) => s.by !== 'set at assembly' && !sources.some((x) => x.face === s.face));
  const worst = loose.length > 0 ? null : sources.reduce((sum, { source }) => sum + source.worst, nominal);
  const p95 = (): number | null =>
    worst === null
      ? null
      : drawnOffset(
          off,
          sources.map((s) => s.source),
        );
  const over = spec.over > 0 ? spec.over : null;
  const uneven = spec.parallel === null || over === null ? null : Math.atan((2 * spec.parallel) / over);
  const setLean = setAgain === 0 || over === null ? 0 : Math.atan((2 * setAgain) / over);
  const lean = uneven === null ? null : uneven + setLean;
  const leans = [...(a.leans ?? []), ...(b.leans ?? [])];
  const tilted = tiltOf(leans);
  const least = tilted.known + tilted.open - tilted.worst;
  const tilt = judge(
    tilted.known,
    lean === null ? null : tilted.known + tilted.open + tilted.worst + lean,
    () => (lean === null ? null : tilted.known + tilted.open + (1.959964 / 2) * Math.hypot(lean, tilted.chance)),
    spec.limits.tilt,
  );
  const causes: readonly AlignmentSource[] = [
    ...sources.map(({ face, source }) => ({ what: 'offset' as const, face, says: source.says, worst: source.worst })),
    ...(uneven === null
      ? []
      : [
          { what: 'tilt' as const, face: null, says: 'the plate thicker at one edge than at the other', worst: uneven },
        ]),
    ...leans.map((l): AlignmentSource => ({
      what: 'tilt',
      face: l.face,
      says:
        'run-out of the face of ' +
        l.face +
        (l.toward === null
          ? ', whose direction was not read'
          : `, high toward ${formatClock(heading(l.toward))} o’clock`),
      worst: l.by + l.plusMinus,
    })),
    ...(uneven === null || setLean === 0 ? [] : [{ what: 'tilt' as const, face: null, says: AGAIN, worst: setLean }]),
  ];
  const circles = [a, b].flatMap((s) => (s.circle == null ? [] : [{ face: s.face, plusMinus: s.circle }]));
  return {
    ...(circles.length === 0 ? {} : { circles }),
    offset: judge(nominal, worst, p95, spec.limits.offset),
    // How parallel the plate comes out may make it better or worse; what the faces make alone may be too much already.
    tilt: spec.limits.tilt !== null && tilt.ok === null && least > spec.limits.tilt ? { ...tilt, ok: false } : tilt,
    sources: causes.toSorted((p, q) => (p.what === q.what ? q.worst - p.worst : p.what === 'offset' ? -1 : 1)),
    turns: a.feature !== null || b.feature !== null || spec.limits.offset !== null || spec.limits.tilt !== null,
    unknowns: [
      ...[a, b].flatMap((s) => (s.ranOut === true ? [] : [untold[s.by](s)])),
      ...(setAgain > 0
        ? [
            'The two registers of the plate share one axis to within what is stated for the second setting, or ' +
              'what an indicator usually gives: indicate the spindle true before you bore the second.',
          ]
        : []),
      ...loose.map((s) =>
        s.joints.some((j) => j.role === 'fastener')
          ? `One bolt alone holds ${s.face}, which can swing round it: give it a register, dowels or a second bolt, ` +
            'so that the offset can be worked out.'
          : `Nothing of known size locates ${s.face}: give its register, its dowels or the diameters of its ` +
            'fasteners, so that the offset can be worked out.',
      ),
      ...(lean === null
        ? [
            "How parallel the plate's two faces are is not stated: measure the thickness at four places round the " +
              'edge, and state the difference.',
          ]
        : []),
    ],
  };
};
