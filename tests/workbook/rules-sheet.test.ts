/** The sheets Rules and Rule days. Common practice, no source; open hours are asked minute by minute. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { civil, MONTHS, WEEKDAYS, weekday } from '../../src/engine/dates.js';
import { FAMILIES, type Family, type Tree } from '../../src/engine/plan/model.js';
import { allowed, parseRules, ruleSentence } from '../../src/engine/rules/rule-table.js';
import { STARTER_TABLES } from '../../src/engine/rules/starter-tables.js';
import type { Cell } from '../../src/tables/cells.js';
import { rich, tablesOf, type Sheet, type TableBlock } from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { setupFromSheets } from '../../src/workbook/setup.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { sampleJob } from './job.js';
import { inFolder, PROGRAMS, recalculate, skipWithout } from './programs.js';

const STEP_MINUTES = 15;
const sheet = (job: PlanJob, name: string): Sheet => job.model.sheets.find((s) => s.name === name)!;
const two = (n: number): string => String(n).padStart(2, '0');

/** Open windows of a day as text, by asking about every quarter of an hour. */
function askedHours(rules: ReturnType<typeof parseRules>, tree: Tree, family: Family, day: number): string {
  const source = family === 'tanker' || (family === 'bag' && tree.tap === false) ? 'tanker' : (tree.source ?? 'mains');
  const query = { family, address: tree.address, source, target: 'tree' as const, planted: tree.planted };
  const spans: [number, number][] = [];
  for (let minute = 0; minute < 1440; minute += STEP_MINUTES) {
    if (!allowed(rules, { day, minute }, query).open) continue;
    const last = spans.at(-1);
    if (last?.[1] === minute) last[1] += STEP_MINUTES;
    else spans.push([minute, minute + STEP_MINUTES]);
  }
  if (spans.length === 0) return 'closed';
  if (spans[0]![0] === 0 && spans[0]![1] === 1440) return 'any hour';
  const clock = (m: number): string => `${two(Math.floor(m / 60))}:${two(m % 60)}`;
  return spans.map(([a, b]) => `${clock(a)}-${clock(b)}`).join(' ');
} // prettier-ignore

interface Kind {
  heading: string;
  tree: Tree;
  /** header text → means or row above → text */
  days: Map<string, Map<string, string>>;
}

/** What the sheet shows, kind by kind, found by headings and headers alone. */
function shown(job: PlanJob): Kind[] {
  const kinds: Kind[] = [];
  for (const block of sheet(job, 'Rule days').blocks) {
    if (block.kind === 'text') {
      const heading = block.lines.flat().find((c) => c.style === 'heading');
      if (!heading) continue;
      const [, example] = /, as (.*)$/.exec(String(heading.value))!;
      const tree = job.plan.trees.find((t) => example!.startsWith(t.tree.address))!.tree;
      kinds.push({ heading: String(heading.value), tree, days: new Map() });
      continue;
    }
    const kind = kinds.at(-1)!;
    block.columns.slice(1).forEach((column, c) => {
      const cells = block.rows.map((row) => [rich(row[0]!).value, rich(row[c + 1]!).value]);
      expect(kind.days.has(column.header)).toBe(false);
      kind.days.set(column.header, new Map(cells.map(([a, b]) => [String(a), String(b)])));
    });
  }
  return kinds;
}

const header = (day: number): string => {
  const { month, date } = civil(day);
  return `${WEEKDAYS[weekday(day)]} ${date} ${MONTHS[month - 1]}`;
};

/** Compares every shown day with what the rules answer; returns how many cells were compared. */
function compare(job: PlanJob, rows: Cell[][], stages: Cell[][]): number {
  const rules = parseRules(rows, stages);
  let compared = 0;
  for (const { tree, days, heading } of shown(job)) {
    expect(days.size).toBe(42);
    for (let i = 0; i < 42; i++) {
      const day = job.plan.site.seasonFrom + i;
      const cells = days.get(header(day))!;
      for (const [means, text] of cells) {
        if (means === 'stage in force' || means === 'banned') continue;
        expect(text, `${heading}, ${means} on ${header(day)}`).toBe(
          askedHours(rules, tree, means as Family, day),
        );
        compared += 1;
      }
    }
  }
  return compared;
}

const MIXED: Cell[][] = [
  ['Stage', 'Means', 'Address', 'Days', 'Hours', 'Rain', 'Limit', 'Needs', 'Verdict', 'Note'],
  ['1', 'any', 'odd', 'Tue Sat', '18:00-09:00', '', '', '', 'allow', ''],
  ['1', 'any', 'even', '2 per week', 'before 08:30', '', '30', 'timer', 'allow', ''],
  ['2', 'soaker, hand', '', 'not Sun', '', '', '', '', 'ban', 'section 9'],
  ['2', 'bag, pad, tanker', '', '', 'one of 04:00-08:00, 18:00-22:00', '24 h after rain', '', '', 'allow', ''],
  ['2', 'soaker, hand', '', 'Sun', '05:00-07:00', '', '', '', 'allow', ''],
  ['2', 'bagg', '', '', '', '', '', '', 'allow', 'broken'],
]; // prettier-ignore
const MIXED_STAGES: Cell[][] = [['From', 'Stage'], ['2027-04-01', '1'], ['2027-04-25', '2']]; // prettier-ignore

