import type { JobFile } from '../schema/file.js';
import type { ExtraHole, Face, FastenSpec, LocateSpec, OutlineSpec, PlateSpec } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, known, namesAt, warnAt } from './context.js';
import { knownThread } from './features.js';

type Written = NonNullable<JobFile['plate']>;
type WrittenLocate = NonNullable<Written['locate']>[string];
type WrittenFasten = NonNullable<Written['fasten']>[string];

/** A margin where none is written, mm: common practice, about one hole's metal around an M10. */
const MARGIN = 12;

export const plateOf = (context: Context, written: Written, faces: readonly Face[]): PlateSpec => {
  const keys = ['plate'];
  const [first = '', second = ''] = written.between;
  const all = namesAt(context, ['faces']);
  for (const [i, name] of [first, second].entries()) known(context, [...keys, 'between', i], name, all, 'a face of the job');
  if (first === second && first !== '') faultAt(context, [...keys, 'between', 1], 'another face than the first', { found: second });
  const between = [first, second];
  const joined = (part: string, name: string): Face | null => {
    known(context, [...keys, part, name], name, between, 'one of the two faces of `between`', { key: true, inside: '' });
    return faces.find((f) => f.name === name) ?? null;
  };
  if (written.thickness === 'from stack' && !namesAt(context, []).includes('stack'))
    warnAt(context, [...keys, 'thickness'], 'a `stack` section, which the thickness is to come from');
  return {
    between: [first, second],
    material: written.material ?? null,
    clocking: written.clocking === undefined ? { at: 0 } : typeof written.clocking === 'number' ? { at: written.clocking } : written.clocking,
    thickness: written.thickness,
    bore: boreOf(context, [...keys, 'bore'], written.bore),
    locate: new Map(
      entriesAt(context, [...keys, 'locate'], written.locate).flatMap(([name, l]) => {
        const spec = locateOf(context, [...keys, 'locate', name], l, joined('locate', name));
        return spec === null ? [] : [[name, spec]];
      }),
    ),
    fasten: new Map(
      entriesAt(context, [...keys, 'fasten'], written.fasten).map(([name, f]) => [name, fastenOf(context, [...keys, 'fasten', name], f, joined('fasten', name))]),
    ),
    outline: outlineOf(context, [...keys, 'outline'], written.outline, all),
    limits: { web: written.limits?.web ?? null, edge: written.limits?.edge ?? null },
    drilling: written.drilling ?? null,
    alignment: written.alignment === undefined ? null : { offset: written.alignment.offset ?? null, tilt: written.alignment.tilt ?? null },
    extras: (['jacking', 'lifting'] as const).flatMap((what) => extraOf(context, [...keys, what], what, written[what])),
    parallel: written.parallel ?? null,
  };
};

const boreOf = (context: Context, keys: readonly PropertyKey[], written: Written['bore']): PlateSpec['bore'] => {
  if (written === undefined) return null;
  const side = written.side ?? 'through';
  if (side === 'through' && written.depth !== undefined) faultAt(context, [...keys, 'depth'], 'no depth: the bore goes through');
  if (side !== 'through' && written.depth === undefined && !isSpoiled(context, [...keys, 'depth'])) faultAt(context, [...keys, 'side'], '`depth` as well, or side: through');
  return { diameter: written.diameter, side, depth: written.depth ?? null };
};

/** Which of the three ways is meant follows from the keys that stand there. */
const locateOf = (context: Context, keys: readonly PropertyKey[], written: WrittenLocate, face: Face | null): LocateSpec | null => {
  const { register, dowels } = written;
  const extra = (names: readonly (keyof WrittenLocate)[], why: string): void => {
    for (const name of names) if (written[name] !== undefined) faultAt(context, [...keys, name], why);
  };
  if (register !== undefined && dowels !== undefined) {
    faultAt(context, [...keys, 'dowels'], 'a register or dowels, not both: two that locate the same thing fight');
    return null;
  }
  if (register !== undefined) {
    extra(['diameter', 'second'], 'no such key beside `register`: its diameter is the register itself');
    if (face !== null && face.centre === null && !isSpoiled(context, ['faces', face.name, 'centre']))
      faultAt(context, [...keys, 'register'], `\`centre\` of ${face.name} as well: a register sits on the face's centre feature`);
    return { as: 'register', diameter: register, depth: written.depth ?? null, fit: written.fit ?? null };
  }
  extra(['depth', 'fit'], 'no such key without `register`');
  if (typeof dowels === 'number') {
    extra(['second'], "no such key for new dowels: they are reamed together once the shafts are aligned");
    if (written.diameter === undefined) {
      if (!isSpoiled(context, [...keys, 'diameter'])) faultAt(context, [...keys, 'dowels'], '`diameter` of the new dowels as well');
      return null;
    }
    return { as: 'new dowels', count: dowels, diameter: written.diameter };
  }
  if (dowels === undefined) {
    if (!isSpoiled(context, [...keys, 'register']) && !isSpoiled(context, [...keys, 'dowels']))
      faultAt(context, keys, '`register: DIAMETER`, or `dowels:` by name or number', { key: true });
    return null;
  }
  extra(['diameter'], "no diameter: the face's own dowels have theirs");
  if (face !== null) {
    const names = face.features.map((f) => f.id);
    for (const [i, name] of dowels.entries()) {
      if (!known(context, [...keys, 'dowels', i], name, namesAt(context, ['faces', face.name, 'features']), `a dowel of ${face.name}`)) continue;
      const feature = face.features[names.indexOf(name)];
      if (feature !== undefined && feature.kind !== 'dowel' && feature.kind !== 'hole') faultAt(context, [...keys, 'dowels', i], `a dowel or a hole for one: ${name} is a ${feature.kind}`, { found: name });
      if (dowels.indexOf(name) !== i) faultAt(context, [...keys, 'dowels', i], 'each dowel once only', { found: name });
    }
  }
  if (dowels.length === 0) faultAt(context, [...keys, 'dowels'], 'at least one dowel');
  return { as: 'own dowels', features: dowels, second: written.second ?? 'round' };
};

