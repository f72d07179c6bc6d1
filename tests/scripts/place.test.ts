/** A built folder as it is handed out: for another address, over https, in a browser, looked at by verify. */
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:https';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { manifestFaults, folderReader } from '../../scripts/check-manifest.mjs';
import { stampText, writePlace } from '../../scripts/make-manifest.mjs';
import { certificatesIn, type Certificates } from '../../scripts/sideload.mjs';
import { placeFaults } from '../../scripts/verify-place.mjs';
import { folderSource, remembering, webSource } from '../../scripts/verify-sources.mjs';
import { root, started, type Started } from '../browser/started.js';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.xml': 'application/xml',
  '.wasm': 'application/wasm',
};

/** What stands for the program's own library, which is on a server the tests do not reach. */
const LIBRARY = `
  globalThis.associated = [];
  globalThis.CustomFunctions = { associate: (id) => associated.push(id) };
  globalThis.Office = { onReady: () => new Promise(() => {}) };
`;

const folder = mkdtempSync(join(tmpdir(), 'soakbook-place-'));
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  version: string;
};
let at: Started;
let secrets: Certificates;
let server: Server;
let base: string;

/** Any web server: files by their path, types by their endings, nothing else. */
function plainServer(headers: Readonly<Record<string, string>>): Promise<Server> {
  const made = createServer({ cert: secrets.cert, key: secrets.key }, (request, response) => {
    const path = new URL(request.url ?? '/', 'https://localhost').pathname;
    const file = join(folder, path.endsWith('/') ? `${path}index.html` : path);
    if (!existsSync(file)) return response.writeHead(404).end();
    const type = TYPES[extname(file)] ?? 'text/plain';
    return response.writeHead(200, { 'Content-Type': type, ...headers }).end(readFileSync(file));
  });
  return new Promise((resolve) => made.listen(0, '127.0.0.1', () => resolve(made)));
}
const addressOf = (of: Server): string => {
  const address = of.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port.');
  return `https://localhost:${address.port}`;
};

/** The built files for another place, as a build for it would write them. */
function placedAt(place: { base: string; namespace: string }): void {
  writePlace(root, folder, place);
  writeFileSync(join(folder, 'built.txt'), stampText(place));
}

beforeAll(async () => {
  at = await started();
  cpSync(join(root, 'dist'), folder, { recursive: true });
  secrets = await certificatesIn(join(folder, '.certificates'));
  server = await plainServer({ 'Access-Control-Allow-Origin': '*' });
  base = addressOf(server);
  placedAt({ base, namespace: 'SOAK' });
});

