/** The manifest's own checker: nothing wrong with ours, one fault found in each of many broken ones. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { folderReader, manifestFaults } from '../../scripts/check-manifest.mjs';
import { DEVELOPMENT, manifestFor } from '../../scripts/make-manifest.mjs';
import { BROKEN } from './broken-manifests.js';
import { builtText } from './built.js';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  version: string;
};
const source = readFileSync(join(root, 'manifest.xml'), 'utf8');
builtText('manifest.xml');
const read = folderReader(join(root, 'dist'));
const faultsIn = (text: string, place = DEVELOPMENT): { line: number; sentence: string }[] =>
  manifestFaults(text, { ...place, version, read });

/** The line on which a text first stands. */
const lineOf = (text: string, part: string): number => {
  const at = text.indexOf(part);
  expect(at, `"${part}" is in the broken manifest`).toBeGreaterThan(-1);
  return text.slice(0, at).split('\n').length;
};

describe('the manifest check', () => {
  it('finds nothing wrong with the development variant', () => {
    expect(faultsIn(source)).toEqual([]);
  });

  it('finds nothing wrong with the production variant', () => {
    const place = { base: 'https://example.com/soakbook', namespace: 'SOAK' };
    expect(faultsIn(manifestFor(source, place), place)).toEqual([]);
  });

  it.each(BROKEN)('reports $name, with its line and no other fault', (broken) => {
    const text = source.replace(broken.from, broken.to);
    expect(text, 'the change found its place').not.toBe(source);
    const faults = faultsIn(text);
    expect(faults.map((fault) => fault.sentence)).toEqual([broken.sentence]);
    expect(faults[0]?.line).toBe(lineOf(text, broken.at));
  });

  it('knows at least 25 faults by a broken manifest each', () => {
    expect(BROKEN.length).toBeGreaterThanOrEqual(25);
    expect(new Set(BROKEN.map(({ sentence }) => sentence)).size).toBe(BROKEN.length);
  });

  it('says both faults of a manifest that has two', () => {
    const text = source
      .replace('DefaultValue="SOAK"', 'DefaultValue="SOAKS"')
      .replace('lifetime="long"', 'lifetime="short"');
    expect(faultsIn(text).map(({ sentence }) => sentence)).toEqual([
      'The shared <Runtime> must have lifetime="long".',
      "The functions' namespace is SOAKS; it must be SOAK.",
    ]);
  });

  it('says which version package.json asks for', () => {
    const text = source.replace(/<Version>.*?<\/Version>/, '<Version>9.9.9.0</Version>');
    expect(faultsIn(text)).toEqual([
      {
        line: lineOf(text, '<Version>'),
        sentence: `<Version> is 9.9.9.0; package.json makes it ${version}.0.`,
      },
    ]);
  });
});
