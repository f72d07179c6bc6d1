import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readWorkbookSheets } from '../../../src/workbook/readers/open.js';
import { INVENTORY, SETUP } from '../job.js';
import { planCommand as plan, scratchFolder } from '../plan-command.js';
import { readPdf, skipWithoutPoppler } from './samples.js';

const folder = scratchFolder();
const { inside } = folder;

const FILES = [
  ['--csv', 'plan.csv', 'Date'],
  ['--ics', 'days.ics', 'BEGIN:VCALENDAR'],
  ['--pdf', 'crew.pdf', '%PDF-'],
  ['--crew', 'crew.xlsx', 'PK'],
  ['--client', 'client.xlsx', 'PK'],
] as const;

const all = (): string[] => FILES.flatMap(([word, name]) => [word, inside(name)]);
const TREES = readFileSync(INVENTORY, 'utf8');
/** The sample has one row that cannot be planned: a plan that is written answers 1. */
const WRITTEN = 1;
const base = (): string[] => [
  ...[inside('trees.csv', TREES), '--site', SETUP],
  ...['--out', inside('book.xlsx')],
];

describe('npm run plan with exports', () => {
  it('writes every file asked for, and says so', async () => {
    const { code, out } = await plan(...base(), ...all());
    expect(code).toBe(WRITTEN);
    for (const [, name, start] of FILES) {
      expect(readFileSync(inside(name)).subarray(0, start.length).toString()).toBe(start);
      expect(out).toContain(name);
    }
    expect(readdirSync(folder.path).length).toBe(FILES.length + 2);
  });

  it.skipIf(skipWithoutPoppler())(
    'writes the crew’s pages and copy in the language asked for',
    async () => {
      const [pdf, copy] = [inside('es.pdf'), inside('es.xlsx')];
      const few = ['--pdf-days', '2027-07-01..2027-07-10', '--crew-language', 'es'];
      const { code } = await plan(...base(), '--force', '--pdf', pdf, '--crew', copy, ...few);
      expect(code).toBe(WRITTEN);
      const sheets = (await readWorkbookSheets(readFileSync(copy))).map((sheet) => sheet.name);
      expect(sheets).toEqual(['Cuadrilla']);
      const { text } = readPdf(readFileSync(pdf));
      expect(text).toContain('Hoja de cuadrilla');
      expect(text).not.toContain('Crew sheet');
    },
  );

  it('gives machines the names of the files', async () => {
    const { out } = await plan(...base(), '--csv', inside('p.csv'), '--json');
    expect(JSON.parse(out)).toMatchObject({ exports: [inside('p.csv')] });
  });

  it.each(FILES)('leaves a standing file of %s as it is, and replaces it with --force', async (word, name, start) => {
    const path = inside(name, 'mine');
    const refused = await plan(...base(), word, path);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/exists already and was left as it is; use --force to replace it/);
    expect(readFileSync(path, 'utf8')).toBe('mine');
    expect(readdirSync(folder.path).sort()).toEqual([name, 'trees.csv'].sort());
    expect((await plan(...base(), word, path, '--force')).code).toBe(WRITTEN);
    expect(readFileSync(path).subarray(0, start.length).toString()).toBe(start);
  }); // prettier-ignore

  it('makes the client’s copy a PDF when its name ends so, and the table with a mark when asked', async () => {
    const { code } = await plan(
      ...base(),
      ...['--client', inside('client.pdf'), '--csv', inside('p.csv'), '--bom'],
    );
    expect(code).toBe(WRITTEN);
    expect(readFileSync(inside('client.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    expect([...readFileSync(inside('p.csv')).subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
  });

  it('updates a calendar: the same events, those no longer planned cancelled', async () => {
    const ics = inside('days.ics');
    await plan(...base(), '--ics', ics);
    const first = readFileSync(ics, 'utf8');
    const uids = (text: string): string[] => [...text.matchAll(/^UID:.*$/gm)].map(([line]) => line);
    expect(uids(first).length).toBeGreaterThan(3);
    const site = first.match(/^UID:\d+-1-(\w+)@/m)![1]!;
    const stale = `UID:20271224-1-${site}@soakbook`;
    writeFileSync(ics, `${first}BEGIN:VEVENT\r\n${stale}\r\nEND:VEVENT\r\n`);
    await plan(...base(), '--ics', ics, '--force');
    const second = readFileSync(ics, 'utf8');
    expect(uids(second).map((u) => u.trim())).toEqual([...uids(first).map((u) => u.trim()), stale]);
    expect(second.match(/STATUS:CANCELLED/g)?.length).toBe(1);
  });

  it('answers 2 with a sentence, and writes nothing, for names and days it cannot use', async () => {
    const cases: [string[], RegExp][] = [
      [['--csv', inside('plan.xlsx')], /must end in \.csv/],
      [['--client', inside('client.doc')], /must end in \.xlsx or \.pdf/],
      [['--csv'], /--csv needs a value/],
      [['--bom'], /--bom goes with --csv/],
      [['--pdf-days', '2027-05-01..2027-05-31'], /--pdf-days goes with --pdf/],
      [['--pdf', inside('p.pdf'), '--pdf-days', 'May'], /write two days/],
      [['--pdf', inside('p.pdf'), '--pdf-days', '2027-05-31..2027-05-01'], /before the first/],
      [
        ['--pdf', inside('p.pdf'), '--pdf-days', '2029-05-01..2029-05-31'],
        /are not all in the plan, which goes from Thu 1 Apr 2027 to Thu 30 Sep 2027/,
      ],
      [['--crew', inside('a.xlsx'), '--client', inside('a.xlsx')], /named for two files/],
      [['--crew', inside('book.xlsx')], /named for two files/],
      [['--csv', inside('trees.csv'), '--force'], /is the inventory itself/],
      [['--csv', join(folder.path, 'no', 'p.csv')], /there is no such folder/],
    ];
    for (const [argv, sentence] of cases) {
      const { code, err } = await plan(...base(), ...argv);
      expect(code, argv.join(' ')).toBe(2);
      expect(err).toMatch(sentence);
      expect(readdirSync(folder.path)).toEqual(['trees.csv']);
    }
  });
});
