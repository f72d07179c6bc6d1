/** Where verify reads files from: a folder, or an https address as any visitor sees it. */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { Agent, get } from 'node:https';
import { join } from 'node:path';

const LONGEST_WAIT = 20_000;

/** Files of a folder; no headers, because nothing was handed out. */
export const folderSource = (folder) => ({
  name: folder,
  load: async (path) => {
    const file = join(folder, path);
    if (!existsSync(file) || !statSync(file).isFile()) return undefined;
    return { bytes: readFileSync(file), headers: undefined };
  },
  close: () => {},
});

function fetched(url, agent) {
  return new Promise((resolve, reject) => {
    const request = get(url, { agent, timeout: LONGEST_WAIT }, (response) => {
      const chunks = [];
      response.on('data', (chunk) => chunks.push(chunk));
      response.on('error', reject);
      response.on('end', () =>
        resolve(
          response.statusCode === 200
            ? { bytes: Buffer.concat(chunks), headers: response.headers }
            : undefined,
        ),
      );
    });
    request.on('timeout', () =>
      request.destroy(new Error(`no answer within ${LONGEST_WAIT / 1000} s`)),
    );
    request.on('error', (error) => reject(new Error(`${url} cannot be read: ${error.message}`)));
  });
}

/**
 * Files below an https address.
 *
 * @param {string} base - without a slash at its end
 * @param {{ ca?: string }} options - a certificate authority to trust besides, as PEM
 */
export function webSource(base, { ca } = {}) {
  const agent = new Agent({ keepAlive: true, maxSockets: 6, ...(ca === undefined ? {} : { ca }) });
  return {
    name: base,
    load: (path) => fetched(`${base}/${path.split('/').map(encodeURIComponent).join('/')}`, agent),
    close: () => agent.destroy(),
  };
}

/** The same source, each file asked for once. */
export function remembering(source) {
  const known = new Map();
  return {
    ...source,
    load: (path) => {
      if (!known.has(path)) known.set(path, source.load(path));
      return known.get(path);
    },
    count: () => known.size,
  };
}
