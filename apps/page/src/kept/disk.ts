/** The part of the File System Access API that is used; only some browsers have it. */
export interface Handle {
  readonly name: string;
  readonly getFile: () => Promise<File>;
  readonly createWritable: () => Promise<{
    readonly write: (text: string) => Promise<void>;
    readonly close: () => Promise<void>;
  }>;
  readonly queryPermission?: (wish: object) => Promise<PermissionState>;
  readonly requestPermission?: (wish: object) => Promise<PermissionState>;
}

/** The file on the disk that a job came from or was saved to, and when it was last seen changed, ms since 1970. */
export interface Disk {
  readonly handle: Handle;
  readonly seen: number;
}

/** The file as it stands on the disk now. */
export const seenNow = async (handle: Handle): Promise<Disk> => ({
  handle,
  seen: (await handle.getFile()).lastModified,
});

/**
 * Whether the page may write to the file: after the page was closed the browser asks the person again, which it does
 * only at a press.
 */
export const mayWrite = async (handle: Handle): Promise<boolean> => {
  const wish = { mode: 'readwrite' };
  if ((await handle.queryPermission?.(wish)) !== 'prompt') return true;
  return (await handle.requestPermission?.(wish)) === 'granted';
};
