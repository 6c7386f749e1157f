/** Sizes of the packet's pages, mm: one grid of lines, one face in two weights, capitals by rank. */
export const style = {
  margin: { left: 20, right: 16, top: 18, bottom: 20 },
  /** Baseline to baseline of plain text; every height is a multiple of half of it. */
  lead: 4.4,
  text: 2.2,
  /** Section, then the headings of a report by level. */
  headings: [4.4, 3.1, 2.6, 2.2],
  table: 2,
  /** A table too wide for the page is set smaller, but never below this. */
  smallest: 1.5,
  columnGap: 3.6,
  footer: 1.9,
} as const;
