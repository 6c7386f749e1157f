import type { Job } from '@fayplate/job';

const isGasket = (name: string): boolean => /\bgaskets?\b/i.test(name);
const names = (link: string, face: string): boolean =>
  link
    .toLowerCase()
    .split(/[\s_-]+/)
    .includes(face.toLowerCase());

/**
 * Thickness of the gasket that lies on a face, mm, as the stack gives it: the link that names both, or the only gasket
 * of the chain where `gaskets` asks for one on this face. 0 where the job has none there, null where it has one whose
 * thickness no link tells.
 */
export const gasketUnder = (job: Job, face: string): number | null => {
  const links = (job.stack?.links ?? []).filter((l) => isGasket(l.name));
  const own = links.find((l) => names(l.name, face));
  if (own !== undefined) return own.value;
  if (!job.gaskets.some((g) => g.face === face)) return 0;
  const others = links.filter((l) => !job.faces.some((f) => names(l.name, f.name)));
  const [only, more] = others;
  return only === undefined || more !== undefined ? null : only.value;
};

/** Whether a gasket lies on a face: the job asks for one to be cut, or a link of the stack names it. */
export const hasGasket = (job: Job, face: string): boolean => gasketUnder(job, face) !== 0;

/** The same, none counted where it is not known. */
export const knownGasket = (job: Job, face: string): number => gasketUnder(job, face) ?? 0;
