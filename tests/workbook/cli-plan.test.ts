import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { INVENTORY, SETUP } from './job.js';
import { planCommand as plan, scratchFolder } from './plan-command.js';

const folder = scratchFolder();
const { inside } = folder;

const GOOD =
  'Id,Species,Caliper (in),Planted,Site,Address,Tap\nA1,live oak,2,2027-02-01,Yard,12 Hawser Lane,yes\n';

describe('npm run plan', () => {
  it('writes the workbook, answers 1 for rows not planned, and says which', async () => {
    const out = inside('plan.xlsx');
    const { code, out: text, err } = await plan(INVENTORY, '--site', SETUP, '--out', out);
    expect(code).toBe(1);
    expect(text).toMatch(/Rows 60: planned 59, cannot be kept 0, not planned 1\./);
    expect(text).toMatch(/not planned: row 61/);
    expect(err).toMatch(/planned 59 of 59/);
    expect(readFileSync(out).subarray(0, 2).toString()).toBe('PK');
    expect(readdirSync(folder.path)).toEqual(['plan.xlsx']);
  });

  it('answers 0 when every row is planned', async () => {
    const { code } = await plan(
      inside('trees.csv', GOOD),
      '--site',
      SETUP,
      '--out',
      inside('p.xlsx'),
    );
    expect(code).toBe(0);
  });

  it('gives machines one line of JSON', async () => {
    const { out } = await plan(INVENTORY, '--site', SETUP, '--out', inside('p.xlsx'), '--json');
    const result = JSON.parse(out) as {
      rows: number;
      planned: number;
      notPlannedRows: { row: number }[];
    };
    expect(result).toMatchObject({ rows: 60, planned: 59, notPlanned: 1 });
    expect(result.notPlannedRows[0]!.row).toBe(61);
  });

  it('leaves a standing file as it is, and replaces it with --force only', async () => {
    const out = inside('p.xlsx', 'mine');
    const trees = inside('trees.csv', GOOD);
    const refused = await plan(trees, '--out', out);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/exists already and was left as it is; use --force/);
    expect(readFileSync(out, 'utf8')).toBe('mine');
    expect((await plan(trees, '--out', out, '--force')).code).toBe(0);
    expect(readFileSync(out).subarray(0, 2).toString()).toBe('PK');
  });

  it('never writes over the inventory, not even with --force', async () => {
    const trees = inside('trees.csv', GOOD);
    expect((await plan(trees, '--out', trees, '--force')).code).toBe(2);
    expect(readFileSync(trees, 'utf8')).toBe(GOOD);
  });

  it('leaves the old file whole, and nothing else behind, when the input fails', async () => {
    const out = inside('p.xlsx', 'mine');
    const trees = inside('trees.csv', GOOD);
    const site = inside(
      'site.json',
      JSON.stringify({
        weather: [
          ['Month', 'ET0 (in/day)'],
          [1, 0.1],
        ],
      }),
    );
    const { code, err } = await plan(trees, '--site', site, '--out', out, '--force');
    expect(code).toBe(2);
    expect(err).toMatch(/weather/i);
    expect(readFileSync(out, 'utf8')).toBe('mine');
    expect(readdirSync(folder.path).sort()).toEqual(['p.xlsx', 'site.json', 'trees.csv']);
  });

  it('answers 2 with a sentence naming the file for input it cannot read', async () => {
    const cases: [string[], RegExp][] = [
      [[inside('nothing.csv')], /nothing\.csv" cannot be read: there is no such file/],
      [[folder.path], /it is a folder/],
      [[inside('empty.csv', '')], /empty\.csv" is empty/],
      [[inside('report.csv', '%PDF-1.7')], /is a PDF/],
      [
        [inside('t.csv', GOOD), '--site', inside('bad.json', '{ not json')],
        /bad\.json" is neither a workbook nor JSON/,
      ],
      [
        [inside('t.csv', GOOD), '--site', inside('odd.json', '{"kit":"bags"}')],
        /"kit" in the site file must be a list/,
      ],
      [
        [inside('t.csv', GOOD), '--out', join(folder.path, 'no', 'p.xlsx')],
        /there is no such folder/,
      ],
    ];
    for (const [argv, sentence] of cases) {
      const { code, err } = await plan(
        ...argv,
        ...(argv.includes('--out') ? [] : ['--out', inside('p.xlsx')]),
      );
      expect(code, err).toBe(2);
      expect(err).toMatch(sentence);
    }
    expect(existsSync(inside('p.xlsx'))).toBe(false);
  });

  it('refuses switches it does not know, and missing names, with a sentence', async () => {
    const cases: [string[], RegExp][] = [
      [['a.csv', '--ics'], /--ics needs a value/],
      [['a.csv', '--colour'], /--colour is not a switch/],
      [['a.csv', '--out'], /--out needs a value/],
      [['a.csv', '--units', 'furlong'], /must be US or SI/],
      [[], /no inventory file was named/],
      [['a.csv', 'b.csv'], /name one inventory file/],
    ];
    for (const [argv, sentence] of cases) {
      const { code, err, out } = await plan(...argv);
      expect(code).toBe(2);
      expect(err).toMatch(sentence);
      expect(out).toBe('');
    }
  });

  it('plans from a workbook of its own as the site', async () => {
    const first = inside('first.xlsx');
    await plan(INVENTORY, '--site', SETUP, '--out', first);
    const a = await plan(INVENTORY, '--site', SETUP, '--out', inside('a.xlsx'), '--json');
    const b = await plan(INVENTORY, '--site', first, '--out', inside('b.xlsx'), '--json');
    const strip = (text: string) => ({
      ...(JSON.parse(text) as object),
      file: '',
      litres: 0,
      gallons: 0,
    });
    expect(strip(b.out)).toEqual(strip(a.out));
  });
});
