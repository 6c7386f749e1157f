import { fileNameOf } from '@fayplate/core';
import { type Drawing, svg } from '@fayplate/drawing';
import type { Io } from '../io.js';
import { loadLettering } from './fonts.js';

export interface NamedPicture {
  readonly name: string;
  readonly drawing: Drawing;
}

/** One picture is written to `path`; several get their names put before the ending: pump.svg → pump-side-a.svg. */
export const savePictures = async (io: Io, path: string, pictures: readonly NamedPicture[], force: boolean): Promise<void> => {
  const letters = await loadLettering();
  const stem = path.replace(/\.svg$/i, '');
  for (const { name, drawing } of pictures) {
    io.write(pictures.length === 1 ? path : `${stem}-${fileNameOf(name)}.svg`, svg(drawing, letters), force);
  }
};
