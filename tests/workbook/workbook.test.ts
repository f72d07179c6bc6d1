import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import {
  formula,
  letter,
  rich,
  SheetDraft,
  tablesOf,
  type WorkbookModel,
} from '../../src/workbook/model.js';
import { planFromTables, type PlanJob } from '../../src/workbook/plan-job.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { setupFromSheets } from '../../src/workbook/setup.js';
import { context, type BuildInput } from '../../src/workbook/sheets/context.js';
import { crewSheet } from '../../src/workbook/sheets/crew.js';
import { planSheet } from '../../src/workbook/sheets/plan.js';
import { rasterise } from '../../src/cli/rasterise.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { cellsOf, column, differences, errors, table } from './cells.js';
import { sampleInput, sampleJob } from './job.js';
import { inFolder, readCells, recalculate, skipWithout } from './programs.js';

const SHEETS =
  'About,Site,Weather,Rules,Rule days,Kit,Trees,Means,Plan,Calendar,Charts,Crew,Materials,Estimate,Contract,Shortage,Log,Service,Meters,Clocks,Price views,Field checks,Balance,Balance trees,Checks,Sources'.split(
    ',',
  );

const numbers = (values: unknown[]): number[] => values.filter((v) => typeof v === 'number');
const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0);

let job: PlanJob;
let bytes: Uint8Array;
beforeAll(async () => {
  job = await sampleJob();
  bytes = await writeXlsx(job.model, { rasterise });
});

