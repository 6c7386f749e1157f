import type { Network } from '../network/network.js';
import type { Observation } from '../network/observation.js';
import type { FeatureSlots } from '../network/unknowns.js';
import { adjust } from './adjust.js';
import type { Adjustment } from './adjustment.js';
import { type System, isSpent } from './system.js';

/**
 * A point that its reading cannot tell from its image in a line: `offset` and `angle` are read without sign, `flush`
 * without its flank.
 */
interface EitherSide {
  readonly point: FeatureSlots;
  readonly line: readonly [FeatureSlots, FeatureSlots];
  /** How far off the line the reading's own error could put the point, mm. */
  readonly doubt: number;
}

/** Beyond this many standard uncertainties the other side is no rival. */
const RIVAL = 6;

const eitherSideOf = ({ unknowns }: Network, o: Observation, x: Float64Array): EitherSide | null => {
  const [a, b, c] = (o.reading?.features ?? []).map((id) => unknowns.features.get(id));
  if (a === undefined || b === undefined || c === undefined) return null;
  switch (o.kind) {
    case 'offset':
      return { point: a, line: [b, c], doubt: RIVAL * o.sigma };
    case 'flush':
      return { point: b, line: [a, c], doubt: RIVAL * o.sigma };
    case 'angle':
      return {
        point: a,
        line: [b, c],
        doubt:
          RIVAL *
          o.sigma *
          Math.hypot((x[a.x] as number) - (x[b.x] as number), (x[a.y] as number) - (x[b.y] as number)),
      };
    default:
      return null;
  }
};

/** The point laid over the line; null where it stands too far off for the reading to be in doubt. */
const reflected = ({ point, line: [b, c], doubt }: EitherSide, x: Float64Array): Float64Array | null => {
  const ex = (x[c.x] as number) - (x[b.x] as number);
  const ey = (x[c.y] as number) - (x[b.y] as number);
  const length = Math.hypot(ex, ey);
  if (length === 0) return null;
  const off =
    (ex * ((x[point.y] as number) - (x[b.y] as number)) - ey * ((x[point.x] as number) - (x[b.x] as number))) / length;
  if (Math.abs(off) > doubt) return null;
  const out = Float64Array.from(x);
  out[point.x] = (x[point.x] as number) + (2 * off * ey) / length;
  out[point.y] = (x[point.y] as number) - (2 * off * ex) / length;
  return out;
};

/** The lower of the two sides wherever a reading without sign leaves both within its error. */
export const lowerSides = (system: System, found: Adjustment): Adjustment => {
  const { network } = system;
  let best = found;
  for (const o of network.observations) {
    const either = eitherSideOf(network, o, best.values);
    const start = either === null ? null : reflected(either, best.values);
    if (start === null) continue;
    if (isSpent(system.meter)) break;
    const other = adjust(network, start, { system });
    if (other.stopped.converged && other.chi2 < best.chi2 - 1e-9 * (1 + best.chi2)) best = other;
  }
  return best;
};
