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
  return `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="Ruler of 100 mm" width="${LONG + 10}mm" height="14mm" viewBox="-5 -1 ${LONG + 10} 14"><path d="${ticks}" fill="none" stroke="#000" stroke-width="0.15"/>${words}</svg>`;
};
