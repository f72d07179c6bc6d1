import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { FUNCTIONS_LIMIT, functionsSize } from '../../scripts/build.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

it('the functions alone stay below 60 kB, compressed', () => {
  expect(FUNCTIONS_LIMIT).toBeLessThanOrEqual(60_000);
  expect(functionsSize(root)).toBeLessThanOrEqual(FUNCTIONS_LIMIT);
});
