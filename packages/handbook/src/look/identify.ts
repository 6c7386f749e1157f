import { MM_PER_INCH, parseLength, sayOdds } from '@fayplate/core';
import { type MeasuredThread, identifyThread, tellApart } from '../threads/identify.js';
import { parseThread } from '../threads/parse.js';
import { type TaperThread, parseTaper } from '../threads/pipe.js';
import type { Looked } from './words.js';
import { answer, both, figures, left, mmAndInch, source, table } from './words.js';

const tpiWords =
  /(\d{1,2}(?:\.\d)?)(?: ?(?:±|\+\/-|\+-) ?(\d{1,2}(?:\.\d{1,2})?))? ?(?:tpi|t\.p\.i\.?|threads?(?: (?:to the|per|an|to an) inch)?)(?![a-z])/i;
const unitWords = /(mm|in(?:ch(?:es)?)?|"|″|”)(?![a-z])/i;

/**
 * A length with the ± that its digits or its own ± give, mm; null where it is none. `bare`: mm per unit where none is
 * written.
 */
const lengthIn = (
  text: string,
  bare: number,
  least: number,
): { readonly value: number; readonly plusMinus: number } | null => {
  const [head = '', tail] = text.split(/±|\+\/-|\+-/);
  const unit = unitWords.exec(text)?.[1]?.toLowerCase();
  const factor = unit === undefined ? bare : unit === 'mm' ? 1 : MM_PER_INCH;
  const strip = (t: string): string => t.replace(unitWords, '').trim();
  const value = parseLength(strip(head), factor);
  if (!value.ok || !(value.value > 0)) return null;
  if (tail !== undefined) {
    const own = parseLength(strip(tail), factor);
    return own.ok && own.value > 0 ? { value: value.value, plusMinus: own.value } : null;
  }
  const decimals = /\.(\d+)/.exec(strip(head))?.[1]?.length;
  // A fraction is a size by the rule; a decimal is read to half its last figure, and no better than jaws on a thread
  // are.
  const read = head.includes('/') || decimals === undefined ? 0.25 : (0.5 * factor) / 10 ** decimals;
  return { value: value.value, plusMinus: Math.max(read, least) };
};

/**
 * `9.4 mm 1.6 mm`, `9.4 x 1.6`, `0.37 in 16 tpi`, `26 tpi 1/4`, each figure with its own ± where one is written; null
 * where it is no such pair.
 */
const measuredIn = (what: string): MeasuredThread | null => {
  const text = what
    .trim()
    .slice(0, 60)
    .replace(/[,;]|\b(?:pitch|diameter|dia|over|by|and)\b/gi, ' ')
    .replace(/\s+/g, ' ');
  const tpi = tpiWords.exec(text);
  if (tpi !== null) {
    const rest = text
      .replace(tpi[0], ' ')
      .split(/[ x×-]+/i)
      .filter((piece) => piece !== '')
      .join(' ');
    const count = Number(tpi[1]);
    if (!(count > 0) || rest === '') return null;
    const inches = rest.includes('/') || Number.parseFloat(rest) < 2.6;
    const major = lengthIn(rest, inches ? MM_PER_INCH : 1, 0.05);
    if (major === null) return null;
    const pitch = MM_PER_INCH / count;
    // A count is right to the half thread, a gauge leaf to less.
    const by = tpi[2] === undefined ? 0.5 : Number(tpi[2]);
    return { major: major.value, majorPlusMinus: major.plusMinus, pitch, pitchPlusMinus: (pitch * by) / count };
  }
  const two =
    /^(\d[\d./ ]*?(?:(?: ?(?:±|\+\/-|\+-) ?\.?\d[\d.]*)? ?(?:mm|in(?:ch(?:es)?)?|"|″|”)?)) ?(?:x|×| ) ?(\.?\d[\d.]*(?:(?: ?(?:±|\+\/-|\+-) ?\.?\d[\d.]*)? ?(?:mm|in(?:ch(?:es)?)?|"|″|”)?))$/i.exec(
      text,
    );
  if (two === null) return null;
  const bare = unitWords.exec(text)?.[1]?.toLowerCase() ?? 'mm';
  const factor = bare === 'mm' ? 1 : MM_PER_INCH;
  const a = lengthIn(two[1] ?? '', factor, 0.05);
  const b = lengthIn(two[2] ?? '', factor, 0.02);
  if (a === null || b === null || b.value >= a.value) return null;
  return { major: a.value, majorPlusMinus: a.plusMinus, pitch: b.value, pitchPlusMinus: b.plusMinus };
};

/** What a thread measured over its crests and from crest to crest may be. */
const lookMeasured = (m: MeasuredThread): Looked => {
  const { candidates, none } = identifyThread(m);
  const [first, second] = candidates;
  const used =
    `${both(m.major)} ± ${m.majorPlusMinus.toFixed(2)} mm over the crests, pitch ${m.pitch.toFixed(3)} ± ` +
    `${m.pitchPlusMinus.toFixed(3)} mm (${(MM_PER_INCH / m.pitch).toFixed(2)} to the inch)`;
  const rows = candidates.slice(0, 8);
  return {
    ok: true,
    kind: 'thread',
    json: {
      measured: {
        major: m.major,
        major_plus_minus: m.majorPlusMinus,
        pitch: m.pitch,
        pitch_plus_minus: m.pitchPlusMinus,
      },
      candidates: candidates.map(({ thread: t, odds: p }) => ({
        name: t.name,
        series: t.system,
        major: [t.least, t.most],
        pitch: t.pitch,
        tpi: t.tpi,
        odds: p,
      })),
      none,
      tells_apart: first === undefined || second === undefined ? null : tellApart(first.thread, second.thread),
    },
    report: [
      answer(
        first === undefined || none > 0.5
          ? 'No thread on file'
          : `Most likely ${first.thread.name}: odds ${sayOdds(first.odds)}`,
      ),
      { kind: 'paragraph', text: `From ${used}. A closer ± may be written: 9.4 ± 0.02 mm 1.59 ± 0.01 mm.` },
      ...(rows.length === 0
        ? []
        : [
            table(
              null,
              [
                left('Thread'),
                left('System'),
                left('Odds'),
                figures('Over crests from, mm'),
                figures('to, mm'),
                figures('Pitch, mm'),
                left('To the inch'),
              ],
              rows.map(({ thread: t, odds: p }) => [
                t.name,
                t.system,
                sayOdds(p),
                t.least.toFixed(3),
                t.most.toFixed(3),
                t.pitch.toFixed(4),
                t.tpi === null ? '' : String(t.tpi),
              ]),
            ),
          ]),
      { kind: 'paragraph', text: `None on file: odds ${sayOdds(none)}.` },
      ...(first === undefined || second === undefined
        ? []
        : [
            {
              kind: 'paragraph' as const,
              text: `To tell ${first.thread.name} from ${second.thread.name}: ${tellApart(first.thread, second.thread)}`,
            },
          ]),
    ],
  };
};

const taperPage = (t: TaperThread): Looked => ({
  ok: true,
  kind: 'thread',
  json: {
    name: t.name,
    size: t.size,
    series: t.series,
    major: t.major,
    pitch: t.pitch,
    tpi: t.tpi,
    taper: '1 in 16',
    source: t.source,
  },
  report: [
    answer(
      `${t.name}: ${both(t.major)} ${t.series === 'R' ? 'at the gauge plane' : 'outside of the pipe'}, ${t.tpi} ` +
        `threads to the inch, taper 1 in 16 (${t.series})`,
    ),
    table(
      null,
      [left(''), figures('mm'), figures('in')],
      [
        ['diameter', ...mmAndInch(t.major)],
        ['pitch', ...mmAndInch(t.pitch)],
      ],
    ),
    {
      kind: 'paragraph',
      text: 'A taper pipe thread seals on its flanks; it holds no part to another, and a job takes it for no bolt or stud.',
    },
    source(t.source),
  ],
});

/** A measured thread or a taper pipe thread; null where the words are neither, or name a thread of the tables. */
export const lookOtherThread = (what: string): Looked | null => {
  if (parseThread(what) !== null) return null;
  const taper = parseTaper(what);
  if (taper !== null) return taperPage(taper);
  const measured = measuredIn(what);
  return measured === null ? null : lookMeasured(measured);
};
