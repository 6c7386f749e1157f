import { parseNumber } from '@fayplate/core';
import { threads } from './list.js';
import type { Thread } from './forms.js';

/** Lower case, one kind of dash, one kind of cross, fractions spelled out, single spaces. */
const tidy = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/(\d?)([½¼¾⅛⅜⅝⅞])/g, (_, d: string, f: string) => `${d === '' ? '' : `${d} `}${f.normalize('NFKC')}`)
    .replace(/⁄/g, '/')
    .replace(/[‐‑‒–—−]/g, '-')
    .replace(/[×*]/g, 'x')
    .replace(/["″”]/g, ' ')
    .replace(/\s+/g, ' ')
    .replace(/ ?([-x/]) ?/g, '$1')
    .replace(/ (?=[-x])/g, '');

const metricForm = /^(?:iso )?m ?(\d{1,2}(?:\.\d)?)(?:[x-](\d(?:\.\d{1,3})?)| coarse)?(?:-(?:6g|6h))?$/;
const baForm = /^(?:# ?|no\.? ?)?(\d{1,2}) ?ba$|^ba ?(\d{1,2})$/;
const inchForm =
  /^(# ?|no\.? ?)?(\d{1,2}[ -]\d{1,2}\/\d{1,2}|\d{1,2}\/\d{1,2}|\d{1,2})(?: ?in(?:ch)?)?(?:[-x ](\d{1,2}(?:\.5)?)(?: ?tpi)?)?(?:[ -]?(unc|unf|unef|uns|bsw|bsf|bsc|brass|cycle|whitworth|whit))?(?:[ -](?:2a|2b))?$/;

const pipeForm = /^(?:g|bspp?) ?(\d{1,2}(?: \d\/\d{1,2}|\/\d{1,2})?)(?:-\d{2})?(?: ?[ab])?$/;
const pipeAfter = /^(\d{1,2}(?: \d\/\d{1,2}|\/\d{1,2})?)(?: ?in)?(?:-\d{2})?[ -]?(?:bspp?|bsp parallel|g)$/;

const metricThread = (m: RegExpExecArray): Thread | null => {
  const size = `M${Number(m[1])}`;
  const all = threads.filter((t) => t.form === 'metric' && t.size === size);
  const pitch = m[2];
  return all.find((t) => (pitch === undefined ? t.series === 'metric coarse' : t.pitch === Number(pitch))) ?? null;
};

const sizeInInches = (text: string): number | null => {
  const n = parseNumber(text);
  return n.ok ? n.value : null;
};

/**
 * A bare number up to 12 is a screw number where the threads to the inch belong to one (`10-24`, `1-64`), else inches.
 */
const inchThread = (m: RegExpExecArray): Thread | null => {
  const [, mark, size = '', tpi, named] = m;
  if (tpi === undefined && named === undefined) return null;
  const series =
    named === undefined
      ? undefined
      : (({ whit: 'BSW', whitworth: 'BSW', cycle: 'BSC', brass: 'brass' } as const)[named] ?? named.toUpperCase());
  const fits = (t: Thread): boolean =>
    (tpi === undefined || t.tpi === Number(tpi)) && (series === undefined ? t.form === 'unified' : t.series === series);
  const numbered = /^\d+$/.test(size) ? threads.find((t) => t.size === `#${Number(size)}` && fits(t)) : undefined;
  if (mark !== undefined) return numbered ?? null;
  const wanted = sizeInInches(size);
  const inch = threads.find((t) => t.tpi !== null && sizeInInches(t.size) === wanted && fits(t));
  return inch ?? numbered ?? null;
};

/**
 * Reads a thread as people write it, in any case and spacing: `3/8-16 UNC`, `3/8-16`, `3/8 UNC`, `#10-24`, `M10`, `M10
 * x 1.25`,
 * `5/16 BSF`, `1/2 Whitworth`, `2BA`, `G1/8`, `1/8 BSP`; classes 2A, 2B, 6g and 6H may follow. Null where the tables
 * have no such thread or the words fit several (`3/8` alone).
 */
export const parseThread = (text: string): Thread | null => {
  if (text.length > 40) return null;
  const t = tidy(text);
  const metric = metricForm.exec(t);
  if (metric !== null) return metricThread(metric);
  const ba = baForm.exec(t);
  if (ba !== null) return threads.find((x) => x.name === `${Number(ba[1] ?? ba[2])} BA`) ?? null;
  const pipe = pipeForm.exec(t) ?? pipeAfter.exec(t);
  if (pipe !== null) return threads.find((x) => x.size === `G${pipe[1] ?? ''}`) ?? null;
  const inch = inchForm.exec(t);
  return inch === null ? null : inchThread(inch);
};
