/**
 * A little milling machine for programs, written apart from their writer: it keeps the modal words, moves a tool and
 * notes what it cuts. It throws at what it does not know, and where a careful machinist would press the stop: a move
 * before zero or the tool's length is set, a cut without spindle, a rapid below the safe plane, a tool that has no room
 * to be fitted.
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

/** A cut along a line or an arc, mm. */
export interface Milled {
  readonly from: { readonly x: number; readonly y: number; readonly z: number };
  readonly to: { readonly x: number; readonly y: number; readonly z: number };
  /** Centre of an arc; null for a line. */
  readonly centre: { readonly x: number; readonly y: number } | null;
  /** Of an arc. */
  readonly ccw: boolean;
  readonly feed: number;
}

export interface Run {
  readonly unit: 'in' | 'mm' | null;
  readonly absolute: boolean;
  readonly drilled: readonly Drilled[];
  readonly milled: readonly Milled[];
  /** Places where the program stops for a person. */
  readonly stops: readonly { readonly x: number; readonly y: number; readonly z: number; readonly tool: number }[];
  readonly toolChanges: readonly number[];
  /** Lowest Z, mm, at which X or Y moved rapidly. */
  readonly lowestTraverse: number;
  readonly lowest: number;
  readonly ended: boolean;
  readonly comments: readonly string[];
}

export interface Shop {
  /** Height of the safe plane above the flat, mm. */
  readonly plane?: number;
  /** Room under the spindle over the plate, mm, and each tool's length by its number. */
  readonly room?: number;
  readonly lengths?: ReadonlyMap<number, number>;
  /** The spindle is meant to stand. */
  readonly dry?: boolean;
  /** For blocks quoted from elsewhere: nobody asks for a zero. */
  readonly trusting?: boolean;
}

const CYCLES = new Set([81, 82, 83, 84, 85]);
/**
 * What the start must say, one of each: plane, unit, cutter and length compensation off, no cycle, absolute, feed a
 * minute.
 */
const START = [[17], [20, 21, 70, 71], [40], [49], [80], [90], [94]] as const;

