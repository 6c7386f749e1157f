import { type Report, type Speech, roundTo, say, sayMeasure, sayNumber } from '@fayplate/core';
import type { Job, OldPlate } from '@fayplate/job';

/** One length that goes into the new thickness, mm; `sign` as it counts. */
interface OldTerm {
  readonly name: string;
  readonly value: number;
  readonly sign: 1 | -1;
  readonly plusMinus: number;
}

/** The thickness that takes the old plate's place, mm. */
interface OldThickness {
  readonly terms: readonly OldTerm[];
  /** Old thickness + shims + new reach − old reach. */
  readonly value: number;
  /** `value` to 0.01 mm: what the plate is made to. */
  readonly chosen: number;
  /** ± with every length at the end of its ±, and at three standard deviations of all together (each ± is two). */
  readonly worst: number;
  readonly statistical: number;
  /** ± of the error that both reaches share: it drops out. Null where none is stated. */
  readonly cancels: number | null;
}

/** The coupling keeps its place when the plate is thicker by as much as the new shaft stands out further. */
export const oldThickness = ({ thickness, shims, reach }: OldPlate): OldThickness => {
  const terms: readonly OldTerm[] = [
    { name: 'old plate', sign: 1, ...thickness },
    ...(shims === null ? [] : [{ name: 'its shims', sign: 1 as const, ...shims }]),
    ...(reach === null
      ? []
      : [
          { name: 'new reach', value: reach.new, sign: 1 as const, plusMinus: reach.each },
          { name: 'old reach', value: reach.old, sign: -1 as const, plusMinus: reach.each },
        ]),
  ];
  const value = terms.reduce((s, t) => s + t.sign * t.value, 0);
  return {
    terms,
    value,
    chosen: roundTo(value, 0.01),
    worst: terms.reduce((s, t) => s + t.plusMinus, 0),
    statistical: 3 * Math.hypot(...terms.map((t) => t.plusMinus / 2)),
    cancels: reach?.zero ?? null,
  };
};

/**
 * Whether the old plate says how thick the new one is: the job asks for that, or has both reaches. Else it tells only
 * where the old part stood.
 */
export const oldDecides = ({ old, plate }: Pick<Job, 'old' | 'plate'>): boolean =>
  old !== null && (old.reach !== null || plate?.thickness === 'from old');

/** The new thickness in words: the sum, the ± of each part, and what cancels. */
export const oldReport = (old: OldPlate, speech: Speech): Report => {
  const result = oldThickness(old);
  const plain = { ...speech, fraction: null };
  const { reach } = old;
  return [
    { kind: 'heading', level: 2, text: 'From the old plate' },
    {
      kind: 'verdict',
      ok: result.value > 0,
      text:
        result.value > 0
          ? `The new plate is ${sayMeasure(result.chosen, result.worst, plain)} thick, with no shims.`
          : 'No plate: the old one with its shims is thinner than the new shaft falls short by ' +
            `(${say(result.value, plain)}).`,
    },
    {
      kind: 'table',
      caption: `What it adds up from, ${speech.unit}`,
      columns: [
        { title: 'Part', align: 'left' },
        { title: 'Counts', align: 'left' },
        { title: 'Value', align: 'point' },
        { title: '±', align: 'point' },
      ],
      rows: [
        ...result.terms.map((t) => [
          t.name,
          t.sign > 0 ? 'added' : 'taken away',
          sayNumber(t.value, plain),
          sayNumber(t.plusMinus, plain),
        ]),
        ['new plate, worst case', '', sayNumber(result.value, plain), sayNumber(result.worst, plain)],
        ['new plate, 99.73 in 100', '', sayNumber(result.value, plain), sayNumber(result.statistical, plain)],
        ...(result.cancels === null
          ? []
          : [
              [
                `zero of ${reach?.instrument ?? 'the instrument'}, in both reaches`,
                'cancels',
                '',
                sayNumber(result.cancels, plain),
              ],
            ]),
      ],
    },
    {
      kind: 'list',
      items: [
        reach === null
          ? 'No reach is stated: the new shaft is taken to stand out ' +
            'just as the old one did. Measure both, the same way.'
          : `Both reaches are from the face that the plate lies on to the end of the shaft, taken the same way${
              reach.instrument === null ? '' : ` by ${reach.instrument}`
            }: an error common to both cancels in the difference${result.cancels === null ? '' : `, its zero (± ${say(result.cancels, plain)}) among it`}.`,
        'This relies on the old plate having worked: if it did not quite, measure the chain along the shaft.',
      ],
    },
  ];
};

/** The same for programs, mm. */
export const oldJson = (old: OldPlate): object => {
  const r = oldThickness(old);
  return {
    thickness: r.chosen,
    value: r.value,
    worst: r.worst,
    statistical: r.statistical,
    cancels: r.cancels,
    terms: r.terms.map((t) => ({ name: t.name, value: t.value, sign: t.sign, plus_minus: t.plusMinus })),
  };
};
