import { afterEach, describe, expect, it, vi } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import type { ChosenCell } from '../../src/taskpane/host.js';
import { officeHost } from '../../src/taskpane/office-host.js';
import { SheetDraft, cell, type WorkbookModel } from '../../src/workbook/model.js';
import { FakeHost, type FakeOptions } from '../office/fake-host.js';

const TREES: FakeOptions = {
  sheets: [
    {
      name: 'Street trees',
      values: [['Tag', 'Planted', 'Demand'], ['A-1', 46_000, 1.5], ['A-2', 46_010, 2]],
      formulas: [['', '', ''], ['', '', '=SOAK.TREE_DEMAND(0.25,5)'], ['', '', '=SOAK.TREE_DEMAND(0.25,6)']],
      numberFormat: [['General', 'General', 'General'], ['General', 'yyyy-mm-dd', '0.0'], ['General', '[$-409]d-mmm', '0.0']],
    },
    { name: 'Rules', values: [[null, null], [null, 'Means'], [null, 'any']] },
    { name: 'Blank', values: [] },
  ],
}; // prettier-ignore

let remove = (): void => undefined;
afterEach(() => {
  remove();
  vi.useRealTimers();
});
async function start(options: FakeOptions = TREES, platform = 'OfficeOnline') {
  const fake = new FakeHost(options);
  fake.platform = platform;
  remove = fake.install();
  return { fake, host: await officeHost() };
}

const small = (...names: string[]): WorkbookModel => ({
  title: 'Trial',
  description: 'Invented',
  madeOn: 46_000,
  paper: 'letter',
  sheets: names.map((name) => {
    const sheet = new SheetDraft(name, name);
    sheet.text([cell('Hello', 'title')]);
    return sheet.done();
  }),
  names: { First_Cell: `${names[0]}!$A$1` },
});
const quiet = { live: true, onProgress: () => undefined, signal: { aborted: false } };
const settle = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 450));

describe('reading', () => {
  it('gives a sheet from its first cell, dates marked, without columns our functions fill', async () => {
    const { host } = await start();
    const { cells, dateCells } = await host.readActiveTable();
    expect(cells).toEqual([
      ['Tag', 'Planted'],
      ['A-1', 46_000],
      ['A-2', 46_010],
    ]);
    expect([...dateCells!]).toEqual(['1,1', '2,1']);
    expect((await host.readTable('rules')).cells).toEqual([[], [null, 'Means'], [null, 'any']]);
    expect(await host.readTable('Nowhere')).toEqual({ cells: [] });
    expect(await host.readTable('Blank')).toEqual({ cells: [] });
    expect(await host.openSheets()).toEqual(['Street trees', 'Rules', 'Blank']);
    expect(await host.sheetName()).toBe('Street trees');
  });

  it('takes large sheets in pieces that fit an answer, and halves them where texts are long', async () => {
    const values = Array.from({ length: 20_000 }, (_, i) => [`Row ${i}`, i, 'x'.repeat(i % 9 ? 5 : 900)]); // prettier-ignore
    const { fake, host } = await start({ sheets: [{ name: 'Long', values }], payload: 900_000 });
    const { cells } = await host.readActiveTable();
    expect(cells).toHaveLength(20_000);
    expect(cells[19_999]).toEqual(values[19_999]);
    const long = fake.runs.at(-1)!.syncs.length;
    expect(long).toBeGreaterThan(6);
    expect(long).toBeLessThan(40);
  });

  it('says in a sentence that somebody is typing', async () => {
    const { fake, host } = await start();
    fake.editing = true;
    const error: unknown = await host.readActiveTable().catch((e: unknown) => e);
    expect(error).toBeInstanceOf(Problem);
    expect((error as Problem).message).toMatch(/A cell is being edited/);
  });
});

