/* Run inside the page: each function stands by itself and gives plain values. */

/** Elements that reach beyond the right edge of the page, outside the regions that scroll. */
export const beyond = (): readonly string[] =>
  [...document.querySelectorAll('body *')]
    .filter((e) => e.getBoundingClientRect().right > window.innerWidth + 0.5 && e.closest('.wide, .ruler') === null)
    .map((e) => `${e.tagName} ${(e.textContent ?? '').slice(0, 40)}`)
    .concat(
      document.documentElement.scrollWidth > window.innerWidth
        ? [`page ${document.documentElement.scrollWidth} wide`]
        : [],
    );

/**
 * Every colour of text against what lies behind it, by WCAG 2.2 (relative luminance, contrast ratio): the least ratio,
 * and where.
 */
export const leastContrast = (): { readonly ratio: number; readonly where: string } => {
  const parts = (colour: string): readonly number[] =>
    (/[\d.]+(?:, ?[\d.]+)*/.exec(colour)?.[0] ?? '0').split(',').map(Number);
  const luminance = (colour: string): number => {
    const [r = 0, g = 0, b = 0] = parts(colour).map((v) =>
      v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const behind = (e: Element | null): string => {
    for (let at = e; at !== null; at = at.parentElement) {
      const colour = getComputedStyle(at).backgroundColor;
      if ((parts(colour)[3] ?? 1) > 0) return colour;
    }
    return 'rgb(255, 255, 255)';
  };
  let least = { ratio: 22, where: '' };
  const weigh = (front: string, e: Element, words: string): void => {
    const [a, b] = [luminance(front), luminance(behind(e))];
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (ratio < least.ratio) least = { ratio, where: `${e.tagName} ${words.slice(0, 40)}` };
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const e = node.parentElement;
    const words = node.textContent?.trim() ?? '';
    if (e === null || words === '' || e.closest('svg title, svg metadata') !== null) continue;
    const style = getComputedStyle(e);
    weigh(e.closest('svg') === null ? style.color : style.fill, e, words);
  }
  // Letters of the pictures are outlines that say what they spell.
  for (const e of document.querySelectorAll('svg path[aria-label]'))
    weigh(getComputedStyle(e).fill, e, e.getAttribute('aria-label') ?? '');
  return least;
};

export interface Focused {
  readonly what: string;
  readonly outline: number;
  readonly inSight: boolean;
}

/** What has the focus, how thick its outline is and whether it can be seen. */
export const focused = (): Focused => {
  const e = document.activeElement ?? document.body;
  const style = getComputedStyle(e);
  const box = e.getBoundingClientRect();
  const sight = box.bottom > 0 && box.top < window.innerHeight;
  return {
    what: e === document.body ? 'body' : `${e.tagName} ${e.getAttribute('href') ?? e.getAttribute('aria-label') ?? ''}`,
    outline: style.outlineStyle === 'none' ? 0 : Number.parseFloat(style.outlineWidth),
    inSight: sight,
  };
};

/** Everything that a keyboard must reach. */
export const reachable = (): readonly string[] =>
  [...document.querySelectorAll('a[href], input, .wide, .ruler')].map(
    (e) => `${e.tagName} ${e.getAttribute('href') ?? e.getAttribute('aria-label') ?? ''}`,
  );
