import { describe, expect, it } from 'vitest';
import { adviceFor, findBrowser } from '../../scripts/find-browser.mjs';

const only =
  (...paths: string[]) =>
  (path: string): boolean =>
    paths.includes(path);

describe('finding a browser', () => {
  it('takes CHROME_PATH before anything else', () => {
    const exists = only('/opt/my/browser', '/usr/bin/chromium');
    const env = { CHROME_PATH: '/opt/my/browser', PATH: '/usr/bin' };
    expect(findBrowser({ platform: 'linux', env, exists })).toBe('/opt/my/browser');
  });

  it('says so when CHROME_PATH names no file, instead of taking another browser', () => {
    const env = { CHROME_PATH: '/opt/gone', PATH: '/usr/bin' };
    expect(() =>
      findBrowser({ platform: 'linux', env, exists: only('/usr/bin/chromium') }),
    ).toThrow('CHROME_PATH is set to /opt/gone');
  });

  it('looks through PATH on Linux and prefers Chromium', () => {
    const exists = only('/usr/local/bin/google-chrome', '/usr/bin/chromium');
    const env = { PATH: '/usr/local/bin:/usr/bin' };
    expect(findBrowser({ platform: 'linux', env, exists })).toBe('/usr/bin/chromium');
  });

  it('knows the usual places on macOS and Windows', () => {
    const mac = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome';
    expect(findBrowser({ platform: 'darwin', env: {}, exists: only(mac) })).toBe(mac);
    const edge = 'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe';
    const env = { 'PROGRAMFILES(X86)': 'C:\\Program Files (x86)' };
    expect(findBrowser({ platform: 'win32', env, exists: only(edge) })).toBe(edge);
  });

  it('gives undefined when there is none, and advice that names what to install', () => {
    expect(findBrowser({ platform: 'linux', env: { PATH: '/usr/bin' }, exists: only() })).toBe(
      undefined,
    );
    expect(adviceFor('linux')).toContain('apt-get install chromium');
    expect(adviceFor('win32')).toContain('CHROME_PATH');
  });
});
