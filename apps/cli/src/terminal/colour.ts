/** Colour only on a terminal that has some, and never where NO_COLOR is set to anything (https://no-color.org). */
export const wantsColour = (
  onTerminal: boolean,
  { NO_COLOR: none, TERM: terminal }: Readonly<Record<string, string | undefined>>,
): boolean => onTerminal && (none === undefined || none === '') && terminal !== 'dumb';
