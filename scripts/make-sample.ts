/** Writes sample-workbooks/ anew. Run: npx tsx scripts/make-sample.ts */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { sampleFiles } from './sample-files.js';

const FOLDER = join(import.meta.dirname, '..', 'sample-workbooks');

const { files, said } = await sampleFiles();
for (const [name, data] of files) {
  mkdirSync(dirname(join(FOLDER, name)), { recursive: true });
  writeFileSync(join(FOLDER, name), data);
}
console.log(said.join('\n'));
