import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { isStale } from '../../scripts/build.mjs';
import { DEVELOPMENT, stampText } from '../../scripts/make-manifest.mjs';
import { staleReason } from '../../scripts/prepare.mjs';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'soakbook-prepare-'));
  mkdirSync(join(root, 'node_modules'));
});
afterEach(() => rmSync(root, { recursive: true }));

const lock = (packages: Record<string, unknown>, file = 'package-lock.json'): void =>
  writeFileSync(join(root, file), JSON.stringify({ packages }));
const INSTALLED = join('node_modules', '.package-lock.json');

describe('whether packages must be installed', () => {
  it('yes when none are', () => {
    lock({ 'node_modules/a': { version: '1.0.0' } });
    expect(staleReason(root)).toBe('packages are not installed yet');
  });

  it('no when every package has the version of the lock; those of other platforms may be absent', () => {
    lock({ '': {}, 'node_modules/a': { version: '1.0.0' }, 'node_modules/b': { version: '2.0.0', optional: true } }); // prettier-ignore
    lock({ 'node_modules/a': { version: '1.0.0' } }, INSTALLED);
    expect(staleReason(root)).toBe(undefined);
  });

  it('yes when one is missing or has another version, and says which', () => {
    lock({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/b': { version: '2.0.0' } });
    lock({ 'node_modules/a': { version: '1.0.0' } }, INSTALLED);
    expect(staleReason(root)).toBe('node_modules/b is missing');
    lock({ 'node_modules/a': { version: '1.0.1' }, 'node_modules/b': { version: '2.0.0' } }, INSTALLED); // prettier-ignore
    expect(staleReason(root)).toBe('node_modules/a is 1.0.1; the lock asks for 1.0.0');
  });
});

describe('whether dist must be built', () => {
  it('yes without a build, no after one, yes again when a source is newer', () => {
    const source = join(root, 'src', 'deep', 'a.ts');
    mkdirSync(join(root, 'src', 'deep'), { recursive: true });
    writeFileSync(source, '');
    expect(isStale(root)).toBe(true);
    mkdirSync(join(root, 'dist'));
    const stamp = join(root, 'dist', 'built.txt');
    writeFileSync(stamp, stampText(DEVELOPMENT));
    const later = new Date(Date.now() + 10_000);
    utimesSync(stamp, later, later);
    expect(isStale(root, DEVELOPMENT)).toBe(false);
    const evenLater = new Date(Date.now() + 20_000);
    utimesSync(source, evenLater, evenLater);
    expect(isStale(root, DEVELOPMENT)).toBe(true);
  });

  it('yes when it was built for another place, or by something that did not say for which', () => {
    mkdirSync(join(root, 'dist'));
    const stamp = join(root, 'dist', 'built.txt');
    writeFileSync(stamp, stampText({ base: 'https://example.com', namespace: 'SOAK' }));
    expect(isStale(root, { base: 'https://example.com', namespace: 'SOAK' })).toBe(false);
    expect(isStale(root, { base: 'https://example.com', namespace: 'SOAK2' })).toBe(true);
    expect(isStale(root, DEVELOPMENT)).toBe(true);
    writeFileSync(stamp, '2026-01-01T00:00:00.000Z\n');
    expect(isStale(root, DEVELOPMENT)).toBe(true);
  });
});