export const run = (text: string, shop: Shop = {}): Run => {
  let unit: 'in' | 'mm' | null = null;
  let absolute = false;
  let everAbsolute = false;
  let [x, y, z] = [Number.NaN, Number.NaN, Number.NaN];
  let motion: number | null = null;
  const modal = new Map<string, number>();
  const said = new Set<number>();
  let tool = 0;
  let zero = shop.trusting === true;
  let length = shop.trusting === true;
  let home = true;
  let turning = false;
  let ended = false;
  let initial = Number.NaN;
  const drilled: Drilled[] = [];
  const milled: Milled[] = [];
  const stops: { x: number; y: number; z: number; tool: number }[] = [];
  const toolChanges: number[] = [];
  const comments: string[] = [];
  let lowestTraverse = Infinity;
  let lowest = Infinity;
  const scale = (): number => {
    if (unit === null) throw new Error('a length before its unit');
    return unit === 'in' ? 25.4 : 1;
  };
  const ready = (line: string): void => {
    if (!zero) throw new Error(`a move before zero is set: ${line}`);
    if (!length) throw new Error(`a move before the tool's length is set: ${line}`);
    if (shop.trusting !== true)
      for (const words of START)
        if (!words.some((w) => said.has(w))) throw new Error(`a move before G${words.join(' or G')}`);
  };
  const cuts = (line: string): void => {
    if (!turning && shop.dry !== true && shop.trusting !== true) throw new Error(`a cut without spindle: ${line}`);
  };
  const plane = shop.plane ?? -Infinity;

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
    let homing = false;
    for (const [letter, v] of words) {
      if (letter === 'G') {
        said.add(v);
        if (v === 70 || v === 20) unit = 'in';
        else if (v === 71 || v === 21) unit = 'mm';
        else if (v === 90) absolute = everAbsolute = true;
        else if (v === 91) absolute = false;
        else if (v === 80) motion = null;
        else if (v === 54) zero = true;
        else if (v === 49) {
          if (motion !== null && CYCLES.has(motion)) throw new Error('length taken off within a cycle');
          length = shop.trusting === true;
        } else if (v === 28) {
          if (absolute || value('Z') !== 0) throw new Error(`home by way of the work: ${line}`);
          homing = true;
        } else if (v === 43) {
          if (value('H') !== tool) throw new Error(`length of another tool: ${line}`);
          length = true;
        } else if ([0, 1, 2, 3].includes(v) || CYCLES.has(v)) {
          if (CYCLES.has(v) && (motion === null || !CYCLES.has(motion))) initial = z;
          motion = v;
        } else if (![17, 40, 94, 98].includes(v)) throw new Error(`G${v}`);
      } else if (letter === 'M') {
        if (v === 3) turning = true;
        else if (v === 5) turning = false;
        else if (v === 6) {
          if (turning) throw new Error('tool change with the spindle turning');
          if (length && shop.trusting !== true) throw new Error('tool change under the old length');
          if ((shop.lengths?.get(tool) ?? 0) > (shop.room ?? Infinity))
            throw new Error(`tool ${tool} is longer than the room`);
          toolChanges.push(tool);
          home = true;
        } else if (v === 30) ended = true;
        else if (v !== 0) throw new Error(`M${v}`);
      } else if (letter === 'T') tool = v;
      else if ('SFPQ'.includes(letter)) modal.set(letter, v);
      else if ('ZR'.includes(letter) && motion !== null && CYCLES.has(motion)) modal.set(letter, v * scale());
      else if (!'NXYZHIJ'.includes(letter)) throw new Error(`${letter}${v}`);
    }
    if (homing) {
      z = Infinity;
      home = true;
      continue;
    }
    const [nx, ny, nz] = [value('X'), value('Y'), value('Z')];
    const moves = nx !== undefined || ny !== undefined;
    if (moves || (nz !== undefined && (motion === null || !CYCLES.has(motion)))) {
      if (motion === null) throw new Error(`a move with no motion word: ${line}`);
      if (!absolute) throw new Error('a place before G90');
      ready(line);
    }
    const before = { x, y, z };
    if (moves) {
      if (motion === 0 || (motion !== null && CYCLES.has(motion))) {
        if (z < plane - 1e-9 && !home) throw new Error(`a rapid below the plane: ${line}`);
        lowestTraverse = Math.min(lowestTraverse, z);
      }
      x = nx === undefined ? x : nx * scale();
      y = ny === undefined ? y : ny * scale();
    }
    if (nz !== undefined && motion !== null && motion <= 3) {
      z = nz * scale();
      if (motion === 0 && z < plane - 1e-3) throw new Error(`a rapid below the plane: ${line}`);
      home = false;
    }
    if (motion !== null && motion >= 1 && motion <= 3 && (moves || nz !== undefined)) {
      cuts(line);
      if (!(modal.get('F')! > 0)) throw new Error(`a feed move without F: ${line}`);
      const centre =
        motion === 1 ? null : { x: before.x + (value('I') ?? 0) * scale(), y: before.y + (value('J') ?? 0) * scale() };
      milled.push({ from: before, to: { x, y, z }, centre, ccw: motion === 3, feed: modal.get('F')! * scale() });
    }
    if (!Number.isNaN(z)) lowest = Math.min(lowest, z);
    if (motion !== null && CYCLES.has(motion) && moves) {
      const [bottom, feedFrom] = [modal.get('Z'), modal.get('R')];
      if (bottom === undefined || feedFrom === undefined || !(modal.get('F')! > 0))
        throw new Error(`cycle without Z, R or F: ${line}`);
      if (feedFrom > z || bottom > feedFrom) throw new Error('levels out of order');
      if (motion === 83 && !(modal.get('Q')! > 0)) throw new Error('G83 without a step');
      cuts(line);
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
    if (value('M') === 0) stops.push({ x, y, z, tool });
  }
  return {
    unit,
    absolute: everAbsolute,
    drilled,
    milled,
    stops,
    toolChanges,
    lowestTraverse,
    lowest,
    ended,
    comments,
  };
};
