import type { PlateSpec } from '@fayplate/job';
import type { Desk } from './desk.js';

/** ± of one hole's place where the job does not say, mm: through paper with a punch. Source: common practice (read-out ± 0.05 mm). */
export const usualDrilling = 0.5;

/** ± of an axis picked up again by indicator, mm. Source: common practice. */
export const BY_INDICATOR = 0.02;

/** Offset that a coupling bears where the job does not say, mm. Source: common practice, flexible couplings of small shafts. */
export const USUAL_OFFSET = 0.2;

/** Full indicator movement to which a part is set true, mm: as the job says, else half of what the shafts bear, twice their offset being what is read. */
export const readingOf = (spec: PlateSpec, face: string): number | null => {
  const locate = spec.locate.get(face);
  if (locate?.as !== 'new dowels' || locate.set === undefined) return null;
  return locate.set.reading ?? spec.shafts?.apart.plusMinus ?? spec.alignment?.offset ?? USUAL_OFFSET;
};

/** ± by which the plate's second register misses the axis of its first, mm; 0 where it has not one on either side. */
export const secondSettingOf = (desk: Desk): number =>
  desk.faces.every((f) => desk.spec.locate.get(f.name)?.as === 'register')
    ? (desk.spec.secondSetting ?? BY_INDICATOR)
    : 0;
