import { readFileSync, readdirSync } from 'node:fs';

interface Running {
  readonly pid: number;
  readonly parent: number;
  readonly command: string;
}

/** Every process of this machine that may be read (Linux). */
const running = (): readonly Running[] =>
  readdirSync('/proc').flatMap((name) => {
    if (!/^\d+$/.test(name)) return [];
    try {
      const stat = readFileSync(`/proc/${name}/stat`, 'utf8');
      const [, parent] = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
      return [{ pid: Number(name), parent: Number(parent), command: readFileSync(`/proc/${name}/cmdline`, 'utf8') }];
    } catch {
      return [];
    }
  });

/** The processes of the browser on this profile: its own, and those that these started. */
const familyOf = (folder: string): readonly Running[] => {
  const all = running();
  const family = new Set(all.filter((p) => p.command.includes(`--user-data-dir=${folder}`)).map((p) => p.pid));
  for (let size = -1; size < family.size;) {
    size = family.size;
    for (const { pid, parent } of all) if (family.has(parent)) family.add(pid);
  }
  return all.filter((p) => family.has(p.pid));
};

export const processesOf = (folder: string): readonly number[] => familyOf(folder).map((p) => p.pid);

/**
 * Memory of the processes that draw pages, bytes: `own` no other process has, which is what a browser's list of its
 * tabs shows; `resident` has in it the browser's program, which all of them share.
 */
export const memoryOf = (folder: string): { readonly own: number; readonly resident: number } => {
  const sums = { own: 0, resident: 0 };
  for (const { pid, command } of familyOf(folder)) {
    if (!command.includes('--type=renderer')) continue;
    const lines = readFileSync(`/proc/${pid}/smaps_rollup`, 'utf8').split('\n');
    const bytes = (name: string): number =>
      1024 * Number.parseInt(lines.find((l) => l.startsWith(`${name}:`))?.slice(name.length + 1) ?? '0', 10);
    sums.own += bytes('Private_Dirty');
    sums.resident += bytes('Rss');
  }
  return sums;
};