afterAll(async () => {
  server?.close();
  at?.server.close();
  await at?.browser.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('a built folder', () => {
  const faultsOf = (): Promise<string[]> => placeFaults(remembering(folderSource(folder)));

  it('has nothing wrong, as verify sees it', async () => {
    expect(await faultsOf()).toEqual([]);
  });

  it('names another place nowhere but where the host’s library is', () => {
    for (const name of ['manifest.xml', 'functions.json', 'functions-es.json'])
      expect(readFileSync(join(folder, name), 'utf8'), name).not.toContain('localhost:3000');
  });

  it('for another namespace is another add-in with an id of its own, the same each time', () => {
    const of = (namespace: string): string => {
      placedAt({ base, namespace });
      return readFileSync(join(folder, 'manifest.xml'), 'utf8');
    };
    const [first, again, real] = [of('SOAKTEST'), of('SOAKTEST'), of('SOAK')];
    const id = (text: string): string => /<Id>(.*)<\/Id>/.exec(text)?.[1] ?? '';
    expect(again).toBe(first);
    expect(id(first)).not.toBe(id(real));
    expect(first).toContain('DefaultValue="Soakbook (SOAKTEST)"');
    expect(real).toContain('<DisplayName DefaultValue="Soakbook"');
    const read = folderReader(folder);
    expect(manifestFaults(first, { base, namespace: 'SOAKTEST', version, read })).toEqual([]);
  });

  it.each<[what: string, file: string, change: (text: string) => string, sentence: string]>([
    [
      'a function that is described and not there',
      'functions.json',
      (text) => text.replace('"id": "BAG_HOLE"', '"id": "BAG_HOLES"'),
      'functions.json describes BAG_HOLES, which functions.js lacks.',
    ],
    [
      'a translation with another parameter',
      'functions-es.json',
      (text) => text.replace('"name": "holes"', '"name": "agujeros"'),
      'functions-es.json describes other functions or parameters than functions.json.',
    ],
    [
      'a page that asks another place',
      'help/index.html',
      (text) => text.replace('</body>', '<img src="https://elsewhere.example/dot.png" /></body>'),
      'help/index.html asks another place for https://elsewhere.example/dot.png.',
    ],
    [
      'a page without its policy',
      'index.html',
      (text) => text.replace('Content-Security-Policy', 'Content-Language'),
      'index.html carries no content security policy.',
    ],
    [
      'a page that asks for a file that is not there',
      'taskpane.html',
      (text) => text.replace('src="functions.js"', 'src="fns.js"'),
      'fns.js is missing; taskpane.html asks for it.',
    ],
    [
      'functions that do not run',
      'functions.js',
      (text) => `document.title;${text}`,
      'functions.js does not run: document is not defined',
    ],
    [
      'a manifest of another version',
      'manifest.xml',
      (text) => text.replace(/<Version>.*</, '<Version>9.9.9.0<'),
      `manifest.xml:7: <Version> is 9.9.9.0; package.json makes it ${version}.0.`,
    ],
  ])('verify reports %s', async (_, file, change, sentence) => {
    const path = join(folder, file);
    const before = readFileSync(path, 'utf8');
    expect(change(before)).not.toBe(before);
    writeFileSync(path, change(before));
    try {
      expect(await faultsOf()).toContain(sentence);
    } finally {
      writeFileSync(path, before);
    }
  });

  it('is no finished build without its stamp', async () => {
    const empty = mkdtempSync(join(tmpdir(), 'soakbook-empty-'));
    const faults = await placeFaults(remembering(folderSource(empty)));
    rmSync(empty, { recursive: true });
    expect(faults).toEqual([`${empty} holds no finished build: built.txt is missing.`]);
  });
});

describe('an address', () => {
  const ca = (): string => secrets.ca.toString('utf8');

  it('that any web server hands out has nothing wrong, as verify sees it', async () => {
    const source = remembering(webSource(base, { ca: ca() }));
    expect(await placeFaults(source, base)).toEqual([]);
    expect(source.count()).toBeGreaterThan(70);
    source.close();
  });

  it('whose server keeps others out, or forbids frames, is reported', async () => {
    const strict = await plainServer({ 'X-Frame-Options': 'DENY', 'Cache-Control': 'no-store' });
    const address = addressOf(strict);
    const source = remembering(webSource(address, { ca: ca() }));
    const faults = await placeFaults(source, address);
    source.close();
    strict.close();
    expect(faults).toEqual(
      expect.arrayContaining([
        `These files were built for ${base}, not for ${address}; build them for it.`,
        'functions.json comes without "Access-Control-Allow-Origin: *"; the program on the web cannot read it.',
        'taskpane.html comes with a header that forbids frames; the program on the web shows it in one.',
        'assets/icon-32.png comes with no-store; icons that may not be kept are not shown.',
      ]),
    );
  });

  it('whose certificate nobody trusts is refused with a sentence', async () => {
    const source = remembering(webSource(base));
    await expect(placeFaults(source, base)).rejects.toThrow(/built\.txt cannot be read: .*verif/);
    source.close();
  });
});

describe('the pages over https', () => {
  /** Opens a page and gathers what it complains of; the certificate is the tests’ own, so it is not looked at. */
  async function opened(path: string): Promise<{ page: Page; complaints: string[] }> {
    const context = await at.browser.newContext({ ignoreHTTPSErrors: true });
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('requestfailed', (request) => complaints.push(`failed: ${request.url()}`));
    await page.route(
      (url) => url.origin !== base,
      (route) =>
        route.request().url().endsWith('/office.js')
          ? route.fulfill({ contentType: 'text/javascript', body: LIBRARY })
          : route.abort(),
    );
    await page.goto(`${base}/${path}`, { waitUntil: 'load' });
    return { page, complaints };
  }

  it('the panel loads its functions under its policy without a complaint', async () => {
    const { page, complaints } = await opened('taskpane.html');
    const names = await page.evaluate(
      () => (globalThis as unknown as { associated: string[] }).associated,
    );
    const described = JSON.parse(readFileSync(join(folder, 'functions.json'), 'utf8')) as {
      functions: { id: string }[];
    };
    expect([...names].sort()).toEqual(described.functions.map(({ id }) => id).sort());
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it.each(['', 'help/index.html', 'help/BAG_HOURS.html', 'docs/install.html', 'docs/web.html'])(
    'the page "%s" shows its text under its policy without a complaint',
    async (path) => {
      const { page, complaints } = await opened(path);
      expect((await page.locator('main').innerText()).length).toBeGreaterThan(100);
      expect(complaints).toEqual([]);
      await page.context().close();
    },
  );
});
