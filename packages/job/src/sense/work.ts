import type { JobFile } from '../schema/file.js';
import type { Face, Feature, Job, PartWork, WorkKind } from '../types.js';
import { type Context, entriesAt, faultAt, isSpoiled, known } from './context.js';

type Written = NonNullable<JobFile['work']>[string];

/** What each kind of work is done to, which length of that it changes, and what to write where that is not given. */
const kinds: Readonly<
  Record<
    Exclude<WorkKind, 'shorten shaft'>,
    {
      readonly of: readonly Feature['kind'][];
      readonly what: string;
      readonly length: (f: Feature) => number | null;
      readonly give: string;
      readonly smaller: boolean;
    }
  >
> = {
  shorten: { of: ['stud', 'dowel'], what: 'a stud or dowel', length: (f) => f.stands, give: '`stands`', smaller: true },
  fit: { of: ['stud'], what: 'a stud', length: (f) => f.stands, give: '`stands`', smaller: false },
  open: { of: ['hole'], what: 'a hole', length: (f) => f.diameter?.value ?? null, give: '`diameter`', smaller: false },
  deepen: { of: ['hole'], what: 'a tapped hole', length: (f) => f.deep, give: '`deep`', smaller: false },
  relieve: {
    of: ['boss', 'spigot'],
    what: 'a boss or spigot',
    length: (f) => f.height ?? f.stands,
    give: '`height`',
    smaller: true,
  },
};
const names = ['shorten', 'fit', 'open', 'deepen', 'relieve'] as const;

/** The one thing that is done, with what it is done to; null with a fault where there is none or more than one. */
const doneIn = (context: Context, keys: readonly string[], written: Written) => {
  const there = names.filter((n) => written[n] !== undefined || isSpoiled(context, [...keys, n]));
  const [kind, more] = there;
  if (kind === undefined || more !== undefined) {
    faultAt(
      context,
      more === undefined ? keys : [...keys, more],
      more === undefined ? 'missing' : 'conflict',
      'one of shorten, fit, open, deepen, relieve: each piece of work has its own name',
      { key: true },
    );
    return null;
  }
  const of = written[kind];
  return of === undefined ? null : { kind, of };
};

/** Each feature must be there, be such a thing, and have the length that the work changes. */
const judged = (
  context: Context,
  keys: readonly string[],
  face: Face,
  kind: keyof typeof kinds,
  of: readonly string[],
  to: number,
  done: boolean,
): readonly Feature[] => {
  const spec = kinds[kind];
  return of.flatMap((id) => {
    const at = [...keys, kind];
    if (
      !known(
        context,
        at,
        id,
        face.features.map((f) => f.id),
        `a feature of ${face.name}`,
        { inside: id },
      )
    )
      return [];
    const feature = face.features.find((f) => f.id === id);
    if (feature === undefined) return [];
    if (!spec.of.includes(feature.kind)) {
      faultAt(context, at, 'features', `${spec.what}; ${id} is a ${feature.kind}`, { inside: id });
      return [];
    }
    const now = spec.length(feature);
    if (now === null) {
      // What a hole's diameter is may stand in its readings alone.
      if (kind === 'open') return [feature];
      faultAt(
        context,
        ['faces', face.name, 'features', id],
        'missing',
        `${spec.give} of ${id} as well, as it is before the work`,
        { key: true },
      );
      return [];
    }
    if (!done && (spec.smaller ? to >= now : to <= now)) {
      const mm = (v: number): string => `${Number((context.unit === 'in' ? v / 25.4 : v).toFixed(4))} ${context.unit}`;
      faultAt(
        context,
        [...keys, 'to'],
        'conflict',
        `${spec.smaller ? 'less' : 'more'} than the ${mm(now)} that ${id} has now, or \`done: yes\` where it is ` +
          'done and measured again',
      );
    }
    return [feature];
  });
};

const shaftOf = (context: Context, keys: readonly string[], written: Written, job: Job): void => {
  const { link, to } = written;
  if (to === 'flush') faultAt(context, [...keys, 'to'], 'value', 'the reach that the shaft then has');
  const links = (job.stack?.links ?? []).map((l) => l.name);
  if (link !== undefined) known(context, [...keys, 'link'], link, links, 'a link of the stack');
  else if (links.length > 0)
    faultAt(
      context,
      keys,
      'missing',
      `\`link\` as well, the link of the stack that is this reach: ${links.join(', ')}`,
      {
        key: true,
      },
    );
};

