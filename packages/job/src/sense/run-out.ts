import type { Reading, RunOut } from '../types.js';
import type { ReadLine } from '../reading/grammar.js';
import type { Context, Taken } from './context.js';

/**
 * What a run-out line says, and its features as the survey takes them: A, B, and the two that its direction runs
 * through.
 */
export const runOutOf = (line: ReadLine): Pick<Reading, 'features' | 'runOut'> => {
  const { runOut, features } = line;
  const names = features.map((f) => f.text);
  if (runOut === undefined) return { features: names };
  const [a = '', b = a, to] = runOut.radius === null ? names : [names[0], ...names];
  return {
    features: [a, b, ...(to === undefined ? [] : [b, to])],
    runOut: { radius: runOut.radius, high: runOut.high === null ? null : { ...runOut.high, turn: 0 } },
  };
};

/** What says where 12 o'clock is on a face. */
interface Frame {
  readonly centre: string | null;
  readonly up: string | null;
  readonly across: readonly [string, string] | null;
}

/**
 * From where to where a direction clockwise from 12 o'clock is counted, and by how much it is turned from there,
 * counter-clockwise.
 */
const counted = (frame: Frame, clockwise: number): readonly [from: string, to: string, turn: number] | null => {
  if (frame.across !== null) return [...frame.across, Math.PI / 2 - clockwise];
  return frame.centre === null || frame.up === null ? null : [frame.centre, frame.up, -clockwise];
};

/** Directions that are given as angles, counted from the features that fix the face's 12 o'clock. */
export const orientRunOuts = (context: Context, taken: readonly Taken[], frame: Frame): readonly Taken[] =>
  taken.map((t) => {
    const { reading, line, raw } = t;
    const high = reading.runOut?.high ?? null;
    if (reading.runOut === undefined || high === null || 'feature' in high.toward) return t;
    const from = counted(frame, high.toward.clockwise);
    if (from === null) {
      const at = line.runOut?.high?.at;
      context.findings.fault({
        code: 'missing',
        at: raw.offset(at?.at ?? 0),
        source: raw.source,
        found: at?.text ?? '',
        expected:
          "a feature after `toward`, or `up` (or `across`) on the face as well: nothing here says where 12 o'clock is",
        path: raw.path,
        sense: true,
      });
      return t;
    }
    const [p, q, turn] = from;
    const runOut: RunOut = { ...reading.runOut, high: { ...high, turn } };
    return { ...t, reading: { ...reading, features: [...reading.features.slice(0, 2), p, q], runOut } };
  });
