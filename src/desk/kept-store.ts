/** One workbook in the browser's own store for this page's address. Several pages may be at it: each writing is all or nothing. */
import { partKey, type KeptHead } from './kept-form.js';

const DATABASE = 'soakbook';
const HEADS = 'head';
const PARTS = 'parts';
/** There is one kept workbook: the last. */
const THE_ONE = 'kept';

export interface Kept {
  head: unknown;
  parts: Map<string, unknown>;
}

/** What a writing changes: the head, and all texts of some sheets and models. */
export interface Writing {
  head: KeptHead;
  /** texts by sheet or model, in order */
  texts: ReadonlyMap<string, readonly string[]>;
  /** stamp of the head that must stand there for the rest to be right; undefined: these are all texts there are */
  after: string | undefined;
  /** the page may be left before the answer to a first text would come */
  atOnce: boolean;
}

export interface KeptStore {
  head(): Promise<unknown>;
  /** head and texts of one moment; undefined where nothing is kept */
  all(): Promise<Kept | undefined>;
  /** @returns false, with nothing written, where another head stands there than was expected */
  write(writing: Writing): Promise<boolean>;
  clear(): Promise<void>;
}

const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () =>
      reject(request.error ?? new Error('The browser’s store gave no reason.'));
  });

const done = (transaction: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    const failed = (): void =>
      reject(transaction.error ?? new DOMException('The writing was broken off.', 'AbortError'));
    transaction.oncomplete = () => resolve();
    transaction.onabort = failed;
    transaction.onerror = failed;
  });

/** Everything that belongs to a sheet or model. */
const allOf = (key: string): IDBKeyRange => IDBKeyRange.bound(`${key}/`, `${key}/\uffff`);

async function opened(): Promise<IDBDatabase> {
  // some browsers have none where nothing may be stored
  if (!('indexedDB' in globalThis) || (globalThis.indexedDB as IDBFactory | null) === null)
    throw new DOMException('This browser has no store for pages.', 'NotAllowedError');
  const request = indexedDB.open(DATABASE, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore(HEADS);
    request.result.createObjectStore(PARTS);
  };
  return answer(request);
}

/** The store is opened with the first question, and stays open so that a page that is left can still write. */
export function keptStore(): KeptStore {
  let database: Promise<IDBDatabase> | undefined;
  const stores = async (mode: IDBTransactionMode) => {
    database ??= opened().then((it) => {
      const closed = (): void => void (database = undefined);
      it.onclose = closed;
      it.onversionchange = () => {
        it.close();
        closed();
      };
      return it;
    });
    try {
      const transaction = (await database).transaction([HEADS, PARTS], mode);
      const [heads, parts] = [HEADS, PARTS].map((name) => transaction.objectStore(name));
      return { heads: heads!, parts: parts!, transaction };
    } catch (error) {
      database = undefined;
      throw error;
    }
  };
  return {
    async head() {
      const { heads } = await stores('readonly');
      return answer<unknown>(heads.get(THE_ONE));
    },
    async all() {
      const { heads, parts } = await stores('readonly');
      const [head, keys, texts] = await Promise.all([
        answer<unknown>(heads.get(THE_ONE)),
        answer(parts.getAllKeys()),
        answer<unknown[]>(parts.getAll()),
      ]);
      if (head === undefined) return undefined;
      return { head, parts: new Map(keys.map((key, i) => [String(key), texts[i]])) };
    },
    async write({ head, texts, after, atOnce }) {
      const { heads, parts, transaction } = await stores('readwrite');
      const finished = done(transaction);
      // what fails is told by the transaction
      finished.catch(() => undefined);
      if (after === undefined) parts.clear();
      else {
        const there = (await answer<unknown>(heads.get(THE_ONE))) as
          { stamp?: unknown } | undefined;
        if (there?.stamp !== after) {
          transaction.abort();
          return false;
        }
        for (const key of texts.keys()) parts.delete(allOf(key));
      }
      for (const [key, pieces] of texts)
        for (const [i, text] of pieces.entries()) {
          const put = parts.put(text, partKey(key, i));
          // handing over megabytes in one go would hold up the page
          if (!atOnce) await answer(put);
        }
      heads.put(head, THE_ONE);
      transaction.commit();
      await finished;
      return true;
    },
    async clear() {
      const { heads, parts, transaction } = await stores('readwrite');
      heads.clear();
      parts.clear();
      await done(transaction);
    },
  };
}
