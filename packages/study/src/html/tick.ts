/**
 * Keeps the boxes of the cuts ticked in the browser's own store, under the page's title and a sum of the cuts themselves: another table
 * begins with none. Where a browser gives a local file no store, the boxes serve until the page is closed.
 */
export const tickScript = `(() => {
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
export const tickHash = 'sha256-X2mbdIkxkBuTO2UJGFiewtfia7aOKrV1lLZ0M8Sj4vc=';
