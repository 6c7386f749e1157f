import { once } from '@fayplate/core';
import { type Lettering, lettering } from '@fayplate/drawing';
import bold from 'fayplate:bold';
import regular from 'fayplate:regular';
import { inflateSync } from 'fflate';

const file = (packed: Uint8Array): ArrayBuffer => {
  const bytes = inflateSync(packed);
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
};

/** Letters as outlines; unpacked when first asked for. */
export const letters: () => Lettering = once(() => lettering({ regular: file(regular), bold: file(bold) }));
