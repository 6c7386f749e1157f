import { type Buying, LIKELY, buyJson, buyReport, buying } from '@fayplate/plate';
import type { Command, Task } from '../command.js';
import { Refusal } from '../refusal.js';
import { platedFaces } from '../located.js';
import type { Study } from '../types.js';
import { studyFor } from '../study.js';

/** What the figures of the parts that are not at hand lead to, and the names of those parts. */
export const boughtIn = (
  { job, options, world }: Task,
  study: Study,
): { readonly buying: Buying; readonly sold: readonly string[] } => {
  const faces = platedFaces(job);
  if (job.plate === null)
    throw new Refusal('this job has no `plate:` section yet; say which two faces it joins, and how thick it may be');
  const sold = faces.filter((f) => f.seller != null).map((f) => f.name);
  const links = (job.stack?.links ?? []).length;
  if (sold.length === 0 && links === 0)
    throw new Refusal(
      `every part is at hand: write \`seller: ${job.units === 'in' ? '± 1/16' : '± 1 mm'}\` on the face of the one ` +
        `that is not, as in faces: { ${faces[1]?.name ?? 'motor'}: { seller: ` +
        `${job.units === 'in' ? '± 1/16' : '± 1 mm'} } }`,
    );
  const found = buying(job, new Map(faces.map((f) => [f.name, study.used(f)])), {
    benches: study.benches(),
    layouts: new Map(faces.filter((f) => f.seller != null).map((f) => [f.name, study.layout(f)])),
    ...(options.trials === undefined ? {} : { trials: options.trials }),
    ...(world.progress === undefined ? {} : { progress: world.progress }),
  });
  return { buying: found, sold: sold.length === 0 ? ['the chain'] : sold };
};

/** Before buying: from a seller's rough figures, can a plate exist, with what odds, and what to ask for. */
export const buy: Command = async (task) => {
  const { buying: b, sold } = boughtIn(task, studyFor(task));
  return { exit: b.odds >= LIKELY ? 0 : 1, json: buyJson(b), report: buyReport(b, sold, task.speech) };
};
