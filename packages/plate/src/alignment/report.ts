import { type Block, type Report, type Speech, formatDegrees, say, sayNumber, toDegrees } from '@fayplate/core';
import type { Alignment, Misalignment } from '../types.js';

const inDegrees = (m: Misalignment): object => {
  const degrees = (v: number | null): number | null => (v === null ? null : toDegrees(v));
  return {
    nominal: toDegrees(m.nominal),
    worst: degrees(m.worst),
    p95: degrees(m.p95),
    limit: degrees(m.limit),
    ok: m.ok,
  };
};

/** The `alignment` entry: offset in mm, tilt in degrees. */
export const alignmentJson = (a: Alignment): object => ({
  offset: a.offset,
  tilt: inDegrees(a.tilt),
  sources: a.sources.map((s) => ({ ...s, worst: s.what === 'tilt' ? toDegrees(s.worst) : s.worst })),
  ...(a.circles === undefined ? {} : { circles: a.circles.map((c) => ({ face: c.face, plus_minus: c.plusMinus })) }),
  unknowns: a.unknowns,
});

const degrees = (radians: number): string => `${formatDegrees(radians, 3)}°`;

const verdict = (a: Alignment, speech: Speech): Block => {
  const bad = [a.offset.ok === false ? 'offset' : null, a.tilt.ok === false ? 'tilt' : null].filter((t) => t !== null);
  const offset = a.offset.worst === null ? 'offset not known' : `offset up to ${say(a.offset.worst, speech)}`;
  const tilt = a.tilt.worst === null ? 'tilt not known' : `tilt up to ${degrees(a.tilt.worst)}`;
  const text = `${bad.length > 0 ? `more ${bad.join(' and ')} than the coupling takes: ` : ''}${offset}, ${tilt}`;
  return { kind: 'verdict', ok: bad.length === 0, text: text.charAt(0).toUpperCase() + text.slice(1) };
};

const optional = (v: number | null, text: (v: number) => string): string => (v === null ? '' : text(v));

const table = (a: Alignment, speech: Speech): Block => ({
  kind: 'table',
  caption: null,
  columns: [
    { title: '', align: 'left' },
    { title: 'As drawn', align: 'point' },
    { title: 'Worst', align: 'point' },
    { title: '95 in 100 within', align: 'point' },
    { title: 'Coupling takes', align: 'point' },
  ],
  rows: [
    [
      `offset, ${speech.unit}`,
      ...[a.offset.nominal, a.offset.worst, a.offset.p95, a.offset.limit].map((v) =>
        optional(v, (mm) => sayNumber(mm, speech)),
      ),
    ],
    ['tilt', ...[a.tilt.nominal, a.tilt.worst, a.tilt.p95, a.tilt.limit].map((v) => optional(v, degrees))],
  ],
});

const causes = (a: Alignment, speech: Speech): readonly Block[] =>
  a.sources.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: 'Where the error comes from',
          columns: [
            { title: 'Surface', align: 'left' },
            { title: 'Worst case', align: 'left' },
          ],
          rows: a.sources.map((s) => [s.says, s.what === 'tilt' ? degrees(s.worst) : say(s.worst, speech)]),
        },
      ];

/** Verdict, figures, the surfaces that cause the error, what is not known, and how to measure the result. */
export const alignmentReport = (a: Alignment, speech: Speech): Report => [
  verdict(a, speech),
  table(a, speech),
  ...causes(a, speech),
  ...(a.circles ?? []).map(({ face, plusMinus }) => ({
    kind: 'paragraph' as const,
    text: `The centre of ${face} is that of its layout’s circle, known to ± ${say(plusMinus, speech)}.`,
  })),
  ...(a.unknowns.length === 0 ? [] : [{ kind: 'list' as const, items: a.unknowns }]),
  {
    kind: 'caution',
    text:
      'Measure the run-out after assembly, with the machine locked out: dial indicator on one shaft, turning both ' +
      'together, reading on the other. The offset is half the full reading. Its maker says what the coupling takes.',
  },
];
