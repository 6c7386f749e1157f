import { type Speech, forReader, say, sayAll } from '@fayplate/core';
import type { CutCentres, Plate } from '../types.js';

/** Odds from which a layout that nobody has chosen is asked about. */
const SURE = 0.99;

const from = (c: CutCentres, speech: Speech): string => {
  const by = c.differs === null ? '' : say(c.differs, { ...speech, fraction: null }, speech.unit === 'in' ? 4 : 3);
  if (c.from === 'laid out')
    return `${c.face} as laid out${by === '' ? '' : `, up to ${by} from where it was measured`}`;
  return `${c.face} as measured${by === '' ? '' : `, up to ${by} from its likely layout`}`;
};

/** Which centres are cut, in a sentence: as measured or as laid out, with the greatest difference where a layout is known. */
export const centreWords = (plate: Pick<Plate, 'centres'>, speech: Speech): string =>
  plate.centres.length === 0 ? '' : `Centres: ${plate.centres.map((c) => from(c, speech)).join('; ')}.`;

/** The same in a few words, face by face, for a title block: `pump as measured (its layout up to 0.0037 in off)`. */
export const centresInShort = (plate: Pick<Plate, 'centres'>, speech: Speech): readonly string[] =>
  plate.centres.map((c) => {
    const other = c.from === 'laid out' ? 'measured' : 'its layout';
    const off = c.differs === null ? '' : say(c.differs, { ...speech, fraction: null }, speech.unit === 'in' ? 4 : 3);
    return `${c.face} as ${c.from}${off === '' ? '' : ` (${other} up to ${off} off)`}`;
  });

/** What to decide where a layout is all but certain and nobody has said whether the plate is to have it; null where nothing is. */
export const centresToDecide = (plate: Pick<Plate, 'centres'>, speech: Pick<Speech, 'atBench'>): string | null => {
  const open = plate.centres.filter((c) => c.undecided !== null && c.undecided >= SURE - 5e-4);
  return open.length === 0
    ? null
    : `The layout of ${sayAll(open.map((c) => c.face))} is nearly certain, but the plate is drawn as measured. Say ${forReader('which you want: `layout: intended` or `layout: measured`', 'in the job which you want, the layout or the measured centres', speech)}.`;
};
