import type { Desk } from './desk.js';

/** ± of one hole's place where the job does not say, mm: through paper with a punch. Source: common practice (read-out ± 0.05 mm). */
export const usualDrilling = 0.5;

/** ± of an axis picked up again by indicator, mm. Source: common practice. */
export const BY_INDICATOR = 0.02;

/** ± by which the plate's second register misses the axis of its first, mm; 0 where it has not one on either side. */
export const secondSettingOf = (desk: Desk): number =>
  desk.faces.every((f) => desk.spec.locate.get(f.name)?.as === 'register')
    ? (desk.spec.secondSetting ?? BY_INDICATOR)
    : 0;
