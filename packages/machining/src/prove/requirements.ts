import { type Requirement, type Speech, notKnown, say, sayAll } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { type MatedFace, type Plate, solveStack, stackRequirements } from '@fayplate/plate';
import type { Proof } from '../types.js';
import { isSure } from './face.js';

interface Tried {
  readonly id: string;
  readonly title: string;
  readonly ok: boolean;
  readonly because: string;
  readonly value?: number;
  readonly limit?: number;
  readonly unit?: Requirement['unit'];
  readonly cure?: string;
}

const tried = ({ id, title, ok, because, value, limit, unit = 'mm', cure }: Tried): Requirement => ({
  id,
  title,
  state: ok ? 'holds' : 'fails',
  value: value ?? null,
  limit: limit ?? null,
  margin: value === undefined || limit === undefined ? null : (ok ? 1 : -1) * Math.abs(value - limit),
  unit,
  source: 'the readings of the drilled plate',
  because,
  cure: ok ? null : (cure ?? null),
});

/** What is wrong with the hole pattern: a likely mistake, or holes out of place. */
const ofPattern = (proof: Proof): readonly Requirement[] => {
  const suspects = proof.located?.suspects.flatMap((s) => [s.reading, ...s.tiedWith]) ?? [];
  return [
    ...(suspects.length === 0
      ? []
      : [
          notKnown(
            'reading-suspect',
            'reading suspect',
            `${suspects.length === 1 ? 'reading' : 'readings'} ${sayAll(suspects)} of the drilled plate ${suspects.length === 1 ? 'does' : 'do'} not agree with the rest`,
            `measure ${suspects.length === 1 ? 'it' : 'them'} again`,
          ),
        ]),
    ...(proof.mistake === null || proof.renumbered !== null
      ? []
      : [
          tried({
            id: 'drilled-as-drawn',
            title: 'drilled as drawn',
            ok: false,
            because: `the plate is not drilled as drawn: ${proof.mistake.says}`,
          }),
        ]),
    ...(proof.handSure
      ? []
      : [
          notKnown(
            'mirror-image',
            'mirror image of the drilled plate',
            'the readings of the drilled plate would be the same on its mirror image',
            proof.plan.hand,
          ),
        ]),
    ...(proof.goesOn.size > 0 || proof.unmeasured.length > 0
      ? []
      : [
          notKnown(
            'not-measured',
            'drilled plate not measured',
            'the readings do not reach enough holes to say whether the drilled plate goes on',
            'take the readings that `prove` lists',
          ),
        ]),
    ...(proof.unmeasured.length === 0
      ? []
      : [
          notKnown(
            'not-measured',
            'holes not measured',
            `no reading fixes ${sayAll(proof.unmeasured)} of the drilled plate`,
            'take the readings that `prove` lists',
          ),
        ]),
  ];
};

/** Whether the drilled plate goes on each face. */
const onFaces = (proof: Proof, speech: Speech): readonly Requirement[] =>
  [...proof.goesOn].map(([face, f]) =>
    tried({
      id: 'goes-on-as-drilled',
      title: `goes on ${face} as drilled`,
      ok: isSure(f),
      value: 100 * f.probability,
      limit: 95,
      unit: '%',
      because:
        f.slack < 0
          ? `the plate as drilled does not go on ${face}: ${say(-f.slack, speech)} is missing at ${sayAll(f.tight)}`
          : `the plate as drilled goes on ${face} ${(100 * f.probability).toFixed(1)} times in 100`,
      ...(f.ease[0] === undefined
        ? {}
        : { cure: `ease ${sayAll(f.ease[0].eases.map((e) => e.hole))}, as \`prove\` says` }),
    }),
  );

/**
 * What the drilled plate has to fulfil: its pattern and its hand, every face, and every size that was measured on it. A
 * size is right where its band of ± reaches the limits that it was to have.
 */
export const proofRequirements = (
  job: Job,
  plate: Plate,
  mated: readonly MatedFace[],
  proof: Proof,
  speech: Speech,
): readonly Requirement[] =>
  proof.state === 'not drilled'
    ? []
    : [
        ...ofPattern(proof),
        ...onFaces(proof, speech),
        ...ofSizes(job, plate, proof, speech),
        ...ofThickness(job, plate, speech),
        ...ofDepths(job, plate, mated, speech),
        ...ofRegisters(plate, mated, proof, speech),
        ...inLine(job, plate, mated, proof, speech),
      ];

/** ± of a drilled hole's size above its drill, mm. Source: common practice, a twist drill cuts a little large. */
const LARGER = 0.2;
const SMALLER = 0.02;

