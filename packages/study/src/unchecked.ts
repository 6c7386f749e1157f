import { type Block, sayAll } from '@fayplate/core';
import type { FittedReading, LocatedFace } from '@fayplate/survey';

/** A reading that nothing else checks: a misreading of it would not show. `take`: a reading that would. */
export interface Unchecked {
  readonly reading: string;
  readonly text: string;
  readonly take: string;
}

/** Below this share of a reading is checked by the others: none of it. */
const NONE = 1e-6;
/** More than this many are named alone. */
const FEW = 6;

/** The same distance from the other side of what is measured: a slip of one does not happen to both. */
const beside: Readonly<Record<string, string>> = { over: 'between', between: 'over', wall: 'over', centres: 'over' };

const checking = (r: FittedReading): string => {
  const [kind = '', a = '', b = ''] = r.text.trim().split(/\s+/);
  const other = beside[kind];
  if (other !== undefined && b !== '') return `\`${other} ${a} ${b}\``;
  return kind === 'dia'
    ? `\`${r.text.split('=')[0]?.trim() ?? ''}\` once more, a quarter turn on`
    : `it once more, set up anew`;
};

/** Readings of a face that nothing else checks, in their order; stated diameters and zero errors are not listed. */
export const uncheckedOn = (located: LocatedFace): readonly Unchecked[] =>
  located.readings
    .filter((r) => r.kind !== 'diameter' && r.kind !== 'zero' && r.redundancy < NONE)
    .map((r) => ({ reading: r.id, text: r.text, take: checking(r) }));

/** A reading as its line says it, without its value: `at P1`, which is one line for both of its lengths. */
const lineOf = (u: Unchecked): string => (u.text.split('=')[0] ?? u.text).trim();

export const uncheckedBlocks = (face: string, all: readonly Unchecked[]): readonly Block[] => {
  if (all.length === 0) return [];
  const lines = [...new Map(all.map((u) => [u.text, u])).values()];
  const one = lines.length === 1;
  const names = sayAll(lines.map((u) => `\`${lineOf(u)}\``));
  const misreading = `a misreading ${one ? 'there' : 'of one of them'} would not show`;
  const head = `On ${face} nothing checks ${names}: ${misreading}.`;
  return [
    { kind: 'paragraph', text: lines.length > FEW ? `${head} Any distance across would check several.` : head },
    ...(lines.length > FEW
      ? []
      : [{ kind: 'list' as const, items: lines.map((u) => `\`${u.text.trim()}\`: take ${u.take}.`) }]),
  ];
};
