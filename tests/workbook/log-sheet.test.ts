/** The sheet Log asks by formulas what the engine asks; Service, Meters and Clocks add up to the engine's sums. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { ledger } from '../../src/engine/contract/ledger.js';
import { FLAG_KINDS, logFlags } from '../../src/engine/contract/log-flags.js';
import { treeTotals, type PlannedVisit } from '../../src/engine/contract/log-totals.js';
import type { LogRow, LogTree } from '../../src/engine/contract/visit-log.js';
import { dayOf } from '../../src/engine/dates.js';
import { L_PER_GALLON } from '../../src/engine/units.js';
import { letter, rich, type RichCell, type WorkbookModel } from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import type { PaperTree, ServicePapers } from '../../src/workbook/service-papers.js';
import { clocksSheet } from '../../src/workbook/sheets/clocks.js';
import { context, type Context } from '../../src/workbook/sheets/context.js';
import { FIELD_LISTS } from '../../src/workbook/sheets/field-checks.js';
import { kitSheet } from '../../src/workbook/sheets/inputs.js';
import { logSheet, trucksOf } from '../../src/workbook/sheets/log.js';
import { metersSheet } from '../../src/workbook/sheets/meters.js';
import { dueKeys, serviceSheet } from '../../src/workbook/sheets/service.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { TRUCKS, wrongLogs } from '../engine/contract/made-logs.js';
import { column, differences, errors, table } from './cells.js';
import { sampleJob } from './job.js';
import { inFolder, PROGRAMS, readCells, recalculate, skipWithout, type Values } from './programs.js'; // prettier-ignore

const SLOW = 600_000;

let job: PlanJob;
beforeAll(async () => {
  job = await sampleJob();
});

interface MadeLog {
  rows: LogRow[];
  trees: LogTree[];
}

/**
 * A log of each kind of wrong among honest days: the first day, and two days with the wrong in them, which is quick to
 * calculate and holds all there is to ask.
 */
const tenLogs = (): MadeLog[] =>
  wrongLogs()
    .filter((_, i) => i % 3 === 0)
    .map(({ rows, trees, wrong }) => {
      const asked = rows.filter((r) => wrong.includes(r.row)).map((r) => r.day);
      const days = new Set([
        Math.min(...rows.map((r) => r.day)),
        ...[...new Set(asked)].slice(0, 2),
      ]);
      const kept = rows.filter((r) => days.has(r.day)).sort((a, b) => a.day - b.day);
      return { rows: kept.map((r, i) => ({ ...r, row: i + 2 })), trees };
    });

function ctxOf(units: 'US' | 'SI'): Context {
  const { plan, reading, setup } = job;
  const truck = setup.kit.find((d) => d.family === 'tanker')!;
  return context({
    plan, reading, ruleRows: [], stageRows: [], weatherRows: [], units, source: 's', madeOn: 46461, title: 't', notes: [],
    kit: [...setup.kit, ...TRUCKS.map(({ name, flow, tank }) => ({ ...truck, name, flow, volume: tank }))],
  });
} // prettier-ignore

function papersOf({ rows, trees }: MadeLog): ServicePapers {
  const known = trees.map(({ id, planted, gone }, i): PaperTree => ({
    id, row: i + 2, species: 'live oak', site: i % 2 ? 'North' : 'South', caliper: 40 + i, planted,
    clock: gone && { row: i + 2, tree: id, leaderDead: false, status: 'removed', since: gone.since ?? undefined },
  })); // prettier-ignore
  const first = Math.min(...rows.map((r) => r.day));
  const meter = (name: string, from: number, begin: number, end: number | undefined) => ({
    row: 2, meter: name, from, to: from + 4, begin, end, unit: 'gal' as const, price: 2,
  }); // prettier-ignore
  return {
    contractRows: [], clauses: [], log: rows, trees: known, bags: [],
    meters: [meter('H-1', first, 99_000, 200), meter('H-1', first + 4, 200, 900), meter('H-2', first, 10, undefined)],
  }; // prettier-ignore
}

