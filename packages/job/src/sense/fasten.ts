import type { JobFile } from '../schema/file.js';
import type { Face, FastenSpec, OwnHardware } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, known, namesAt } from './context.js';
import { knownThread } from './features.js';

type WrittenFasten = NonNullable<NonNullable<JobFile['plate']>['fasten']>[string];

const heads = [
  ['nut', 'nut'],
  ['cap screw', 'cap screw'],
  ['countersunk screw', 'countersunk screw'],
] as const;

type Head = WrittenFasten['nut'] | WrittenFasten['cap screw'] | WrittenFasten['countersunk screw'];

const ownOf = (said: Head): OwnHardware | null =>
  typeof said !== 'object' ? null : { across: 'head' in said ? said.head : said['across flats'], height: said.height };

/** How one face is fastened; what is not said is a clearance of normal fit with nothing counted on. */
export const fastenOf = (
  context: Context,
  keys: readonly PropertyKey[],
  written: WrittenFasten,
  face: Face | null,
): FastenSpec => {
  const stated = heads.filter(([key]) => written[key] !== undefined);
  const [one, two] = stated;
  if (two !== undefined) faultAt(context, [...keys, two[0]], 'conflict', 'one kind of nut or head only');
  const said = one === undefined ? undefined : written[one[0]];
  const sunk = typeof said === 'object' ? said.sunk : said;
  if (written.as === 'clearance' && written.blind !== undefined)
    faultAt(context, [...keys, 'blind'], 'out-of-place', 'no `blind`: a clearance hole goes through');
  if (written.as === 'clearance' && written.engagement !== undefined)
    faultAt(context, [...keys, 'engagement'], 'out-of-place', 'no engagement: a clearance hole has no thread');
  if (written.as !== 'tapped' && written['wire insert'] !== undefined)
    faultAt(
      context,
      [...keys, 'wire insert'],
      'out-of-place',
      'wire inserts in tapped holes only: { as: tapped, thread: M10, wire insert: 1.5 d }',
    );
  if (written.as !== 'set stud' && written.set !== undefined)
    faultAt(
      context,
      [...keys, 'set'],
      'out-of-place',
      'the other thread of a stepped stud only: { as: set stud, thread: M10, set: M12 }',
    );
  const setThread = knownThread(context, [...keys, 'set'], written.set);
  const thread = knownThread(context, [...keys, 'thread'], written.thread);
  const names =
    face === null
      ? []
      : [...new Set([...namesAt(context, ['faces', face.name, 'features']), ...face.features.map((f) => f.id)])];
  const except = entriesAt(context, [...keys, 'except'], written.except);
  if (face !== null) {
    for (const [name] of except)
      known(context, [...keys, 'except', name], name, names, `a feature of ${face.name}`, { key: true, inside: '' });
    const left = new Set(except.filter(([, how]) => how === 'none' || how === 'clearance').map(([name]) => name));
    const bare = face.features.find(
      (f) => (f.kind === 'stud' || f.kind === 'hole') && !f.vacant && f.thread === null && !left.has(f.id),
    );
    const badThread =
      bare !== undefined &&
      (['thread'].some((k) => isSpoiled(context, ['faces', face.name, 'features', bare.id, k])) ||
        isSpoiled(context, [...keys, 'thread']));
    if (written.as !== 'clearance' && written.thread === undefined && bare !== undefined && !badThread)
      faultAt(
        context,
        [...keys, 'as'],
        'missing',
        `\`thread\` as well: ${bare.id} of ${face.name} names none, so nothing says what to tap`,
      );
  }
  return {
    as: written.as,
    fit: written.fit ?? 'normal',
    head: one?.[1] ?? null,
    sunk: sunk === undefined || sunk === 'plain' ? 'none' : sunk,
    thread,
    engagement: written.engagement ?? null,
    blind: written.blind ?? false,
    washer: written.washer ?? null,
    own: ownOf(said),
    ...(written['wire insert'] === undefined ? {} : { insert: written['wire insert'] }),
    ...(setThread === null ? {} : { setThread }),
    except: new Map(except),
  };
};
