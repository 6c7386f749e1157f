import {
  type Report,
  type Requirement,
  type Speech,
  formatClock,
  notKnown,
  say,
  sayMeasure,
  sayNumber,
  toDegrees,
} from '@fayplate/core';
import type { Job, TrialSpec } from '@fayplate/job';
import type { TrialResult } from './trial.js';

const places = (speech: Speech): number => (speech.unit === 'in' ? 4 : 3);

const verdict = (r: TrialResult, speech: Speech): string => {
  const own = { ...speech, fraction: null };
  const [first] = r.bolts;
  if (!r.flat)
    return (
      `The gaps do not lie on one plane: ${r.worst.name} is ${say(Math.abs(r.worst.off), own, places(own))} off it. ` +
      'Take it again; if it stays, a face is not flat.'
    );
  if (!r.enough) {
    const least = r.bolts.reduce((w, b) => (b.wanted < w.wanted ? b : w));
    return (
      `No shims do: the joint on ${r.face} is too tight by ` +
      `${sayMeasure(-least.wanted, least.plusMinus, own, places(own))} at ${least.bolt}. Face the plate thinner by ` +
      'that, and try again.'
    );
  }
  return r.alike && first !== undefined
    ? `Lay ${sayMeasure(first.wanted, first.plusMinus, own, places(own))} of shims at every bolt of ${r.face}: it ` +
        'does not lean by more than the gaps can tell.'
    : `Lay the shims below at the bolts of ${r.face}; it leans by ${toDegrees(r.lean.tilt).toFixed(3)}° ± ` +
        `${toDegrees(2 * r.lean.sigma).toFixed(3)}°.`;
};

/** The final shims in words: the lean, each bolt, what is left. */
export const trialReport = (r: TrialResult, trial: TrialSpec, speech: Speech): Report => {
  const own = { ...speech, fraction: null };
  const n = (v: number): string => sayNumber(v, own, places(own));
  return [
    { kind: 'heading', level: 2, text: `Trial assembly of ${r.face}` },
    { kind: 'verdict', ok: r.flat && r.enough, text: verdict(r, speech) },
    {
      kind: 'paragraph',
      text:
        `The plane through ${trial.gaps.length} gaps leans by ${toDegrees(r.lean.tilt).toFixed(3)}° ± ` +
        `${toDegrees(2 * r.lean.sigma).toFixed(3)}°, widest towards ${formatClock(r.lean.towards)} o’clock (seen ` +
        `from side B, 12 towards +Y). With the shims below ${toDegrees(r.leanLeft).toFixed(3)}° is left.`,
    },
    {
      kind: 'table',
      caption: `Shims at each bolt, ${own.unit}`,
      columns: [
        { title: 'Bolt', align: 'left' },
        { title: 'Wanted', align: 'point' },
        { title: '±', align: 'point' },
        { title: 'Lay', align: 'left' },
        { title: 'Left', align: 'point' },
      ],
      rows: r.bolts.map((b) => [
        b.bolt,
        n(b.wanted),
        n(b.plusMinus),
        b.pieces.length === 0 ? 'none' : b.pieces.map((p) => sayNumber(p, own, own.unit === 'in' ? 4 : 2)).join(' + '),
        n(b.left),
      ]),
    },
    {
      kind: 'table',
      caption: `The gaps, ${own.unit}`,
      columns: [
        { title: 'At', align: 'left' },
        { title: 'Taken', align: 'point' },
        { title: '±', align: 'point' },
        { title: 'Off the plane', align: 'point' },
      ],
      rows: trial.gaps.map((g, i) => [g.name, n(g.value), n(g.plusMinus), n(r.plane.residuals[i] ?? 0)]),
    },
    {
      kind: 'list',
      items: [
        trial.inside
          ? `The gap is inside and ${say(trial.leave, own)} of it is to be left: shims in the joint open it.`
          : 'The gap is open in the ' +
            `joint${trial.leave > 0 ? `, and ${say(trial.leave, own)} of it is to be left` : ''}: shims fill it.`,
        trial.gasket === null
          ? 'No gasket is still to go in.'
          : 'The gasket, ' +
            `${sayMeasure(trial.gasket.value, trial.gasket.plusMinus, own, places(own))} as compressed, is taken off.`,
        'Lay them, draw the bolts up evenly and measure once more: what is left tells whether a gap was misread.',
      ],
    },
  ];
};

/** The same for programs: mm and degrees, plate frame as seen from side B. */
export const trialJson = (r: TrialResult): object => ({
  face: r.face,
  plane: r.plane.at,
  covariance: r.plane.covariance,
  p: r.plane.p,
  tilt: toDegrees(r.lean.tilt),
  tilt_plus_minus: toDegrees(2 * r.lean.sigma),
  towards: toDegrees(r.lean.towards),
  leans: r.lean.sure,
  tilt_left: toDegrees(r.leanLeft),
  bolts: r.bolts.map((b) => ({
    bolt: b.bolt,
    x: b.at.x,
    y: b.at.y,
    wanted: b.wanted,
    plus_minus: b.plusMinus,
    lay: b.pieces,
    left: b.left,
  })),
  residuals: r.plane.residuals,
  flat: r.flat,
  enough: r.enough,
});

/**
 * What a trial assembly asks of the whole job: gaps on one plane, room for shims, and the tilt left within what the
 * coupling bears.
 */
export const trialRequirements = (job: Job, r: TrialResult, speech: Speech): readonly Requirement[] => {
  const limit = job.plate?.alignment?.tilt ?? null;
  const source = 'the gaps of the trial assembly';
  const least = r.bolts.reduce((w, b) => Math.min(w, b.wanted), Infinity);
  return [
    ...(r.flat
      ? []
      : [
          notKnown(
            'trial-gaps',
            'gaps of the trial assembly',
            `the gaps on ${r.face} do not lie on one plane`,
            `take the gap at ${r.worst.name} again`,
          ),
        ]),
    {
      id: 'trial-shims',
      title: 'room for shims',
      state: r.enough ? 'holds' : 'fails',
      value: Number.isFinite(least) ? least : null,
      limit: 0,
      margin: Number.isFinite(least) ? least : null,
      unit: 'mm',
      source,
      because: r.enough
        ? `the joint on ${r.face} takes shims at every bolt`
        : `the joint on ${r.face} is too tight by ${say(-least, { ...speech, fraction: null })}`,
      cure: r.enough ? null : 'face the plate thinner by that',
    },
    ...(limit === null
      ? []
      : [
          {
            id: 'trial-tilt',
            title: 'tilt with its shims',
            state: r.leanLeft <= limit ? ('holds' as const) : ('fails' as const),
            value: toDegrees(r.leanLeft),
            limit: toDegrees(limit),
            margin: toDegrees(limit - r.leanLeft),
            unit: 'deg' as const,
            source,
            because:
              `with the shims told ${r.face} leans by ${toDegrees(r.leanLeft).toFixed(3)}°, where ` +
              `${toDegrees(limit).toFixed(3)}° is allowed`,
            cure: r.leanLeft <= limit ? null : 'lay finer shims',
          },
        ]),
  ];
};
