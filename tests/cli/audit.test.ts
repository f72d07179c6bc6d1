/** The audit command: a log in, its questions out. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { auditSheets, auditWords, runAudit } from '../../src/cli/audit.js';

const LOG = [
  ['Tree', 'Date', 'Arrived', 'Left', 'Crew', 'Truck', 'Applied (gal)', 'Source or meter'],
  ['T1', '2027-06-07', '7:00', '7:06', '1', 'Truck', 20, 'H-7'],
  ['T2', '2027-06-07', '7:08', '7:14', '1', 'Truck', 20, 'H-7'],
  ['T2', '2027-06-07', '9:08', '9:14', '1', 'Truck', 20, ''],
  ['T3', '2027-06-08', '7:08', '7:09', '1', 'Truck', 200, 'H-7'],
];
const TREES = [
  ['Tree id', 'Status', 'Since'],
  ['T1', '', ''],
  ['T2', '', ''],
  ['T3', 'removed', '2027-05-01'],
];
const KIT = [
  ['Device', 'Family', 'Volume (gal)', 'Flow (gpm)'],
  ['Truck', 'tanker', 500, 12],
];
const METERS = [
  ['Meter', 'From', 'To', 'Begin', 'End', 'Unit'],
  ['H-7', '2027-06-01', '2027-06-30', 100, 345, 'gal'],
];
const CONTRACT = [
  ['Applies to', 'Least water (gal)', 'Water per'],
  ['all', 15, 'visit'],
];
const BOOK = [
  { name: 'Log', cells: LOG },
  { name: 'Trees', cells: TREES },
  { name: 'Kit', cells: KIT },
  { name: 'Meters', cells: METERS },
  { name: 'Contract', cells: CONTRACT },
];

describe('an audit', () => {
  const lines = auditWords(auditSheets(BOOK));
  it('counts, then asks row by row', () => {
    expect(lines[0]).toBe('4 visits, 3 questions about 2 rows. A question is not an accusation.');
    expect(lines).toContain(
      'Row 4, T2, 2027-06-07: Row 3 has T2 on the same day already. Was it watered twice?',
    );
    expect(lines.find((l) => l.includes('removed since 2027-05-01'))).toMatch(/^Row 5, T3/);
    expect(lines.find((l) => l.includes('more than the pump gives'))).toMatch(/^Row 5, T3/);
  });
  it('sets the meter beside the log, and names what came through none', () => {
    expect(lines).toContain('Meter H-7 from 2027-06-01: 245 gal through it, 240 gal in the log.');
    expect(lines).toContain('20 gal in 1 row came through no meter of the ledger.');
  });
  it('judges the contract', () => {
    expect(lines).toContain('Contract row 2: met.');
  });
  it('says what it needs', () => {
    expect(() => auditSheets([{ name: 'A', cells: [] }, { name: 'B', cells: [] }])).toThrow('there is no sheet Log; found are "A", "B"'); // prettier-ignore
    expect(() => auditSheets([{ name: 'Log', cells: LOG }])).toThrow('there is no list of trees');
  });
});

describe('the command', () => {
  const run = async (...args: string[]) => {
    const said = { out: '', err: '' };
    const code = await runAudit(args, {
      out: (t) => (said.out += t),
      err: (t) => (said.err += t),
    });
    return { code, ...said };
  };
  const folder = mkdtempSync(join(tmpdir(), 'audit-'));
  const csv = (name: string, rows: (string | number)[][]): string => {
    const path = join(folder, name);
    writeFileSync(path, rows.map((r) => r.join(',')).join('\n'));
    return path;
  };
  it('reads a log and a list of trees from text tables', async () => {
    const { code, out } = await run(csv('log.csv', LOG), '--trees', csv('trees.csv', TREES));
    expect(code).toBe(0);
    expect(out).toContain('The list calls T3 removed since 2027-05-01. What was watered?');
  });
  it('gives everything as JSON', async () => {
    const { out } = await run(csv('log.csv', LOG), '--trees', csv('trees.csv', TREES), '--json');
    expect((JSON.parse(out) as { flags: unknown[] }).flags.length).toBe(2);
  });
  it('refuses bad usage and files that are not there with a sentence', async () => {
    expect(await run()).toMatchObject({ code: 2, err: expect.stringContaining('Name one log.') });
    expect(await run('--all')).toMatchObject({
      code: 2,
      err: expect.stringContaining('no option --all'),
    });
    expect(await run('none.xlsx')).toMatchObject({
      code: 2,
      err: expect.stringContaining('there is no such file'),
    });
  });
});
