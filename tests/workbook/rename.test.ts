import { describe, expect, it } from 'vitest';
import { SheetDraft, cell, formula, rich, tablesOf, type WorkbookModel } from '../../src/workbook/model.js'; // prettier-ignore
import { withFreeNames, type NamesInUse } from '../../src/workbook/writers/rename.js';

const NONE: NamesInUse = { sheets: [], tables: [], names: [] };

function model(formulas: string[] = []): WorkbookModel {
  const plan = new SheetDraft('Plan', 'Plan');
  plan.text([cell('Plan days', 'text', { jump: "'Plan days'!A1" }), cell('Plan', 'text', { jump: 'Plan!A1' }), cell('Plan', 'note')]); // prettier-ignore
  plan.text(formulas.map((text) => formula(text, 0, { live: `SOAK.X(${text})` })));
  plan.table('Plan', [{ key: 'day', header: 'Day', width: 10 }], 1, () => [1]);
  plan.validateFrom('A1', 'Plan_List', 'choose').when('A1', "COUNT('Plan days'!A1)>0", 'look');
  plan.chart({ kind: 'line', title: 'Plan', x: 'x', y: 'y', dates: false, alt: 'Plan!A1', series: [{ name: 'Plan', values: 'Plan!$A$1:$A$9', categories: "'Plan days'!$A$1:$A$9", look: 'line' }] }, 5, 5); // prettier-ignore
  const days = new SheetDraft('Plan days', 'Plan days');
  days.table('PlanDays', [{ key: 'day', header: 'Plan', width: 10 }], 1, () => [1]);
  return {
    title: 'Plan',
    description: '',
    madeOn: 46_000,
    paper: 'a4',
    sheets: [plan.done(), days.done()],
    names: { Plan_List: "'Plan days'!$A$1", Plan_From: 'Plan!$A$1' },
  };
}

const IN_USE: NamesInUse = {
  sheets: ['plan', 'PLAN DAYS'],
  tables: ['PLAN'],
  names: ['plan_list'],
};
const followed = (text: string, inUse = IN_USE): string => {
  const made = withFreeNames(model([text]), inUse);
  const [, block] = made.sheets[0]!.blocks;
  const found = rich(block!.kind === 'text' ? block!.lines[0]![0]! : null);
  expect(found.live).toBe(`SOAK.X(${found.formula})`);
  return found.formula!;
};

describe('names beside names in use', () => {
  it('stay when they are free', () => {
    const own = model(['Plan!A1']);
    expect(withFreeNames(own, NONE)).toBe(own);
  });

  it('get the next number, whatever their case, and tables and names share a room', () => {
    const made = withFreeNames(model(), { ...IN_USE, sheets: ['plan', 'Plan 2', 'Plan days'] });
    expect(made.sheets.map((s) => s.name)).toEqual(['Plan 3', 'Plan days 2']);
    expect(made.sheets.flatMap(tablesOf).map((t) => t.name)).toEqual(['Plan_2', 'PlanDays']);
    expect(Object.keys(made.names)).toEqual(['Plan_List_2', 'Plan_From']);
    const crossed = withFreeNames(model(), { ...NONE, tables: ['Plan_From'], names: ['PlanDays'] });
    expect(crossed.sheets.flatMap(tablesOf).map((t) => t.name)).toEqual(['Plan', 'PlanDays_2']);
    expect(Object.keys(crossed.names)).toEqual(['Plan_List', 'Plan_From_2']);
  });

  it('fit into 31 characters', () => {
    const long = new SheetDraft('A sheet with a rather long nam', 'Long');
    const longest = new SheetDraft('A sheet with a rather long name', 'Longest');
    const made = withFreeNames(
      { ...model(), sheets: [long.done(), longest.done()], names: {} },
      { ...NONE, sheets: [long.name, longest.name] },
    );
    const names = made.sheets.map((s) => s.name);
    expect(names).toEqual(['A sheet with a rather long na 2', 'A sheet with a rather long na 3']);
    for (const name of names) expect(name.length).toBeLessThanOrEqual(31);
  });

  it('a number may not take another sheet of the model', () => {
    const sheets = ['Plan', 'Plan 2'].map((name) => new SheetDraft(name, name).done());
    const made = withFreeNames({ ...model(), sheets, names: {} }, { ...NONE, sheets: ['Plan'] });
    expect(new Set(made.sheets.map((s) => s.name)).size).toBe(2);
    expect(made.sheets.map((s) => s.name)).not.toContain('Plan');
  });
});

