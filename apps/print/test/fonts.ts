import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { lettering } from '@fayplate/drawing';

const fontBytes = (name: string): ArrayBuffer => {
  const bytes = readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`));
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
};

export const letters = lettering({
  regular: fontBytes('DejaVuSansCondensed'),
  bold: fontBytes('DejaVuSansCondensed-Bold'),
});
