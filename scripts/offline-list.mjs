/** Lists the files the desk needs without its server, each with its digest; the offline worker keeps exactly these. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, sep } from 'node:path';

/** The panel of the spreadsheet program, its functions and the pages about installing need a server anyway. */
const NOT_KEPT =
  /^(taskpane\.|functions|manifest\.|index\.html|built\.txt|docs\/|offline-|.*\.map$|.*\.LEGAL\.txt$)/;

const digest = (bytes) => createHash('sha256').update(bytes).digest('hex');

function filesOf(folder) {
  return readdirSync(folder, { recursive: true })
    .filter((path) => statSync(join(folder, path)).isFile())
    .map((path) => path.split(sep).join('/'))
    .sort();
}

/** Path → SHA-256 of every file that is kept, and a version made from them and the worker itself. */
export function offlineList(folder) {
  const files = {};
  for (const path of filesOf(folder))
    if (!NOT_KEPT.test(path)) files[path] = digest(readFileSync(join(folder, path)));
  const worker = readFileSync(join(folder, 'offline-worker.js'));
  const version = digest(worker + JSON.stringify(files)).slice(0, 16);
  return { version, files };
}

/** Writes the list as a script: browsers look for a new worker in what it imports. */
export function writeOfflineList(folder) {
  const list = offlineList(folder);
  writeFileSync(
    join(folder, 'offline-files.js'),
    `globalThis.OFFLINE = ${JSON.stringify(list)};\n`,
  );
  return list;
}
