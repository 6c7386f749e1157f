/** Signs that have a usual word in capitals. */
const spoken: Readonly<Record<string, string>> = {
  '⌀': ' DIA ',
  Ø: ' DIA ',
  '°': ' DEG ',
  '×': ' X ',
  '±': ' +- ',
  '″': ' IN ',
  '"': ' IN ',
  '→': ' TO ',
  '–': '-',
  '—': '-',
  '−': '-',
  '⁄': '/',
  '’': '',
};

/**
 * A comment between control-out and control-in. Whatever a person named a job or a drill, nothing in it can be read as code: capitals, digits, space and . + - / only,
 * so neither a bracket that ends the comment nor a comma or colon that some controls take for a command survives. `kind`: a word of ours that every comment starts with.
 */
export const comment = (kind: string, text: string): string => {
  const plain = [...text]
    .map((c) => spoken[c] ?? c)
    .join('')
    .normalize('NFKD')
    .replaceAll('⁄', '/')
    .replaceAll(/\p{M}/gu, '')
    .toUpperCase()
    .replaceAll(/[^A-Z0-9 .+/-]/g, ' ')
    .replaceAll(/ +/g, ' ')
    .trim();
  return `(${`${kind} ${plain}`.trim().slice(0, 72)})`;
};
