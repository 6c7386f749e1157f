/**
 * Chance that a layout was meant, but the holes were made by eye or rule and miss it everywhere by more than the readings do. Such a face is
 * counted as measured: its holes are where they are. It stands against taking chance coincidences in a roughly regular pattern for a design.
 */
export const ROUGH = 0.1;

/** How far such holes miss, in standard deviations of a measured centre; each as likely. */
export const misses: readonly number[] = [4, 12, 36];
