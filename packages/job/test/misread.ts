import { isMap, isScalar, isSeq, parseDocument } from 'yaml';
import type { Job } from '../src/index.js';
import { second, secondLength } from './second.js';

const MM: Readonly<Record<string, number>> = { in: 25.4, mm: 1 };
const pm = /±|\+\/-|\+-/;

/**
 * A value and its ± by the page: a unit written once, behind the ±, serves both, unless it is a small one or the ± were
 * half the value.
 */
const measure = (text: string, bare: number): { readonly value: number | null; readonly plusMinus: number | null } => {
  const [head = '', tail] = text.split(pm);
  const own = second(head);
  if (tail === undefined) return { value: secondLength(head, bare), plusMinus: null };
  const behind = second(tail);
  if (own === null || behind === null) return { value: null, plusMinus: null };
  const per = (unit: string): number => secondLength(`1 ${unit}`, 1) ?? Number.NaN;
  const size = Math.abs(Number(own.over) / Number(own.under));
  const spread = Number(behind.over) / Number(behind.under);
  let unit = bare;
  if (own.unit === 'bare' && behind.unit !== 'bare') {
    const factor = per(behind.unit);
    const absurd = spread >= size / 2 && spread * factor < (size * bare) / 2;
    unit = factor < 0.1 ? (size * bare <= 2500 ? bare : factor) : absurd ? bare : factor;
  }
  const forTail = own.unit === 'bare' ? bare : per(own.unit);
  return { value: secondLength(head, unit), plusMinus: secondLength(tail, forTail) };
};

/** Text of the file as typed, without the library's own notion of numbers. */
const typed = (text: string, path: readonly (string | number)[]): string | null => {
  let node: unknown = parseDocument(text, { schema: 'failsafe', logLevel: 'error' }).contents;
  for (const key of path) {
    if (isMap(node)) node = node.items.find((p) => isScalar(p.key) && String(p.key.value) === String(key))?.value;
    else if (isSeq(node)) node = node.items[Number(key)];
    else return null;
  }
  return isScalar(node)
    ? String(node.value)
        .replace(/[\u00a0\u2000-\u200a\u202f]/g, ' ')
        .trim()
    : null;
};

/**
 * Every number of a job that was read from `text`, against a second reading of the same text: what differs, in words.
 * Lengths of readings and diameters of features; a number that the second reader does not have is one that should have
 * been refused.
 */
export const misread = (text: string, job: Job): readonly string[] => {
  const bare = MM[job.units] ?? Number.NaN;
  const wrong: string[] = [];
  const compare = (what: string, ours: number, theirs: number | null): void => {
    if (theirs === null || Math.abs(ours - theirs) > 1e-9 * Math.max(1, Math.abs(ours)))
      wrong.push(`${what}: read as ${ours} mm, by the page ${theirs === null ? 'nothing' : `${theirs} mm`}`);
  };
  for (const face of job.faces) {
    for (const r of face.readings) {
      if (r.kind === 'at' || r.kind === 'touch' || r.kind === 'angle' || !r.text.includes('=')) continue;
      const [, behind = ''] = /=([^#]*)/.exec(r.text) ?? [];
      const m = measure(behind.split(/\sby(?=\s|$)/i)[0] ?? '', bare);
      compare(`${face.name} ${r.text}`, r.value, m.value);
      if (m.plusMinus !== null || pm.test(behind)) compare(`${face.name} ${r.text} (±)`, r.plusMinus, m.plusMinus);
    }
    for (const f of face.features) {
      if (f.diameterFrom !== 'job' || f.diameter === null) continue;
      const words = typed(text, ['faces', face.name, 'features', f.id, 'diameter']);
      const m = words === null ? null : measure(words, bare);
      compare(`${face.name}.${f.id} ${words ?? '?'}`, f.diameter.value, m?.value ?? null);
    }
  }
  return wrong;
};
