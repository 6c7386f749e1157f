import { type Speech, keepsFromYes, minusSign, sayNumber } from '@fayplate/core';
import { clockingPicture, platePicture, sectionPicture } from '@fayplate/pictures';
import type { Check, PlateHole } from '@fayplate/plate';
import { type Study, plateWords } from '@fayplate/study';
import { letters } from '../letters.js';
import type { Mark, PlateView } from '../shown.js';
import { cureOf, degrees } from './cures.js';
import { drawnOf } from './drawn.js';

const holeMark = (h: PlateHole): Mark => ({
  id: h.id,
  x: h.x,
  y: h.y,
  r: Math.max(h.diameter, h.sink?.diameter ?? 0) / 2,
  says: `${h.id}, ${h.as}${h.feature === null ? '' : ` for ${h.feature}`}`,
});

const amount = (v: number, { unit }: Check, speech: Speech): string =>
  unit === 'mm'
    ? `${minusSign(sayNumber(v, speech))} ${speech.unit}`
    : unit === '1'
      ? String(v)
      : `${Number(v.toFixed(2))} ${unit}`;

/** The plate as designed, with what does not hold marked at its place and every cure as an edit. */
export const plateView = (study: Study, speech: Speech, piece = false): PlateView => {
  const { plate, mated } = study.plate();
  const verdict = study.verdict();
  const failed = plate.checks.filter((c) => !c.ok);
  const cures = new Map(
    failed.flatMap((c) => c.cures.map((cure) => cureOf(cure, plate.clocking, speech))).map((c) => [c.says, c]),
  );
  return {
    ok: verdict.answer === 'yes',
    report: plateWords(study, speech),
    open: verdict.requirements
      .filter((r) => r.state === 'not known' && keepsFromYes(r))
      .map(({ title, because, cure }) => ({ title, because, cure: cure ?? '' })),
    sideA: drawnOf('side-a', platePicture(plate, mated, 'A', speech, letters())),
    sideB: drawnOf('side-b', platePicture(plate, mated, 'B', speech, letters())),
    section: drawnOf('section', sectionPicture(plate, speech, letters())),
    turning: drawnOf('clocking', clockingPicture(plate, speech, letters())),
    holes: plate.holes.map(holeMark),
    turns: plate.holes.filter((h) => h.part?.face === plate.faces[1]).map((h) => h.id),
    checks: failed.map((c) => ({
      title: c.rule,
      of: c.of.join(' and '),
      value: amount(c.value, c, speech),
      limit: `${c.sense === 'least' ? 'at least' : 'at most'} ${amount(c.limit, c, speech)}`,
      ok: c.ok,
      at: c.at === null ? null : [c.at.x, c.at.y],
    })),
    // What a piece wants is no edit of the whole plate: it stays in words.
    cures: [...cures.values()].map((c) => (piece ? { ...c, edits: [] } : c)),
    clocking: {
      at: degrees(plate.clocking),
      safe: plate.turning.spans.map((s) => [degrees(s.from), degrees(s.to)]),
    },
  };
};
