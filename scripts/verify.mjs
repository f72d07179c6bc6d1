/**
 * Checks a place of service: a built folder, or the address it is handed out from.
 *
 *   node scripts/verify.mjs                                  the folder dist
 *   node scripts/verify.mjs FOLDER
 *   node scripts/verify.mjs https://example.com/soakbook     what the server really hands out
 *   node scripts/verify.mjs https://… --ca FILE              trusting this certificate authority besides
 *
 * Ends with 0 when nothing is wrong, 1 with a sentence for each fault, 2 when it could not look.
 */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { settingsFrom } from './make-manifest.mjs';
import { placeFaults } from './verify-place.mjs';
import { folderSource, remembering, webSource } from './verify-sources.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');

/** Place and certificate from the command line. @throws Error saying what is accepted */
export function readArguments(args) {
  const places = [];
  let ca;
  for (let i = 0; i < args.length; i++) {
    if (args[i] === '--ca') {
      const file = args[++i];
      if (file === undefined || !existsSync(file))
        throw new Error(`--ca needs a file that exists; got ${file ?? 'nothing'}.`);
      ca = readFileSync(file, 'utf8');
    } else if (args[i].startsWith('--'))
      throw new Error(`"${args[i]}" is no option of verify; there is --ca FILE.`);
    else places.push(args[i]);
  }
  if (places.length > 1) throw new Error('Give one folder or one address.');
  return { place: places[0] ?? join(ROOT, 'dist'), ca };
}

async function main() {
  const { place, ca } = readArguments(process.argv.slice(2));
  const onWeb = /^[a-z]+:\/\//i.test(place);
  const address = onWeb ? settingsFrom({ SOAKBOOK_BASE: place }).base : undefined;
  if (!onWeb && !existsSync(place)) throw new Error(`There is no folder ${place}.`);
  const source = remembering(onWeb ? webSource(address, { ca }) : folderSource(place));
  const faults = await placeFaults(source, address);
  source.close();
  for (const fault of faults) process.stderr.write(`${fault}\n`);
  const looked = `${source.count()} files looked at in ${source.name}`;
  process.stdout.write(
    faults.length === 0 ? `${looked}: nothing wrong.\n` : `${looked}: ${faults.length} faults.\n`,
  );
  return faults.length === 0 ? 0 : 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    process.exitCode = await main();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 2;
  }
}
