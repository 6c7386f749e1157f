import { type Requirement, type Speech, notKnown, say } from '@fayplate/core';
import type { MatedFace, Plate } from '@fayplate/plate';
import type { Proof } from '../types.js';
import { tried } from './tried.js';

const places = (speech: Speech): number => (speech.unit === 'in' ? 4 : 3);

/** The part's own feature that a register is for. */
export const inRegister = (plate: Plate, mated: readonly MatedFace[], id: string) => {
  const bore = plate.bores.find((b) => b.id === id && (b.kind === 'recess' || b.kind === 'spigot'));
  const own = mated.find((m) => m.face === bore?.part?.face);
  return bore === undefined || own === undefined ? null : { bore, own };
};

/** Diameter of a register as drilled and of what goes into it, with both ±, mm; null where one is not measured. */
export const registerSizes = (plate: Plate, mated: readonly MatedFace[], proof: Proof, id: string) => {
  const met = inRegister(plate, mated, id);
  const found = proof.sizes?.get(id) ?? null;
  if (met === null || found === null) return null;
  const i = met.own.pattern.ids.indexOf(met.bore.part?.feature ?? '');
  const radius = met.own.pattern.radii[i] ?? null;
  if (radius === null) return null;
  const part = 2 * radius;
  const partPlusMinus = 4 * (met.own.radiusSigmas.get(met.bore.part?.feature ?? '') ?? 0);
  return { ...met, drilled: found.value, plusMinus: found.plusMinus, part, partPlusMinus };
};

/**
 * A register or bore of the drilled plate whose diameter nobody measured: all else takes it as drawn. Whoever drilled
 * it has the part at hand to try it on, so it is a note.
 */
const unread = (
  plate: Plate,
  mated: readonly MatedFace[],
  proof: Proof,
  id: string,
  mm: (v: number) => string,
): readonly Requirement[] => {
  const bore = plate.bores.find((b) => b.id === id);
  const cut = proof.soFar === undefined || proof.soFar.includes(id);
  if (bore === undefined || bore.kind === 'relief' || !cut || (proof.sizes?.get(id) ?? null) !== null) return [];
  const feature = inRegister(plate, mated, id) === null ? null : bore.feature;
  return [
    notKnown(
      'drilled-fit',
      `${feature === null ? 'bore' : 'register'} ${id} as drilled`,
      `the diameter of ${id} is not measured: it is taken to be ${mm(bore.diameter)}, as drawn`,
      feature === null ? `measure \`dia ${id}\`` : `measure \`dia ${id}\`, or try ${id} on ${feature}`,
      feature === null ? `measure ${id}` : `measure ${id}, or try it on ${feature}`,
    ),
  ];
};

/** Whether each register that was measured still goes on its part; one that was not is said to be taken as drawn. */
export const ofRegisters = (
  plate: Plate,
  mated: readonly MatedFace[],
  proof: Proof,
  speech: Speech,
): readonly Requirement[] =>
  plate.bores.flatMap(({ id }): readonly Requirement[] => {
    const mm = (v: number): string => say(v, speech, places(speech));
    const sizes = registerSizes(plate, mated, proof, id);
    if (sizes === null) return unread(plate, mated, proof, id, mm);
    const clear = sizes.bore.kind === 'recess' ? sizes.drilled - sizes.part : sizes.part - sizes.drilled;
    const unsure = Math.hypot(sizes.plusMinus, sizes.partPlusMinus);
    const feature = sizes.bore.feature ?? '';
    if (clear >= -1e-9 && clear < unsure - 1e-9)
      return [
        notKnown(
          'drilled-fit',
          `register ${id} as drilled`,
          `${id} clears ${feature} by ${mm(clear)}, and their diameters are known to ± ${mm(unsure)} only`,
          `measure both more closely, or try ${id} on ${feature}`,
        ),
      ];
    return [
      tried({
        id: 'drilled-register',
        title: `register ${id} as drilled`,
        ok: clear >= -1e-9,
        value: clear,
        limit: 0,
        because:
          clear >= 0
            ? `${id} clears ${feature} by ${mm(clear)}`
            : `${id} measures ${mm(sizes.drilled)}, ${mm(-clear)} too ` +
              `${sizes.bore.kind === 'recess' ? 'small' : 'large'} for ${feature}`,
      }),
    ];
  });
