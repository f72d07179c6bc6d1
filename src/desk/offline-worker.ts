/**
 * Keeps the desk's files, so that it opens without its server. All of one version or none: every file is compared with
 * the digest the build wrote, and a page is answered from one version only. Where the server has another version, this
 * worker steps aside and the page loads from there. The entry `offline-worker` of the build.
 */
import {
  cacheName,
  isOfflinePage,
  LIST_FILE,
  outdated,
  versionIn,
  type OfflineList,
} from './offline-list.js';

/** What this file needs of a service worker's scope; the page's types are another scope's. */
interface Waiting {
  waitUntil(work: Promise<unknown>): void;
}
interface Asked extends Waiting {
  request: Request;
  clientId: string;
  respondWith(answer: Promise<Response>): void;
}
interface Client {
  url: string;
  type: string;
}
interface OfflineScope {
  OFFLINE: OfflineList;
  location: { href: string };
  registration: ServiceWorkerRegistration;
  clients: {
    get(id: string): Promise<Client | undefined>;
    matchAll(which: { type: 'window'; includeUncontrolled: true }): Promise<readonly Client[]>;
    claim(): Promise<void>;
  };
  importScripts(path: string): void;
  addEventListener(type: 'install' | 'activate', listener: (event: Waiting) => void): void;
  addEventListener(type: 'fetch', listener: (event: Asked) => void): void;
}

/** How long a page waits for the server's word on its version [ms]; assumption. */
const PATIENCE = 2000;
/** Files fetched at once; assumption. */
const AT_ONCE = 6;
/** The entry of a cache that is complete. */
const COMPLETE = 'complete';

const scope = globalThis as unknown as OfflineScope;
scope.importScripts(LIST_FILE);
const { version, files } = scope.OFFLINE;
const folder = new URL('.', scope.location.href).href;
const opened = (): Promise<Cache> => caches.open(cacheName(version));

/** The path below the desk's folder, without its question; undefined for anything else. */
function pathOf(address: string): string | undefined {
  const { origin, pathname } = new URL(address);
  const place = `${origin}${pathname}`;
  return place.startsWith(folder) ? place.slice(folder.length) : undefined;
}

async function digestOf(bytes: ArrayBuffer): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Fetches one file into the cache. @throws Error if it is not the file of this version */
async function take(cache: Cache, path: string): Promise<void> {
  const answer = await fetch(path, { cache: 'no-cache' });
  if (!answer.ok) throw new Error(`${path} was not served (${answer.status})`);
  const bytes = await answer.arrayBuffer();
  if ((await digestOf(bytes)) !== files[path]) throw new Error(`${path} is of another version`);
  await cache.put(path, new Response(bytes, { headers: answer.headers }));
}

/** Fetches every file; a version that is not complete is not kept. */
async function install(): Promise<void> {
  const cache = await opened();
  if (await cache.match(COMPLETE)) return;
  const left = Object.keys(files);
  const line = async (): Promise<void> => {
    for (let path = left.shift(); path !== undefined; path = left.shift()) await take(cache, path);
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, line));
    await cache.put(COMPLETE, new Response(version));
  } catch (error) {
    left.length = 0;
    await caches.delete(cacheName(version));
    throw error;
  }
}

/** The page that started this worker is answered from now on; with others open, which may be older, each waits for its next load. */
async function activate(): Promise<void> {
  for (const name of outdated(await caches.keys(), version)) await caches.delete(name);
  const pages = await scope.clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (pages.length === 1) await scope.clients.claim();
}

/** True where the server answers with another version; a server that is silent has none. */
async function otherServed(): Promise<boolean> {
  try {
    const signal = AbortSignal.timeout(PATIENCE);
    const answer = await fetch(LIST_FILE, { cache: 'no-store', signal });
    const served = answer.ok ? versionIn(await answer.text()) : undefined;
    return served !== undefined && served !== version;
  } catch {
    return false;
  }
}

const kept = async (path: string): Promise<Response | undefined> => (await opened()).match(path);

/** A page of this version; or this worker goes, and the page is asked for again from the server. */
async function page(path: string): Promise<Response> {
  const answer = (await otherServed()) ? undefined : await kept(path);
  if (answer) return answer;
  await scope.registration.unregister();
  return new Response('', { headers: { 'Content-Type': 'text/html', Refresh: '0' } });
}

/** A part of a page. The panel of the spreadsheet program gets its own from the server. */
async function part(event: Asked, path: string): Promise<Response> {
  const client = await scope.clients.get(event.clientId);
  const from = client && pathOf(client.url);
  const isOurs = client?.type === 'worker' || (from !== undefined && isOfflinePage(from));
  if (!isOurs) return fetch(event.request);
  return (await kept(path)) ?? Response.error();
}

/** The bare address may lead to another page of the place it is served from; without a server, to the desk. */
const bare = (request: Request): Promise<Response> =>
  fetch(request).catch(() => Response.redirect(`${folder}desk.html`));

scope.addEventListener('install', (event) => event.waitUntil(install()));
scope.addEventListener('activate', (event) => event.waitUntil(activate()));
scope.addEventListener('fetch', (event) => {
  const { request } = event;
  const path = request.method === 'GET' ? pathOf(request.url) : undefined;
  if (path === undefined) return;
  if (request.mode !== 'navigate') {
    if (path in files) event.respondWith(part(event, path));
  } else if (path === '') event.respondWith(bare(request));
  else if (isOfflinePage(path) && path in files) event.respondWith(page(path));
});
