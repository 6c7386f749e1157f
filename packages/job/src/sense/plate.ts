import type { JobFile } from '../schema/file.js';
import type { ExtraHole, Face, PlateSpec } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, known, namesAt, warnAt } from './context.js';
import { cutsOf } from './cuts.js';
import { fastenOf } from './fasten.js';
import { knownThread } from './features.js';
import { piecesOf } from './pieces.js';
import { locateOf } from './locate.js';
import { outlineOf } from './outline.js';

type Written = NonNullable<JobFile['plate']>;

export const plateOf = (context: Context, written: Written, faces: readonly Face[]): PlateSpec => {
  const keys = ['plate'];
  const [first = '', second = ''] = written.between;
  const all = namesAt(context, ['faces']);
  for (const [i, name] of [first, second].entries())
    known(context, [...keys, 'between', i], name, all, 'a face of the job');
  if (first === second && first !== '')
    faultAt(context, [...keys, 'between', 1], 'conflict', 'another face than the first', { found: second });
  const between = [first, second];
  // A slip in `between` is one fault: the names below it may be right.
  const either = between.every((n) => all.includes(n)) ? between : [...between, ...all];
  const joined = (part: string, name: string): Face | null => {
    known(context, [...keys, part, name], name, either, 'one of the two faces of `between`', {
      key: true,
      inside: '',
    });
    return faces.find((f) => f.name === name) ?? null;
  };
  if (written.thickness === 'from stack' && !namesAt(context, []).includes('stack'))
    warnAt(context, [...keys, 'thickness'], 'no-stack', 'a `stack` section, which the thickness is to come from');
  return {
    between: [first, second],
    material: written.material ?? null,
    clocking:
      written.clocking === undefined
        ? { at: 0 }
        : typeof written.clocking === 'number'
          ? { at: written.clocking }
          : written.clocking,
    thickness: typeof written.thickness === 'string' ? written.thickness : written.thickness.value,
    ...(typeof written.thickness === 'string' || written.thickness.plusMinus === null
      ? {}
      : { thicknessWithin: written.thickness.plusMinus }),
    bore: written.bore === 'none' ? null : boreOf(context, [...keys, 'bore'], written.bore),
    nothingPasses: written.bore === 'none',
    meet: written.meet ?? 'shafts',
    secondSetting: written['second setting'] ?? null,
    locate: new Map(
      entriesAt(context, [...keys, 'locate'], written.locate).flatMap(([name, l]) => {
        const spec = locateOf(context, [...keys, 'locate', name], l, joined('locate', name));
        return spec === null ? [] : [[name, spec]];
      }),
    ),
    fasten: new Map(
      entriesAt(context, [...keys, 'fasten'], written.fasten).map(([name, f]) => [
        name,
        fastenOf(context, [...keys, 'fasten', name], f, joined('fasten', name)),
      ]),
    ),
    outline: outlineOf(context, [...keys, 'outline'], written.outline, all),
    limits: { web: written.limits?.web ?? null, edge: written.limits?.edge ?? null },
    drilling: written.drilling ?? null,
    alignment:
      written.alignment === undefined
        ? null
        : { offset: written.alignment.offset ?? null, tilt: written.alignment.tilt ?? null },
    extras: (['jacking', 'lifting'] as const).flatMap((what) => extraOf(context, [...keys, what], what, written[what])),
    shafts: shaftsOf(context, written, first),
    cuts: cutsOf(context, written.cuts, [first, second]),
    parallel: written.parallel ?? null,
    ...(written.pieces === undefined ? {} : { pieces: piecesOf(context, written, written.pieces, between) }),
  };
};

const shaftsOf = (context: Context, { shafts, meet }: Written, first: string): PlateSpec['shafts'] => {
  if (shafts === undefined) return null;
  const keys = ['plate', 'shafts'];
  if (meet !== undefined)
    faultAt(context, ['plate', 'meet'], 'conflict', '`meet` or `shafts`, not both: shafts that are apart do not meet');
  if ('feature' in shafts.toward)
    known(
      context,
      [...keys, 'toward'],
      shafts.toward.feature,
      namesAt(context, ['faces', first, 'features']),
      `an angle with its unit such as 180 deg, or a feature of ${first}`,
    );
  return shafts;
};

const boreOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: Exclude<Written['bore'], 'none'>,
): PlateSpec['bore'] => {
  if (written === undefined) return null;
  const side = written.side ?? 'through';
  if (side === 'through' && written.depth !== undefined)
    faultAt(context, [...keys, 'depth'], 'out-of-place', 'no depth: the bore goes through');
  if (side !== 'through' && written.depth === undefined && !isSpoiled(context, [...keys, 'depth']))
    faultAt(context, [...keys, 'side'], 'missing', '`depth` as well, or side: through');
  return { diameter: written.diameter, side, depth: written.depth ?? null };
};

const extraOf = (
  context: Context,
  keys: readonly PropertyKey[],
  what: ExtraHole['what'],
  written: Written['jacking'],
): readonly ExtraHole[] => {
  if (written === undefined) return [];
  const thread = knownThread(context, [...keys, 'thread'], written.thread);
  const clocks = typeof written.clock === 'number' ? [written.clock] : written.clock;
  return [{ what, thread: thread ?? written.thread, circle: written.circle, clocks }];
};
