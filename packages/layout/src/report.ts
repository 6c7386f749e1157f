import { type Block, type Report, type Speech, say, sayNumber, sayAll, sayOdds } from '@fayplate/core';
import type { Face, FeatureKind } from '@fayplate/job';
import type { LocatedFace } from '@fayplate/survey';
import { SURE, reportingOf } from './reporting.js';
import { MOST_FASTENERS } from './face.js';
import { recognitionReport } from './recognise/words.js';
import type { Candidate, FaceLayout, LaidCircle, TellingReading } from './types.js';
import { sayAsked } from './used.js';
import { sayPhase, sayVacant, wholeDrawings } from './words/arrangement.js';
import { sayApart, sayLayout, sayLine, sayPlace } from './words/candidate.js';
import { sayLevel, sayTaken } from './words/levels.js';
import { byStrain, sayMove, sayRival } from './words/rival.js';

type KindOf = (id: string) => FeatureKind;

const verdict = (layout: FaceLayout, face: Face, kindOf: KindOf, tooMany: boolean, speech: Speech): Block => {
  const [first] = layout.candidates;
  const chosen = layout.chosen === null ? undefined : layout.candidates[layout.chosen];
  if (chosen !== undefined && chosen.finer.length > 0)
    return { kind: 'verdict', ok: true, text: sayTaken(chosen, layout, kindOf, speech) };
  if (chosen !== undefined)
    return { kind: 'verdict', ok: true, text: `${sayLayout(chosen, kindOf, speech)}. Odds: ${sayOdds(chosen.odds)}.` };
  // `layout` asks for one and says no; a plate by the measured centres asks for none.
  const needed = speech.atBench === true && face.layout.kind === 'measured' ? { needed: false as const } : {};
  const no = (text: string): Block => ({ kind: 'verdict', ok: false, ...needed, text });
  if (layout.rough !== null) {
    return no(
      `No layout is used: it is close to ${layout.rough.says}, but its holes miss their places by about ` +
        `${say(layout.rough.miss, { ...speech, fraction: null })}, more than the readings allow.`,
    );
  }
  if (tooMany)
    return no(`More than ${MOST_FASTENERS} holes and studs: no layout is searched for, and they are used as measured.`);
  if (first === undefined || layout.asMeasured > first.odds)
    return no(`No simple layout fits: the centres are used as measured. Odds: ${sayOdds(layout.asMeasured)}.`);
  const why =
    first.odds >= SURE
      ? `but the fit is too poor (random error alone would be this bad ${sayOdds(first.p ?? 0)} times)`
      : 'and 95 in 100 are needed';
  return no(`Not sure enough to use: ${sayLayout(first, kindOf, speech)}. Odds: ${sayOdds(first.odds)}, ${why}.`);
};

const positions = (c: Candidate, chosen: boolean, speech: Speech): Block => ({
  kind: 'table',
  caption: chosen ? 'Intended positions' : 'Positions in that case',
  columns: [
    { title: 'Feature', align: 'left' },
    { title: `X, ${speech.unit}`, align: 'point' },
    { title: `Y, ${speech.unit}`, align: 'point' },
    { title: `Would move, ${speech.unit}`, align: 'point' },
    { title: `Its ±, ${speech.unit}`, align: 'point' },
    { title: '', align: 'left' },
    { title: `Off at most, ${speech.unit}`, align: 'point' },
  ],
  rows: [...c.features].map(([id, f]) => {
    const plain = { ...speech, fraction: null };
    return [
      id,
      sayPlace(f.x, speech),
      sayPlace(f.y, speech),
      sayNumber(f.shift, plain),
      sayNumber(f.within, plain),
      f.shift <= f.within ? 'within' : 'beyond',
      sayNumber(f.plusMinus, plain),
    ];
  }),
});

