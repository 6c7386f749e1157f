/**
 * What one reading measures, as a function of a few numbers (coordinates and radii, mm, in the order that its maker states):
 * returns the modelled value and writes its slope by each of them into `slopes`.
 */
export type Geometry = (values: Float64Array, slopes: Float64Array) => number;
