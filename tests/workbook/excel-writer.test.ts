import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import {
  SheetDraft,
  cell,
  formula,
  type Rasterise,
  type WorkbookModel,
} from '../../src/workbook/model.js';
import { writeExcel, type ExcelOptions } from '../../src/workbook/writers/excel.js';
import { handedOver } from '../../src/workbook/writers/excel-text.js';
import { layOutAll, type LaidCell } from '../../src/workbook/writers/laid-out.js';
import { FakeHost, type FakeCell, type FakeOptions } from '../office/fake-host.js';
import { sampleJob } from './job.js';

const OPEN: FakeOptions = { sheets: [{ name: 'Street trees', values: [['Tag'], ['A-1']] }] };
/** One pixel of paper. */
const DOT = Uint8Array.from(
  atob('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5ErkJggg=='),
  (c) => c.charCodeAt(0),
); // prettier-ignore
const rasterise: Rasterise = () => Promise.resolve(DOT);

let remove = (): void => undefined;
afterEach(() => remove());
function host(options: FakeOptions = OPEN): FakeHost {
  const made = new FakeHost(options);
  remove = made.install();
  return made;
}

const quiet = (more: Partial<ExcelOptions> = {}): ExcelOptions => ({
  live: false,
  onProgress: () => undefined,
  signal: { aborted: false },
  rasterise,
  ...more,
});

let model: WorkbookModel;
beforeAll(async () => {
  model = (await sampleJob()).model;
});

const book = (...sheets: SheetDraft[]): WorkbookModel => ({
  title: 'Trial',
  description: 'Invented',
  madeOn: 46_000,
  paper: 'letter',
  sheets: sheets.map((s) => s.done()),
  names: {},
});
const column = (key: string, format: 'general' | 'text' | 'whole' = 'general') => ({ key, header: key, width: 10, format }); // prettier-ignore

const LINES = { thin: 'Continuous Thin', medium: 'Continuous Medium', dotted: 'Dot Thin' };
/** A cell of the model in words, to be compared with what the program holds. */
function meantAs({ value, formula: own, format, look, align, indent, wrap }: LaidCell): string {
  const line = look.border === undefined ? 'None' : LINES[look.border];
  return [
    own === undefined ? JSON.stringify(value ?? '') : `=${own}`, format, `#${look.color}`, look.size, look.bold, look.italic,
    look.ground === undefined ? '' : `#${look.ground}`, align ?? 'general', indent, wrap,
    line, line, ...(look.frame ? [] : [line, line]),
  ].join('|'); // prettier-ignore
}
function seenAs({ value, formula: own, numberFormat, font, fill, align, indent, wrap, border }: FakeCell, frame = false): string {
  const line = ({ style, weight }: FakeCell['border']['top']): string => (style === 'None' ? style : `${style} ${weight}`);
  return [
    own === '' ? JSON.stringify(value) : own, numberFormat, font.color, font.size, font.bold, font.italic,
    fill, align.toLowerCase(), indent, wrap,
    line(border.top), line(border.bottom), ...(frame ? [] : [line(border.left), line(border.right)]),
  ].join('|');
} // prettier-ignore

