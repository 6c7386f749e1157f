import { paper, papers } from '../paper/paper.js';
import type { Looked } from './types.js';
import { answer, both, refuse, source } from './words.js';

export const lookPaper = (what: string): Looked => {
  const p = paper(what);
  if (p === null)
    return refuse(
      what,
      'a paper such as A4, Letter, ANSI D or 210 x 297 mm',
      papers.map((x) => x.name),
    );
  return {
    ok: true,
    kind: 'paper',
    json: { name: p.name, width: p.width, height: p.height, source: p.source },
    report: [answer(`${p.name}: ${both(p.width)} wide, ${both(p.height)} high`), source(p.source)],
  };
};
