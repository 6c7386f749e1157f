import type { Requirement, Speech } from '@fayplate/core';
import { unknown } from '../checks/unknown.js';
import { short } from '../words/say.js';
import type { PartOperation } from './types.js';
import { sayWork } from './words.js';

/** What the work asks of the verdict: metal left where a limit is known, and what is still to do. */
export const workRequirements = (operations: readonly PartOperation[], speech: Speech): readonly Requirement[] =>
  operations.flatMap((o) => {
    const { left } = o;
    const holds = left === null || left.limit === null || left.value >= left.limit - 1e-9;
    return [
      ...(left === null || left.limit === null
        ? []
        : [
            {
              id: 'work-metal',
              title: 'metal left by work on a part',
              state: holds ? ('holds' as const) : ('fails' as const),
              value: left.value,
              limit: left.limit,
              margin: left.value - left.limit,
              unit: 'mm' as const,
              source: left.source,
              because: `${sayWork(o, speech)}: that leaves ${short(left.value, speech)} of metal at ${left.of}${holds ? '' : `, where ${short(left.limit, speech)} is wanted`}`,
              cure: holds ? null : 'open it less, or leave it and take a smaller fastener',
            },
          ]),
      ...(o.done
        ? []
        : [
            unknown(
              'work-to-do',
              `${sayWork(o, speech)} is still to be done: write \`done: true\` when it is.`,
              'it stands on its sheet',
            ),
          ]),
    ];
  });
