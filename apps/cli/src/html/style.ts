/** Black on white with one dark ink for edges: readable in sunlight, in print and without colour. Contrast at least 7 : 1. */
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
a:focus-visible, [tabindex]:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; }
.verdict { padding: .75rem 1rem; border: 2px solid var(--ink); font-size: 1.15rem; }
.verdict.no { border-style: dashed; background: var(--tint); }
.caution { padding: .5rem 1rem; border-left: .5rem double var(--ink); background: var(--tint); }
.wide { overflow-x: auto; margin: .75rem 0; overflow-wrap: normal; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; min-width: 60%; }
caption { text-align: left; color: var(--soft); padding: .25rem 0; }
th, td { padding: .3rem .6rem; border-bottom: 1px solid var(--edge); text-align: left; vertical-align: top; white-space: nowrap; }
td:last-child, th:last-child { white-space: normal; min-width: 8rem; }
th { border-bottom: 2px solid var(--ink); }
.n { text-align: right; }
figure { margin: 1rem 0; }
figure svg { display: block; max-width: 100%; height: auto; }
figcaption { color: var(--soft); }
.ruler svg { max-width: none; }
.ruler { overflow-x: auto; }
footer { margin-top: 3rem; border-top: 1px solid var(--edge); color: var(--soft); }
@media print {
  body { max-width: none; padding: 0; font-size: 10pt; }
  nav { display: none; }
  h2 { break-before: page; }
  section:first-of-type h2 { break-before: auto; }
  .wide { overflow: visible; }
  tr, figure, .verdict, .caution { break-inside: avoid; }
  .ruler { overflow: visible; }
}
`.trim();