describe('cells chosen and changed', () => {
  it('shows a cell of another sheet; a sheet that is gone is said', async () => {
    const { fake, host } = await start();
    await host.showCell(2, 1, 'Rules');
    expect(fake.chosen()).toBe('Rules!B3');
    await host.showCell(0, 0);
    expect(fake.chosen()).toBe('Rules!A1');
    await expect(host.showCell(0, 0, 'Gone')).rejects.toThrow('There is no sheet “Gone” any more.');
  });

  it('tells the cell that is chosen now, and each later one', async () => {
    const { fake, host } = await start();
    const seen: ChosenCell[] = [];
    host.onChoose((chosen) => seen.push(chosen));
    await vi.waitFor(() => expect(seen).toHaveLength(1));
    fake.choose('C2');
    await vi.waitFor(() => expect(seen).toHaveLength(2));
    expect(seen[1]).toEqual({ sheet: 'Street trees', address: 'C2', formula: '=SOAK.TREE_DEMAND(0.25,5)', shown: '1.5', trouble: '' }); // prettier-ignore
  });

  it('gives the block that is selected, with its sheet; several blocks are refused in a sentence', async () => {
    const { fake, host } = await start();
    fake.choose('A1:C3');
    expect(await host.selectedCells()).toEqual({ sheet: 'Street trees', range: 'A1:C3' });
    fake.choose('B:C');
    expect((await host.selectedCells()).range).toBe('B:C');
    fake.activate('Rules');
    fake.choose('B2');
    expect(await host.selectedCells()).toEqual({ sheet: 'Rules', range: 'B2' });
    fake.choose('A1:A3,C1:C3');
    const error: unknown = await host.selectedCells().catch((e: unknown) => e);
    expect(error).toBeInstanceOf(Problem);
    expect((error as Problem).message).toMatch(/not one block of cells; select one block/);
  });

  it('tells of changes once for many, and of its own writing when it is done', async () => {
    const { fake, host } = await start();
    let told = 0;
    host.onChange(() => told++);
    for (const address of ['A2', 'A3', 'A4']) fake.type('Street trees', address, 'B');
    await settle();
    expect(told).toBe(1);
    fake.activate('Rules');
    await settle();
    expect(told).toBe(2);
    await host.writeModel(small('One', 'Two'), quiet);
    await settle();
    expect(told).toBe(3);
  });
});

describe('sheets written and taken away', () => {
  it('takes away its own sheets, renamed or not, and no others', async () => {
    const { fake, host } = await start();
    const first = await host.writeModel(small('Plan', 'Kit'), quiet);
    const second = await host.writeModel(small('Plan', 'Kit'), quiet);
    expect(second.sheets.map((s) => s.name)).toEqual(['Plan 2', 'Kit 2']);
    expect(second.names).toEqual(['First_Cell_2']);
    fake.book.renameSheet(fake.book.sheet('Plan 2')!, 'My plan');
    fake.book.deleteSheet(fake.book.sheet('Kit 2')!);
    fake.book.addSheet('Kit 2');
    await host.removeSheets(second);
    expect(fake.sheets()).toEqual(['Street trees', 'Rules', 'Blank', 'Plan', 'Kit', 'Kit 2']);
    expect(fake.book.names.map((n) => n.name)).toEqual(['First_Cell']);
    await host.removeSheets(first);
    await host.removeSheets(first);
    expect(fake.sheets()).toEqual(['Street trees', 'Rules', 'Blank', 'Kit 2']);
    expect(fake.book.names).toEqual([]);
  });

  it('a name a person has pointed elsewhere stays', async () => {
    const { fake, host } = await start();
    const receipt = await host.writeModel(small('Plan'), quiet);
    fake.book.names[0]!.formula = '=Rules!$B$2';
    await host.removeSheets(receipt);
    expect(fake.book.names.map((n) => n.formula)).toEqual(['=Rules!$B$2']);
  });

  it('the last sheets of a workbook are not taken away, and a sentence says why', async () => {
    const { fake, host } = await start();
    const receipt = await host.writeModel(small('Plan'), quiet);
    for (const name of ['Street trees', 'Rules', 'Blank']) fake.book.deleteSheet(fake.book.sheet(name)!); // prettier-ignore
    await expect(host.removeSheets(receipt)).rejects.toThrow(/needs one sheet that can be seen/);
    expect(fake.sheets()).toEqual(['Plan']);
  });
});

describe('settings in the workbook', () => {
  it('keep texts of any length, and forget them', async () => {
    const { fake, host } = await start();
    expect(await host.readSetting('draft')).toBe('');
    const long = Array.from({ length: 95_000 }, (_, i) => String.fromCharCode(97 + (i % 26))).join(''); // prettier-ignore
    await host.writeSetting('draft', long);
    expect(await host.readSetting('draft')).toBe(long);
    await host.writeSetting('draft', long.slice(0, 40_000));
    expect(await host.readSetting('draft')).toBe(long.slice(0, 40_000));
    await host.writeSetting('draft', 'short');
    expect(await host.readSetting('draft')).toBe('short');
    expect([...fake.book.settings.keys()]).toEqual(['draft']);
    await host.writeSetting('draft', '');
    expect(fake.book.settings.size).toBe(0);
  });

  it('written at the same time the last one counts', async () => {
    const { host } = await start();
    await Promise.all([host.writeSetting('a', 'x'.repeat(70_000)), host.writeSetting('a', 'last')]);
    expect(await host.readSetting('a')).toBe('last');
  });
});

