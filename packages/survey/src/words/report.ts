import { type Report, type Speech, say, sayNumber, toDegrees } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { FittedReading, LocatedFace, Suspect } from '../types.js';

/** An error in the reading's own kind of unit: a length as the person reads lengths, an angle in degrees. */
const sayError = (value: number, reading: FittedReading | undefined, speech: Speech): string =>
  reading?.kind === 'angle' || reading?.kind === 'square' ? `${toDegrees(value).toFixed(2)}°` : say(value, speech);

const suspectWords = (s: Suspect, located: LocatedFace, speech: Speech): string => {
  const reading = located.readings.find((r) => r.id === s.reading);
  const moved = [...s.moves].sort((a, b) => b[1] - a[1]).slice(0, 3).map(([id, by]) => `${id} by ${say(by, speech)}`);
  return [
    `Reading ${s.reading} (${reading?.text ?? ''}) is off by about ${sayError(s.error, reading, speech)}`,
    ...(s.guess === null ? [] : [`perhaps ${s.guess}`]),
    ...(moved.length === 0 ? [] : [`setting it aside moves ${moved.join(', ')}`]),
    `an error of ${sayError(s.detectable, reading, speech)} or more in it is found four times in five`,
    ...(s.tiedWith.length === 0 ? [] : [`no reckoning can tell it from ${s.tiedWith.join(', ')}`]),
  ].join('; ');
};

/** One face in words: verdict, the centres with their ±, the fit, suspects, and what to measure next. */
export const locateReport = (face: Face, located: LocatedFace, speech: Speech): Report => {
  const sound = located.suspects.length === 0 && located.undetermined.length === 0;
  const { fit } = located;
  const fitWords = fit.p === null ? 'There are no readings to spare, so none can be checked by the others.' : `${fit.dof} spare ${fit.dof === 1 ? 'reading' : 'readings'}; sound readings would agree this badly or worse ${(100 * fit.p).toFixed(fit.p < 0.01 ? 2 : 0)} times in 100.`;
  return [
    { kind: 'heading', level: 2, text: `Centres of ${face.name}` },
    {
      kind: 'verdict',
      ok: sound,
      text: sound
        ? 'every feature is fixed and no reading is suspect.'
        : [
            ...(located.undetermined.length === 0 ? [] : [`the readings do not fix ${located.undetermined.join(', ')}`]),
            ...(located.suspects.length === 0 ? [] : [`suspect: ${located.suspects.map((s) => s.reading).join(', ')}`]),
          ].join('; '),
    },
    {
      kind: 'table',
      caption: null,
      columns: [
        { title: 'feature', align: 'left' },
        { title: `X ${speech.unit}`, align: 'point' },
        { title: `Y ${speech.unit}`, align: 'point' },
        { title: '± (95 %)', align: 'point' },
      ],
      rows: [...located.features.values()].map((f) => [f.id, sayNumber(f.x, speech), sayNumber(f.y, speech), sayNumber(f.ellipse95.major, { ...speech, fraction: null })]),
    },
    { kind: 'paragraph', text: `${fitWords} The chance that a sound reading is called suspect on this face is ${(100 * located.falseAlarm).toFixed(1)} in 100.` },
    ...(located.suspects.length === 0 ? [] : [{ kind: 'list', items: located.suspects.map((s) => suspectWords(s, located, speech)) } as const]),
    ...(located.freedoms.length === 0 ? [] : [{ kind: 'list', items: located.freedoms } as const]),
    ...(located.next.length === 0 ? [] : [{ kind: 'paragraph', text: 'To measure next, the most telling first:' } as const, { kind: 'list', items: located.next.map((n) => n.reading) } as const]),
    ...(located.warnings.length === 0 ? [] : [{ kind: 'list', items: located.warnings } as const]),
  ];
};
