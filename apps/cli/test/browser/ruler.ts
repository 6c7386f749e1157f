import { PDFiumLibrary } from '@hyzyla/pdfium';

const library = PDFiumLibrary.init();
const MM = 25.4 / 72;
const DPI = 300;

/** Centres of the dark runs of one row of pixels. */
const runs = (dark: (column: number) => boolean, width: number): readonly number[] => {
  const centres: number[] = [];
  let from = -1;
  for (let c = 0; c <= width; c++) {
    const isDark = c < width && dark(c);
    if (isDark && from < 0) from = c;
    if (!isDark && from >= 0) {
      centres.push((from + c) / 2);
      from = -1;
    }
  }
  return centres;
};

/** Even steps, each within a pixel and a half of their mean. */
const isEven = (marks: readonly number[]): boolean => {
  const step = ((marks.at(-1) ?? 0) - (marks[0] ?? 0)) / (marks.length - 1);
  return marks.every((m, i) => Math.abs(m - (marks[0] ?? 0) - i * step) < 1.5);
};

/**
 * The length of a ruler of 101 ticks on some page of a PDF, mm, from the first tick's middle to the last one's in its
 * pixels; null where there is none.
 */
export const rulerIn = async (bytes: Uint8Array): Promise<number | null> => {
  const document = await (await library).loadDocument(bytes);
  try {
    for (const page of document.pages()) {
      // Before rendering, which closes the page. The engine cuts the page to whole points before it scales: so pixels a
      // mm are the image's width over the page's.
      const { originalWidth } = page.getOriginalSize();
      const { data, width, height } = await page.render({ scale: DPI / 72, render: 'bitmap' });
      const across = width / (originalWidth * MM);
      for (let row = 0; row < height; row++) {
        const marks = runs((column) => (data[4 * (row * width + column)] ?? 255) < 160, width);
        if (marks.length === 101 && isEven(marks)) return ((marks[100] ?? 0) - (marks[0] ?? 0)) / across;
      }
    }
    return null;
  } finally {
    document.destroy();
  }
};
