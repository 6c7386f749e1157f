import type { Speech } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import { layoutReport } from '@fayplate/layout';
import { layoutPicture } from '@fayplate/pictures';
import type { Study } from '@fayplate/study';
import { letters } from '../letters.js';
import type { LayoutView } from '../shown.js';
import { drawnOf } from './drawn.js';

/**
 * What the maker may have meant, over what was measured; `times`: how much larger the steps between them are drawn,
 * null for what suits.
 */
export const layoutView = (study: Study, face: Face, speech: Speech, times: number | null): LayoutView => {
  const layout = study.layout(face);
  const picture = layoutPicture(face, study.located(face), layout, speech, letters(), times);
  return {
    picture: drawnOf(`layout-${face.name}`, picture),
    times: times ?? 0,
    report: layoutReport(face, study.located(face), layout, speech),
    ok: layout.chosen !== null,
    takes: layout.chosen !== null,
  };
};
