/** Finds a Chromium-based browser for the browser tests; on Debian as root it installs one. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { posix, win32 } from 'node:path';
import { fileURLToPath } from 'node:url';

const NAMES = {
  linux: [
    'chromium',
    'chromium-browser',
    'google-chrome',
    'google-chrome-stable',
    'microsoft-edge',
  ],
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ],
  win32: [
    'Google\\Chrome\\Application\\chrome.exe',
    'Chromium\\Application\\chrome.exe',
    'Microsoft\\Edge\\Application\\msedge.exe',
  ],
};

/** The places a browser may be, best first. */
export function candidates(platform, env) {
  if (platform === 'darwin') return NAMES.darwin;
  if (platform === 'win32') {
    const roots = [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA].filter(Boolean);
    return NAMES.win32.flatMap((name) => roots.map((root) => win32.join(root, name)));
  }
  const folders = (env.PATH ?? '').split(':').filter(Boolean);
  return NAMES.linux.flatMap((name) => folders.map((folder) => posix.join(folder, name)));
}

/**
 * The browser's path, or undefined. CHROME_PATH wins; one that does not exist is an error, because a
 * person who set it wants that browser and no other.
 */
export function findBrowser({
  platform = process.platform,
  env = process.env,
  exists = existsSync,
} = {}) {
  const wished = env.CHROME_PATH;
  if (wished !== undefined && wished !== '') {
    if (exists(wished)) return wished;
    throw new Error(`CHROME_PATH is set to ${wished}, but there is no such file.`);
  }
  return candidates(platform, env).find((path) => exists(path));
}

/** What a person should do, by platform. */
export function adviceFor(platform) {
  if (platform === 'darwin' || platform === 'win32') {
    return 'The browser tests need Chrome, Chromium or Edge. Install one of them, or set CHROME_PATH to its program file.';
  }
  return 'The browser tests need Chromium. On Debian or Ubuntu run "sudo apt-get install chromium", or set CHROME_PATH to a Chrome, Chromium or Edge program file.';
}

function installOnDebian() {
  process.stderr.write('No browser found; installing the chromium package …\n');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    if (spawnSync('apt-get', args, { stdio: ['ignore', 2, 2], env }).status !== 0) return;
  }
}

function main() {
  try {
    let path = findBrowser();
    const isRoot = process.getuid?.() === 0;
    if (path === undefined && isRoot && existsSync('/usr/bin/apt-get')) {
      installOnDebian();
      path = findBrowser();
    }
    if (path === undefined) throw new Error(adviceFor(process.platform));
    process.stderr.write(`Browser for the tests: ${path}\n`);
    return 0;
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    return 1;
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = main();
