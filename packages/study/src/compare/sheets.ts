import type { Job } from '@fayplate/job';
import { assemblyReport, positionTolerances } from '@fayplate/plate';
import { speechFor } from '@fayplate/core';
import { platedFaces } from '../located.js';
import type { Study } from '../types.js';
import { type PlateChanges, SEEN } from './moved.js';

/** One kind of sheet or file, and whether what is printed of it still holds. */
export interface SheetState {
  readonly what: string;
  /** Null: it still holds. */
  readonly stale: string | null;
}

const flat = (v: unknown): string => JSON.stringify(v, (_, x: unknown) => (x instanceof Map ? [...x] : x)) ?? '';

const why = (reasons: readonly string[]): string | null => (reasons.length === 0 ? null : reasons.join(', '));

/** One reason where the two states differ in what `of` makes of them. */
const where = <T>(before: T, now: T, of: (state: T) => unknown, says: string): readonly string[] =>
  flat(of(before)) === flat(of(now)) ? [] : [says];

/** What the assembly sheet says, as words: order, lengths, sockets, shims. */
const assemblyWords = (study: Study): unknown =>
  assemblyReport(study.plate().plate, study.job, study.stack(), speechFor(study.job.units));

/** Position zones as a drawing prints them, to hundredths of a mm. */
const zonesOf = (study: Study): unknown => {
  const { plate, mated } = study.plate();
  return [...positionTolerances(plate, study.job, mated)].map(([id, zone]) => [id, zone.toFixed(2)]);
};

/** Which printed sheets and files of one plate, or of one piece of two, are stale. */
export const plateSheets = (before: Study, now: Study, c: PlateChanges): readonly SheetState[] => {
  const places = c.moved.filter((m) => m.by > SEEN).length;
  const sizes = c.moved.filter((m) => m.made || Math.abs(m.diameter[1] - m.diameter[0]) > SEEN).length;
  const cuts = [
    ...(places > 0 ? [`${places} ${places === 1 ? 'cut has' : 'cuts have'} moved`] : []),
    ...(sizes > 0 ? [`${sizes} ${sizes === 1 ? 'cut is made' : 'cuts are made'} otherwise`] : []),
    ...(c.come.length + c.gone.length > 0 ? ['cuts have come or gone'] : []),
    ...(c.renumbered.length > 0 ? ['cuts have other numbers'] : []),
  ];
  const thick = c.thickness === null ? [] : ['the thickness is another'];
  const edge = c.outline ? ['the outline is another'] : [];
  const job = (of: (job: Job) => unknown, says: string): readonly string[] =>
    where(before, now, (s) => of(s.job), says);
  return [
    { what: 'drilling template', stale: why([...cuts, ...edge]) },
    {
      what: 'table, programs and solid',
      stale: why([...cuts, ...thick, ...edge, ...job((j) => j.machine, 'the machine is described otherwise')]),
    },
    ...(before.job.gaskets.length + now.job.gaskets.length === 0
      ? []
      : [
          {
            what: 'gaskets',
            stale: why([...job((j) => j.gaskets, 'what is asked of them is another'), ...cuts, ...edge]),
          },
        ]),
    {
      what: 'depths for the drill stop',
      stale: why([...thick, ...(sizes > 0 || c.come.length + c.gone.length > 0 ? ['cuts are made otherwise'] : [])]),
    },
    {
      what: 'drawing for another shop',
      stale: why([
        ...cuts,
        ...thick,
        ...edge,
        ...where(before, now, zonesOf, 'position zones are others'),
        ...job((j) => j.plate?.material ?? null, 'the material is another'),
        ...job((j) => j.drawing ?? null, 'its title block is another'),
      ]),
    },
    { what: 'assembly sheet', stale: why(where(before, now, assemblyWords, 'what it says is another')) },
    {
      what: 'exploded view',
      stale: why([...cuts, ...thick, ...edge, ...job((j) => j.gaskets, 'the gaskets are others')]),
    },
    { what: 'test piece', stale: why([...cuts, ...edge]) },
  ];
};

/** Centres of the parts as a part's template prints them, to hundredths of a mm. */
const centresOf = (study: Study): unknown =>
  platedFaces(study.job).map((f) => [
    f.name,
    [...study.located(f).features].map(([id, at]) => [id, at.x.toFixed(2), at.y.toFixed(2), at.radius?.toFixed(2)]),
  ]);

const isBuying = ({ job }: Study): boolean => job.faces.some((f) => f.seller != null);

/** Which sheets of the parts are stale: they ask for no plate. */
export const partSheets = (before: Study, now: Study): readonly SheetState[] => [
  {
    what: 'measuring sheets',
    stale: why(
      where(
        before,
        now,
        ({ job }) =>
          job.faces.map((f) => [f.name, f.features.map((x) => x.id), f.readings.map((r) => [r.kind, r.features])]),
        'other readings are taken',
      ),
    ),
  },
  { what: 'part templates', stale: why(where(before, now, centresOf, 'centres have moved')) },
  ...(isBuying(before)
    ? [
        {
          what: 'questions to the seller',
          stale: why(
            isBuying(now)
              ? where(
                  before,
                  now,
                  ({ job }) => [
                    job.faces.map((f) => [f.seller, f.features, f.readings.map((r) => [r.text, r.value])]),
                    job.stack,
                    job.plate,
                  ],
                  'what they rest on is another',
                )
              : ['the part is at hand'],
          ),
        },
      ]
    : []),
];
