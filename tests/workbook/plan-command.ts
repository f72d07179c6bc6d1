/** The plan command as a person runs it, in a folder of its own. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach } from 'vitest';
import { run } from '../../src/cli/plan.js';
import { dayOf } from '../../src/engine/dates.js';

/** A folder made anew for each test of the file that asks for it. */
export function scratchFolder(): {
  readonly path: string;
  inside(name: string, content?: string | Uint8Array): string;
} {
  let path = '';
  beforeEach(() => void (path = mkdtempSync(join(tmpdir(), 'soak-cli-'))));
  afterEach(() => rmSync(path, { recursive: true, force: true }));
  return {
    get path() {
      return path;
    },
    inside(name, content) {
      const file = join(path, name);
      if (content !== undefined) writeFileSync(file, content);
      return file;
    },
  };
}

/** Runs `npm run plan -- …argv` in this process. */
export async function planCommand(
  ...argv: string[]
): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' };
  const code = await run(argv, {
    out: (text) => (said.out += text),
    err: (text) => (said.err += text),
    today: dayOf(2027, 3, 15),
  });
  return { code, ...said };
}
