import type { Draft } from '../draft.js';
import { bossFindings } from './bosses.js';
import type { Finding } from './check.js';
import { edgeFindings } from './edge.js';
import { floorFindings } from './floor.js';
import { headFindings } from './heads.js';
import { jackingFindings } from './jacking.js';
import { locatingFindings, locatingUnknowns } from './locating.js';
import { studFindings } from './studs.js';
import { threadFindings, threadUnknowns } from './threads.js';
import { spigotFindings, webFindings } from './web.js';

export interface Checked {
  readonly findings: readonly Finding[];
  readonly unknowns: readonly string[];
}

/** Every check of a draft, and what could not be checked. */
export const checkDraft = (draft: Draft): Checked => {
  const heads = headFindings(draft);
  const studs = studFindings(draft);
  return {
    findings: [
      ...webFindings(draft),
      ...spigotFindings(draft),
      ...edgeFindings(draft),
      ...floorFindings(draft),
      ...heads.findings,
      ...studs.findings,
      ...threadFindings(draft),
      ...bossFindings(draft),
      ...locatingFindings(draft),
      ...jackingFindings(draft),
    ],
    unknowns: [
      ...draft.made.remarks,
      ...heads.unknowns,
      ...studs.unknowns,
      ...threadUnknowns(draft),
      ...locatingUnknowns(draft),
    ],
  };
};
