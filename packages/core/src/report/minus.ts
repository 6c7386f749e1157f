/** A number's hyphen becomes the minus sign, as wide as a plus: for paper and pages, not for what a person may copy into a program. */
export const minusSign = (cell: string): string => cell.replace(/^-(?=[\d.])/, '−');
