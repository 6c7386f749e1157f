import type { Lettering, Picture } from '@fayplate/drawing';
import type * as Pictures from '@fayplate/pictures';
import { Refusal } from '../answer.js';
import type { Io } from '../io.js';
import { loadLettering } from './fonts.js';
import { fileNamesOf } from './names.js';

export interface NamedPicture {
  readonly name: string;
  readonly drawing: Picture;
}

/**
 * Draws and writes SVG files; the drawing code and the font are loaded only here. One picture is written to `path`;
 * several get their names put before the ending: pump.svg → pump-side-a.svg.
 */
export const savePictures = async (
  io: Io,
  path: string,
  draw: (pictures: typeof Pictures, letters: Lettering) => readonly NamedPicture[],
  force: boolean,
): Promise<void> => {
  const [letters, pictures, { captioned, svg }] = await Promise.all([
    loadLettering(),
    import('@fayplate/pictures'),
    import('@fayplate/drawing'),
  ]);
  const named = draw(pictures, letters);
  const stem = path.replace(/\.svg$/i, '');
  const names = fileNamesOf(named.map((n) => n.name));
  if (path === '-' && named.length !== 1)
    throw new Refusal(`there are ${named.length} pictures: give --picture a file name, and each gets its own ending`);
  io.write(
    named.map(({ drawing }, i) => ({
      path: named.length === 1 ? path : `${stem}-${names[i] ?? i}.svg`,
      content: svg(captioned(drawing, letters), letters),
    })),
    force,
  );
};
