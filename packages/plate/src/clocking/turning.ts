import type { Finding } from '../checks/check.js';
import type { Draft } from '../draft.js';
import type { AngleSpan, CheckId, Turning } from '../types.js';
import { widest } from './best.js';
import { centred } from './at-clocking.js';
import { type AngleTest, commonSpans, spansOf } from './angle-test.js';
import { angleTests } from './angle-tests.js';

/** Points of the plot, evenly spread over the range. */
const POINTS = 721;

interface TurningFound {
  readonly turning: Turning;
  /** Whether turning can cure this, where it fails. */
  readonly curable: (finding: Finding) => boolean;
}

/** Checks about one thing under the other part, whichever that is. */
const underPart = new Set<CheckId>(['nut-under-part', 'cap-screw-under-part', 'stud-end', 'dowel-end']);

/** What a test and a finding are both about. */
const subject = ({ id, of }: { readonly id: CheckId; readonly of: readonly string[] }): string => {
  if (id === 'hole-to-edge' || id === 'metal-to-edge') return `edge ${of[0] ?? ''}`;
  if (id === 'assembly-order') return id;
  return [id, ...(underPart.has(id) ? of.slice(0, 1) : of.toSorted())].join(' ');
};

const plotPoint = (webs: readonly AngleTest[], angle: number): Turning['plot'][number] => {
  let web = Infinity;
  let margin = Infinity;
  for (const t of webs) {
    const m = t.margin(angle);
    margin = Math.min(margin, m);
    web = Math.min(web, m + (t.web ?? 0));
  }
  return { angle, web, margin };
};

interface Live {
  /** Tests that hold at some angle: what holds at none is not for turning to cure, and fails on its own account. */
  readonly live: readonly AngleTest[];
  readonly all: readonly AngleTest[];
  /** Where all the live ones hold. */
  readonly spans: readonly AngleSpan[];
}

const liveTests = (draft: Draft, range: AngleSpan): Live => {
  const tests = angleTests(centred(draft)).map((test) => ({ test, spans: spansOf(test, range) }));
  const live = tests.filter((t) => t.spans.length > 0);
  return {
    live: live.map((t) => t.test),
    all: tests.map((t) => t.test),
    spans: live.reduce<readonly AngleSpan[]>((common, t) => commonSpans(common, t.spans), [range]),
  };
};

/** Where every check that turning can change holds, over a range, radians clockwise. */
export const spansToTurn = (draft: Draft, range: AngleSpan): readonly AngleSpan[] => liveTests(draft, range).spans;

/**
 * What turning the second face does over a range, radians clockwise. The best angle is the one that leaves most metal
 * among those at which all holds; where none does, the one that misses least.
 */
export const findTurning = (draft: Draft, range: AngleSpan): TurningFound => {
  const { live, all, spans } = liveTests(draft, range);
  const metal = live.filter((t) => !underPart.has(t.id) && t.id !== 'assembly-order');
  const webs = all.filter((t) => t.web !== null);
  const plot = Array.from({ length: webs.length === 0 ? 0 : POINTS }, (_, i) =>
    plotPoint(webs, range.from + ((range.to - range.from) * i) / (POINTS - 1)),
  );
  const subjects = new Set(live.map(subject));
  return {
    curable: (f) => subjects.has(subject(f)),
    turning: { range, spans, best: widest(metal, spans) ?? widest(live, [range]), plot },
  };
};
