/** The committed sample workbooks are what the code of today builds. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { sampleFiles, type SampleFiles } from '../../scripts/sample-files.js';
import { SAMPLES } from './job.js';
import { unzip } from './ooxml/parts.js';

const AGAIN = 'sample-workbooks/ is not what the code builds; run: npx tsx scripts/make-sample.ts';

let made: SampleFiles['files'];
beforeAll(async () => {
  made = (await sampleFiles()).files;
});

const bytesOf = (data: string | Uint8Array): Uint8Array =>
  typeof data === 'string' ? new TextEncoder().encode(data) : data;

/**
 * Where two files differ; workbooks are compared part by part, for how tightly a zip is packed is the business of the
 * machine it was packed on.
 */
function differences(name: string, a: Uint8Array, b: Uint8Array): string[] {
  if (!name.endsWith('.xlsx')) return Buffer.compare(a, b) === 0 ? [] : [name];
  const [left, right] = [unzip(a), unzip(b)];
  return [...new Set([...left.keys(), ...right.keys()])]
    .filter((part) => !left.has(part) || !right.has(part) || Buffer.compare(left.get(part)!, right.get(part)!) !== 0)
    .map((part) => `${name}: ${part}`);
} // prettier-ignore

const inFolder = (): string[] =>
  readdirSync(SAMPLES, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(SAMPLES.length + 1))
    .map((name) => name.replaceAll('\\', '/'))
    .sort();

describe('the sample workbooks', () => {
  it('are all made, and nothing else lies beside them', () => {
    expect(inFolder(), AGAIN).toEqual([...made.keys()].sort());
  });

  it('hold what the code of today builds', () => {
    const different = [...made].flatMap(([name, data]) =>
      existsSync(join(SAMPLES, name))
        ? differences(name, bytesOf(data), readFileSync(join(SAMPLES, name)))
        : [`${name}: missing`],
    );
    expect(different, AGAIN).toEqual([]);
  });

  it('come out the same when they are made twice', async () => {
    const again = (await sampleFiles()).files;
    expect([...again.keys()]).toEqual([...made.keys()]);
    for (const [name, data] of made)
      expect(Buffer.compare(bytesOf(data), bytesOf(again.get(name)!)), name).toBe(0);
  });

  it('are compared in earnest: one changed part is found', () => {
    const [plan, log] = ['harbour-row-plan.xlsx', 'season-log.xlsx'].map((n) => bytesOf(made.get(n)!)); // prettier-ignore
    expect(differences('x.xlsx', plan!, log!)).toContain('x.xlsx: /xl/workbook.xml');
    expect(differences('x.csv', bytesOf('a'), bytesOf('b'))).toEqual(['x.csv']);
    expect(differences('x.xlsx', log!, log!)).toEqual([]);
  });
});
