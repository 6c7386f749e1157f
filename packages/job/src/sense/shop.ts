import { paper, papers, parseThread } from '@fayplate/handbook';
import type { JobFile } from '../schema/file.js';
import type { DrawingSpec, GasketSpec, Instrument, MachineSpec, PrintSpec } from '../types.js';
import { type Context, entriesAt, faultAt, known, namesAt } from './context.js';

type Written = NonNullable<NonNullable<JobFile['machine']>['outline']>;

const outlineOf = ({ cutter, tabs, leave }: Written): NonNullable<MachineSpec['outline']> => ({
  cutter,
  ...(tabs === undefined ? {} : { tabs }),
  ...(leave === undefined ? {} : { leave }),
});

/** Taps on hand must be threads that the tables have. */
const tapsKnown = (context: Context, taps: readonly string[]): void => {
  for (const [i, name] of taps.entries())
    if (parseThread(name) === null)
      faultAt(context, ['machine', 'taps', i], 'unknown-name', 'a thread of the tables such as M8 or 3/8-16 UNC', {
        found: name,
      });
};

export const machineOf = (context: Context, written: NonNullable<JobFile['machine']>): MachineSpec => {
  tapsKnown(context, written.taps ?? []);
  return machineSaid(written);
};

const machineSaid = (written: NonNullable<JobFile['machine']>): MachineSpec => ({
  step: written.step ?? null,
  topSpeed: written['top speed'] ?? null,
  screwPitch: written['screw pitch'] ?? null,
  ...(written.travel === undefined ? {} : { travel: written.travel }),
  backlash: written.backlash ?? null,
  drills: written.drills ?? null,
  punches: written.punches ?? null,
  reamers: written.reamers ?? null,
  dividingHead: written['dividing head'] ?? null,
  ...(written.taps === undefined ? {} : { taps: written.taps }),
  ...(written['rotary table'] === undefined ? {} : { rotaryTable: written['rotary table'] }),
  ...(written.vice === undefined ? {} : { vice: { opens: written.vice.opens, jaws: written.vice.jaws ?? null } }),
  ...(written['clamp width'] === undefined ? {} : { clampWidth: written['clamp width'] }),
  tip: written.tip ?? null,
  blank: written.blank === undefined ? null : { ...written.blank, thickness: written.blank.thickness ?? null },
  allowance: written.allowance ?? null,
  safePlane: written['safe plane'] ?? null,
  room: written.room ?? null,
  clamps: written.clamps ?? [],
  ...(written.outline === undefined ? {} : { outline: outlineOf(written.outline) }),
});

/** Punch and bolt: 1/32 in on the diameter, common practice for small bolts. */
const HOLE_CLEARANCE = 25.4 / 32;

export const gasketsOf = (context: Context, written: NonNullable<JobFile['gaskets']>): readonly GasketSpec[] =>
  entriesAt(context, ['gaskets'], written).map(([face, g]) => {
    const faces = namesAt(context, ['faces']);
    known(context, ['gaskets', face], face, faces, 'a face of the job', { key: true, inside: '' });
    const planned = namesAt(context, []).includes('plate');
    const outline = g.outline ?? (planned ? 'plate' : 'follow');
    if (typeof outline !== 'string')
      known(context, ['gaskets', face, 'outline', 'like'], outline.like, faces, 'a face of the job');
    if (outline === 'plate' && !planned)
      faultAt(
        context,
        ['gaskets', face, 'outline'],
        'missing',
        'a `plate` section whose outline it takes, or outline: follow',
      );
    const own = [...namesAt(context, ['faces', face, 'features']), ...namesAt(context, ['plate', 'cuts'])];
    for (const [i, name] of (g.open ?? []).entries())
      known(context, ['gaskets', face, 'open', i], name, own, `a feature of ${face} or a cut of the plate`);
    return {
      face,
      holeClearance: g['hole clearance'] ?? HOLE_CLEARANCE,
      bore: g.bore ?? null,
      outline,
      ...(g.open === undefined ? {} : { open: g.open }),
    };
  });

export const printOf = (context: Context, written: NonNullable<JobFile['print']>): PrintSpec => {
  if (written.paper !== undefined && paper(written.paper) === null)
    faultAt(context, ['print', 'paper'], 'unknown-name', 'a paper size such as A4, Letter or 210 x 297 mm', {
      found: written.paper,
      among: papers.map((p) => p.name),
    });
  return {
    paper: written.paper ?? null,
    margin: written.margin ?? null,
    overlap: written.overlap ?? null,
    printer: written.printer ?? null,
  };
};

/** The title block of the workshop drawing. */
export const drawingOf = (written: NonNullable<JobFile['drawing']>): DrawingSpec => ({
  number: written.number ?? null,
  revision: written.revision ?? null,
  by: written.by ?? null,
  date: written.date ?? null,
  standard: written.standard ?? null,
  edges: written.edges ?? null,
  surface: written.surface ?? null,
});

export const instruments = (context: Context, sheet: JobFile): ReadonlyMap<string, Instrument> =>
  new Map(
    entriesAt(context, ['instruments'], sheet.instruments).map(([name, written]) => {
      const { each, zero } = 'each' in written ? written : { each: written, zero: undefined };
      if (zero !== undefined && zero.measures !== each.measures)
        faultAt(
          context,
          ['instruments', name, 'zero'],
          'conflict',
          each.measures === 'angle' ? 'an angle, as `each` is one' : 'a length, as `each` is one',
        );
      return [name, { name, measures: each.measures, each: each.plusMinus, zero: zero?.plusMinus ?? null }];
    }),
  );