const moves = (c: Candidate, speech: Speech): string => {
  const strained = byStrain(c);
  const beyond = strained.filter(([, f]) => f.shift > f.within);
  const [most] = strained;
  if (most === undefined) return '';
  return beyond.length === 0
    ? `No centre would move by more than its ±. Closest: ${sayMove(most[0], most[1], speech)}.`
    : `${beyond
        .slice(0, 4)
        .map(([id, f]) => sayMove(id, f, speech))
        .join('; ')}.`;
};

/** Where a circle's own centre lies, beside the face's. */
const ownCentre = (k: LaidCircle, face: Face, several: boolean, speech: Speech): string | null => {
  if (k.about !== null || face.centre === null) return null;
  const which = several ? `The circle with ${k.features[0] ?? ''} has its centre` : 'The circle has its own centre';
  return (
    `${which} ${say(Math.hypot(k.centre.x, k.centre.y), { ...speech, fraction: null })} from ${face.centre}, at X ` +
    `${sayPlace(k.centre.x, speech)}, Y ${sayPlace(k.centre.y, speech)}.`
  );
};

/** Where the circles stand, what is vacant, and the symmetry that follows where not every place is taken. */
const circles = (c: Candidate, face: Face, speech: Speech): readonly string[] => {
  const { mirror } = c;
  const full = c.circles.every((k) => k.divisions === k.features.length);
  const symmetry =
    mirror === null || mirror.said || (full && c.circles.length > 0)
      ? []
      : [
          'It is symmetrical about the line from ' +
            sayLine(mirror.axis) +
            (face.centre !== null && Math.hypot(mirror.through.x, mirror.through.y) > 1e-6
              ? ' through its own middle'
              : '') +
            '.',
        ];
  return [
    ...c.circles.flatMap((k) =>
      [
        ownCentre(k, face, c.circles.length > 1, speech),
        sayPhase(k, c.circles.length > 1),
        sayVacant(k, c.circles.length > 1),
      ].flatMap((s) => s ?? []),
    ),
    ...symmetry,
  ];
};

const units = ({ units: u }: FaceLayout): string | null => {
  if (u.in > 0.9) return `Its round sizes are in inches: odds ${sayOdds(u.in)}.`;
  if (u.mm > 0.9) return `Its round sizes are in millimetres: odds ${sayOdds(u.mm)}.`;
  return u.none > 0.5
    ? null
    : `The unit of its round sizes is not settled: inches ${sayOdds(u.in)}, millimetres ` +
        `${sayOdds(u.mm)}${u.mixed < 0.005 ? '' : `, some in each ${sayOdds(u.mixed)}`}.`;
};

const sayTelling = (t: TellingReading, speech: Speech): string => {
  const plain = { ...speech, fraction: null };
  const seen = t.predicts
    .slice(0, 3)
    .map(
      ([index, value]) =>
        `${say(value, plain)} ${index === null ? 'if no simple layout is right' : `for candidate ${index + 1}`}`,
    );
  const by = t.instrument === null ? `taken to ± ${say(t.plusMinus, plain)}` : `by ${t.instrument}`;
  return (
    `Best next reading: ${t.reading}, ${by}. It should read ${seen.join(', ')}. Expected odds of the best layout ` +
    `after it: ${sayOdds(t.expected)}, now ${sayOdds(t.now)}.`
  );
};

const HIDDEN_MOVE = 'A single hole that has moved or worn may still be off by as much as the last column says.';

const NONE_TELLS = 'No single distance between two features would settle it, however well you read it.';

/** What stands in the way of any layout: readings that may be wrong, features that nothing fixes. */
const cautions = (face: Face, located: LocatedFace): readonly string[] => {
  const suspects = located.suspects.map((s) => s.reading);
  const loose = face.features.filter((f) => located.undetermined.includes(f.id) && !f.vacant).map((f) => f.id);
  return [
    ...(suspects.length === 0
      ? []
      : [
          `${suspects.length === 1 ? 'Reading' : 'Readings'} ${sayAll(suspects)} may be wrong: settle that first, ` +
            'for one slip spoils a layout.',
        ]),
    ...(loose.length === 0
      ? []
      : [`${sayAll(loose)} ${loose.length === 1 ? 'is' : 'are'} not fixed by the readings, and not used.`]),
  ];
};

