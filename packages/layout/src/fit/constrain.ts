import { type Construction, type Linear, type Place, type Term, valueOf } from './construction.js';

/** Puts `parameter` = `by` into a linear form. */
const put = (l: Linear, parameter: number, by: Linear): Linear => {
  let constant = l.constant;
  const terms = new Map<number, number>();
  const add = (p: number, k: number): void => void terms.set(p, (terms.get(p) ?? 0) + k);
  for (const [p, k] of l.terms) {
    if (p !== parameter) add(p, k);
    else {
      constant += k * by.constant;
      for (const [q, j] of by.terms) add(q, k * j);
    }
  }
  return { constant, terms: [...terms].filter(([, k]) => k !== 0) };
};

const renumber = (l: Linear, gone: number): Linear => ({
  constant: l.constant,
  terms: l.terms.map(([p, k]): Term => [p > gone ? p - 1 : p, k]),
});

/** The construction with one of its quantities held at a value: one parameter fewer. The quantity itself stays, for its words. */
export const hold = (construction: Construction, quantity: number, value: number): Construction => {
  const q = construction.quantities[quantity];
  if (q === undefined) throw new RangeError(`hold: no quantity ${quantity}`);
  const last = q.value.terms.at(-1);
  if (last === undefined) return construction;
  const [gone, factor] = last;
  const by: Linear = {
    constant: (value - q.value.constant) / factor,
    terms: q.value.terms.slice(0, -1).map(([p, k]): Term => [p, -k / factor]),
  };
  const change = (l: Linear): Linear => renumber(put(l, gone, by), gone);
  const changePlace = (place: Place): Place => ({
    from: [change(place.from[0]), change(place.from[1])],
    turn: change(place.turn),
    u: change(place.u),
    v: change(place.v),
  });
  return {
    start: construction.start.filter((_, i) => i !== gone),
    logDensity: construction.logDensity,
    places: new Map([...construction.places].map(([i, place]) => [i, changePlace(place)])),
    quantities: construction.quantities.map((other) => ({ ...other, value: change(other.value) })),
    marks: construction.marks.map(change),
  };
};

/** Holds several quantities at values; null leaves one free. */
export const holdAll = (construction: Construction, values: readonly (number | null)[]): Construction =>
  values.reduce<Construction>((c, value, i) => (value === null ? c : hold(c, i, value)), construction);

/** Value of a quantity at given parameters. */
export const quantityAt = (construction: Construction, quantity: number, parameters: readonly number[]): number =>
  valueOf(construction.quantities[quantity]?.value ?? { constant: Number.NaN, terms: [] }, parameters);