let mixed: PlanJob;
let own: PlanJob;
beforeAll(async () => {
  own = await sampleJob();
  mixed = await sampleJob({ rules: MIXED, stages: MIXED_STAGES });
});

describe('the sheet Rule days', () => {
  it('shows for every day and means what the rules answer when asked quarter by quarter', async () => {
    expect(compare(own, own.setup.rules, own.setup.stages)).toBe(42 * 5);
    expect(compare(mixed, MIXED, MIXED_STAGES)).toBe(2 * 42 * 5);
  });

  for (const { name, rows } of STARTER_TABLES)
    it(`does so for the starter table “${name}”`, async () => {
      expect(compare(await sampleJob({ rules: rows, stages: [] }), rows, [])).toBeGreaterThan(200);
    });

  it('has a kind for odd and one for even addresses, and every tree in one of them', () => {
    const kinds = shown(mixed);
    const parity = kinds.map(({ tree }) => parseInt(tree.address, 10) % 2);
    expect([...parity].sort()).toEqual([0, 1]);
    for (const [k, { heading }] of kinds.entries()) {
      const trees = mixed.plan.trees
        .filter(({ tree }) => parseInt(tree.address, 10) % 2 === parity[k])
        .reduce((sum, { tree }) => sum + tree.count, 0);
      expect(heading).toContain(`: ${trees} trees, as `);
    }
  });

  it('counts the trees of a kind: as many as the rules answer alike for, whatever tells them apart', async () => {
    const { rows } = STARTER_TABLES.find(({ name }) => name.startsWith('Total ban'))!;
    const job = await sampleJob({ rules: rows, stages: [] });
    const rules = parseRules(rows, []);
    const days = [0, 9, 23, 41].map((i) => job.plan.site.seasonFrom + i);
    const kinds = shown(job);
    expect(kinds).toHaveLength(2); // trees with a tap, and trees whose bags a tank fills
    const counts = kinds.map(() => 0);
    for (const { tree } of job.plan.trees) {
      const own = FAMILIES.map((f) => days.map((day) => askedHours(rules, tree, f, day)));
      const alike = kinds.map((kind) =>
        FAMILIES.every((f, k) =>
          days.every((day, i) => kind.days.get(header(day))!.get(f) === own[k]![i]),
        ),
      );
      expect(alike.filter((a) => a)).toHaveLength(1);
      counts[alike.indexOf(true)]! += tree.count;
    }
    expect(kinds.map(({ heading }) => Number(/: (\d+) trees?,/.exec(heading)![1]))).toEqual(counts);
  });

  it('names stages and bans above the means, and says what hours do not', () => {
    for (const { days, tree } of shown(mixed)) {
      expect(days.get('Sat 24 Apr')!.get('stage in force')).toBe('1');
      expect(days.get('Sun 25 Apr')!.get('stage in force')).toBe('2');
      expect(days.get('Sun 25 Apr')!.get('banned')).toBe('none');
      expect(days.get('Mon 26 Apr')!.get('banned')).toBe('soaker (row 4), hand (row 4)');
      expect(tree.address).not.toBe('');
    }
    const said = sheet(mixed, 'Rule days')
      .blocks.flatMap((b) => (b.kind === 'text' ? b.lines.flat() : []))
      .map((c) => String(c.value));
    expect(said).toContain(
      'bag: at most 2 days a week; at most 30 min a day; one of the windows only; needs timer',
    );
    expect(said).toContain('Rain may close more days: see row 5 of the rules.');
  });

  it('differs in word and style, and never in style alone', () => {
    const cells = tablesOf(sheet(mixed, 'Rule days')).flatMap((t) => t.rows.flat().map(rich));
    const styles = (text: RegExp) =>
      new Set(cells.filter((c) => text.test(String(c.value))).map((c) => c.style));
    expect([...styles(/^closed$/)]).toEqual(['note']);
    expect([...styles(/\d:\d\d-|any hour/)]).toEqual(['result']);
  });

  it('prints one landscape page wide, a kind a page', () => {
    const { print } = sheet(mixed, 'Rule days');
    expect([print.orientation, print.pagesWide, print.breaks.length]).toEqual(['landscape', 1, 1]);
  });

  it('every watering of the plan in these weeks is on a day it shows open', () => {
    let seen = 0;
    const kinds = shown(mixed);
    for (const { tree, chosen } of mixed.plan.trees) {
      const kind = kinds.find((k) => (parseInt(k.tree.address, 10) - parseInt(tree.address, 10)) % 2 === 0)!; // prettier-ignore
      for (const w of chosen.plan) {
        const cells = kind.days.get(header(w.day));
        if (!cells) continue;
        expect(cells.get(w.family), `${tree.id} ${header(w.day)}`).not.toBe('closed');
        seen += 1;
      }
    }
    expect(seen).toBeGreaterThan(50);
  });
});

