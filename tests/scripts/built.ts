/** The built files, for tests that open no browser. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isStale } from '../../scripts/build.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** A file of dist/ as text; builds first what is stale. */
export function builtText(...path: string[]): string {
  if (isStale(root)) {
    const { status } = spawnSync(process.execPath, ['scripts/build.mjs'], { cwd: root, stdio: 'inherit' }); // prettier-ignore
    if (status !== 0) throw new Error(`The build ended with ${status}.`);
  }
  return readFileSync(join(root, 'dist', ...path), 'utf8');
}