/** Waterings planned on the day of every third row, the day before every fifth, and for a tree nobody came to. */
const plannedFor = (rows: readonly LogRow[]): PlannedVisit[] => {
  const all = rows.flatMap((r, i): PlannedVisit[] =>
    i % 3 === 0 ? [{ tree: r.tree, day: r.day, litres: 76 }] : i % 5 === 0 ? [{ tree: r.tree, day: r.day - 1, litres: 38 }] : [],
  ); // prettier-ignore
  const own = new Map(all.map((p) => [`${p.tree} ${p.day}`, p]));
  return [...own.values(), { tree: 'nobody came', day: rows[0]!.day, litres: 20 }].sort((a, b) => a.day - b.day); // prettier-ignore
};

function bookOf(made: MadeLog, units: 'US' | 'SI') {
  const ctx = ctxOf(units);
  const papers = papersOf(made);
  const due = plannedFor(made.rows);
  const kit = kitSheet(ctx);
  const clocks = clocksSheet(ctx, papers);
  const log = logSheet(ctx, papers, {
    clocks: clocks.refs.column,
    kit: kit.refs.place,
    due: () => dueKeys(due),
    planned: due,
  });
  const service = serviceSheet(ctx, papers, due, log.refs);
  const meters = metersSheet(ctx, papers, log.refs.place);
  const model: WorkbookModel = {
    title: 't', description: 't', madeOn: 46461, paper: 'a4',
    sheets: [kit.sheet, clocks.sheet, log.sheet, service.sheet, meters.sheet],
    names: { [FIELD_LISTS.trees]: clocks.refs.column('tree') },
  }; // prettier-ignore
  return { ctx, papers, due, model };
}

/** The formulas alone: a program that trusts results in a file has nothing to trust. */
const withoutResults = (model: WorkbookModel): WorkbookModel => ({
  ...model,
  sheets: model.sheets.map((sheet) => ({
    ...sheet,
    blocks: sheet.blocks.map((block) =>
      block.kind === 'text'
        ? { ...block, lines: block.lines.map((line) => line.map(bare)) }
        : { ...block, rows: block.rows.map((row) => row.map((value) => bare(rich(value)))) },
    ),
  })),
});
const bare = (cell: RichCell): RichCell =>
  cell.formula === undefined ? cell : { ...cell, value: null };

/** Books recalculated by one start of LibreOffice: ten of them would take minutes. */
function together(books: readonly Uint8Array[]): Values[] {
  return inFolder((folder) => {
    const names = books.map((bytes, i) => {
      const file = join(folder, `log-${i}.xlsx`);
      writeFileSync(file, bytes);
      return file;
    });
    const out = join(folder, 'out');
    execFileSync(PROGRAMS.LibreOffice!, [`-env:UserInstallation=file://${join(folder, 'profile')}`, '--headless', '--convert-to', 'xlsx:Calc MS Excel 2007 XML', '--outdir', out, ...names], { stdio: 'ignore' }); // prettier-ignore
    return names.map((_, i) => readCells(join(out, `log-${i}.xlsx`), 'values'));
  });
}