const rulesTable = (job: PlanJob): TableBlock =>
  tablesOf(sheet(job, 'Rules')).find((t) => t.name === 'Rules')!;

describe('the sheet Rules', () => {
  it('says beside each row what was understood, and beside a broken one why it is left out', () => {
    const { rows, columns } = rulesTable(mixed);
    expect(columns.at(-1)!.header).toBe('Understood (text made with this file)');
    const said = rows.map((row) => rich(row.at(-1)!));
    const parsed = parseRules(MIXED, MIXED_STAGES).rows;
    expect(said.slice(0, 5).map((c) => c.value)).toEqual(
      parsed.map((row) => `Row ${row.row}: ${ruleSentence(row)}`),
    );
    expect(said[5]!.style).toBe('look');
    expect(String(said[5]!.value)).toMatch(/^▲ Left out\..*row 7, Means: "bagg"/);
  });

  it('says that an example is one', async () => {
    const words = (job: PlanJob): string => JSON.stringify(sheet(job, 'Rules').blocks[0]);
    const starter = await sampleJob({ rules: STARTER_TABLES[0]!.rows, stages: [] });
    expect(words(starter)).toContain('example: replace by your ordinance');
    expect(words(own)).not.toContain('example');
  });

  it('comes back as given when the workbook is read', async () => {
    const { setup, problems } = setupFromSheets(
      await readWorkbookSheets(await writeXlsx(own.model, { pictures: false })),
    );
    expect(problems).toEqual([]);
    const plain = (rows: Cell[][]) => rows.map((row) => row.map((c) => (c === '' ? null : c)));
    expect(plain(setup.rules!)).toEqual(plain(own.setup.rules));
  });

  it.skipIf(skipWithout('openpyxl'))('has lists that warn and take other words as well', async () => {
    const bytes = await writeXlsx(mixed.model, { pictures: false });
    const lists = inFolder((folder) => {
      const path = join(folder, 'book.xlsx');
      writeFileSync(path, bytes);
      const script = `
import json, sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
print(json.dumps([[str(v.sqref), v.type, v.formula1, v.errorStyle, v.prompt, v.showInputMessage] for v in book["Rules"].data_validations.dataValidation]))`;
      return JSON.parse(
        execFileSync(PROGRAMS.openpyxl!, ['-c', script, path], { encoding: 'utf8' }),
      ) as [string, string, string, string, string, boolean][];
    });
    const { columns, top, rows } = rulesTable(mixed);
    const by = new Map(lists.map((l) => [columns[l[0].charCodeAt(0) - 65]!.header, l]));
    expect([...by.keys()].sort()).toEqual(
        'Address Days Hours Limit Means Needs Rain Stage Verdict'.split(' '),
      );
      for (const [name, [range, type, values, style, prompt, shows]] of by) {
      expect([type, style, shows], name).toEqual(['list', 'warning', true]);
      const [from, to] = range.match(/\d+/g)!.map(Number);
      expect(from).toBe(top + 1);
      expect(to).toBeGreaterThan(top + rows.length);
      expect(values.length).toBeLessThanOrEqual(257); // 255 and its quotes: what spreadsheets take
      expect(prompt).toContain(`${name}: `);
      expect(prompt.length).toBeLessThanOrEqual(255);
    }
    expect(by.get('Verdict')![2]).toBe('"allow,ban,free"');
    expect(by.get('Means')![4]).toContain('Several may be written, separated by commas.');
  }); // prettier-ignore

  it('offers only words the rules can read', () => {
    for (const { range, values } of sheet(mixed, 'Rules').validations) {
      const at = range.charCodeAt(0) - 65;
      const name = MIXED[0]![at]!;
      for (const value of values) {
        const row = ['Verdict', name];
        const read = parseRules(name === 'Verdict' ? [[name], [value]] : [row, ['allow', value]]);
        expect(read.problems.filter((p) => p.kind === 'broken'), `${name}: ${value}`).toEqual([]); // prettier-ignore
        expect(value).not.toContain(',');
      }
    }
  });

  for (const program of ['LibreOffice', 'Gnumeric'] as const)
    it.skipIf(skipWithout(program, 'openpyxl'))(`opens in ${program} as written`, async () => {
      const only = { ...mixed.model, sheets: mixed.model.sheets.filter((s) => /^Rule/.test(s.name)), names: {} }; // prettier-ignore
      const values = recalculate(program, await writeXlsx(only));
      expect(Object.keys(values)).toEqual(['Rules', 'Rule days']);
      for (const s of only.sheets)
        for (const t of tablesOf(s))
          t.rows.forEach((row, r) =>
            row.forEach((c, i) => {
              const want = rich(c).value;
              if (want === null || want === '') return;
              const at = `${String.fromCharCode(65 + i)}${t.top + 1 + r}`;
              expect(values[s.name]![at], `${s.name}!${at}`).toBe(want);
            }),
          );
    });
});
