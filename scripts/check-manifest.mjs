/**
 * Checks a manifest without any network: order, resources, files, icon sizes, version, namespace. Each fault is a
 * line and a sentence.
 *
 *   node scripts/check-manifest.mjs     manifest.xml and dist/manifest.xml against dist/
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { fileFaults } from './check-manifest-files.mjs';
import { schemaFaults } from './check-manifest-schema.mjs';
import { valueFaults } from './check-manifest-values.mjs';
import { ManifestFault, parseXml } from './check-manifest-xml.mjs';
import { DEVELOPMENT, readStamp } from './make-manifest.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');

/** Reads files of a folder by their path below it; undefined where there is none. */
export const folderReader = (folder) => (path) => {
  const file = join(folder, path);
  return existsSync(file) && statSync(file).isFile() ? readFileSync(file) : undefined;
};

/**
 * Every fault of a manifest, in the order of its lines.
 *
 * @param {string} source - the manifest's text
 * @param {{ version: string, namespace: string, base: string, read: (path: string) => Buffer | undefined }} project
 *   package version, namespace, base address, and the files below it
 * @returns {{ line: number, sentence: string }[]}
 */
export function manifestFaults(source, project) {
  let root;
  try {
    root = parseXml(source);
  } catch (error) {
    if (!(error instanceof ManifestFault)) throw error;
    const sentence = `The manifest is not well formed: ${error.message}`;
    return [{ line: error.line, sentence }];
  }
  const values = valueFaults(root, project);
  return [...schemaFaults(root), ...values.faults, ...fileFaults(root, values.resources, project)]
    .map(([line, sentence]) => ({ line, sentence }))
    .sort((a, b) => a.line - b.line);
}

function main() {
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  const dist = join(ROOT, 'dist');
  const read = folderReader(dist);
  const checks = [
    ['manifest.xml', join(ROOT, 'manifest.xml'), DEVELOPMENT],
    ['dist/manifest.xml', join(dist, 'manifest.xml'), readStamp(ROOT)],
  ];
  let found = 0;
  for (const [name, file, settings] of checks) {
    if (settings === undefined || !existsSync(file)) {
      process.stderr.write(`${name} is missing; run npm run build.\n`);
      found++;
      continue;
    }
    const { base, namespace } = settings;
    const source = readFileSync(file, 'utf8');
    const faults = manifestFaults(source, { version, namespace, base, read });
    for (const { line, sentence } of faults) process.stderr.write(`${name}:${line}: ${sentence}\n`);
    if (faults.length === 0) process.stdout.write(`${name} agrees with the project at ${base}.\n`);
    found += faults.length;
  }
  return found === 0 ? 0 : 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = main();
