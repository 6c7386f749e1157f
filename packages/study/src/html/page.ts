import { type Report, fileNameOf } from '@fayplate/core';
import { escapeHtml as e, reportHtml } from './blocks.js';
import { style } from './style.js';
import { tickHash, tickScript } from './tick.js';

/** One section of the web page: words, then pictures. */
export interface PageSection {
  readonly title: string;
  readonly report: Report;
  /** SVG markup of our own writer, with its caption and notes; `scaled`: lengths on it mean something; `true`: printed at true scale; `whole`: of many small letters, which a narrow screen scrolls past sooner than shrinks. */
  readonly pictures: readonly {
    readonly caption: string;
    readonly notes: readonly string[];
    readonly svg: string;
    readonly scaled: boolean;
    readonly true: boolean;
    readonly whole: boolean;
    /** Of a setting: its side, and the first cut of each hole; a hole that is tapped shows its cuts. */
    readonly cuts?: { readonly side: 'A' | 'B'; readonly first: ReadonlyMap<string, number> };
  }[];
}

/** Layers are named by their ids in a file of their own; in a page of many pictures an id must be the only one. */
const inPage = (svg: string): string => svg.replaceAll(/<g id="(\w+)">/g, '<g data-layer="$1">');

/** Holes of a setting as links to their cuts, so that each is found from the other. */
const linked = ({ svg, cuts }: PageSection['pictures'][number]): string => {
  if (cuts === undefined) return inPage(svg);
  let open = 0;
  // A hole's group holds no other group: the first that closes after it is its own.
  return inPage(svg).replaceAll(/<g data-name="(\w+)">|<\/g>/g, (tag, name: string | undefined) => {
    const first = name === undefined ? undefined : cuts.first.get(name);
    if (name !== undefined && first !== undefined) {
      open += 1;
      return `<a href="#cut-${first}" aria-label="Cuts of ${name}"><g id="hole-${cuts.side}-${name}">`;
    }
    if (tag === '</g>' && open > 0) {
      open -= 1;
      return '</g></a>';
    }
    return tag;
  });
};

/** The drawing itself; what may be wider than the screen stands in a region of its own, which the keyboard can reach. */
const drawn = (p: PageSection['pictures'][number]): string =>
  p.whole
    ? `<div class="wide whole" role="region" aria-label="${e(p.caption)}" tabindex="0">${linked(p)}</div>`
    : linked(p);

const figure = (p: PageSection['pictures'][number]): string =>
  `<figure${p.true ? ' class="ruler" tabindex="0" role="region" aria-label="True-scale picture"' : ''}>${drawn(p)}<figcaption><p><strong>${e(p.caption)}</strong>${p.true || !p.scaled ? '' : ' (on this page not to scale)'}</p>${p.notes.map((n) => `<p>${e(n)}</p>`).join('')}</figcaption></figure>`;

/** One self-contained page, nothing fetched; the pictures are drawn in the page itself. Its one script keeps what is ticked; without it all can be read. */
export const page = (title: string, sections: readonly PageSection[]): string => {
  const ids = sections.map((s, i) => `s${i + 1}-${fileNameOf(s.title)}`);
  const nav = sections.map((s, i) => `<li><a href="#${ids[i] ?? ''}">${e(s.title)}</a></li>`).join('');
  const body = sections
    .map(
      (s, i) =>
        `<section aria-labelledby="${ids[i] ?? ''}"><h2 id="${ids[i] ?? ''}">${e(s.title)}</h2>\n${reportHtml(s.report)}\n${s.pictures.map(figure).join('\n')}\n</section>`,
    )
    .join('\n');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="Fayplate">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src '${tickHash}'">
<title>${e(title)}</title>
<style>
${style}
</style>
</head>
<body>
<header><h1>${e(title)}</h1></header>
<nav aria-label="Sections"><ul>${nav}</ul></nav>
<main>
${body}
</main>
<footer><p>Made by Fayplate from the readings in the job file. Lengths on this page are for reading; drill from the printed sheets or the table.</p></footer>
<script>${tickScript}</script>
</body>
</html>
`;
};
