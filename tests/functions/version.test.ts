import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { soakVersion } from '../../src/functions/crew.js';

it('SOAK_VERSION is the version of the package, as a file and as the lock has it', () => {
  const versionIn = (file: string): unknown =>
    (
      JSON.parse(readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8')) as {
        version: string;
      }
    ).version;
  expect(soakVersion()).toMatch(/^\d+\.\d+\.\d+$/);
  expect(soakVersion()).toBe(versionIn('package.json'));
  expect(soakVersion()).toBe(versionIn('package-lock.json'));
});