describe('the sample workbook in the spreadsheet program', () => {
  it('has every cell of the model: value or formula, number format and look', async () => {
    const fake = host();
    await writeExcel(model, quiet());
    expect(fake.sheets()).toEqual(['Street trees', ...model.sheets.map((s) => s.name)]);
    const wrong: string[] = [];
    let compared = 0;
    for (const laid of layOutAll(model))
      for (let row = 0; row < laid.rows; row++)
        for (let at = 0; at < laid.columns; at++) {
          const want = laid.cells(row, at);
          if (want === undefined) continue;
          compared++;
          const got = seenAs(fake.cellAt(laid.name, row, at), want.look.frame);
          const meant = meantAs(want);
          if (got !== meant) wrong.push(`${laid.name} ${row + 1}/${at + 1}: ${got} for ${meant}`);
        }
    expect(wrong.slice(0, 5)).toEqual([]);
    expect(compared).toBeGreaterThan(40_000);
  });

  it('takes at most three syncs a sheet, and one operation for many cells', async () => {
    const fake = host();
    await writeExcel(model, quiet());
    const [run] = fake.runs;
    expect(fake.runs).toHaveLength(1);
    const pictures = model.sheets.filter((s) => s.pictures.length > 0).length;
    expect(run!.syncs).toHaveLength(2 + model.sheets.length + pictures);
    const cells = layOutAll(model).reduce((n, s) => n + s.rows * s.columns, 0);
    const operations = run!.syncs.reduce((n, s) => n + s.operations, 0);
    expect(operations).toBeLessThan(cells / 5);
    for (const sync of run!.syncs.slice(2))
      expect(sync.statements[0]).toMatch(/suspendApiCalculationUntilNextSync|addImage/);
  });

  it('has tables, names, panes, lists, conditions, charts and pages', async () => {
    const fake = host();
    const { names, notes } = await writeExcel(model, quiet());
    for (const laid of layOutAll(model)) {
      const sheet = fake.book.sheet(laid.name)!;
      const tables = fake.book.tables.filter((t) => t.sheet === sheet).map((t) => t.name);
      expect(tables).toEqual(laid.tables.map((t) => t.name));
      expect(sheet.frozen).toEqual(laid.freeze);
      expect(sheet.validations).toHaveLength(laid.validations.length);
      expect(sheet.conditions.map((c) => c.formula)).toEqual(laid.conditions.map((c) => `=${c.formula}`)); // prettier-ignore
      expect(sheet.charts.map((c) => [c.title.text, c.category.title.text, c.value.title.text])).toEqual(laid.charts.map((c) => [c.title, c.x, c.y])); // prettier-ignore
      expect(sheet.charts.flatMap((c) => c.series.map((s) => s.values))).toEqual(laid.charts.flatMap((c) => c.series.map((s) => s.values.replaceAll('$', '')))); // prettier-ignore
      expect(sheet.shapes.map((s) => s.altTextDescription)).toEqual(
        laid.pictures.map((p) => p.alt),
      );
      expect(sheet.page.orientation.toLowerCase()).toBe(laid.page.orientation);
      expect(sheet.page.headers['rightFooter']).toContain('&P');
      expect(sheet.breaks.horizontal).toEqual(laid.breaks.map(String));
    }
    expect(names).toEqual(Object.keys(model.names));
    expect(fake.book.names.map((n) => [n.name, n.formula])).toEqual(Object.entries(model.names).map(([n, at]) => [n, `=${at}`])); // prettier-ignore
    expect(notes.join(' ')).toContain('no alternative text');
  });

  it('leaves the open sheet as it is, and says how far it is', async () => {
    const fake = host();
    const seen: string[] = [];
    await writeExcel(model, quiet({ onProgress: (done, total, sheet) => seen.push(`${done}/${total} ${sheet}`) })); // prettier-ignore
    expect(fake.values('Street trees')).toEqual([['Tag'], ['A-1']]);
    expect(seen[0]).toBe(`0/${model.sheets.length} ${model.sheets[0]!.name}`);
    expect(seen.at(-1)).toBe(`${model.sheets.length}/${model.sheets.length} `);
  });
});

