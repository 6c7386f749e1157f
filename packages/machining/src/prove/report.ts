import {
  type Block,
  type Report,
  type Speech,
  formatClock,
  formatDegrees,
  say,
  sayNumber,
  thePart,
  MM_PER_INCH,
} from '@fayplate/core';
import { type Suspect, agrees, inKeeping, readingsWords, suspectBlocks } from '@fayplate/survey';
import type { Proof, ProvedFace } from '../types.js';
import { type EaseOption, eased } from './ease.js';
import { isSure } from './face.js';
import { planBlocks } from './plan-report.js';

/** The proof in words: goes on or not, each hole against what it is allowed, what to ease, what could not be told. */
export const proveReport = (p: Proof, speech: Speech): Report => {
  const own: Speech = { ...speech, fraction: null };
  if (p.state === 'not drilled')
    return [
      { kind: 'paragraph', text: 'Not drilled yet. These are the readings to take when it is.' },
      ...planBlocks(p.plan, 'Readings to take', own),
    ];
  return [
    { kind: 'verdict', ok: p.ok === true, text: verdict(p, own) },
    ...numberingBlocks(p),
    ...holesTable(p, own),
    ...facesTable(p, own),
    ...(p.located === null ? [] : suspectBlocks(p.located, own)),
    // Nothing is filed by readings that do not agree.
    ...(p.soFar === undefined && (p.located === null || inKeeping(p.located))
      ? [...p.goesOn].flatMap(([face, f]) => easeBlocks(face, f, own))
      : []),
    ...(p.notes.length === 0 ? [] : [{ kind: 'list' as const, items: p.notes }]),
    ...planBlocks(p.plan, 'Still to measure', own),
  ];
};

const verdict = (p: Proof, own: Speech): string => {
  if (p.mistake !== null && p.renumbered === null) return `Not as drawn: ${p.mistake.says}.`;
  const faces = [...p.goesOn];
  if (faces.length === 0) return 'The readings do not reach enough holes to say whether it goes on.';
  const suspects = p.located?.suspects ?? [];
  if (suspects.length > 0) return `Not proved: ${misfits(suspects)}`;
  if (p.located !== null && !agrees(p.located))
    return (
      'Not proved: the readings disagree by more than their ± allow, and no single one stands out. Take the longest ' +
      'ones again before you file anything.'
    );
  const stuck = faces.filter(([, f]) => f.slack < 0);
  if (stuck.length > 0)
    return (
      `${p.soFar === undefined ? 'Does' : 'With the rest drilled as drawn it does'} not go on ` +
      `${stuck.map(([name, f]) => `${thePart(name)}: ${say(-f.slack, own)} short at ${f.tight.find((id) => id.startsWith('H')) ?? 'a fastener'}`).join('; nor on ')}.`
    );
  const words = faces
    .map(([name, f]) => `${thePart(name)} with ${say(f.slack, own)} to spare (${chance(f.probability)})`)
    .join(' and ');
  if (p.unmeasured.length > 0)
    return (
      `Not proved yet: ${p.unmeasured.join(', ')} ${p.unmeasured.length === 1 ? 'is' : 'are'} not fixed by the ` +
      `readings. What is measured goes on ${words}.`
    );
  if (!p.handSure)
    return (
      `Not proved: unless it is drilled as its mirror image, which these readings cannot tell, it goes on ${words}. ` +
      'Look at side B as described below.'
    );
  if (faces.some(([, f]) => !isSure(f)))
    return (
      `Not proved: as measured it goes on ${words}, but the ± of part and plate are too wide to be sure. Measure ` +
      'both more closely, or try it on before you file anything.'
    );
  return p.soFar === undefined ? `Goes on ${words}.` : `With the rest drilled as drawn it goes on ${words}.`;
};

/** More than this many that cannot be told apart are hardly taken again one by one. */
const TIED = 6;

