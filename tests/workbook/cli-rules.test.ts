/** `npm run plan -- FILE --rules FILE`. Common practice, no source. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { run } from '../../src/cli/plan.js';
import { dayOf } from '../../src/engine/dates.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { setupFromSheets } from '../../src/workbook/setup.js';
import { INVENTORY, SAMPLES, SETUP } from './job.js';

let folder: string;
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'soak-cli-'))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function plan(...argv: string[]): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' };
  const code = await run([INVENTORY, ...argv], {
    out: (text) => (said.out += text),
    err: (text) => (said.err += text),
    today: dayOf(2027, 3, 15),
  });
  return { code, ...said };
}

function inside(name: string, content?: string): string {
  const path = join(folder, name);
  if (content !== undefined) writeFileSync(path, content);
  return path;
}

const RULES = 'Means,Days,Hours,Verdict\nany,Mon Thu,before 10:00,allow\n';
const BROKEN = `${RULES}bagg,Mon,25:00-26:00,allow\n`;
const SENTENCE =
  'row 2: All addresses may water by any means on Monday and Thursday, before 10:00.';

describe('npm run plan with --rules', () => {
  it('says what it understood before it plans, and plans by it', async () => {
    const out = inside('p.xlsx');
    const { code, out: text } = await plan('--site', SETUP, '--rules', inside('r.csv', RULES), '--out', out); // prettier-ignore
    expect(code).toBe(1); // one row of the sample cannot be planned
    expect(text.indexOf(SENTENCE)).toBeGreaterThanOrEqual(0);
    expect(text.indexOf(SENTENCE)).toBeLessThan(text.indexOf('Rows 60'));
    const sheets = await readWorkbookSheets(readFileSync(out));
    const { rules, stages } = setupFromSheets(sheets).setup;
    expect(rules!.slice(1)).toEqual([['any', 'Mon Thu', 'before 10:00', 'allow']]);
    expect(stages).toHaveLength(3); // the site's own stages stay
    const rows = sheets.find((s) => s.name === 'Plan')!.cells;
    const at = rows.findIndex((row) => row.includes('Date'));
    const weekdays = new Set(
      rows.slice(at + 1).map((row) => (Number(row[rows[at]!.indexOf('Date')]) + 6) % 7),
    );
    expect([...weekdays].sort()).toEqual([1, 4]);
  });

  it('takes a workbook of its own, JSON, and every starter table', async () => {
    const first = inside('first.xlsx');
    await plan('--rules', inside('r.csv', RULES), '--out', first);
    const json = inside('r.json', JSON.stringify({ rules: RULES.trim().split('\n').map((line) => line.split(',')) })); // prettier-ignore
    const bare = inside('bare.json', JSON.stringify([{ Means: 'any', Days: 'Mon Thu', Hours: 'before 10:00', Verdict: 'allow' }])); // prettier-ignore
    for (const file of [first, json, bare]) {
      const { code, out } = await plan('--rules', file, '--out', inside('x.xlsx'), '--force');
      expect(code).toBe(1);
      expect(out).toContain('All addresses may water by any means on Monday and Thursday, before 10:00.'); // prettier-ignore
    }
    const starter = join(SAMPLES, 'starter-rules', 'hand-only-with-nozzle.csv');
    const { out } = await plan('--rules', starter, '--out', inside('y.xlsx'));
    expect(out).toContain('(example: replace by your ordinance)');
  });

  it('stops at a row it cannot read and writes nothing, unless told to go on without it', async () => {
    const rules = inside('r.csv', BROKEN);
    const out = inside('p.xlsx');
    const { code, err } = await plan('--rules', rules, '--out', out);
    expect(code).toBe(2);
    expect(err).toMatch(/r\.csv": the rules cannot be used as they are: 2 places to mend/);
    expect(err).toMatch(/row 3, Means: .*Read "bagg"; accepted: any, or of bag/);
    expect(err).toContain('--skip-broken-rules');
    expect(existsSync(out)).toBe(false);
    const gone = await plan('--rules', rules, '--out', out, '--skip-broken-rules');
    expect(gone.code).toBe(1);
    expect(gone.out).toContain(SENTENCE);
    expect(gone.out).toMatch(/! Rules row 3, Hours: .*The row is left out\./);
  });

  it('stops as well when the rules of the site are broken', async () => {
    const site = inside('site.json', JSON.stringify({ rules: [['Means', 'Verdict'], ['bag', 'perhaps']] })); // prettier-ignore
    const { code, err } = await plan('--site', site, '--out', inside('p.xlsx'));
    expect(code).toBe(2);
    expect(err).toMatch(/row 2, Verdict: .*Read "perhaps"; accepted: allow, ban, free/);
  });

  it('keeps JSON on stdout alone', async () => {
    const { out, err } = await plan('--rules', inside('r.csv', RULES), '--out', inside('p.xlsx'), '--json'); // prettier-ignore
    expect(JSON.parse(out)).toMatchObject({ rows: 60 });
    expect(err).toContain(SENTENCE);
  });

  it('says in a sentence what is wrong with the file', async () => {
    const cases: [string, RegExp][] = [
      [inside('no.csv'), /no\.csv" cannot be read: there is no such file/],
      [inside('t.csv', 'a,b\n1,2\n'), /t\.csv": no Rules table was found: a row of headers/],
      [inside('t.json', '{"kit":[]}'), /t\.json": it has no part "rules"/],
      [inside('u.json', '{ not json'), /u\.json" is neither a table nor JSON/],
    ];
    for (const [file, sentence] of cases) {
      const { code, err } = await plan('--rules', file, '--out', inside('p.xlsx'));
      expect(code).toBe(2);
      expect(err).toMatch(sentence);
    }
  });
});
