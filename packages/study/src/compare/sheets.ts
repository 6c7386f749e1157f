import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import type { PlateChanges } from './moved.js';

/** One kind of sheet or file, and whether what is printed of it still holds. */
export interface SheetState {
  readonly what: string;
  /** Null: it still holds. */
  readonly stale: string | null;
}

const flat = (v: unknown): string => JSON.stringify(v, (_, x: unknown) => (x instanceof Map ? [...x] : x)) ?? '';

/** Which printed sheets and files of the earlier state are stale. */
export const sheetStates = (
  before: { readonly job: Job; readonly plate: Plate },
  now: { readonly job: Job; readonly plate: Plate },
  c: PlateChanges,
): readonly SheetState[] => {
  const places = c.moved.filter((m) => m.by > 0.005).length;
  const sizes = c.moved.filter((m) => m.made || Math.abs(m.diameter[1] - m.diameter[0]) > 0.005).length;
  const cuts = [
    ...(places > 0 ? [`${places} ${places === 1 ? 'cut has' : 'cuts have'} moved`] : []),
    ...(sizes > 0 ? [`${sizes} ${sizes === 1 ? 'cut is made' : 'cuts are made'} otherwise`] : []),
    ...(c.come.length + c.gone.length > 0 ? ['cuts have come or gone'] : []),
    ...(c.renumbered.length > 0 ? ['cuts have other numbers'] : []),
  ];
  const thick = c.thickness === null ? [] : ['the thickness is another'];
  const edge = c.outline ? ['the outline is another'] : [];
  const machine = flat(before.job.machine) === flat(now.job.machine) ? [] : ['the machine is described otherwise'];
  const why = (reasons: readonly string[]): string | null => (reasons.length === 0 ? null : reasons.join(', '));
  const readings = (job: Job): string =>
    flat(job.faces.map((f) => [f.name, f.features.map((x) => x.id), f.readings.map((r) => [r.kind, r.features])]));
  return [
    { what: 'drilling template', stale: why([...cuts, ...edge]) },
    { what: 'table, programs and solid', stale: why([...cuts, ...thick, ...edge, ...machine]) },
    ...(before.job.gaskets.length + now.job.gaskets.length === 0
      ? []
      : [
          {
            what: 'gaskets',
            stale: why([
              ...(flat(before.job.gaskets) === flat(now.job.gaskets) ? [] : ['what is asked of them is another']),
              ...cuts,
              ...edge,
            ]),
          },
        ]),
    {
      what: 'depths for the drill stop',
      stale: why([...thick, ...(sizes > 0 || c.come.length + c.gone.length > 0 ? ['cuts are made otherwise'] : [])]),
    },
    { what: 'measuring sheets', stale: readings(before.job) === readings(now.job) ? null : 'other readings are taken' },
  ];
};
