/** ± of one hole's place where the job does not say, mm: through paper with a punch. Source: common practice (read-out ± 0.05 mm). */
export const usualDrilling = 0.5;
