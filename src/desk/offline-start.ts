/** Lets the desk be opened again without its server. */
import { WORKER_FILE } from './offline-list.js';

/** True when a worker has become active, false when it could not keep its files and was given up. */
const settled = (worker: ServiceWorker): Promise<boolean> =>
  new Promise((resolve) => {
    const look = (): void => {
      if (worker.state === 'activated') resolve(true);
      if (worker.state === 'redundant') resolve(false);
    };
    worker.addEventListener('statechange', look);
    look();
  });

/**
 * Starts the worker that keeps the desk's files; true when the desk can be opened without its server. False where the
 * browser allows no such worker (a plain http address of another machine, some private windows) or the files could not be
 * had all of one version: then the desk works as before, with its server.
 */
export async function startOffline(): Promise<boolean> {
  if (!('serviceWorker' in navigator)) return false;
  try {
    const found = await navigator.serviceWorker.register(WORKER_FILE, { updateViaCache: 'none' });
    if (found.active) return true;
    const worker = found.installing ?? found.waiting;
    return worker === null ? false : await settled(worker);
  } catch {
    return false;
  }
}