/** Levels of the likeliest drawing with their odds, where not all of them are sure. */
const levels = (layout: FaceLayout, kindOf: KindOf, speech: Speech): readonly Block[] => {
  const [likely] = wholeDrawings(layout);
  const [first] = layout.candidates;
  if (likely === undefined || first === undefined || layout.levels.every((l) => l.odds >= SURE || l.level === 'system'))
    return [];
  const titles = {
    divisions: 'Divisions',
    centre: 'Centre',
    symmetry: 'Symmetry',
    size: 'Size',
    system: 'Unit',
  } as const;
  const rows = layout.levels.flatMap(({ level, odds, taken }) => {
    const says = sayLevel(level, taken ? first : likely, layout, kindOf, speech);
    return says === '' ? [] : [[titles[level], says, sayOdds(odds), taken ? 'taken' : '']];
  });
  return [
    {
      kind: 'table',
      caption: 'How sure each level is, given those above it',
      columns: [
        { title: 'Level', align: 'left' },
        { title: 'What it is', align: 'left' },
        { title: 'Odds', align: 'left' },
        { title: '', align: 'left' },
      ],
      rows,
    },
  ];
};

/**
 * The layout of one face in words: the verdict; where it stands and what is vacant, by the clock; what would move; the
 * unit; what counts against the second best; where nothing is chosen, the one reading that would settle it.
 */
export const layoutReport = (face: Face, located: LocatedFace, layout: FaceLayout, speech: Speech): Report => {
  const kinds = new Map(face.features.map((f) => [f.id, f.kind]));
  const kindOf: KindOf = (id) => kinds.get(id) ?? 'hole';
  const [first] = layout.candidates;
  const blocks: Block[] = [
    { kind: 'heading', level: 2, text: `Layout of ${face.name}` },
    verdict(layout, face, kindOf, reportingOf(face, located).free.fasteners.length > MOST_FASTENERS, speech),
  ];
  const paragraph = (...texts: readonly (string | null)[]): void => {
    const some = texts.flatMap((t) => (t === null || t === '' ? [] : [t]));
    if (some.length > 0) blocks.push({ kind: 'paragraph', text: some.join(' ') });
  };
  const shown = first !== undefined && (layout.chosen !== null || first.odds > layout.asMeasured);
  if (shown) {
    paragraph(...circles(first, face, speech), units(layout));
    blocks.push(...levels(layout, kindOf, speech), positions(first, layout.chosen !== null, speech));
    paragraph(moves(first, speech), layout.chosen === null ? null : HIDDEN_MOVE);
  }
  if (layout.candidates.length > 0) {
    const listed = wholeDrawings(layout).slice(0, 6);
    const words = sayApart(listed, kindOf, speech);
    const rows = listed.map((c, k) => [
      String(k + 1),
      words[k] ?? '',
      sayOdds(c.odds),
      c.p === null ? '' : sayOdds(c.p),
    ]);
    blocks.push({
      kind: 'table',
      caption: 'What it may be',
      columns: [
        { title: '', align: 'right' },
        { title: 'Layout', align: 'left' },
        { title: 'Odds', align: 'left' },
        { title: 'Worse by chance', align: 'left' },
      ],
      rows: [...rows, ['', 'nothing simple: as measured', sayOdds(layout.asMeasured), '']],
    });
  }
  if (shown) paragraph(sayRival(layout, kindOf, speech));
  paragraph(
    layout.telling !== null
      ? sayTelling(layout.telling, speech)
      : shown && (layout.chosen === null || first.finer.length > 0)
        ? NONE_TELLS
        : null,
  );
  paragraph(sayAsked(face, located, layout, kindOf, speech));
  const items = cautions(face, located);
  if (items.length > 0) blocks.push({ kind: 'list', items });
  return [...blocks, ...recognitionReport(layout.recognised, speech)];
};
