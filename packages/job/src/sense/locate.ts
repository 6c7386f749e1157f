import type { JobFile } from '../schema/file.js';
import type { Face, LocateSpec } from '../types.js';
import { type Context, faultAt, isSpoiled, known, namesAt } from './context.js';

type Clock = NonNullable<Extract<LocateSpec, { as: 'register' }>['clock']>;
type WrittenLocate = NonNullable<NonNullable<JobFile['plate']>['locate']>[string];

/** Dowels by name must be dowels of the face, or holes for one, each once. */
const dowelsOf = (
  context: Context,
  keys: readonly PropertyKey[],
  dowels: readonly string[],
  face: Face | null,
): void => {
  if (face !== null) {
    const names = face.features.map((f) => f.id);
    for (const [i, name] of dowels.entries()) {
      if (
        !known(
          context,
          [...keys, 'dowels', i],
          name,
          [...new Set([...namesAt(context, ['faces', face.name, 'features']), ...names])],
          `a dowel of ${face.name}`,
        )
      )
        continue;
      const feature = face.features[names.indexOf(name)];
      if (feature !== undefined && feature.kind !== 'dowel' && feature.kind !== 'hole')
        faultAt(
          context,
          [...keys, 'dowels', i],
          'conflict',
          `a dowel or a hole for one: ${name} is a ${feature.kind}`,
          {
            found: name,
          },
        );
      if (dowels.indexOf(name) !== i)
        faultAt(context, [...keys, 'dowels', i], 'twice', 'each dowel once only', { found: name });
    }
  }
};

/** The one dowel that a register may have beside it: the register centres, the dowel keeps the part from turning. */
const clockOf = (
  context: Context,
  keys: readonly PropertyKey[],
  { dowels, diameter, second }: WrittenLocate,
  face: Face | null,
): Clock | null => {
  const count = typeof dowels === 'number' ? dowels : (dowels?.length ?? 0);
  if (count !== 1) {
    faultAt(
      context,
      [...keys, 'dowels'],
      'conflict',
      'one dowel beside a register, such as dowels: [D1]: the register centres and the dowel keeps it from ' +
        'turning; a second one would fight it',
    );
    return null;
  }
  if (typeof dowels === 'number') {
    if (second !== undefined)
      faultAt(context, [...keys, 'second'], 'out-of-place', 'no such key for a new dowel: it is reamed at assembly');
    if (diameter !== undefined) return { diameter };
    if (!isSpoiled(context, [...keys, 'diameter']))
      faultAt(context, [...keys, 'dowels'], 'missing', '`diameter` of the new dowel as well');
    return null;
  }
  if (diameter !== undefined)
    faultAt(context, [...keys, 'diameter'], 'out-of-place', "no diameter: the face's own dowel has its own");
  dowelsOf(context, keys, dowels ?? [], face);
  return { feature: dowels?.[0] ?? '', slot: second !== 'round' };
};

/** A part that is set true by indicator and then dowelled; a register beside it does not locate it. */
const setTrueOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: WrittenLocate,
  face: Face | null,
): LocateSpec | null => {
  const { register, dowels, diameter, depth } = written;
  for (const name of ['fit', 'second'] as const)
    if (written[name] !== undefined)
      faultAt(
        context,
        [...keys, name],
        'out-of-place',
        'no such key beside `set`: the indicator and new dowels locate the part',
      );
  if (register === undefined && depth !== undefined)
    faultAt(context, [...keys, 'depth'], 'out-of-place', 'no such key without `register`');
  if (
    register !== undefined &&
    face !== null &&
    face.centre === null &&
    !isSpoiled(context, ['faces', face.name, 'centre'])
  )
    faultAt(
      context,
      [...keys, 'register'],
      'missing',
      `\`centre\` of ${face.name} as well: a register sits on the face's centre feature`,
    );
  if (typeof dowels !== 'number' || dowels < 2 || diameter === undefined) {
    if (!isSpoiled(context, [...keys, 'dowels']) && !isSpoiled(context, [...keys, 'diameter']))
      faultAt(
        context,
        [...keys, 'set'],
        'missing',
        'two new dowels or more as well, such as dowels: 2, diameter: 6 mm: ' +
          'they hold the part where the indicator says it is true',
      );
    return null;
  }
  const loose = register === undefined ? null : { diameter: register, depth: depth ?? null };
  return { as: 'new dowels', count: dowels, diameter, set: { reading: written.reading ?? null, register: loose } };
};

/** Which of the three ways is meant follows from the keys that stand there. */
export const locateOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: WrittenLocate,
  face: Face | null,
): LocateSpec | null => {
  const { register, dowels } = written;
  const extra = (names: readonly (keyof WrittenLocate)[], why: string): void => {
    for (const name of names) if (written[name] !== undefined) faultAt(context, [...keys, name], 'out-of-place', why);
  };
  if (written.set !== undefined) return setTrueOf(context, keys, written, face);
  extra(['reading'], 'no such key without `set: by indicator`');
  if (register !== undefined) {
    const clock = dowels === undefined ? null : clockOf(context, keys, written, face);
    if (dowels === undefined)
      extra(['diameter', 'second'], 'no such key beside `register`: its diameter is the register itself');
    if (face !== null && face.centre === null && !isSpoiled(context, ['faces', face.name, 'centre']))
      faultAt(
        context,
        [...keys, 'register'],
        'missing',
        `\`centre\` of ${face.name} as well: a register sits on the face's centre feature`,
      );
    return {
      as: 'register',
      diameter: register,
      depth: written.depth ?? null,
      fit: written.fit ?? null,
      ...(clock === null ? {} : { clock }),
    };
  }
  if (!isSpoiled(context, [...keys, 'register'])) extra(['depth', 'fit'], 'no such key without `register`');
  if (typeof dowels === 'number') {
    extra(['second'], 'no such key for new dowels: they are reamed together once the shafts are aligned');
    if (written.diameter === undefined) {
      if (!isSpoiled(context, [...keys, 'diameter']))
        faultAt(context, [...keys, 'dowels'], 'missing', '`diameter` of the new dowels as well');
      return null;
    }
    return { as: 'new dowels', count: dowels, diameter: written.diameter };
  }
  if (dowels === undefined) {
    if (!isSpoiled(context, [...keys, 'register']) && !isSpoiled(context, [...keys, 'dowels']))
      faultAt(context, keys, 'missing', '`register: DIAMETER`, or `dowels:` by name or number', { key: true });
    return null;
  }
  extra(['diameter'], "no diameter: the face's own dowels have theirs");
  dowelsOf(context, keys, dowels, face);
  if (dowels.length === 0) faultAt(context, [...keys, 'dowels'], 'missing', 'at least one dowel');
  return { as: 'own dowels', features: dowels, second: written.second ?? 'round' };
};
