/**
 * A little reader of ISO 6983-1 programs, written apart from the writer: it keeps the modal words, moves a tool and notes what it cuts.
 * It throws at whatever it does not know.
 */
export interface Drilled {
  readonly x: number;
  readonly y: number;
  /** Lowest point of the tool, mm. */
  readonly bottom: number;
  readonly feedFrom: number;
  readonly cycle: string;
  readonly peck: number | null;
  readonly tool: number;
  readonly speed: number;
  readonly feed: number;
  readonly turning: boolean;
  readonly from: { readonly x: number; readonly y: number } | null;
}

export interface Run {
  readonly unit: 'in' | 'mm' | null;
  readonly absolute: boolean;
  readonly drilled: readonly Drilled[];
  /** Places where the program stops for a person while the spindle is not at a hole's cycle. */
  readonly stops: readonly { readonly x: number; readonly y: number; readonly z: number; readonly tool: number }[];
  readonly toolChanges: readonly number[];
  /** Lowest Z, mm, at which X or Y moved. */
  readonly lowestTraverse: number;
  readonly lowest: number;
  readonly ended: boolean;
  readonly comments: readonly string[];
}

const CYCLES = new Set([81, 82, 83, 84, 85]);

export const run = (text: string): Run => {
  let unit: 'in' | 'mm' | null = null;
  let absolute = false;
  let [x, y, z] = [Number.NaN, Number.NaN, Number.NaN];
  let motion: number | null = null;
  const modal = new Map<string, number>();
  let tool = 0;
  let turning = false;
  let ended = false;
  let initial = Number.NaN;
  const drilled: Drilled[] = [];
  const stops: { x: number; y: number; z: number; tool: number }[] = [];
  const toolChanges: number[] = [];
  const comments: string[] = [];
  let lowestTraverse = Infinity;
  let lowest = Infinity;
  const scale = (): number => {
    if (unit === null) throw new Error('a length before its unit');
    return unit === 'in' ? 25.4 : 1;
  };

  for (const raw of text.split(/\r?\n/)) {
    const open = raw.indexOf('(');
    if (open >= 0) comments.push(raw.slice(open));
    const line = raw.replaceAll(/\([^()]*\)/g, '').trim();
    if (line === '' || line === '%') continue;
    if (ended) throw new Error(`after the end: ${line}`);
    if (!/^(?:[A-Z][+-]?(?:\d+\.?\d*|\.\d+)\s*)+$/i.test(line)) throw new Error(`not a block: ${line}`);
    const words = [...line.matchAll(/([A-Z])([+-]?[\d.]+)/gi)].map((m) => [m[1]!.toUpperCase(), Number(m[2])] as const);
    const value = (letter: string): number | undefined => words.find(([l]) => l === letter)?.[1];
    const from = Number.isNaN(x) ? null : { x, y };
    for (const [letter, v] of words) {
      if (letter === 'G') {
        if (v === 70 || v === 20) unit = 'in';
        else if (v === 71 || v === 21) unit = 'mm';
        else if (v === 90) absolute = true;
        else if (v === 80) motion = null;
        else if (v === 0 || CYCLES.has(v)) {
          if (CYCLES.has(v) && (motion === null || !CYCLES.has(motion))) initial = z;
          motion = v;
        } else if (v !== 17 && v !== 94 && v !== 98) throw new Error(`G${v}`);
      } else if (letter === 'M') {
        if (v === 3) turning = true;
        else if (v === 5) turning = false;
        else if (v === 6) {
          if (turning) throw new Error('tool change with the spindle turning');
          toolChanges.push(tool);
        } else if (v === 30) ended = true;
        else if (v !== 0) throw new Error(`M${v}`);
      } else if (letter === 'T') tool = v;
      else if ('SFPQ'.includes(letter)) modal.set(letter, v);
      else if ('ZR'.includes(letter) && motion !== null && CYCLES.has(motion)) modal.set(letter, v * scale());
      else if (!'NXYZ'.includes(letter)) throw new Error(`${letter}${v}`);
    }
    const [nx, ny] = [value('X'), value('Y')];
    const moves = nx !== undefined || ny !== undefined;
    if (moves) {
      if (motion === null) throw new Error(`a move with no motion word: ${line}`);
      if (!absolute) throw new Error('a place before G90');
      lowestTraverse = Math.min(lowestTraverse, z);
      x = nx === undefined ? x : nx * scale();
      y = ny === undefined ? y : ny * scale();
    }
    if (motion === 0 && value('Z') !== undefined) z = value('Z')! * scale();
    if (!Number.isNaN(z)) lowest = Math.min(lowest, z);
    if (motion !== null && CYCLES.has(motion) && moves) {
      const [bottom, feedFrom] = [modal.get('Z'), modal.get('R')];
      if (bottom === undefined || feedFrom === undefined || !(modal.get('F')! > 0))
        throw new Error(`cycle without Z, R or F: ${line}`);
      if (feedFrom > z || bottom > feedFrom) throw new Error('levels out of order');
      if (motion === 83 && !(modal.get('Q')! > 0)) throw new Error('G83 without a step');
      lowest = Math.min(lowest, bottom);
      drilled.push({
        x,
        y,
        bottom,
        feedFrom,
        cycle: `G${motion}`,
        peck: motion === 83 ? modal.get('Q')! * scale() : null,
        tool,
        turning,
        from,
        speed: modal.get('S') ?? 0,
        feed: modal.get('F')! * scale(),
      });
      z = initial;
    }
    if (value('M') === 0 && toolChanges.length > 0) stops.push({ x, y, z, tool });
  }
  return { unit, absolute, drilled, stops, toolChanges, lowestTraverse, lowest, ended, comments };
};
