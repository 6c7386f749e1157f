import { type Requirement, type Speech, notKnown, say, sayApart } from '@fayplate/core';
import type { Job, StackLink, StackSpec } from '@fayplate/job';
import type { StackCheck, StackResult } from '../types.js';
import { checkAt } from './solve.js';
import { sumsOf, tiny } from './window.js';

const places = (speech: Speech): number => (speech.unit === 'in' ? 3 : 2);

/** How far a limit is met at its worse end, mm; below zero it is missed. */
const marginOf = (c: StackCheck): number =>
  Math.min(c.least === null ? Infinity : c.worst[0] - c.least, c.most === null ? Infinity : c.most - c.worst[1]);

/** One limit of the chain with the plate as thick as it will be made. */
const limitOf = (c: StackCheck, thickness: number, speech: Speech, cure: string | null): Requirement => {
  const mm = (v: number): string => say(v, speech, places(speech));
  const margin = marginOf(c);
  const short = c.least !== null && margin === c.worst[0] - c.least;
  const [comes, limit] = short
    ? sayApart(c.worst[0], c.least ?? 0, speech, places(speech))
    : sayApart(c.worst[1], c.most ?? 0, speech, places(speech));
  const asked = `${short ? 'at least' : 'at most'} ${limit}`;
  return {
    id: 'stack-limit',
    title: `stack: ${c.name}`,
    state: c.ok ? 'holds' : 'fails',
    value: short ? c.worst[0] : c.worst[1],
    limit: short ? c.least : c.most,
    margin: Number.isFinite(margin) ? margin : null,
    unit: 'mm',
    source: 'stated in the job; every link at the end of its ±',
    because: c.ok
      ? `${c.name} is ${comes} in the worst case, where ${asked} is needed`
      : `with a plate of ${mm(thickness)} the ${c.name} is ${comes} in the worst case, where ${asked} is needed: ` +
        `${mm(-margin)} too ${short ? 'little' : 'much'}`,
    cure: c.ok ? null : cure,
  };
};

/** The range that the job says the plate is to be found in, with shims and all. */
const range = (spec: StackSpec, total: number, speech: Speech): readonly Requirement[] => {
  const { name, from, to } = spec.unknown;
  if (!name.toLowerCase().includes('plate')) return [];
  const mm = (v: number): string => say(v, speech, places(speech));
  const margin = Math.min(total - from, to - total);
  const ok = margin >= -tiny;
  return [
    {
      id: 'stack-range',
      title: `stack: ${name} within its range`,
      state: ok ? 'holds' : 'fails',
      value: total,
      limit: total < from ? from : to,
      margin,
      unit: 'mm',
      source: 'stated in the job',
      because: ok
        ? `${name} lies within the range that the stack gives it`
        : `the plate is ${mm(total)} thick, and the stack looks for it between ${mm(from)} and ${mm(to)}`,
      cure: ok ? null : 'change the thickness, or the range under `find`',
    },
  ];
};

/** The thickness, and the shims beside it, that meet every limit of the chain; null where none do. */
const thicknessSays = (solved: StackResult, speech: Speech): string | null => {
  if (!solved.ok || solved.chosen === null) return null;
  const shims = solved.shims.reduce((a, b) => a + b, 0);
  const mm = (v: number): string => say(v, speech, places(speech));
  return `make the plate ${mm(solved.chosen)}${shims > 0 ? ` and shim ${mm(shims)}` : ''}`;
};

const namedLike = (word: string, { name }: StackLink): boolean => name.toLowerCase().includes(word);

/** A link that tells of something that the plate's section tells as well, by another measure. */
const contradictions = (spec: StackSpec, job: Job, thickness: number, speech: Speech): readonly Requirement[] => {
  const told = (link: StackLink, what: string, value: number): readonly Requirement[] => {
    const off = Math.abs(link.value - value);
    return [
      {
        id: 'stack-link',
        title: `stack: ${link.name}`,
        state: off <= link.plusMinus + tiny ? 'holds' : 'fails',
        value: link.value,
        limit: value,
        margin: link.plusMinus - off,
        unit: 'mm',
        source: 'the job states both',
        because:
          off <= link.plusMinus + tiny
            ? `${link.name} of the stack agrees with ${what}`
            : `the stack counts ${link.name} as ${sayApart(link.value, value, speech, places(speech))[0]}, but ` +
              `${what} is ${sayApart(link.value, value, speech, places(speech))[1]}`,
        cure: off <= link.plusMinus + tiny ? null : 'make both the same',
      },
    ];
  };
  const registers = [...(job.plate?.locate ?? [])].flatMap(([face, l]) =>
    l.as === 'register' && l.depth !== null ? [{ face, depth: l.depth }] : [],
  );
  return spec.links.flatMap((link): readonly Requirement[] => {
    if (link.name.toLowerCase() === 'plate') return told(link, 'the plate', thickness);
    const flange = job.faces.find(
      (f) => f.flange !== null && namedLike('flange', link) && namedLike(f.name.toLowerCase(), link),
    );
    if (flange !== undefined) return told(link, `the flange of ${flange.name}`, flange.flange ?? 0);
    if (!namedLike('register', link) && !namedLike('recess', link)) return [];
    const own = registers.filter((r) => namedLike(r.face.toLowerCase(), link));
    const [only, ...more] = own.length > 0 ? own : registers;
    return only === undefined || more.length > 0
      ? []
      : told(link, `the register of ${only.face} in the plate`, only.depth);
  });
};

/** A gasket of the job that the chain along the shaft does not count. */
const uncounted = (spec: StackSpec, job: Job): readonly Requirement[] =>
  job.gaskets.length === 0 || spec.links.some((l) => namedLike('gasket', l))
    ? []
    : [
        notKnown(
          'stack-link',
          'stack: gasket',
          `how thick the gasket of ${job.gaskets[0]?.face ?? ''} is ` +
            'takes from the stack, and no link of it counts a gasket',
          'add a link such as `gasket: 0.8 ± 0.1 mm`, and take it off the sums that it lies in',
          'measure it, and count it in the stack',
        ),
      ];

/**
 * What the chain along the shaft asks of a plate of this thickness, shims not counted where the job states the
 * thickness: each limit at the worst, and links that must say what the plate says. Nothing for a job without a stack.
 */
export const stackRequirements = (
  job: Job,
  solved: StackResult | null,
  thickness: number,
  speech: Speech,
): readonly Requirement[] => {
  const spec = job.stack;
  if (spec === null || solved === null) return [];
  const total = job.plate?.thickness === 'from stack' ? (solved.total ?? thickness) : thickness;
  // Only a chain that is solved for the plate knows how thick that is to be.
  const limits = spec.unknown.name.toLowerCase().includes('plate')
    ? sumsOf(spec).map((s) => {
        // A stated thickness at the end of its ± where the limit is met worse.
        const within = job.plate?.thicknessWithin ?? 0;
        const ends = within > 0 ? [total - within, total + within] : [total];
        const tried = ends.map((t) => ({ t, c: checkAt(s, t) }));
        const { t, c } = tried.reduce((a, b) => (marginOf(b.c) < marginOf(a.c) ? b : a));
        return limitOf(c, t, speech, thicknessSays(solved, speech));
      })
    : solved.limits.map((c) => limitOf(c, thickness, speech, null));
  return [
    ...limits,
    ...range(spec, total, speech),
    ...contradictions(spec, job, thickness, speech),
    ...uncounted(spec, job),
  ];
};
