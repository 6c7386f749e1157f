import { fileNameOf, parseLength, perUnit, say } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { laserSvg, pieceSolid, testPiece, threeMf } from '@fayplate/piece';
import type { Found, MadeFile, Task } from '../command.js';
import { printSettings } from '../print-settings.js';
import { Refusal } from '../refusal.js';
import type { Study } from '../types.js';
import { noticeOf, verdictBlocks, verdictJson } from '../verdict-words.js';
import { unsettledOf } from '../verdict.js';

/** As thick as sheet for a laser is sold, and as a printer makes in an hour or two, mm (common practice). */
const THICK = 3;

const lengthOf = (name: string, text: string, job: Job, least: 'zero' | 'more'): number => {
  const read = parseLength(text, perUnit(job.units));
  if (!read.ok || read.value < 0 || (least === 'more' && read.value === 0))
    throw new Refusal(
      `${name} takes ` +
        (read.ok
          ? `a length ${least === 'zero' ? 'of zero or more' : 'above zero'}, such as ` +
            (least === 'zero' ? '0.2 mm' : '3 mm')
          : read.expected),
    );
  return read.value;
};

/** Which of the two files are asked for, under which names: by the ending of `--out`; both where it has none. */
const namesOf = ({ job, options }: Task): { readonly svg: string | null; readonly solid: string | null } => {
  const { out = `${fileNameOf(job.name)}-test-piece` } = options;
  const end = out.toLowerCase();
  if (end === '-') {
    if (options.svg !== true)
      throw new Refusal('a test piece is two files: give --out a name, or add --svg for the drawing alone');
    return { svg: out, solid: null };
  }
  if (end.endsWith('.pdf'))
    throw new Refusal(
      'a test piece is a drawing for a laser or a solid for a printer: end the name of --out in .svg or .3mf, or ' +
        'leave the ending off for both',
    );
  if (end.endsWith('.3mf')) {
    if (options.svg === true) throw new Refusal('--svg and a name that ends in .3mf: leave one of them out');
    return { svg: null, solid: out };
  }
  if (end.endsWith('.svg')) return { svg: out, solid: null };
  return { svg: `${out}.svg`, solid: options.svg === true ? null : `${out}.3mf` };
};

const narrow = (ids: readonly string[], kerf: string): string =>
  `${ids.join(', ')}: narrower than the burn of ${kerf}; give a smaller --kerf`;

/** A thin copy of the plate to try on both parts before metal is cut: SVG for a laser, 3MF for a printer. */
export const testPieceFiles = async (task: Task, study: Study): Promise<Found> => {
  const { job, options, speech, world } = task;
  const names = namesOf(task);
  const kerf = options.kerf === undefined ? 0 : lengthOf('--kerf', options.kerf, job, 'zero');
  const thickness = options.thick === undefined ? THICK : lengthOf('--thick', options.thick, job, 'more');
  const { plate } = study.plate();
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const { across } = noticeOf(verdict, unsettled);
  const { side } = printSettings(job, options, null);
  const letters = await world.lettering();
  const places = speech.unit === 'in' ? 4 : 2;
  const mm = (v: number): string => say(v, { ...speech, fraction: null }, places);
  const piece = testPiece(plate, { side, name: job.name }, letters);
  if ('tooNarrow' in piece) throw new Refusal(`${piece.tooNarrow.join(', ')} cannot be drawn on a test piece`);
  const title = `Test piece: not for service. ${across === null ? '' : `${across}. `}${job.name}`;
  const files: MadeFile[] = [];
  if (names.svg !== null) {
    const drawn = laserSvg(plate, piece, { kerf, title }, letters);
    if ('tooNarrow' in drawn) throw new Refusal(narrow(drawn.tooNarrow, mm(kerf)));
    files.push({ name: names.svg, says: 'test piece for a laser, at true scale', content: drawn.text });
  }
  const solid = names.solid === null ? null : pieceSolid(piece, thickness, letters);
  if (solid !== null && !solid.ok) throw new Refusal(solid.fault);
  if (solid !== null && names.solid !== null) {
    const description = `Side ${side} up, ${mm(thickness)} thick. Holes at the sizes at which they fit.`;
    const content = threeMf(solid, { title, description });
    files.push({ name: names.solid, says: 'test piece for a printer, 3MF in millimetres', content });
  }
  return {
    exit: verdict.answer === 'yes' ? 0 : 1,
    json: {
      what: 'test-piece',
      files: files.map((f) => f.name),
      side,
      kerf,
      openings: piece.openings.map((o) => o.of),
      ...(solid === null
        ? {}
        : {
            thickness,
            area: solid.area,
            engraved: solid.engraved,
            volume: solid.area * thickness - solid.engraved.area * solid.engraved.depth,
          }),
      warnings: piece.notes,
      verdict: verdictJson(verdict),
    },
    report: [
      ...verdictBlocks(verdict, unsettled),
      { kind: 'paragraph', text: files.map((f) => `${f.name}: ${f.says}.`).join(' ') },
      {
        kind: 'list',
        items: [
          `Side ${side} faces you. Lay it on ${plate.faces[0]} and on ${plate.faces[1]} before metal is cut; it is ` +
            'not for service.',
          ...(names.svg === null
            ? []
            : [
                kerf === 0
                  ? 'The laser’s burn is not allowed for: measure it on a scrap, and give it as --kerf 0.2 mm.'
                  : `The burn of ${mm(kerf)} lies in the waste, half of it on either side of the path.`,
              ]),
          ...(solid === null
            ? []
            : [
                `${mm(thickness)} thick, ` +
                  (solid.engraved.depth === 0
                    ? 'without its names, which make no closed body: write them on'
                    : `the names ${mm(solid.engraved.depth)} deep`) +
                  '.',
              ]),
          ...piece.notes,
        ],
      },
    ],
    files,
  };
};
