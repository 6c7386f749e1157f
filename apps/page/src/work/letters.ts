import { once } from '@fayplate/core';
import { type Lettering, letteringFrom } from '@fayplate/drawing';
import bold from 'fayplate:bold';
import regular from 'fayplate:regular';
import { inflateSync } from 'fflate';

/** Letters as outlines; unpacked when first asked for. */
export const letters: () => Lettering = once(() =>
  letteringFrom({ regular: () => inflateSync(regular), bold: () => inflateSync(bold) }),
);
