/** The built pages, served, and a browser to open them in. */
import { spawn } from 'node:child_process';
import type { Server } from 'node:http';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser } from 'playwright-core';
import { isStale } from '../../scripts/build.mjs';
import { findBrowser } from '../../scripts/find-browser.mjs';
import { serve } from '../../scripts/serve.mjs';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

export interface Started {
  server: Server;
  browser: Browser;
  url: string;
}

/**
 * Builds what is stale, serves dist/ and starts a browser.
 *
 * @param flags - for the browser, beside those it always gets
 */
export async function started(flags: readonly string[] = []): Promise<Started> {
  if (isStale(root))
    await new Promise<void>((resolve, reject) => {
      const child = spawn(process.execPath, ['scripts/build.mjs'], { cwd: root, stdio: 'inherit' });
      child.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`build: ${code}`))));
    });
  const executablePath = findBrowser();
  if (executablePath === undefined) throw new Error('No browser: run npm test, it looks for one.');
  const { server, url } = await serve(join(root, 'dist'), 0);
  const browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', ...flags],
  });
  return { server, browser, url };
}