/** Diameters that were read on the plate, against what each hole, bore or register was to be. */
const ofSizes = (job: Job, plate: Plate, proof: Proof, speech: Speech): readonly Requirement[] => {
  const mm = (v: number): string => say(v, speech, speech.unit === 'in' ? 4 : 3);
  const realNames = proof.renumbered ?? new Map<string, string>();
  const read = job.drilled?.readings.filter((r) => r.kind === 'dia' && !r.aside) ?? [];
  return [...new Set(read.flatMap((r) => r.features))].flatMap((id): readonly Requirement[] => {
    const found = proof.located?.features.get(id);
    const is = realNames.get(id) ?? id;
    const cut = [...plate.holes, ...plate.bores].find((c) => c.id === is);
    if (found?.radius == null || cut === undefined) return [];
    const diameter = 2 * found.radius;
    const plusMinus = 4 * (found.radiusSigma ?? 0);
    const [least, most] = limitsOf(cut);
    const short = least - (diameter + plusMinus);
    const over = diameter - plusMinus - most;
    const ok = short <= 1e-9 && over <= 1e-9;
    return [
      tried({
        id: 'drilled-size',
        title: `${is} as drilled`,
        ok,
        value: diameter,
        limit: short > 0 ? least : most,
        because: ok
          ? `${is} measures ${mm(diameter)}`
          : `${is} measures ${mm(diameter)}, ${mm(short > 0 ? short : over)} too ${short > 0 ? 'small' : 'large'}: it was to be ${Math.abs(most - least) < 1e-9 ? mm(least) : `${mm(least)} to ${mm(most)}`}`,
      }),
    ];
  });
};

/** Least and most that a cut may measure: what it meets depends on it only where it locates; a hole may be its pilot still. */
const limitsOf = (cut: Plate['holes'][number] | Plate['bores'][number]): readonly [number, number] => {
  if (!('as' in cut)) {
    if (cut.limits !== null && cut.kind === 'bore') return cut.limits;
    // What a register must be is told by what goes into it; a plain bore may be larger.
    if (cut.kind === 'recess' || cut.kind === 'spigot') return [0, Infinity];
    return [cut.diameter - 0.1, cut.diameter + 1];
  }
  if (cut.limits !== null && cut.as !== 'tapped' && cut.as !== 'set stud')
    return cut.as === 'clearance'
      ? [Math.min(cut.limits[0], cut.diameter) - SMALLER, cut.limits[1] + LARGER]
      : cut.limits;
  return [cut.diameter - SMALLER, Math.max(cut.diameter, cut.thread?.major ?? 0) + LARGER];
};

const places = (speech: Speech): number => (speech.unit === 'in' ? 4 : 3);

/** General tolerance of a length, mm. Source: ISO 2768-1, class m, from memory. */
const general = (mm: number): number => (mm <= 6 ? 0.1 : mm <= 30 ? 0.2 : mm <= 120 ? 0.3 : 0.5);

/** How thick the plate came out: the chain along the shaft with that thickness, else a general tolerance. */
const ofThickness = (job: Job, plate: Plate, speech: Speech): readonly Requirement[] => {
  const measured = job.drilledSizes?.thickness ?? null;
  if (measured === null) return [];
  const mm = (v: number): string => say(v, speech, places(speech));
  if (job.stack !== null) {
    const asMeasured = job.plate === null ? job : { ...job, plate: { ...job.plate, thickness: measured } };
    const shims = job.plate?.thickness === 'from stack' ? solveStack(job.stack).shims.reduce((a, b) => a + b, 0) : 0;
    return stackRequirements(asMeasured, solveStack(job.stack), measured + shims, speech)
      .filter((r) => r.id === 'stack-limit')
      .map((r) => ({ ...r, id: 'drilled-thickness', title: `${r.title}, as drilled` }));
  }
  const off = Math.abs(measured - plate.thickness);
  return [
    tried({
      id: 'drilled-thickness',
      title: 'thickness as drilled',
      ok: off <= general(plate.thickness) + 1e-9,
      value: measured,
      limit: plate.thickness,
      because: `the plate is ${mm(measured)} thick, and was to be ${mm(plate.thickness)}`,
    }),
  ];
};

/** The part's own feature that a register is for. */
const inRegister = (plate: Plate, mated: readonly MatedFace[], id: string) => {
  const bore = plate.bores.find((b) => b.id === id && (b.kind === 'recess' || b.kind === 'spigot'));
  const own = mated.find((m) => m.face === bore?.part?.face);
  return bore === undefined || own === undefined ? null : { bore, own };
};

/** Depths that were measured: the faces must meet before the register bottoms. */
const ofDepths = (job: Job, plate: Plate, mated: readonly MatedFace[], speech: Speech): readonly Requirement[] =>
  [...(job.drilledSizes?.depths ?? [])].flatMap(([id, depth]): readonly Requirement[] => {
    const met = inRegister(plate, mated, id);
    const feature = job.faces
      .find((f) => f.name === met?.own.face)
      ?.features.find((f) => f.id === met?.bore.part?.feature);
    const known = feature?.height ?? feature?.stands ?? feature?.deep ?? null;
    if (met === null || feature === undefined) return [];
    const mm = (v: number): string => say(v, speech, places(speech));
    const drawn = met.bore.depth ?? depth;
    const clear =
      known === null
        ? general(drawn) - Math.abs(depth - drawn)
        : met.bore.kind === 'recess'
          ? depth - known
          : known - depth;
    return [
      tried({
        id: 'drilled-depth',
        title: `depth of ${id} as drilled`,
        ok: clear >= -1e-9,
        value: clear,
        limit: 0,
        because:
          known === null
            ? `${id} is ${mm(depth)} ${met.bore.kind === 'recess' ? 'deep' : 'high'}, and was to be ${mm(drawn)}`
            : clear >= 0
              ? `${id} is ${mm(depth)} ${met.bore.kind === 'recess' ? 'deep' : 'high'}: the faces meet before it bottoms`
              : `${id} is ${mm(depth)} ${met.bore.kind === 'recess' ? 'deep' : 'high'}, ${mm(-clear)} too ${met.bore.kind === 'recess' ? 'little' : 'much'} for ${met.bore.feature ?? ''}: it bottoms before the faces meet`,
      }),
    ];
  });

