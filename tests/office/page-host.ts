/** The stand-in for office.js as the text of a script, for pages opened in a browser. */
import { join } from 'node:path';
import { build } from 'esbuild';
import type { FakeHost, Start } from './fake-host.js';

export type { FakeHost, Start, StartSheet } from './fake-host.js';

/** What a page with this script has as a global, for `page.evaluate`. */
export interface FakePage {
  fakeHost: FakeHost;
}

let bundled: Promise<string> | undefined;

async function bundle(): Promise<string> {
  const made = await build({
    entryPoints: [join(import.meta.dirname, 'page-entry.ts')],
    bundle: true,
    format: 'iife',
    target: 'es2022',
    write: false,
  });
  return made.outputFiles[0]!.text;
}

/**
 * JavaScript to give a page in place of office.js, with a workbook open:
 *
 *   await page.route('https://**\/*', (route) => route.request().url().endsWith('/office.js')
 *     ? route.fulfill({ contentType: 'text/javascript', body: script }) : route.abort());
 *
 * `globalThis.fakeHost` of that page lets a test read cells, sheets and syncs, type, and choose cells.
 */
export async function officeScript(start: Start): Promise<string> {
  bundled ??= bundle();
  // a script element must not end inside a text of a cell
  const json = JSON.stringify(start).replaceAll('<', '\\u003c');
  return `globalThis.fakeStart = ${json};\n${await bundled}`;
}
