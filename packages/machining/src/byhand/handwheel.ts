import type { DialSetting, Handwheel, TableRow } from '../types.js';

/**
 * Turns and divisions for a travel, mm, with a screw of `pitch` mm and a dial division of `division` mm; to the nearest
 * whole division.
 */
export const dialSetting = (travel: number, pitch: number, division: number): DialSetting => {
  const perTurn = Math.round(pitch / division);
  const total = Math.round(travel / division);
  const turns = Math.trunc(total / perTurn);
  return {
    turns: turns + 0,
    divisions: total - turns * perTurn + 0,
    dial: (((total % perTurn) + perTurn) % perTurn) + 0,
    error: travel - (total * pitch) / perTurn,
  };
};

/**
 * Dial division where the shop does not say: 0.001 in on a screw of whole-inch threads, else 0.02 mm (common practice).
 */
const usualDivision = (pitch: number): number =>
  Math.abs((25.4 / pitch) % 1) < 1e-9 || Math.abs(pitch / 25.4 - Math.round((pitch / 25.4) * 1000) / 1000) < 1e-9
    ? 0.0254
    : 0.02;

/**
 * Every place of a table's rows on handwheels, from its origin; `step` is the dial's division where the job states one
 * that divides the pitch.
 */
export const handwheel = (all: readonly TableRow[], pitch: number, step: number | null): Handwheel => {
  const wanted = step ?? usualDivision(pitch);
  const division = pitch / Math.max(1, Math.round(pitch / wanted));
  const rows = eachPlaceOnce(all.filter((r) => r.op !== 'face')).map((r) => {
    const x = r.side === 'A' ? -r.x : r.x;
    return { hole: r.hole, side: r.side, x: dialSetting(x, pitch, division), y: dialSetting(r.y, pitch, division) };
  });
  return { pitch, division, rows, worst: Math.max(0, ...rows.map((r) => Math.hypot(r.x.error, r.y.error))) };
};

/** Rows of different places, in the order of the table. */
export const eachPlaceOnce = (rows: readonly TableRow[]): readonly TableRow[] => {
  const seen = new Set<string>();
  return rows.filter((r) => {
    const key = `${r.side} ${r.hole} ${r.set.x} ${r.set.y}`;
    return seen.has(key) ? false : Boolean(seen.add(key));
  });
};