describe('the sheet Log', () => {
  it('holds a row a visit, the columns of the log, and a question where the engine has one', () => {
    const [, made] = tenLogs();
    const { ctx, papers, model } = bookOf(made!, 'US');
    const flags = logFlags(made!.rows, { trees: made!.trees.map((t) => ({ ...t, ...(t.gone && { gone: { ...t.gone, word: 'removed' } }) })), kit: trucksOf(ctx) }); // prettier-ignore
    const shown = column(model, 'VisitLog', 'questions');
    made!.rows.forEach((row, i) => {
      const kinds = flags.filter((f) => f.row === row.row).map((f) => `${f.kind}?`);
      expect(shown[i], `row ${i}`).toBe(kinds.join(' '));
    });
    expect(papers.log.length).toBe(made!.rows.length);
    expect(flags.length).toBeGreaterThan(0);
  });

  it('writes times as times and water in the units of the workbook', () => {
    const [made] = tenLogs();
    for (const units of ['US', 'SI'] as const) {
      const { model } = bookOf(made!, units);
      const at = made!.rows.findIndex((r) => r.arrived !== undefined && (r.applied ?? 0) > 0);
      const row = made!.rows[at]!;
      const applied = column(model, 'VisitLog', 'applied')[at] as number;
      expect(applied).toBeCloseTo(row.applied! / (units === 'US' ? L_PER_GALLON : 1), 9);
      expect((column(model, 'VisitLog', 'arrived')[at] as number) * 1440).toBeCloseTo(row.arrived!, 6); // prettier-ignore
      const header = table(model, 'VisitLog').columns.find((c) => c.key === 'applied')!.header;
      expect(header).toBe(units === 'US' ? 'Applied (gal)' : 'Applied (L)');
    }
  });

  it('gives every kind of question a column of its own', () => {
    const { model } = bookOf(tenLogs()[0]!, 'US');
    const headers = table(model, 'VisitLog').columns.map((c) => c.header.toLowerCase());
    for (const kind of FLAG_KINDS) expect(headers).toContain(`${kind} (0 or 1)`);
  });

  for (const program of ['LibreOffice', 'Gnumeric'] as const)
    it.skipIf(skipWithout(program, 'openpyxl'))(
      `asks, adds up and reckons as the engine does on ten logs, in ${program}`,
      async () => {
        const asked = new Set<string>();
        const models = tenLogs().map((made, n) => bookOf(made, n % 2 === 0 ? 'US' : 'SI').model);
        const books = await Promise.all(models.map((m) => writeXlsx(withoutResults(m), { pictures: false }))); // prettier-ignore
        const all = program === 'LibreOffice' ? together(books) : books.map((b) => recalculate(program, b)); // prettier-ignore
        for (const [n, model] of models.entries()) {
          const values = all[n]!;
          expect(errors(values), `log ${n}`).toEqual([]);
          expect(differences(model, values), `log ${n}`).toEqual([]);
          const t = table(model, 'VisitLog');
          const at = letter(t.columns.findIndex((c) => c.key === 'questions'));
          t.rows.forEach((row, i) => {
            const found = values['Log']![`${at}${t.top + 1 + i}`] ?? '';
            expect(found).toBe(rich(row[t.columns.findIndex((c) => c.key === 'questions')]!).value);
            if (found !== '') asked.add(String(found));
          });
        }
        expect(asked.size).toBeGreaterThan(5);
      },
      SLOW,
    );
});

describe('what the log proves', () => {
  it('counts visits made, skipped and missed as the engine does', () => {
    for (const made of tenLogs()) {
      const { due, model } = bookOf(made, 'US');
      const totals = treeTotals(made.rows, due);
      expect(column(model, 'ServiceTrees', 'made')).toEqual(totals.map((t) => t.made));
      expect(column(model, 'ServiceTrees', 'missed')).toEqual(totals.map((t) => t.missed));
      // the visits one by one, found another way, come to the same
      const missed = column(model, 'VisitsDue', 'answered').filter((a) => a === 0).length;
      expect(missed).toBe(totals.reduce((sum, t) => sum + t.missed, 0));
    }
  });

  it('shows the ledger of the engine and a word for each of its questions', () => {
    const made = tenLogs()[0]!;
    const { papers, model } = bookOf(made, 'US');
    const book = ledger(papers.meters, papers.log);
    const used = column(model, 'Meters', 'used').slice(0, 3);
    expect(used).toEqual(book.rows.map((r) => (r.used === undefined ? '' : r.used / L_PER_GALLON)));
    expect(used[0]).toBeCloseTo(1200, 9);
    expect(String(column(model, 'Meters', 'questions')[0])).toContain('began again?');
    expect(String(column(model, 'Meters', 'questions')[2])).toContain('reading missing?');
  });

  it('starts a term again on replacement and leaves out days that do not count', () => {
    const made = tenLogs()[0]!;
    const ctx = ctxOf('US');
    const papers = papersOf(made);
    const [a, b] = papers.trees;
    const planted = dayOf(2026, 3, 31);
    papers.trees = [
      { ...a!, planted, clock: { row: 2, tree: a!.id, leaderDead: false, status: 'alive', months: 11, uncredited: 10 } },
      { ...b!, planted, clock: { row: 3, tree: b!.id, leaderDead: false, status: 'alive', months: 12, replaced: dayOf(2026, 11, 2) } },
    ]; // prettier-ignore
    const model: WorkbookModel = { title: 't', description: 't', madeOn: 46461, paper: 'a4', sheets: [clocksSheet(ctx, papers).sheet], names: {} }; // prettier-ignore
    // the last of February, for there is no 31st, and ten days
    expect(column(model, 'Clocks', 'end')).toEqual([dayOf(2027, 3, 10), dayOf(2027, 11, 2)]);
    expect(column(model, 'Clocks', 'start')).toEqual([planted, dayOf(2026, 11, 2)]);
  });
});
