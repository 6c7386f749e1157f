import { type JobCommand, type Options, answer } from '@fayplate/study';
import { zipSync } from 'fflate';
import type { Desk } from './desk.js';
import type { Ask, MadeFile, Wish } from './protocol.js';
import { worldOf } from './world.js';

const bytesOf = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;

/** Files as one .zip, each as it was made; dated by no day, so that the same job gives the same bytes. */
const zipOf = (files: readonly MadeFile[]): Uint8Array =>
  zipSync(
    Object.fromEntries(
      files.map((f) => [f.name, [f.bytes, { level: f.name.endsWith('.pdf') ? 0 : 6, mtime: new Date(1980, 0, 1) }]]),
    ),
  );

type Asked = Extract<Wish, { readonly which: unknown }>;

const nameFor = (which: string, svg: boolean): string =>
  // A test piece is two files of one stem.
  which === 'test-piece' ? which : `${which}.${svg ? 'svg' : 'pdf'}`;

/** The command that answers a wish, and its options. */
const commandFor = ({ which, how, piece }: Asked): readonly [JobCommand, Options] => {
  const { earlier, full, way, ...printed } = how;
  const ofPiece = piece === null ? {} : { piece };
  switch (which) {
    case 'packet':
      return ['packet', { out: 'packet', ...(full === true ? { full } : {}) }];
    case 'prove':
      return ['prove', { out: 'rest', ...(way === undefined ? {} : { way }), ...ofPiece }];
    case 'buy-sheet':
      return ['print', { what: 'buy', out: 'buy.pdf' }];
    case 'buy':
    case 'trial':
      return [which, {}];
    case 'compare':
      return ['compare', earlier === undefined ? {} : { earlier }];
    default:
      return ['print', { what: which, out: nameFor(which, printed.svg === true), ...printed, ...ofPiece }];
  }
};

/** What an option of the command line is called in the page. */
const boxes: readonly (readonly [string, string])[] = [
  ['--kerf', 'the width of the laser’s burn'],
  ['--thick', 'the thickness'],
  ['--way', 'the way to go on'],
];
const inBoxes = (words: string): string => {
  const said = boxes.reduce((text, [option, box]) => text.replaceAll(option, box), words);
  return said.slice(0, 1).toUpperCase() + said.slice(1);
};

/** The files of a packet, the same bytes that the command line writes. */
export const filesOf = async (ask: Ask, asked: Asked, desk: Desk): Promise<void> => {
  const { which } = asked;
  const [command, options] = commandFor(asked);
  const found = await answer(ask.text, command, options, worldOf(ask.lists, desk.progress('the packet')));
  if (found.error !== null || found.faults.length > 0)
    desk.tell({ kind: 'refused', screen: 'files', words: inBoxes(found.error ?? 'The job file has faults.') });
  else {
    const files = found.files.map((f) => ({ name: f.name, says: f.says, bytes: bytesOf(f.content) }));
    desk.tell({
      kind: 'files',
      which,
      report: found.report,
      files,
      zip: which === 'packet' || which === 'prove' || files.length > 1 ? zipOf(files) : null,
      sound: found.exit === 0,
      warnings: found.warnings,
    });
  }
};
