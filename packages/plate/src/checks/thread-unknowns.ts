import type { Requirement } from '@fayplate/core';
import type { Placed } from '../desk.js';
import type { Draft } from '../draft.js';
import { gasketUnder } from '../stack/gasket.js';
import type { PlateHole } from '../types.js';
import { featureOf } from './studs.js';
import { unknown } from './unknown.js';

/** Features of one face whose holes want something that the job does not give. */
const lacking = (draft: Draft, face: string, lacks: (hole: PlateHole, p: Placed) => boolean): readonly string[] =>
  draft.holes.flatMap((hole) => {
    const p = featureOf(draft, hole);
    return p !== null && p.face.name === face && lacks(hole, p) ? [p.feature.id] : [];
  });

/** Lengths without which bolts and screws cannot be chosen, and gaskets that take from them. */
export const threadUnknowns = (draft: Draft): readonly Requirement[] => [
  ...flangeUnknowns(draft),
  ...depthAndGasketUnknowns(draft),
];

const flangeUnknowns = (draft: Draft): readonly Requirement[] => {
  const faces = draft.desk.faces
    .filter((f) => f.flange === null && lacking(draft, f.name, (h) => h.as === 'tapped').length > 0)
    .map((f) => f.name);
  return faces.length === 0
    ? []
    : [
        unknown(
          'flange',
          `How thick ${faces.join(' and ')} ${faces.length === 1 ? 'is' : 'are'} where bolts pass is not given: ` +
            `write \`flange\`, so that their length can be chosen.`,
          'measure it, so that their length can be chosen',
        ),
      ];
};

const depthAndGasketUnknowns = (draft: Draft): readonly Requirement[] =>
  draft.desk.faces.flatMap(({ name }) => {
    const screws = lacking(
      draft,
      name,
      (h, p) => h.fastening?.kind === 'screw' && draft.made.tappedParts.has(h.id) && p.feature.deep === null,
    );
    const through =
      gasketUnder(draft.desk.job, name) === null
        ? lacking(draft, name, (h) => h.as !== 'dowel' && h.as !== 'slot')
        : [];
    return [
      ...(screws.length === 0
        ? []
        : [
            unknown(
              'thread-depth',
              `How deep the threads of ${name} go is not given (${screws.join(', ')}): write \`deep\`, so that the ` +
                'hold and the length of its screws can be checked.',
              'measure it, so that the hold and the length of its screws can be checked',
            ),
          ]),
      ...(through.length === 0
        ? []
        : [
            unknown(
              'gasket-thickness',
              `The stack does not say how thick the gasket of ${name} is, and its studs, bolts and screws reach ` +
                `that much less: name it there, such as \`${name} gasket\`.`,
              'measure it, and count it in the stack',
            ),
          ]),
    ];
  });
