import { type Face, type Instrument, type Use, readingGrammar } from '@fayplate/job';

/** An instrument as a reading would be taken with it; `name` null where the job's readings carry their own ±. */
export interface Tool {
  readonly name: string | null;
  /** ± of one reading, mm or radians. */
  readonly plusMinus: number;
}

const jawNames = /calip|vernier|micro|mike|jaw|gau?ge|pin/i;
const scaleNames = /rule|tape|trammel|scale|divider|steel/i;
const squareNames = /square|straight|eye/i;
const placeNames = /read-?out|finder|probe|indicator|scan/i;
/** An instrument with a name that says nothing is taken for a scale where it is coarser than this, mm. */
const COARSE = 0.25;

const usesByName = ({ name, measures, each }: Instrument): readonly Use[] => {
  if (squareNames.test(name)) return [];
  if (measures === 'angle') return ['arms'];
  if (/dial/i.test(name) && !jawNames.test(name)) return [];
  if (placeNames.test(name)) return ['place'];
  if (scaleNames.test(name)) return ['scale'];
  if (jawNames.test(name)) return ['jaws'];
  return each > COARSE ? ['scale'] : ['jaws'];
};

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;

/**
 * The finest tool for each use: an instrument that this face's readings have used so, or whose name says so (one that touches rims on the bench is laid on nothing else); without any instrument in
 * the job, the usual ± of its readings. Uses that nothing serves are absent.
 */
export const toolsOf = (face: Face, instruments: ReadonlyMap<string, Instrument>): ReadonlyMap<Use, Tool> => {
  const tools = new Map<Use, Tool>();
  const offer = (use: Use, tool: Tool): void => {
    const now = tools.get(use);
    if (tool.plusMinus > 0 && (now === undefined || tool.plusMinus < now.plusMinus)) tools.set(use, tool);
  };
  for (const instrument of instruments.values()) {
    const taken = face.readings.filter((r) => r.instrument === instrument.name);
    const seen = taken.flatMap((r) => readingGrammar(r.kind).use ?? []);
    const dial = taken.length > 0 && taken.every((r) => r.kind === 'runout');
    const byName = dial || taken.some((r) => r.kind === 'touch') ? [] : usesByName(instrument);
    for (const use of seen.length > 0 ? new Set(seen) : byName)
      offer(use, { name: instrument.name, plusMinus: instrument.each });
  }
  for (const use of ['jaws', 'scale', 'arms', 'place'] as const) {
    const own = face.readings.filter((r) => r.instrument === null && readingGrammar(r.kind).use === use);
    if (own.length > 0 && !tools.has(use)) offer(use, { name: null, plusMinus: median(own.map((r) => r.plusMinus)) });
  }
  return tools;
};
