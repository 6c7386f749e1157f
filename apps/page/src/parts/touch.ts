import { type ReadingKind, isDistance, readingKinds } from '@fayplate/job';
import { type ReadingTouch, readingTouch } from '@fayplate/pictures';
import type { Mark } from '../work/shown.js';

/** The features that a reading's words name, in order: `square A-B C-D` names four. */
const namedIn = (head: string, ids: ReadonlySet<string>): readonly string[] =>
  head
    .split(' ')
    .slice(1)
    .flatMap((word) => (ids.has(word) ? [word] : word.split('-')))
    .filter((word) => ids.has(word));

/** `over P1 P3` → where the jaws touch, on the drawing that has these marks. */
export const touchOf = (head: string, marks: readonly Mark[]): ReadingTouch => {
  const places = new Map(marks.map((m) => [m.id, { x: m.x, y: m.y, radius: m.r }]));
  return readingTouch(head.split(' ')[0] as ReadingKind, namedIn(head, new Set(places.keys())), places);
};

/** Which kinds of reading can be taken on so many features picked in order, the usual one first. */
export const kindsFor = (picked: readonly Mark[]): readonly string[] => {
  const round = (m: Mark | undefined): boolean => /^(?:spigot|bore|boss)/.test(m?.says ?? '');
  switch (picked.length) {
    case 1:
      return ['dia', 'at', 'touch'];
    case 2: {
      const inside = picked.some(round) || picked.every((m) => m.says.startsWith('hole'));
      const usual: readonly string[] = inside ? ['between', 'over'] : ['over', 'between'];
      return [...usual, ...readingKinds.filter((k) => isDistance(k) && !usual.includes(k)), 'runout'];
    }
    case 3:
      return ['angle', 'line', 'flush', 'offset'];
    case 4:
      return ['square'];
    default:
      return [];
  }
};

/** The words of a reading of this kind on features in the order picked. */
export const headFor = (kind: string, ids: readonly string[]): string => {
  const [a = '', b = '', c = '', d = ''] = ids;
  if (kind === 'offset') return `offset ${a} ${b}-${c}`;
  if (kind === 'square') return `square ${a}-${b} ${c}-${d}`;
  if (kind === 'runout') return `runout ${a} about ${b}`;
  return [kind, ...ids].join(' ');
};

/** Kinds that say something without a number. */
export const isBare = (head: string): boolean => /^(?:square|line|flush) /.test(head);
export const isPlace = (head: string): boolean => /^(?:at|touch) /.test(head);
export const isAngle = (head: string): boolean => head.startsWith('angle ');