describe('small edits', () => {
  it('puts a formula into a blank cell, even one formatted as text, and no other', async () => {
    const { fake, host } = await start();
    fake.choose('E5');
    fake.book.active.grid.paint('numberFormat', { top: 4, left: 4, rows: 1, columns: 1 }, '@');
    expect(await host.insertFormula('=SOAK.BAG_HOURS(15,4,0.055,24)')).toMatchObject({
      address: 'E5',
      error: '',
    });
    expect(fake.cell('Street trees', 'E5').formula).toBe('=SOAK.BAG_HOURS(15,4,0.055,24)');
    await expect(host.insertFormula('=1+1')).rejects.toThrow('E5 is not blank; choose a blank cell for the formula'); // prettier-ignore
    fake.choose('A2');
    await expect(host.insertFormula('=1+1')).rejects.toThrow(/A2 is not blank/);
    expect(fake.cell('Street trees', 'A2').value).toBe('A-1');
  });

  it('takes a formula back that shows an error, and leaves the cell as it was', async () => {
    const { fake, host } = await start({ ...TREES, compute: () => '#VALUE!' });
    fake.choose('E5');
    expect(await host.insertFormula('=SOAK.BAG_HOURS(15)', { format: '0.0' })).toMatchObject({
      address: 'E5',
      error: '#VALUE!',
    });
    expect(fake.cell('Street trees', 'E5')).toMatchObject({ formula: '', value: '', numberFormat: 'General' }); // prettier-ignore
  });

  it('waits for a value that is on its way', async () => {
    const { fake, host } = await start({ ...TREES, compute: () => '#BUSY!' });
    fake.choose('E5');
    const inserting = host.insertFormula('=SOAK.BAG_HOURS(15,4,0.055,24)');
    await new Promise((done) => setTimeout(done, 300));
    fake.type('Street trees', 'E5', '6.2');
    expect(await inserting).toMatchObject({ address: 'E5', error: '', shown: '6.2' });
  });

  it('finds blank cells below and to the right, and beside everything on a sheet', async () => {
    const { host } = await start();
    const [below, right] = await host.blankCells({ rows: 1, columns: 2 }, 'Street trees', 'A2');
    const cells = async (range: string) => (await host.cellValues(range, 'Street trees')).flat();
    for (const place of [below!, right!]) expect(await cells(place)).toEqual([null]);
    expect(await host.blankCells({ rows: 1, columns: 1 }, 'Street trees')).toHaveLength(1);
    await expect(host.cellValues('A1', 'Nowhere')).rejects.toThrow('There is no sheet “Nowhere”');
  });

  it('writes cells that still hold what they are thought to hold, text as text, and no other', async () => {
    const { fake, host } = await start();
    const at = (row: number, column: number, was: string | number | null, value: string | number | null) => ({ row, column, was, value }); // prettier-ignore
    const edits = [
      { ...at(0, 3, null, 'Assumed'), head: true },
      at(1, 3, null, 'DBH (in) = 2'),
      at(2, 3, null, '1-2'),
      at(1, 0, null, 'over a value'),
      at(2, 0, 'A-2', 'A-20'),
      at(1, 2, null, 3),
    ];
    expect(await host.editCells('Street trees', edits)).toBe(4);
    expect(fake.values('Street trees').map((row) => [row[0], row[2], row[3]])).toEqual([['Tag', 'Demand', 'Assumed'], ['A-1', 1.5, 'DBH (in) = 2'], ['A-20', 2, '1-2']]); // prettier-ignore
    expect(fake.cell('Street trees', 'C2').formula).toBe('=SOAK.TREE_DEMAND(0.25,5)');
    expect(await host.editCells('Street trees', [at(1, 3, 'DBH (in) = 2', null), at(2, 3, 'DBH (in) = 2', null)])).toBe(1); // prettier-ignore
    await expect(host.editCells('Nowhere', edits)).rejects.toThrow('There is no sheet “Nowhere”');
  });

  it('changes single cells, text as text, and none of them where one holds a formula', async () => {
    const { fake, host } = await start();
    const change = (row: number, column: number, value: string | number | null) => ({ row, column, value }); // prettier-ignore
    await host.changeCells('Street trees', [change(1, 0, '=1+1'), change(2, 1, null), change(4, 4, '1-2')]); // prettier-ignore
    expect(fake.cell('Street trees', 'A2')).toMatchObject({ value: '=1+1', formula: '' });
    expect(fake.cell('Street trees', 'B3')).toMatchObject({ value: '', numberFormat: '[$-409]d-mmm' }); // prettier-ignore
    expect(fake.cell('Street trees', 'E5').value).toBe('1-2');
    const before = fake.values('Street trees');
    await expect(
      host.changeCells('Street trees', [change(1, 0, 'A-9'), change(1, 2, 3), change(2, 2, null)]),
    ).rejects.toThrow('Formulas stand in C2, C3 of the sheet “Street trees”, so nothing was written. Put plain values there'); // prettier-ignore
    expect(fake.values('Street trees')).toEqual(before);
    expect(fake.cell('Street trees', 'C2').formula).toBe('=SOAK.TREE_DEMAND(0.25,5)');
    await expect(host.changeCells('Nowhere', [change(0, 0, 1)])).rejects.toThrow('There is no sheet “Nowhere”'); // prettier-ignore
  });

  it('writes below the last filled row of its columns, and makes the sheet where there is none', async () => {
    const { fake, host } = await start();
    const header = ['Date', 'Row', 'Note'];
    expect(await host.appendRow('Log', header, [46_001, 12, '=1+1'])).toBe(2);
    expect(await host.appendRow('Log', header, [46_002, 3, '1-2'])).toBe(3);
    expect(fake.values('Log')).toEqual([header, [46_001, 12, '=1+1'], [46_002, 3, '1-2']]);
    expect(fake.cell('Log', 'A2').numberFormat).toBe('yyyy-mm-dd');
    expect(fake.cell('Log', 'C2').formula).toBe('');
    fake.type('Log', 'F9', 'far away');
    expect(await host.appendRow('Log', header, [46_003, 1, null])).toBe(4);
    expect(await host.appendRow('Blank', header, [46_003, 1, 'first'])).toBe(2);
    expect(fake.sheets()).toEqual(['Street trees', 'Rules', 'Blank', 'Log']);
  });

  it('enters our own formulas again where they are broken, on all sheets, in few syncs', async () => {
    const { fake, host } = await start({ ...TREES, addInMissing: true, compute: () => 7 });
    const trees = fake.book.sheet('Street trees')!;
    trees.enter(1, 2, '=SOAK.TREE_DEMAND(0.25,5)');
    trees.enter(2, 2, '=_xldudf_SOAK_TREE_DEMAND(0.25,6)');
    fake.book.sheet('Rules')!.enter(5, 0, '=IF(B2="","",soak.INTERVAL(9,3))');
    fake.book.sheet('Rules')!.grid.put(6, 0, { value: '#NAME?', formula: '=SUMM(1)' });
    fake.book.sheet('Blank')!.grid.put(0, 0, { value: '#BUSY!', formula: '=SOAK.INTERVAL(9,3)' });
    fake.book.sheet('Blank')!.grid.put(1, 0, { value: 3, formula: '=SOAK.INTERVAL(9,3)' });
    expect(fake.cell('Street trees', 'C2').value).toBe('#NAME?');
    fake.book.options.addInMissing = false;
    expect(await host.repair()).toBe(4);
    expect(fake.runs.at(-1)!.syncs).toHaveLength(4);
    expect(fake.cell('Street trees', 'C3')).toMatchObject({ value: 7, formula: '=SOAK.TREE_DEMAND(0.25,6)' }); // prettier-ignore
    expect(fake.cell('Rules', 'A6').value).toBe(7);
    expect(fake.cell('Rules', 'A7').value).toBe('#NAME?');
    expect(fake.cell('Blank', 'A1').value).toBe(7);
    expect(fake.cell('Blank', 'A2').value).toBe(3);
    expect(await host.repair()).toBe(0);
  });
});

describe('saving a file', () => {
  it.each(['Mac', 'iOS'])(
    'is refused in a sentence on %s, where the program would do nothing',
    async (platform) => {
      const { host } = await start(TREES, platform);
      await expect(host.saveFile('plan.xlsx', new Uint8Array(3))).rejects.toThrow(/lets no panel save files, so plan.xlsx was not saved/); // prettier-ignore
    },
  );
});
