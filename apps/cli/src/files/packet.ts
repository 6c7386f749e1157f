import { createHash } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type WrittenFile, headOf } from './write.js';

/** The list that a packet keeps of its own files, so that the next one in the same folder knows them. */
export const MANIFEST = 'packet.json';

interface Owned {
  readonly name: string;
  /** SHA-256 of its bytes, hexadecimal. */
  readonly sha256: string;
}

/** A packet as it is to be written over what stands in its folder. */
export interface PacketPlan {
  readonly files: readonly WrittenFile[];
  /** Files of the packet before, which this one no longer has. */
  readonly removed: readonly string[];
  /** Files that somebody changed since, and the name that each gets. */
  readonly kept: readonly { readonly name: string; readonly as: string }[];
}

const digest = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex');

const isOwned = (o: unknown): o is Owned => {
  const { name, sha256 } = o as Partial<Owned>;
  return typeof name === 'string' && /^[^\\/\0]+$/.test(name) && !/^\.\.?$/.test(name) && typeof sha256 === 'string';
};

/** What the packet that stands in a folder says it owns; nothing where there is none, or its list cannot be read. */
const ownedIn = (folder: string): readonly Owned[] => {
  try {
    const path = join(folder, MANIFEST);
    if (statSync(path).size > 1_000_000) return [];
    const { files } = JSON.parse(readFileSync(path, 'utf8')) as { files?: readonly unknown[] };
    return Array.isArray(files) ? files.filter(isOwned) : [];
  } catch {
    return [];
  }
};

const isFile = (path: string): boolean => existsSync(path) && statSync(path).isFile();

/** `plate.step` → `plate-changed.step`, or with a number where that is taken. */
const freeName = (folder: string, name: string, taken: ReadonlySet<string>): string => {
  const dot = name.lastIndexOf('.') > 0 ? name.lastIndexOf('.') : name.length;
  for (let n = 1; ; n++) {
    const free = `${name.slice(0, dot)}-changed${n === 1 ? '' : `-${n}`}${name.slice(dot)}`;
    if (!taken.has(free) && !existsSync(join(folder, free))) return free;
  }
};

/**
 * A packet owns the files on its list. Those that it no longer has go, if Fayplate wrote them and nobody changed them
 * since; one that somebody changed is kept beside under another name. Files that are on no list are none of the
 * packet's.
 */
export const packetPlan = (
  folder: string,
  files: readonly { readonly name: string; readonly content: string | Uint8Array }[],
  isOurs: (head: string) => boolean,
): PacketPlan => {
  const fresh = new Map(files.map((f) => [f.name, f.content]));
  const taken = new Set([...fresh.keys(), MANIFEST]);
  const removed: string[] = [];
  const kept: { name: string; as: string }[] = [];
  const asides = new Map<string, string>();
  for (const { name, sha256 } of ownedIn(folder)) {
    const path = join(folder, name);
    if (name === MANIFEST || !isFile(path)) continue;
    const content = readFileSync(path);
    const next = fresh.get(name);
    if (digest(content) === sha256) {
      if (next === undefined && isOurs(headOf(path))) removed.push(name);
    } else if (next === undefined || digest(next) !== digest(content)) {
      const as = freeName(folder, name, taken);
      taken.add(as);
      kept.push({ name, as });
      asides.set(name, as);
    }
  }
  const list = { fayplate: 1, packet: 1, files: files.map((f) => ({ name: f.name, sha256: digest(f.content) })) };
  const one = (name: string, content: WrittenFile['content']): WrittenFile => {
    const keepAs = asides.get(name);
    return { path: join(folder, name), content, ...(keepAs === undefined ? {} : { keepAs }) };
  };
  const gone = [...removed, ...kept.map((k) => k.name).filter((n) => !fresh.has(n))];
  return {
    files: [
      ...files.map((f) => one(f.name, f.content)),
      ...gone.map((name) => one(name, null)),
      one(MANIFEST, `${JSON.stringify(list, null, 2)}\n`),
    ],
    removed,
    kept,
  };
};