/** Every piece of work that the job names, each looked up and judged against what is measured. */
export const workOf = (context: Context, written: NonNullable<JobFile['work']>, job: Job): readonly PartWork[] =>
  entriesAt(context, ['work'], written).flatMap(([name, w]): readonly PartWork[] => {
    const keys = ['work', name];
    const found = doneIn(context, keys, w);
    const there = known(
      context,
      [...keys, 'face'],
      w.face,
      job.faces.map((f) => f.name),
      'a face of the job',
    );
    const face = job.faces.find((f) => f.name === w.face);
    if (found === null || !there || face === undefined) return [];
    const to = w.to === 'flush' ? { value: 0, plusMinus: null } : w.to;
    const done = w.done === true;
    const own = { name, face: face.name, to, done, why: w.why ?? null };
    if (found.kind === 'shorten' && found.of.length === 1 && /^shaft$/i.test(found.of[0] ?? '')) {
      shaftOf(context, keys, w, job);
      return [{ ...own, kind: 'shorten shaft', features: [], from: new Map(), link: w.link ?? null }];
    }
    if (w.link !== undefined) faultAt(context, [...keys, 'link'], 'out-of-place', 'no `link` but for a shaft');
    if (w.to === 'flush' && found.kind !== 'relieve')
      faultAt(context, [...keys, 'to'], 'value', 'a length above zero: only what is relieved can be flush');
    const features = judged(context, keys, face, found.kind, found.of, to.value, done);
    return [
      {
        ...own,
        kind: found.kind,
        features: features.map((f) => f.id),
        from: new Map(features.map((f) => [f.id, kinds[found.kind].length(f)])),
        link: null,
      },
    ];
  });

const less = (now: number | null, to: number): number => Math.min(now ?? to, to);
const more = (now: number | null, to: number): number => Math.max(now ?? to, to);

const featureAfter = (f: Feature, { kind, to }: PartWork): Feature => {
  switch (kind) {
    case 'shorten':
      return { ...f, stands: less(f.stands, to.value) };
    case 'fit':
      return { ...f, stands: more(f.stands, to.value) };
    case 'deepen':
      return { ...f, deep: more(f.deep, to.value) };
    case 'open':
      return (f.diameter?.value ?? 0) >= to.value
        ? f
        : { ...f, diameter: { value: to.value, plusMinus: to.plusMinus }, diameterFrom: 'job' };
    case 'relieve':
      // What is flush stands out no more: nothing has to clear it.
      if (to.value === 0) return { ...f, vacant: true, stands: null, height: null };
      return f.height !== null
        ? { ...f, height: less(f.height, to.value) }
        : { ...f, stands: less(f.stands, to.value) };
    case 'shorten shaft':
      return f;
  }
};

const faceAfter = (face: Face, w: PartWork): Face => ({
  ...face,
  features: face.features.map((f) => (w.features.includes(f.id) ? featureAfter(f, w) : f)),
});

const reachAfter = (job: Job, { link, to }: PartWork): Job => ({
  ...job,
  stack:
    job.stack === null
      ? null
      : {
          ...job.stack,
          links: job.stack.links.map((l) =>
            l.name === link && l.value > to.value
              ? { ...l, value: to.value, plusMinus: to.plusMinus ?? l.plusMinus }
              : l,
          ),
        },
  old:
    job.old?.reach == null || link !== null || job.old.reach.new <= to.value
      ? job.old
      : { ...job.old, reach: { ...job.old.reach, new: to.value } },
});

/**
 * The job with its parts as they are after the work, done or still to do; `asMeasured` keeps the faces that the
 * readings were taken on.
 */
export const afterWork = (job: Job, work: readonly PartWork[]): Job =>
  work.length === 0
    ? job
    : work.reduce(
        (j, w): Job =>
          w.kind === 'shorten shaft'
            ? reachAfter(j, w)
            : { ...j, faces: j.faces.map((f) => (f.name === w.face ? faceAfter(f, w) : f)) },
        { ...job, work, asMeasured: job.faces },
      );