/** What does not fit, and what cannot be told from it. */
const misfits = (suspects: readonly Suspect[]): string => {
  const [one] = suspects;
  const before = 'again before you file anything.';
  if (one === undefined || suspects.length > 1)
    return (
      `${suspects.length} readings do not fit the rest: ` +
      `${readingsWords(suspects.map((s) => s.reading))}. Take them ${before}`
    );
  if (one.tiedWith.length === 0) return `${readingsWords([one.reading])} does not fit the rest. Take it ${before}`;
  if (one.tiedWith.length > TIED)
    return (
      'one reading does not fit the rest, and nothing tells which. ' +
      'Measure a few more pairs of holes before you file anything.'
    );
  return (
    `one reading does not fit the rest, and nothing tells which: ${readingsWords([one.reading, ...one.tiedWith])}. ` +
    `Take them ${before}`
  );
};

/**
 * A pattern that is the same in a mirror or a division on serves as it is: only the names of its holes have changed.
 */
const numberingBlocks = (p: Proof): readonly Block[] => {
  if (p.renumbered === null) return [];
  const moved = [...p.renumbered].filter(([read, is]) => read !== is).map(([read, is]) => `${read} is ${is}`);
  const why =
    p.mistake === null
      ? 'The holes are not numbered as drawn'
      : `It looks as if ${p.mistake.says}, but the pattern is the same that way, so only the hole names change`;
  return [
    {
      kind: 'paragraph',
      text: `${why}: what the readings call ${moved.join(', ')} on the drawing. Below they have the names of the drawing.`,
    },
  ];
};

const chance = (share: number): string =>
  share >= 0.9995
    ? 'more than 999 times in 1,000'
    : share < 0.0005
      ? 'less than once in 2,000'
      : `${Math.round(share * 1000)} times in 1,000`;

const holesTable = (p: Proof, own: Speech): readonly Block[] =>
  p.holes.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: `Holes against the design, ${own.unit}, seen from side B; position is twice the distance off`,
          columns: [
            { title: 'Hole', align: 'left' },
            { title: 'X off', align: 'point' },
            { title: 'Y off', align: 'point' },
            { title: '±', align: 'point' },
            { title: 'Position', align: 'point' },
            { title: 'Allowed', align: 'point' },
            { title: '', align: 'left' },
          ],
          rows: p.holes.map((h) => [
            h.id,
            sayNumber(h.dx, own),
            sayNumber(h.dy, own),
            sayNumber(h.within, own),
            sayNumber(h.position, own),
            h.allowed === null ? '' : sayNumber(h.allowed, own),
            h.allowed === null ? '' : h.ok ? 'within' : 'over',
          ]),
        },
      ];

const facesTable = (p: Proof, own: Speech): readonly Block[] =>
  p.goesOn.size === 0
    ? []
    : [
        {
          kind: 'table',
          caption: `Each part at the best shift and turn, ${own.unit}`,
          columns: [
            { title: 'Part', align: 'left' },
            { title: 'Slack', align: 'point' },
            { title: 'Goes on', align: 'left' },
            { title: 'Shift X', align: 'point' },
            { title: 'Shift Y', align: 'point' },
            { title: 'Turn, °', align: 'point' },
            { title: 'Held by', align: 'left' },
          ],
          rows: [...p.goesOn].map(([face, f]) => [
            face,
            sayNumber(f.slack, own),
            chance(f.probability),
            sayNumber(f.shift.x, own),
            sayNumber(f.shift.y, own),
            formatDegrees(f.turn, 3),
            f.tight.join(' '),
          ]),
        },
      ];

const easeBlocks = (face: string, f: ProvedFace, own: Speech): readonly Block[] =>
  f.ease.length === 0
    ? []
    : [
        {
          kind: 'paragraph',
          text:
            `To put it on ${thePart(face)}, least metal first ` +
            '(directions by the clock as seen from side B, 12 towards +Y):',
        },
        { kind: 'list', items: f.ease.map((o) => optionWords(o, face, own)) },
      ];

/** A volume to file away: `12 mm³`, `0.0007 in³`; never none. */
const metalWords = (metal: number, { unit }: Speech): string =>
  unit === 'in'
    ? `${Number(Math.max(1e-4, metal / MM_PER_INCH ** 3).toFixed(4))} in³`
    : `${Math.max(1, Math.round(metal))} mm³`;

const optionWords = (o: EaseOption, face: string, own: Speech): string =>
  `${o.eases.map((e) => `ease ${eased(e, face)} by ${say(e.by, own)} towards ${formatClock(e.towards)} o’clock`).join(', and ')} ` +
  `(about ${metalWords(o.metal, own)} of metal); add the ± of the readings`;
