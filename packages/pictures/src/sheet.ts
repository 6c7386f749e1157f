import { type Drawing, type Lettering, type Shape, growBox, joinBoxes, shapesBox, text } from '@fayplate/drawing';
import type { Scale } from './scale.js';

/** What a drawing at true scale may say of itself wherever it comes to stand: whoever makes it smaller says so below it. */
export const fullSize = 'Full size, unless it says below that it was made smaller.';

/** Words that do not fit the drawing's width are broken at spaces. */
const broken = (words: string, width: number, capital: number, lettering: Lettering): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && lettering.width(longer, capital, 'regular') > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
};

/** The finished picture: its title above, notes below (each from the left edge), and a margin about it all. */
export const sheet = (title: string, shapes: readonly Shape[], notes: readonly string[], scale: Scale, lettering: Lettering): Drawing => {
  const drawn = shapesBox(shapes, lettering) ?? { left: 0, bottom: 0, right: 60, top: 10 };
  const least = lettering.width(title, scale.capital * 1.2, 'bold');
  const width = Math.max(drawn.right - drawn.left, least, 24 * scale.capital);
  const left = (drawn.left + drawn.right - width) / 2;
  const head = text('note', { x: left, y: drawn.top + 1.6 * scale.capital }, title, { capital: scale.capital * 1.2, weight: 'bold' });
  const lines = notes.flatMap((n) => broken(n, width, scale.small, lettering));
  const feet = lines.map((words, i) => text('note', { x: left, y: drawn.bottom - 2.4 * scale.capital - i * 1.7 * scale.small }, words, { capital: scale.small }));
  const all = [head, ...shapes, ...feet];
  const frame = { left, right: left + width, bottom: drawn.bottom, top: drawn.top };
  const box = joinBoxes([frame, shapesBox(all, lettering) ?? frame]) ?? frame;
  return { title, shapes: all, box: growBox(box, 1.5 * scale.capital) };
};
