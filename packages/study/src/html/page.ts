import { type Report, fileNameOf } from '@fayplate/core';
import { escapeHtml as e, reportHtml } from './blocks.js';
import { style } from './style.js';

const LONG = 100;

/** A ruler of 100 mm in true millimetres, for the printed page. */
export const rulerSvg = (): string => {
  const ticks = Array.from({ length: LONG + 1 }, (_, i) => {
    const height = i % 10 === 0 ? 6 : i % 5 === 0 ? 4.5 : 3;
    return `M ${i} 0 V ${height}`;
  }).join(' ');
  const words = Array.from(
    { length: 11 },
    (_, i) => `<text x="${i * 10}" y="10" font-size="3" text-anchor="middle">${i * 10}</text>`,
  ).join('');
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="Ruler of 100 mm" width="${LONG + 10}mm" ` +
    `height="14mm" viewBox="-5 -1 ${LONG + 10} 14"><path d="${ticks}" fill="none" stroke="#000" ` +
    `stroke-width="0.15"/>${words}</svg>`
  );
};

/**
 * Keeps the boxes of the cuts ticked in the browser's own store, under the page's title and a sum of the cuts
 * themselves: another table begins with none. Where a browser gives a local file no store, the boxes serve until the
 * page is closed.
 */
const tickScript = `(() => {
  const boxes = [...document.querySelectorAll('input[data-cut]')];
  const rows = boxes.map((b) => b.closest('tr').textContent).join();
  let sum = 0;
  for (let i = 0; i < rows.length; i++) sum = (Math.imul(sum, 31) + rows.charCodeAt(i)) | 0;
  const name = 'fayplate cuts ' + document.title + ' ' + sum;
  try {
    const done = new Set(JSON.parse(localStorage.getItem(name) || '[]'));
    for (const b of boxes) {
      b.checked = done.has(b.dataset.cut);
      b.addEventListener('change', () => {
        done[b.checked ? 'add' : 'delete'](b.dataset.cut);
        localStorage.setItem(name, JSON.stringify([...done]));
      });
    }
  } catch {}
})();
`;

/** Its SHA-256, by which the page's policy lets this script run and no other; a test holds the two together. */
const tickHash = 'sha256-X2mbdIkxkBuTO2UJGFiewtfia7aOKrV1lLZ0M8Sj4vc=';

/** One section of the web page: words, then pictures. */
interface PageSection {
  readonly title: string;
  readonly report: Report;
  /**
   * SVG markup of our own writer, with its caption and notes; `scaled`: lengths on it mean something; `true`: printed
   * at true scale; `whole`: of many small letters, which a narrow screen scrolls rather than shrinks.
   */
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

/**
 * The drawing itself; what may be wider than the screen stands in a region of its own, which the keyboard can reach.
 */
const drawn = (p: PageSection['pictures'][number]): string =>
  p.whole
    ? `<div class="wide whole" role="region" aria-label="${e(p.caption)}" tabindex="0">${linked(p)}</div>`
    : linked(p);

const figure = (p: PageSection['pictures'][number]): string =>
  '<figure' +
  (p.true ? ' class="ruler" tabindex="0" role="region" aria-label="True-scale picture"' : '') +
  `>${drawn(p)}<figcaption><p><strong>${e(p.caption)}</strong>` +
  (p.true || !p.scaled ? '' : ' (on this page not to scale)') +
  `</p>${p.notes.map((n) => `<p>${e(n)}</p>`).join('')}</figcaption></figure>`;

/**
 * One self-contained page, nothing fetched; the pictures are drawn in the page itself. Its one script keeps what is
 * ticked; without it all can be read.
 */
export const page = (title: string, sections: readonly PageSection[]): string => {
  const ids = sections.map((s, i) => `s${i + 1}-${fileNameOf(s.title)}`);
  const nav = sections.map((s, i) => `<li><a href="#${ids[i] ?? ''}">${e(s.title)}</a></li>`).join('');
  const body = sections
    .map(
      (s, i) =>
        `<section aria-labelledby="${ids[i] ?? ''}"><h2 ` +
        `id="${ids[i] ?? ''}">${e(s.title)}</h2>\n${reportHtml(s.report)}\n${s.pictures.map(figure).join('\n')}\n</section>`,
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
