/**
 * Black on white with one dark ink for edges: readable in sunlight, in print and without colour. Contrast at least 7 :
 * 1.
 */
export const style = `
:root { --ink: #111; --soft: #444; --edge: #767676; --paper: #fff; --tint: #f3f3f0; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 62rem; padding: 1rem; color: var(--ink); background: var(--paper); font: 1.0625rem/1.5 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.3rem; margin: 2.5rem 0 .5rem; padding-top: .5rem; border-top: 2px solid var(--ink); }
h3 { font-size: 1.1rem; margin: 1.5rem 0 .25rem; }
h4, h5, h6 { font-size: 1rem; margin: 1rem 0 .25rem; }
p, ul { margin: .5rem 0; }
ul { padding-left: 1.25rem; }
nav ul { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .25rem .5rem; }
nav a { display: inline-block; padding: .5rem .75rem; min-height: 2.75rem; border: 1px solid var(--edge); color: var(--ink); text-decoration: none; }
a:focus-visible, input:focus-visible, [tabindex]:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; }
.verdict { padding: .75rem 1rem; border: 2px solid var(--ink); font-size: 1.15rem; }
.verdict.no { border-style: dashed; background: var(--tint); }
.caution { padding: .5rem 1rem; border-left: .5rem double var(--ink); background: var(--tint); }
.caption { color: var(--soft); margin: 1rem 0 0; }
.wide { overflow-x: auto; margin: .25rem 0 1rem; overflow-wrap: normal; }
/* Not collapsed: a cell that stays in sight would leave its rule behind. */
table { border-collapse: separate; border-spacing: 0; font-variant-numeric: tabular-nums; }
th, td { padding: .3rem .6rem; border-bottom: 1px solid var(--edge); text-align: left; vertical-align: top; white-space: nowrap; }
th { border-bottom: 2px solid var(--ink); vertical-align: bottom; }
/* What a row is about stays in sight while its figures are scrolled. */
th:first-child, td:first-child { position: sticky; left: 0; background: var(--paper); padding-left: 0; }
.n { text-align: right; }
.long { white-space: normal; min-width: 15rem; }
.long:last-child { min-width: 24rem; }
.tick label { display: flex; min-height: 2.75rem; align-items: center; gap: .75rem; cursor: pointer; }
.tick input { width: 1.75rem; height: 1.75rem; margin: 0; flex: none; }
.tick span { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
td a { display: inline-block; min-height: 1.5rem; color: var(--ink); }
tr:target td, tr:has(:checked) td { background: var(--tint); }
tr:target { outline: 3px solid var(--ink); }
a:has(> g:target) path { stroke-width: 1.2; }
figure { margin: 1rem 0; }
figure svg { display: block; max-width: 100%; max-height: 90vh; height: auto; }
.whole svg { min-width: 44rem; max-height: none; }
figcaption { color: var(--soft); }
figcaption p { margin: .25rem 0; }
figcaption strong { color: var(--ink); }
.ruler svg { max-width: none; max-height: none; }
.ruler { overflow-x: auto; }
/* On a narrow screen a row is folded: each cell stands under its heading, and nothing is scrolled sideways. */
@media screen and (max-width: 44rem) {
  .wide:not(.whole) { overflow: visible; }
  .wide table, .wide tbody, .wide tr, .wide td { display: block; }
  .wide thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .wide tr { border-bottom: 1px solid var(--edge); padding: .4rem 0; }
  .wide td, .wide td:first-child { position: static; display: flex; justify-content: space-between; gap: 1rem; border: 0; padding: .1rem 0; text-align: right; white-space: normal; min-width: 0; overflow-wrap: anywhere; }
  .wide td.long { min-width: 0; }
  .wide td[data-title]:not([data-title=""])::before { content: attr(data-title); color: var(--soft); text-align: left; }
  .wide td[data-empty] { display: none; }
  .wide .tick span { position: static; width: auto; height: auto; clip-path: none; font-weight: 600; }
}
@media screen and (prefers-color-scheme: dark) {
  :root { --ink: #f1f1ee; --soft: #c4c4c0; --edge: #8c8c88; --paper: #141413; --tint: #22221f; color-scheme: dark; }
  figure svg { filter: invert(1) hue-rotate(180deg); background: #fff; }
}
footer { margin-top: 3rem; border-top: 1px solid var(--edge); color: var(--soft); }
@page { margin: 12mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 10pt; }
  nav { display: none; }
  h2 { margin-top: 1.5rem; }
  h2, h3, h4, h5, h6, .caption { break-after: avoid; }
  .wide { overflow: visible; }
  table { font-size: 8.5pt; }
  th, td { padding: .1rem .4rem; white-space: normal; }
  .long, .long:last-child { min-width: 0; }
  th:first-child, td:first-child { position: static; }
  tr, figure, .verdict, .caution { break-inside: avoid; }
  figure svg { max-height: 115mm; }
  .whole svg { min-width: 0; max-height: 160mm; }
  .ruler { overflow: visible; }
  .ruler svg { max-height: none; }
}
`.trim();
