import { fileNameOf } from '@fayplate/core';
import type { Lettering, Picture } from '@fayplate/drawing';
import { type Job, fingerprintOf } from '@fayplate/job';
import type * as Pictures from '@fayplate/pictures';
import type { MadeFile, Task } from './command.js';
import { Refusal } from './refusal.js';

/** The job's name with its fingerprint, as every sheet and file carries it. */
export const markedName = (job: Job): string => `${job.name} · ${fingerprintOf(job)}`;

/** The job under that name, for what is printed. */
export const marked = (job: Job): Job => ({ ...job, name: markedName(job) });

/** A picture that says below it of which state of the job it is. */
export const withMark = (picture: Picture, job: Job): Picture => ({
  ...picture,
  notes: [...picture.notes, `Job ${fingerprintOf(job)}`],
});

/**
 * A file name for each name, no two alike: names in scripts that a file name does not take, and names that differ only
 * in case (one file where the disk does not tell them apart), get a number.
 */
export const fileNamesOf = (names: readonly string[]): readonly string[] => {
  const taken = new Set<string>();
  return names.map((name) => {
    const plain = fileNameOf(name);
    let free = plain;
    for (let n = 2; taken.has(free); n++) free = `${plain}-${n}`;
    taken.add(free);
    return free;
  });
};

/** A picture with what it shows, of which its file gets its name. */
interface NamedPicture {
  readonly name: string;
  readonly drawing: Picture;
}

/**
 * Draws the pictures asked for as SVG files; the drawing code and the font are loaded only here. One picture is called
 * as `--picture` says; several get their names put before the ending: pump.svg → pump-side-a.svg.
 */
export const pictureFiles = async (
  { job, options: { picture: path }, world }: Task,
  draw: (pictures: typeof Pictures, letters: Lettering) => readonly NamedPicture[],
): Promise<readonly MadeFile[]> => {
  if (path === undefined) return [];
  const [letters, pictures, { drawn }] = await Promise.all([
    world.lettering(),
    import('@fayplate/pictures'),
    import('./drawn.js'),
  ]);
  const named = draw(pictures, letters);
  const stem = path.replace(/\.svg$/i, '');
  const names = fileNamesOf(named.map((n) => n.name));
  if (path === '-' && named.length !== 1)
    throw new Refusal(`there are ${named.length} pictures: give --picture a file name, and each gets its own ending`);
  return named.map(({ drawing }, i) => ({
    name: named.length === 1 ? path : `${stem}-${names[i] ?? i}.svg`,
    says: drawing.title,
    content: drawn(withMark(drawing, job), letters),
  }));
};
