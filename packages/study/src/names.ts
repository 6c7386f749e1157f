import { fileNameOf } from '@fayplate/core';

/**
 * A file name for each name, no two alike: names in scripts that a file name does not take, and names that differ only in case
 * (one file where the disk does not tell them apart), get a number.
 */
export const fileNamesOf = (names: readonly string[]): readonly string[] => {
  const taken = new Set<string>();
  return names.map((name) => {
    const plain = fileNameOf(name);
    let free = plain;
    for (let n = 2; taken.has(free); n++) free = `${plain}-${n}`;
    taken.add(free);
    return free;
  });
};