const heads = [
  ['nut', 'nut'],
  ['cap screw', 'cap screw'],
  ['countersunk screw', 'countersunk screw'],
] as const;

const fastenOf = (context: Context, keys: readonly PropertyKey[], written: WrittenFasten, face: Face | null): FastenSpec => {
  const stated = heads.filter(([key]) => written[key] !== undefined);
  const [one, two] = stated;
  if (two !== undefined) faultAt(context, [...keys, two[0]], 'one kind of nut or head only');
  const sunk = one === undefined ? undefined : written[one[0]];
  if (written.as !== 'tapped' && written.blind !== undefined) faultAt(context, [...keys, 'blind'], '`blind` with `as: tapped` only');
  if (written.as === 'clearance' && written.engagement !== undefined) faultAt(context, [...keys, 'engagement'], 'no engagement: a clearance hole has no thread');
  const thread = knownThread(context, [...keys, 'thread'], written.thread);
  const names = face === null ? [] : namesAt(context, ['faces', face.name, 'features']);
  const except = entriesAt(context, [...keys, 'except'], written.except);
  if (face !== null) {
    for (const [name] of except) known(context, [...keys, 'except', name], name, names, `a feature of ${face.name}`, { key: true, inside: '' });
    const left = new Set(except.filter(([, how]) => how === 'none' || how === 'clearance').map(([name]) => name));
    const bare = face.features.find((f) => (f.kind === 'stud' || f.kind === 'hole') && !f.vacant && f.thread === null && !left.has(f.id));
    const badThread = bare !== undefined && (['thread'].some((k) => isSpoiled(context, ['faces', face.name, 'features', bare.id, k])) || isSpoiled(context, [...keys, 'thread']));
    if (written.as !== 'clearance' && written.thread === undefined && bare !== undefined && !badThread)
      faultAt(context, [...keys, 'as'], `\`thread\` as well: ${bare.id} of ${face.name} names none, so nothing says what to tap`);
  }
  return {
    as: written.as,
    fit: written.fit ?? 'normal',
    head: one?.[1] ?? null,
    sunk: sunk === undefined || sunk === 'plain' ? 'none' : sunk,
    thread,
    engagement: written.engagement ?? null,
    blind: written.blind ?? false,
    washer: written.washer ?? false,
    except: new Map(except),
  };
};

const outlineOf = (context: Context, keys: readonly PropertyKey[], written: Written['outline'], all: readonly string[]): OutlineSpec => {
  if (written === undefined) return { shape: 'follow', margin: MARGIN, corner: null };
  const o = typeof written === 'string' ? { shape: written } : written;
  const shape = o.shape ?? (o.like === undefined ? 'follow' : 'like');
  const extra = (name: 'like' | 'diameter' | 'corner', why: string): void => {
    if (o[name] !== undefined) faultAt(context, [...keys, name], why);
  };
  if (shape !== 'round') extra('diameter', `no diameter: a ${shape} outline takes a margin`);
  if (shape === 'round' || shape === 'like') extra('corner', 'a corner radius on a follow or rectangle outline only');
  if (shape !== 'like') extra('like', `\`like\` alone, or another shape: ${shape} copies no face`);
  if (shape === 'like') {
    if (o.like === undefined) faultAt(context, keys, '`like: FACE`, the face whose rim it copies');
    else known(context, [...keys, 'like'], o.like, all, 'a face of the job');
    return { shape, face: o.like ?? '', margin: o.margin ?? 0 };
  }
  if (shape === 'round') {
    if (o.diameter !== undefined && o.margin !== undefined) faultAt(context, [...keys, 'margin'], 'a diameter or a margin, not both');
    return { shape, margin: o.diameter === undefined ? (o.margin ?? MARGIN) : null, diameter: o.diameter ?? null };
  }
  return { shape, margin: o.margin ?? MARGIN, corner: o.corner ?? null };
};

const extraOf = (context: Context, keys: readonly PropertyKey[], what: ExtraHole['what'], written: Written['jacking']): readonly ExtraHole[] => {
  if (written === undefined) return [];
  const thread = knownThread(context, [...keys, 'thread'], written.thread);
  const clocks = typeof written.clock === 'number' ? [written.clock] : written.clock;
  return [{ what, thread: thread ?? written.thread, circle: written.circle, clocks }];
};