/** Diameter of a register as drilled and of what goes into it, with both ±, mm; null where one is not measured. */
const registerSizes = (plate: Plate, mated: readonly MatedFace[], proof: Proof, id: string) => {
  const met = inRegister(plate, mated, id);
  const readAs = [...(proof.renumbered ?? [])].find(([, is]) => is === id)?.[0] ?? id;
  const found = proof.located?.features.get(readAs);
  if (met === null || found?.radius == null || found.radiusSigma == null) return null;
  const i = met.own.pattern.ids.indexOf(met.bore.part?.feature ?? '');
  const radius = met.own.pattern.radii[i] ?? null;
  if (radius === null) return null;
  const part = 2 * radius;
  const partPlusMinus = 4 * (met.own.radiusSigmas.get(met.bore.part?.feature ?? '') ?? 0);
  return { ...met, drilled: 2 * found.radius, plusMinus: 4 * found.radiusSigma, part, partPlusMinus };
};

/** Whether each register that was measured still goes on its part. */
const ofRegisters = (plate: Plate, mated: readonly MatedFace[], proof: Proof, speech: Speech): readonly Requirement[] =>
  plate.bores.flatMap(({ id }): readonly Requirement[] => {
    const sizes = isSizeRead(proof, id) ? registerSizes(plate, mated, proof, id) : null;
    if (sizes === null) return [];
    const mm = (v: number): string => say(v, speech, places(speech));
    const clear = sizes.bore.kind === 'recess' ? sizes.drilled - sizes.part : sizes.part - sizes.drilled;
    return [
      tried({
        id: 'drilled-register',
        title: `register ${id} as drilled`,
        ok: clear >= -1e-9,
        value: clear,
        limit: 0,
        because:
          clear >= 0
            ? `${id} clears ${sizes.bore.feature ?? ''} by ${mm(clear)}`
            : `${id} measures ${mm(sizes.drilled)}, ${mm(-clear)} too ${sizes.bore.kind === 'recess' ? 'small' : 'large'} for ${sizes.bore.feature ?? ''}`,
      }),
    ];
  });

/** Whether a diameter was read, under the name that the readings have for it. */
const isSizeRead = (proof: Proof, id: string): boolean => {
  const readAs = [...(proof.renumbered ?? [])].find(([, is]) => is === id)?.[0] ?? id;
  return proof.located?.readings.some((r) => r.kind === 'dia' && r.text.split(/\s+/).includes(readAs)) === true;
};

/** Offset that a coupling bears where the job does not say, mm: as in the design. */
const USUAL_OFFSET = 0.2;

/** How far the registers came to lie from each other, against how far out of line the shafts may be. */
const inLine = (
  job: Job,
  plate: Plate,
  mated: readonly MatedFace[],
  proof: Proof,
  speech: Speech,
): readonly Requirement[] => {
  const measured = plate.bores.flatMap((bore) => {
    const readAs = [...(proof.renumbered ?? [])].find(([, is]) => is === bore.id)?.[0] ?? bore.id;
    const at = proof.places?.get(bore.id);
    const own = mated.find((m) => m.face === bore.part?.face);
    return (bore.kind === 'recess' || bore.kind === 'spigot') && at !== undefined && own !== undefined
      ? [{ bore, own, at, readAs }]
      : [];
  });
  const [a, b] = measured;
  if (a === undefined || b === undefined || a.own === b.own || plate.alignment === null) return [];
  const moved = (m: typeof a) => ({ x: m.at.x - m.bore.x, y: m.at.y - m.bore.y });
  const [one, other] = [moved(a), moved(b)];
  const apart = Math.hypot(other.x - one.x, other.y - one.y);
  const play = measured.reduce((sum, m) => {
    const sizes = registerSizes(plate, mated, proof, m.bore.id);
    return sizes === null || !isSizeRead(proof, m.bore.id)
      ? sum
      : sum + Math.max(0, Math.abs(sizes.drilled - sizes.part) / 2);
  }, 0);
  const offset = plate.alignment.offset.nominal + apart + play;
  const limit = job.plate?.alignment?.offset ?? USUAL_OFFSET;
  const mm = (v: number): string => say(v, speech, places(speech));
  return [
    tried({
      id: 'drilled-offset',
      title: 'shafts in line as drilled',
      ok: offset <= limit + 1e-9,
      value: offset,
      limit,
      because: `${a.bore.id} and ${b.bore.id} as drilled let the shafts run ${mm(offset)} out of line, where at most ${mm(limit)} is allowed`,
    }),
  ];
};