describe('the model of the sample plan', () => {
  it('has the sheets of the design, in order', () => {
    expect(job.model.sheets.map((s) => s.name)).toEqual(SHEETS);
  });

  it('uses every table name, and every header within a table, once', () => {
    const names = job.model.sheets.flatMap((s) => tablesOf(s).map((t) => t.name.toLowerCase()));
    expect(new Set(names).size).toBe(names.length);
    for (const t of job.model.sheets.flatMap(tablesOf)) {
      const headers = t.columns.map((c) => c.header.toLowerCase());
      expect(new Set(headers).size, t.name).toBe(headers.length);
    }
  });

  it('carries no add-in formula and no function of one program only', () => {
    const formulas = job.model.sheets.flatMap((s) =>
      cellsOf(s).flatMap(({ cell }) => (cell.formula === undefined ? [] : [cell.formula])),
    );
    expect(formulas.length).toBeGreaterThan(500);
    for (const text of formulas) expect(text).not.toMatch(/SOAK|_xl|\[/);
  });

  it('has one formula a column: rows differ in their own row number only', () => {
    const trees = table(job.model, 'Trees');
    trees.columns.forEach((c, i) => {
      const shapes = new Set(
        trees.rows.flatMap((row, r) => {
          const text = rich(row[i]!).formula;
          return text === undefined
            ? []
            : [text.replaceAll(new RegExp(`(?<=\\$[A-Z]+)${trees.top + 1 + r}\\b`, 'g'), 'ROW')];
        }),
      );
      expect(shapes.size, c.key).toBeLessThanOrEqual(1);
    });
  });

  it('keeps the rows of the inventory: as many on Trees as read, each planned or with a reason', () => {
    const states = column(job.model, 'Trees', 'state');
    expect(states).toHaveLength(60);
    expect(states.filter((s) => s === 'not planned')).toHaveLength(job.plan.notPlanned.length);
    expect(job.plan.notPlanned.length).toBeGreaterThan(0);
    const flags = column(job.model, 'Trees', 'flags');
    states.forEach((s, i) => {
      if (s === 'not planned') expect(String(flags[i]).length).toBeGreaterThan(10);
    });
  });

  it('brings the same water on Trees, Plan and Crew', () => {
    const trees = sum(numbers(column(job.model, 'Trees', 'season')));
    const plan = sum(numbers(column(job.model, 'Plan', 'volume')));
    expect(plan).toBeCloseTo(trees, 6);
    const by = column(job.model, 'Plan', 'by');
    const volumes = column(job.model, 'Plan', 'volume') as number[];
    const crew = sum(volumes.filter((_, i) => by[i] === 'crew'));
    expect(sum(numbers(column(job.model, 'Crew', 'volume')))).toBeCloseTo(crew, 6);
    expect(crew).toBeGreaterThan(0);
    expect(crew).toBeLessThan(plan);
  });

  it('agrees with itself on Checks, and counts what is to look at', () => {
    expect(column(job.model, 'Totals', 'wrong').every((v) => v === 0)).toBe(true);
    const look = sum(numbers(column(job.model, 'ToLookAt', 'count')));
    const shown = cellsOf(job.model.sheets[0]!).find(({ cell }) =>
      String(cell.value).endsWith('to look at'),
    );
    expect(shown?.cell.value).toBe(`${look} to look at`);
  });

  it('starts a new page for every crew day but the first, and one for the field card behind them', () => {
    const crew = job.model.sheets.find((s) => s.name === 'Crew')!;
    const [daysAfterTheFirst, card] = [job.plan.crewDays.length - 1, 1];
    expect(crew.print.breaks).toHaveLength(daysAfterTheFirst + card);
    expect(crew.print.titleRows?.[0]).toBe(1);
    // every line says its day; one with gallons is a stop and says which, one without is a filling of the tank
    const gallons = column(job.model, 'Crew', 'volume');
    column(job.model, 'Crew', 'stop').forEach((stop, i) => {
      if (stop === null) return;
      expect(stop).toMatch(
        gallons[i] === null ? /^\d+ [A-Z][a-z]{2}$/ : /^\d+ [A-Z][a-z]{2} · \d+$/,
      );
    });
  });

  it('uses at least four ways of watering and both stages', () => {
    const families = new Set(job.plan.trees.flatMap((t) => t.chosen.families));
    expect([...families].sort()).toEqual(['bag', 'hand', 'soaker', 'tanker']);
    expect(table(job.model, 'Stages').rows).toHaveLength(2);
  });
});

describe('the sheet writer', () => {
  const model = (draft: SheetDraft): WorkbookModel => ({
    title: 't', description: 't', madeOn: 46000, paper: 'a4', sheets: [draft.done()], names: {},
  }); // prettier-ignore

  it('refuses an add-in formula, also in its stored form', async () => {
    for (const text of ['SOAK.INTERVAL(1,2)', '_xldudf_SOAK_INTERVAL(1,2)']) {
      const draft = new SheetDraft('S', 'S');
      draft.text([[formula(text, 1)]]);
      await expect(writeXlsx(model(draft))).rejects.toThrow(Problem);
    }
  });

  it.skipIf(skipWithout('openpyxl'))('stores text that looks like a formula as text', async () => {
    const texts = [
      '=1+1',
      '+1',
      '-1+cmd',
      '@SUM(A1)',
      '\t=1',
      '\r=1',
      '=HYPERLINK("http://x","y")',
      'plain',
    ];
    const input = await sampleInput();
    const note = input.inventory[0]!.indexOf('Note');
    input.inventory.slice(1, 1 + texts.length).forEach((row, i) => (row[note] = texts[i]!));
    const injected = await sampleJob({ inventory: input.inventory });
    const book = await writeXlsx(injected.model, { pictures: false });
    const trees = table(injected.model, 'Trees');
    const at = trees.columns.findIndex((c) => c.header === 'Note');
    inFolder((folder) => {
      const path = join(folder, 'book.xlsx');
      writeFileSync(path, book);
      const [raw, shown] = [readCells(path, 'formulas'), readCells(path, 'values')];
      texts.forEach((text, i) => {
        const address = `${letter(at)}${trees.top + 1 + i}`;
        // a formula would have no stored result, so text read as text is the same both ways
        expect(String(shown['Trees']![address]).replace(/^(_x000D_|[\t\r\n])+/, '')).toBe(
          text.replace(/^[\t\r\n]+/, ''),
        );
        expect(raw['Trees']![address]).toBe(shown['Trees']![address]);
      });
    });
  });

  it.skipIf(skipWithout('openpyxl'))('cuts and marks text no cell can hold', async () => {
    const draft = new SheetDraft('S', 'S');
    draft.text([{ value: 'y'.repeat(40_000) }]);
    const book = await writeXlsx(model(draft));
    inFolder((folder) => {
      const path = join(folder, 'book.xlsx');
      writeFileSync(path, book);
      const text = String(readCells(path, 'values')['S']!['A1']);
      expect(text).toHaveLength(32_767);
      expect(text.endsWith('…')).toBe(true);
    });
  });

  it('says so when rows and columns of a table do not fit together', () => {
    const draft = new SheetDraft('S', 'S');
    expect(() => draft.table('T', [{ key: 'a', header: 'A', width: 9 }], 1, () => [1, 2])).toThrow(
      /2 cells for 1/,
    );
  });
});

describe('the file', () => {
  it.skipIf(skipWithout('openpyxl'))('opens in openpyxl with the cached results', () => {
    inFolder((folder) => {
      const path = join(folder, 'book.xlsx');
      writeFileSync(path, bytes);
      const values = readCells(path, 'values');
      expect(Object.keys(values)).toEqual(SHEETS);
      expect(differences(job.model, values)).toEqual([]);
      expect(errors(values)).toEqual([]);
    });
  });

  for (const program of ['LibreOffice', 'Gnumeric'] as const)
    it.skipIf(skipWithout(program, 'openpyxl'))(
      `gives the engine's numbers to 1e-9 when ${program} recalculates it, and no error`,
      async () => {
        for (const units of ['US', 'SI'] as const) {
          const { model } = await sampleJob({ units });
          const values = recalculate(
            program,
            await writeXlsx(model, { uncached: true, pictures: false }),
          );
          expect(Object.keys(values)).toEqual(SHEETS);
          expect(differences(model, values)).toEqual([]);
          expect(errors(values)).toEqual([]);
        }
      },
    );

  it('gives its site, kit, rules, stages and weather back, and the same plan from them', async () => {
    const { setup, problems } = setupFromSheets(await readWorkbookSheets(bytes));
    expect(problems).toEqual([]);
    const again = await sampleJob({ ...setup });
    expect(again.plan.trees.map((t) => [t.tree.id, t.chosen.label, t.chosen.waterings])).toEqual(
      job.plan.trees.map((t) => [t.tree.id, t.chosen.label, t.chosen.waterings]),
    );
  });

  it('keeps on its sheet Kit whether more of a device may be bought', async () => {
    const { kit, inventory } = await sampleInput();
    // yes, left to the site, yes, left to the site …
    const answered = kit!.map((d, i) => (i % 2 === 0 ? { ...d, buy: true } : d));
    const { model } = await sampleJob({ kit: answered, inventory: inventory.slice(0, 4) });
    const sheet = model.sheets.find(({ name }) => name === 'Kit')!;
    const lists = sheet.validations.filter(({ values }) => values.join() === 'yes,no');
    expect(lists).toHaveLength(1);
    const file = await writeXlsx(model, { pictures: false });
    const { setup, problems } = setupFromSheets(await readWorkbookSheets(file));
    expect(problems).toEqual([]);
    expect(setup.kit!.map(({ name, buy }) => [name, buy])).toEqual(
      answered.map(({ name, buy }) => [name, buy]),
    );
  });

  it('is the same twice', async () => {
    const again = await writeXlsx((await sampleJob()).model, { rasterise });
    expect(Buffer.from(again).equals(Buffer.from(bytes))).toBe(true);
  });
});

describe('a job without a setup', () => {
  it('plans with the example and says so, at the latitude of the inventory', async () => {
    const { inventory } = await sampleInput();
    const input = { inventory, fileName: 'trees.csv', madeOn: 46000 };
    const bare = planFromTables(input);
    expect(bare.notes.join(' ')).toMatch(/built-in example for: site, kit, rules, weather/);
    expect(bare.plan.site.latitude).toBeCloseTo(33.42, 1);
    const about = cellsOf(bare.model.sheets[0]!).map(({ cell }) => String(cell.value));
    expect(about.some((text) => text.includes('built-in example'))).toBe(true);
  });

  it('joins waterings by site, then by day, when a sheet could not hold them; the water stays the same', () => {
    const waterings = table(job.model, 'Plan').rows.length;
    const input: BuildInput = {
      plan: job.plan, reading: job.reading, kit: job.setup.kit, ruleRows: [], stageRows: [], weatherRows: [],
      units: 'US', source: 's', madeOn: 46000, title: 't', notes: [],
    }; // prettier-ignore
    const water = (model: WorkbookModel, name: string): number =>
      sum(numbers(column(model, name, 'volume')));
    let before = waterings;
    for (const [most, joined] of [
      [waterings - 1, 'by site'],
      [100, 'by day'],
    ] as const) {
      const ctx = context(input, most);
      expect(ctx.joined).toBe(joined);
      const plan = planSheet(ctx);
      expect(plan.refs.rows).toBeLessThan(before);
      before = plan.refs.rows;
      const model: WorkbookModel = {
        title: 't', description: 't', madeOn: 46000, paper: 'a4', sheets: [plan.sheet, crewSheet(ctx).sheet], names: {},
      }; // prettier-ignore
      expect(water(model, 'Plan')).toBeCloseTo(water(job.model, 'Plan'), 6);
      expect(water(model, 'Crew')).toBeCloseTo(water(job.model, 'Crew'), 6);
    }
  });
});