describe('names in use', () => {
  it('a second build gets numbers, and its formulas, names and charts point at its own sheets', async () => {
    const fake = host();
    await writeExcel(model, quiet());
    const { sheets, names } = await writeExcel(model, quiet());
    expect(sheets.map((s) => s.name)).toEqual(model.sheets.map((s) => `${s.name} 2`));
    expect(names).toEqual(Object.keys(model.names).map((n) => `${n}_2`));
    const second = sheets.map((s) => fake.book.sheet(s.key)!);
    const old = new RegExp(`(?:^|[^\\w'])(?:${model.sheets.map((s) => s.name).join('|')})!|'(?:${model.sheets.map((s) => s.name).join('|')})'!`); // prettier-ignore
    for (const sheet of second)
      for (const { entry } of sheet.grid.filled())
        expect(entry.formula?.replace(/"[^"]*"/g, '""') ?? '').not.toMatch(old);
    for (const name of fake.book.names.slice(names.length)) expect(name.formula).toMatch(/ 2'!/);
    for (const chart of second.flatMap((s) => s.charts))
      for (const series of chart.series) expect(series.values).toMatch(/ 2'!/);
  });
});

describe('text is data', () => {
  const HOSTILE = ['=1+1', '+1', '-2', '@SUM(A1)', "'=1+1", "''", '1-2', '2026-07-01', '3/4', '10%', '$5', '1e5', '007', '12:30', 'TRUE', 'wahr', '#N/A', 'May 5', '5 May', '\t=1', ' =1', '-', '1,234', '2-2.5', '3x2', '日本 3']; // prettier-ignore

  it('whatever it looks like, in free text and in tables of every column format', async () => {
    const fake = host();
    const sheet = new SheetDraft('Texts', 'Texts');
    sheet.text(HOSTILE.map((text) => cell(text)));
    sheet.table('Hostile', [column('General'), column('Text', 'text'), column('Whole', 'whole')], HOSTILE.length, (i) => [HOSTILE[i]!, HOSTILE[i]!, HOSTILE[i]!]); // prettier-ignore
    await writeExcel(book(sheet), quiet());
    const values = fake.values('Texts');
    HOSTILE.forEach((text, i) => {
      expect(values[i]![0]).toBe(text);
      expect(values[HOSTILE.length + 1 + i]).toEqual([text, text, text]);
    });
    for (const { entry } of fake.book.sheet('Texts')!.grid.filled())
      expect(entry.formula).toBeUndefined();
    // and the stand-in would have read them as something else
    const plain = host();
    await Excel.run(async (context) => {
      HOSTILE.forEach((text, i) => {
        context.workbook.worksheets.getItem('Street trees').getCell(i, 2).values = [[text]];
      });
      await context.sync();
    });
    expect(HOSTILE.filter((text, i) => plain.values('Street trees')[i]![2] === text).length).toBeLessThan(10); // prettier-ignore
  });

  it('numbers and formulas in a text column stay numbers and formulas', async () => {
    const fake = host();
    const sheet = new SheetDraft('Mixed', 'Mixed');
    sheet.table('Mix', [column('Any', 'text')], 3, (i) => [[5, formula('1+1', 2), 'x'][i]!]);
    await writeExcel(book(sheet), quiet());
    expect([2, 3].map((row) => fake.cell('Mixed', `A${row}`)).map((c) => [c.value, c.formula])).toEqual([[5, ''], ['(calculated)', '=1+1']]); // prettier-ignore
    expect(fake.cell('Mixed', 'A4').numberFormat).toBe('@');
  });

  it('live formulas are written only when asked for', () => {
    const both = { ...layOutAll(book(twice()))[0]!.cells(0, 0)! };
    expect(handedOver(both, true)).toBe('=SOAK.INTERVAL(9,3)');
    expect(handedOver(both, false)).toBe('=9/3');
  });
  const twice = (): SheetDraft => {
    const sheet = new SheetDraft('Twice', 'Twice');
    sheet.text([cell(3, 'text', { formula: '9/3', live: 'SOAK.INTERVAL(9,3)' })]);
    return sheet;
  };
});

describe('a large table', () => {
  const long = (): SheetDraft => {
    const sheet = new SheetDraft('Long', 'Long');
    sheet.table('Rows', Array.from({ length: 20 }, (_, i) => column(`C${i + 1} x`)), 10_000, (i) =>
      Array.from({ length: 20 }, (_, c) =>
        c === 0 ? `Tree ${i}` : c === 5 && i % 7 === 0 ? cell(i, 'look') : c === 6 ? formula(`A${i + 2}`, `Tree ${i}`) : i + c,
      ),
    ); // prettier-ignore
    return sheet;
  };

  it('goes in few operations, in requests under five megabytes', async () => {
    const fake = host();
    await writeExcel(book(long()), quiet());
    const syncs = fake.runs[0]!.syncs;
    const bytes = syncs.map((s) => s.bytes);
    expect(Math.max(...bytes)).toBeLessThan(5 * 1024 * 1024);
    expect(syncs.reduce((n, s) => n + s.operations, 0)).toBeLessThan(400);
    expect(syncs.length).toBeLessThanOrEqual(2 + Math.ceil(bytes.reduce((a, b) => a + b, 0) / 3e6) + 1); // prettier-ignore
    expect(fake.cell('Long', 'F9').font.bold).toBe(true);
    expect(fake.cell('Long', 'F10').font.bold).toBe(false);
    expect(fake.values('Long')).toHaveLength(10_001);
  });
});

describe('stopped or refused', () => {
  const nothingLeft = (fake: FakeHost): void => {
    expect(fake.sheets()).toEqual(['Street trees']);
    expect(fake.book.tables).toEqual([]);
    expect(fake.book.names).toEqual([]);
  };

  it('leaves nothing half done, wherever it is stopped', async () => {
    for (const after of [0, 1, 7, model.sheets.length - 1]) {
      const fake = host();
      const signal = { aborted: false };
      const onProgress = (done: number): void => void (signal.aborted = done >= after);
      await expect(writeExcel(model, quiet({ signal, onProgress }))).rejects.toThrow(/You stopped the build/); // prettier-ignore
      nothingLeft(fake);
    }
  });

  it.each([
    ['AccessDenied', /structure is protected or it is read-only/],
    ['GeneralException', /refused writing the sheet “About” \(GeneralException\)/],
    ['RequestPayloadSizeLimitExceeded', /did not take that much at once/],
  ])('the host’s %s becomes a sentence, and what was written goes', async (code, sentence) => {
    const fake = host();
    let failed = false;
    const onProgress = (): void => {
      if (!failed) fake.failNext.push(code);
      failed = true;
    };
    const error: unknown = await writeExcel(model, quiet({ onProgress })).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(Problem);
    expect((error as Problem).message).toMatch(sentence);
    nothingLeft(fake);
  });

  it('a protected workbook, a cell being edited and a program too old are said before anything is written', async () => {
    let fake = host();
    fake.book.structureProtected = true;
    await expect(writeExcel(model, quiet())).rejects.toThrow(
      /structure of this workbook is protected/,
    );
    nothingLeft(fake);
    fake = host();
    fake.editing = true;
    await expect(writeExcel(model, quiet())).rejects.toThrow(/A cell is being edited/);
    fake.editing = false;
    nothingLeft(fake);
    fake = host({ ...OPEN, set: 8 });
    await expect(writeExcel(model, quiet())).rejects.toThrow(/too old .*ExcelApi 1.9/);
    nothingLeft(fake);
  });

  it('a name taken at the last moment by somebody else stays theirs', async () => {
    const fake = host();
    // somebody adds a sheet while the names in use are on their way
    const names = model.sheets.map((s) => s.name);
    const signal = {
      get aborted() {
        if (!fake.book.sheet('Plan')) fake.book.addSheet('Plan');
        return false;
      },
    };
    await expect(writeExcel(model, quiet({ signal }))).rejects.toThrow(/taken now/);
    expect(names).toContain('Plan');
    expect(fake.sheets()).toEqual(['Street trees', 'Plan']);
  });

  it('says which sheets are left when they cannot be taken away', async () => {
    const fake = host();
    const signal = { aborted: false };
    const onProgress = (done: number): void => {
      if (done < 2) return;
      signal.aborted = true;
      fake.editing = true;
    };
    await expect(writeExcel(model, quiet({ signal, onProgress }))).rejects.toThrow(/Delete these sheets by hand.*“About”, “Site”/); // prettier-ignore
  });
});

describe('what a version of the program lacks', () => {
  const drawn = (): WorkbookModel => {
    const sheet = new SheetDraft('Drawn', 'Drawn');
    sheet.text([cell('below')]);
    sheet.picture({ name: 'Coil', svg: '<svg xmlns="http://www.w3.org/2000/svg"/>', width: 80, height: 40, at: { row: 3, column: 1 }, alt: 'a coil of 12 m' }); // prettier-ignore
    return book(sheet);
  };

  it('pictures stand at their cell, in size, with alternative text', async () => {
    const fake = host();
    const { notes } = await writeExcel(drawn(), quiet());
    const [shape] = fake.book.sheet('Drawn')!.shapes;
    expect(shape).toMatchObject({ name: 'Coil', altTextDescription: 'a coil of 12 m', width: 60, height: 30 }); // prettier-ignore
    expect(shape!.top).toBeGreaterThan(29);
    expect(shape!.left).toBeGreaterThan(40);
    expect(notes).toEqual([]);
  });

  it.each([
    ['a version without ExcelApi 1.10', { ...OPEN, set: 9 }, {}],
    ['no way to draw', OPEN, { rasterise: undefined }],
  ])('with %s pictures are left out, and a note says so', async (_, options, more) => {
    const fake = host(options);
    const { rasterise: draw, ...rest } = { ...quiet(), ...more };
    const { notes } = await writeExcel(drawn(), { ...rest, ...(draw && { rasterise: draw }) });
    expect(fake.book.sheet('Drawn')!.shapes).toEqual([]);
    expect(notes.join()).toMatch(/Pictures of the sheet “Drawn” were left out/);
  });

  it('the floor, ExcelApi 1.9, writes all the rest of the sample', async () => {
    const fake = host({ ...OPEN, set: 9 });
    await writeExcel(model, quiet());
    expect(fake.sheets()).toHaveLength(1 + model.sheets.length);
  });
});
