import { type FSWatcher, watch } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';

export interface Follower {
  /** The files to follow from now on; they need not be there. */
  follow(paths: Iterable<string>): void;
  close(): void;
}

/** Milliseconds of quiet after which a file counts as saved: editors write in several goes. */
const QUIET = 120;

/**
 * Calls back once after any of some files was saved. Their folders are watched, not they themselves: many editors save by
 * putting a new file in the old one's place.
 */
export function followFiles(onSaved: () => void): Follower {
  const watchers = new Map<string, FSWatcher>();
  let files = new Set<string>();
  let timer: NodeJS.Timeout | undefined;

  function changed(folder: string, name: string | null): void {
    if (name !== null && !files.has(resolve(folder, name))) return;
    clearTimeout(timer);
    timer = setTimeout(onSaved, QUIET);
  }
  function start(folder: string): void {
    try {
      const watcher = watch(folder, (_event, name) => changed(folder, name === null ? null : basename(name)));
      // A folder that goes away takes its watcher along; its files are found missing at the next drawing.
      watcher.on('error', () => stop(folder));
      watchers.set(folder, watcher);
    } catch {
      // A folder that is not there, or not to be watched: its files are read when another one is saved.
      watchers.delete(folder);
    }
  }
  function stop(folder: string): void {
    watchers.get(folder)?.close();
    watchers.delete(folder);
  }

  return {
    follow(paths) {
      files = new Set([...paths].map((path) => resolve(path)));
      const folders = new Set([...files].map((path) => dirname(path)));
      for (const folder of watchers.keys()) if (!folders.has(folder)) stop(folder);
      for (const folder of folders) if (!watchers.has(folder)) start(folder);
    },
    close() {
      clearTimeout(timer);
      for (const folder of [...watchers.keys()]) stop(folder);
    },
  };
}
