import { distance, flatten } from '@fayplate/core';
import { borePath } from '../bores/shape.js';
import { depthInside } from '../outline/inside.js';
import type { PlateBore } from '../types.js';
import { type Area, type Laid, clearOf, depthOf, widthOf } from './area.js';

const THROUGH = 'common practice: a gasket clears what stands through it, and leaves ports and bores open';
export const SEALS = 'common practice: a gasket goes whole round every port, hole and bore that it seals';

/** How far what is asked of a gasket is met, mm, with the words for each case. */
export interface Asked {
  readonly title: string;
  readonly value: number;
  readonly limit: number;
  readonly fails: string;
  readonly cure: string;
  /** The same without words of the job file, where it names one. */
  readonly cureAtBench?: string;
  readonly source: string;
}

/** What stands through the gasket, with the ease that it needs; off the gasket altogether nothing is asked. */
export const clears = ({ gasket, openings, called, mm }: Laid, r: Area, ease: number): readonly Asked[] => {
  if (depthInside(r.centre, gasket.outline) + r.radius <= 0) return [];
  const clear = clearOf(r, openings);
  const about = gasket.bore !== null && distance(gasket.bore, r.centre) < 0.5;
  return [
    {
      title: `${called} clears ${r.name}`,
      value: clear,
      limit: ease,
      source: THROUGH,
      fails:
        clear < 0
          ? `${called} covers ${r.name}, which stands through it: its opening there is ${mm(-clear)} too small`
          : `${about ? `the bore of ${called}` : called} has only ${mm(clear)} over ${r.name}, where ${mm(ease)} of ` +
            'clearance is needed',
      cure: about ? `make its bore ${mm(2 * r.radius + ease)} or more` : `add ${r.own ?? r.name} to its \`open\``,
      ...(about ? {} : { cureAtBench: `leave ${r.own ?? r.name} open` }),
    },
  ];
};

/** What must stay open, and be gone round: `open` is how much of it, on the diameter, mm. */
export const leavesOpen = (laid: Laid, r: Area, open: number, isCut = false): readonly Asked[] => {
  const { gasket, openings, called, mm } = laid;
  const depth = depthOf(r, laid);
  const own = r.own ?? r.name;
  const about = gasket.bore !== null && distance(gasket.bore, r.centre) < 0.5;
  const reach = r.radius + Math.max(...r.spine.map((p) => distance(p, r.centre)));
  if (depth < 0)
    return [
      {
        title: `${called} goes round ${r.name}`,
        value: depth,
        limit: 0,
        source: SEALS,
        fails:
          `${called} misses ${r.name}, which ` +
          `${depth + widthOf(r) <= 0 ? 'lies outside it or the plate' : 'its outline or that of the plate cuts'}: ` +
          'nothing seals round it',
        cure:
          `give it an outline that goes round ${own}` +
          (isCut ? '' : `, or mark ${own} \`vacant\` where nothing passes`),
        cureAtBench: `give it an outline that goes round ${own}${isCut ? '' : ', unless nothing passes there'}`,
      },
    ];
  const clear = clearOf(r, openings) + widthOf(r);
  return [
    {
      title: `${called} leaves ${r.name} open`,
      value: clear,
      limit: open,
      source: THROUGH,
      fails:
        `${called} covers ${r.name}: ` +
        (clear <= 0 ? 'it has no hole there' : `its opening leaves only ${mm(clear)} of it`),
      cure: about
        ? `make its bore ${mm(open - widthOf(r) + 2 * reach)} or more`
        : `add ${own} to its \`open\`${isCut ? '' : ', or mark it `vacant` where the gasket may close it'}`,
      ...(about ? {} : { cureAtBench: `leave ${own} open${isCut ? '' : ', unless the gasket may close it'}` }),
    },
  ];
};

/** A notch of the plate that the gasket does not lie over. */
export const leavesNotch = ({ gasket, called, mm }: Laid, notch: PlateBore): readonly Asked[] => {
  const name = notch.cut?.name ?? notch.id;
  const over = Math.max(0, ...flatten(borePath(notch), 0.1).map((p) => depthInside(p, gasket.outline)));
  return [
    {
      title: `${called} leaves ${name} open`,
      value: over < 1e-6 ? 0 : -over,
      limit: 0,
      source: THROUGH,
      fails: `${called} covers ${name}: it reaches ${mm(over)} over its edge`,
      cure: `add ${name} to its \`open\``,
      cureAtBench: `leave ${name} open`,
    },
  ];
};
