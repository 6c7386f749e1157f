import { type Report, type Speech, say, sayAll } from '@fayplate/core';
import type { PrintedSheets } from '../printing.js';

/** How near paper and punch come, and the holes for which that is not enough. */
const punchedWords = (punched: PrintedSheets['json']['punched'], speech: Speech): readonly string[] =>
  punched === undefined
    ? []
    : [
        'Paper and punch place a hole within ± ' +
          `${say(punched.plus_minus, { ...speech, fraction: null }, speech.unit === 'in' ? 3 : 2)}.` +
          (punched.by_read_out.length === 0
            ? ''
            : ` ${sayAll(punched.by_read_out)} must lie nearer: they ` +
              'carry a ring and no cross, and are placed by read-out.'),
      ];

export const reportOf = (printed: PrintedSheets, file: string, speech: Speech): Report => {
  const { json } = printed;
  const tiles = json.pages.filter((p) => p.kind === 'tile').length;
  const off = json.still_off;
  return [
    {
      kind: 'paragraph',
      text:
        `${file}: ${json.pages.length} ${json.pages.length === 1 ? 'page' : 'pages'}, ${tiles} at true scale, on ` +
        `${json.paper.name}.`,
    },
    {
      kind: 'list',
      items: [
        'Print at actual size (100 %), never fit to page.',
        'Check the rulers on every sheet with a steel rule before you punch.',
        ...punchedWords(json.punched, speech),
        ...(off === null || off.plus_minus === 0
          ? []
          : [
              'The print itself may be off by ' +
                say(off.plus_minus, { ...speech, fraction: null }, speech.unit === 'in' ? 3 : 2) +
                (off.hole === null ? '' : `, at ${off.hole}`) +
                '; ' +
                'that is part of it.',
            ]),
        ...printed.warnings,
      ],
    },
  ];
};
