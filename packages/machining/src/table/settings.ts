import type { MachinistTable, Setup } from '../types.js';

/** The table as one setting has it: of its side the cuts of that setting alone, in their order. */
export const inSetting = (t: MachinistTable, { side, setting }: Setup): MachinistTable =>
  setting === undefined ? t : { ...t, rows: t.rows.filter((r) => r.side !== side || r.setting === setting) };

/** What a setting is called: `side B uppermost`, `side B uppermost, setting 1 of 2`. */
export const settingTitle = ({ side, setting }: Setup): string =>
  `side ${side} uppermost${setting === undefined ? '' : `, setting ${setting} of 2`}`;

/** The same for the names of files: `side-b`, `side-b-1`. */
export const settingTag = ({ side, setting }: Setup): string =>
  `side-${side.toLowerCase()}${setting === undefined ? '' : `-${setting}`}`;
