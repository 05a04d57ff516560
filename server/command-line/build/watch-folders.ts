import { type FSWatcher, watch } from 'node:fs';

/** Changes that come within this time are one: editors write a file in several steps. Unit: ms. Ours. */
const TOGETHER_MS = 150;

/**
 * Waits for something to change in these folders, not in those inside them. Settles when it has been quiet for a moment, or when
 * stopped. One plain watch for each folder: what watches folders within folders loses files that were replaced, in Node 20 on Linux.
 */
export function nextChange(
  folders: readonly string[],
  isOurs: (name: string) => boolean,
  stop: AbortSignal,
): Promise<void> {
  return new Promise((resolve) => {
    let timer: NodeJS.Timeout | undefined;
    const watchers: FSWatcher[] = [];
    const end = (): void => {
      clearTimeout(timer);
      for (const watcher of watchers) watcher.close();
      stop.removeEventListener('abort', end);
      resolve();
    };
    const changed = (): void => {
      clearTimeout(timer);
      timer = setTimeout(end, TOGETHER_MS);
    };
    if (stop.aborted) return resolve();
    stop.addEventListener('abort', end);
    for (const folder of folders) {
      try {
        const watcher = watch(folder, (_, name) => {
          if (name === null || !isOurs(name)) changed();
        });
        // A folder that is taken away is a change as well.
        watcher.on('error', changed);
        watchers.push(watcher);
      } catch {
        changed();
      }
    }
  });
}
