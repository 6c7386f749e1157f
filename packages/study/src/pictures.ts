import type { Lettering, Picture } from '@fayplate/drawing';
import type * as Pictures from '@fayplate/pictures';
import type { MadeFile, Task } from './command.js';
import { withMark } from './marked.js';
import { fileNamesOf } from './names.js';
import { Refusal } from './refusal.js';

/** A picture with what it shows, of which its file gets its name. */
export interface NamedPicture {
  readonly name: string;
  readonly drawing: Picture;
}

/**
 * Draws the pictures asked for as SVG files; the drawing code and the font are loaded only here. One picture is called as `--picture`
 * says; several get their names put before the ending: pump.svg → pump-side-a.svg.
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