describe('what points at a renamed sheet, table or name', () => {
  it.each([
    ['a plain reference', 'SUM(Plan!$A$1:$B$9)', "SUM('Plan 2'!$A$1:$B$9)"],
    ['a quoted reference', "'Plan days'!A1+'Plan'!B2", "'Plan days 2'!A1+'Plan 2'!B2"],
    ['whatever its case', 'plan!A1', "'Plan 2'!A1"],
    ['a table by its name', 'ROWS(Plan)', 'ROWS(Plan_2)'],
    [
      'columns of a table',
      'SUM(Plan[Day],Plan[[#All],[Day]])',
      'SUM(Plan_2[Day],Plan_2[[#All],[Day]])',
    ],
    ['a defined name', 'Plan_List*2', 'Plan_List_2*2'],
  ])('%s follows', (_, before, after) => {
    expect(followed(before)).toBe(after);
  });

  it.each([
    ['text, with quotes in it', 'IF(A1="Plan!A1 ""Plan!A2"" Plan",1,2)'],
    ['a longer sheet name', 'PlanB!A1+MyPlan!A1+Plan_b!A1+Plan.x!A1'],
    ['a longer quoted name', "'Plan days 9'!A1+'My Plan'!A1"],
    ['a longer defined name', 'Plan_Lists+My_Plan_List+Plan_From'],
    ['a function of that name', 'PLAN(1)+SOAK.PLAN(2)'],
    ['a column of that name', 'SUM(PlanDays[Plan],PlanDays[[#All],[Plan]])'],
    ['a sheet of another workbook', "[Other.xlsx]Plan!A1+'[Other.xlsx]Plan'!A1"],
    ['errors, numbers and addresses', '#REF!+1E5+$A$1+A1+#N/A'],
  ])('%s stays', (_, before) => {
    expect(followed(before)).toBe(before);
  });

  it('an apostrophe in a name is doubled', () => {
    const sheets = [new SheetDraft("Bo's", 'x').done()];
    const made = withFreeNames(
      { ...model(), sheets, names: { At: "'Bo''s'!$A$1" } },
      { ...NONE, sheets: ["bo's"] },
    );
    expect(made.names).toEqual({ At: "'Bo''s 2'!$A$1" });
  });

  it('jumps, lists, conditions, names and charts follow; words stay', () => {
    const [plan, days] = withFreeNames(model(), IN_USE).sheets;
    const [first] = plan!.blocks;
    const cells = first!.kind === 'text' ? first!.lines.flat() : [];
    expect(cells.map((c) => [c.value, c.jump])).toEqual([
      ['Plan days 2', "'Plan days 2'!A1"],
      ['Plan 2', "'Plan 2'!A1"],
      ['Plan', undefined],
    ]);
    expect(plan!.validations[0]!.source).toBe('Plan_List_2');
    expect(plan!.conditions[0]!.formula).toBe("COUNT('Plan days 2'!A1)>0");
    expect(plan!.charts[0]).toMatchObject({ title: 'Plan', alt: 'Plan!A1' });
    expect(plan!.charts[0]!.series[0]).toMatchObject({ name: 'Plan', values: "'Plan 2'!$A$1:$A$9", categories: "'Plan days 2'!$A$1:$A$9" }); // prettier-ignore
    expect(withFreeNames(model(), IN_USE).names).toEqual({ Plan_List_2: "'Plan days 2'!$A$1", Plan_From: "'Plan 2'!$A$1" }); // prettier-ignore
    expect(tablesOf(days!)[0]!.columns[0]!.header).toBe('Plan');
  });
});
