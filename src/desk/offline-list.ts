/** The files the desk needs to work without its server, as the build lists them: what page and worker share. */

/** Where the build writes the list: a script that sets `OFFLINE` on the worker's scope. */
export const LIST_FILE = 'offline-files.js';
/** The worker's own script, beside the pages it answers for. */
export const WORKER_FILE = 'offline-worker.js';

export interface OfflineList {
  /** made from the contents of all files: a build that changed nothing has the same */
  version: string;
  /** path from the folder of the desk → SHA-256 of the file, hexadecimal */
  files: Readonly<Record<string, string>>;
}

const VERSION = /"version":"([0-9a-f]+)"/;
/** The version a served list has; undefined where that is no list. */
export const versionIn = (list: string): string | undefined => VERSION.exec(list)?.[1];

const CACHE_START = 'soakbook-desk-';
export const cacheName = (version: string): string => `${CACHE_START}${version}`;

/** Caches of the desk that no page can need any more: all but this version's and the one before, which an open page may still use. */
export function outdated(names: readonly string[], version: string): string[] {
  const earlier = names.filter((n) => n.startsWith(CACHE_START) && n !== cacheName(version));
  return earlier.slice(0, -1);
}

/** True for the pages that are answered without a server: the desk and the help. The spreadsheet program's panel never is. */
export const isOfflinePage = (path: string): boolean =>
  path === 'desk.html' || path.startsWith('help/');
