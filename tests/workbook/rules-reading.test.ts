/** Reading a Rules table from .xlsx, text and cells. What is right here is common practice, no source. */
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import type { Cell } from '../../src/tables/cells.js';
import { SheetDraft } from '../../src/workbook/model.js';
import {
  findRules,
  inWords,
  readRules,
  readRulesFile,
  refusal,
  understandTables,
  withStages,
} from '../../src/workbook/rules-reading.js';
import { setupFromSheets } from '../../src/workbook/setup.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';

const RULES: Cell[][] = [
  ['Means', 'Address', 'Days', 'Hours', 'Verdict', 'From'],
  ['soaker', 'even', 'Tue Sat', 'before 10:00, after 19:00', 'allow', '2027-05-01'],
  ['bag, tanker', '', '', '', 'free', ''],
];
const STAGES: Cell[][] = [
  ['From', 'Stage'],
  ['2027-05-01', '2'],
];
const SENTENCES = [
  'Even addresses may water by soaker on Tuesday and Saturday, before 10:00 or after 19:00, from 1 May 2027.',
  'All addresses may water by bag or tanker at any time.',
];
const csv = (rows: Cell[][]): Uint8Array =>
  new TextEncoder().encode(rows.map((r) => r.map((c) => (c === null ? '' : `"${c}"`)).join(',')).join('\n')); // prettier-ignore

async function xlsx(sheets: Record<string, Cell[][]>): Promise<Uint8Array> {
  const made = Object.entries(sheets).map(([name, cells]) => {
    const draft = new SheetDraft(name, name);
    draft.text(cells.map((row) => row.map((value) => ({ value }))));
    return draft.done();
  });
  return writeXlsx({ title: 't', description: 't', madeOn: 46000, paper: 'a4', sheets: made, names: {} }); // prettier-ignore
}

describe('a Rules table is found', () => {
  it('in text, in a workbook and in cells, and says the same in words', async () => {
    const readings = [
      await readRulesFile('rules.csv', csv(RULES)),
      await readRulesFile('rules.xlsx', await xlsx({ Notes: [['nothing here']], Rules: RULES })),
      readRules([{ name: 'Sheet1', cells: RULES }]),
    ];
    for (const reading of readings) {
      expect(reading.understood.map((u) => u.sentence)).toEqual(SENTENCES);
      expect(reading.understood.map((u) => u.row)).toEqual([2, 3]);
      expect(reading.table.rows[0]!.from).toBe(dayOf(2027, 5, 1));
      expect(reading.broken).toBe(0);
    }
  });

  it('below a title, with Stages over it, under it, beside it or on a sheet of its own', () => {
    const beside = [0, 1, 2].map((r) => [...RULES[r]!, null, ...(STAGES[r] ?? [])]);
    const layouts: Record<string, { name: string; cells: Cell[][] }[]> = {
      over: [{ name: 'Rules', cells: [['Town rules'], [], ['Stages'], ...STAGES, [], ['Rules'], ...RULES] }],
      under: [{ name: 'Rules', cells: [...RULES, [], ['Stages'], ...STAGES] }],
      beside: [{ name: 'Rules', cells: [['Town rules'], ...beside] }],
      apart: [
        { name: 'Stages', cells: STAGES },
        { name: 'Rules', cells: RULES },
      ],
      'other names': [{ name: 'Tabelle1', cells: [['x'], ...RULES, [], ...STAGES] }],
    }; // prettier-ignore
    for (const [name, sheets] of Object.entries(layouts)) {
      const reading = readRules(sheets);
      expect(reading.understood.map((u) => u.sentence), name).toEqual(SENTENCES); // prettier-ignore
      expect(reading.table.stages, name).toEqual([{ from: dayOf(2027, 5, 1), stage: '2' }]);
      expect(reading.broken, name).toBe(0);
    }
  });

  it('rows after a blank row still count', () => {
    const [head, first, second] = RULES as [Cell[], Cell[], Cell[]];
    const reading = readRules([{ name: 'Rules', cells: [head, first, [], second] }]);
    expect(reading.understood.map((u) => [u.row, u.tableRow])).toEqual([
      [2, 2],
      [4, 4],
    ]);
  });

  it('the column Understood of our own sheet is no rule', () => {
    const cells = RULES.map((row, i) => [
      ...row,
      i === 0 ? 'Understood (text made with this file)' : 'Row',
    ]);
    const reading = readRules([{ name: 'Rules', cells }]);
    expect(reading.rows).toEqual(RULES);
    expect(reading.broken).toBe(0);
  });

  it('not where there is none: a sentence says what is looked for', async () => {
    expect(findRules([{ name: 'Trees', cells: [['Id', 'Address'], ['a', '1 Hawser Lane']] }])).toBe(undefined); // prettier-ignore
    expect(() => readRules([{ name: 'Rules', cells: [['hello']] }])).toThrow(
      /no Rules table was found on "Rules".*Verdict/,
    );
    await expect(readRulesFile('town.csv', csv([['a', 'b']]))).rejects.toThrow(/"town.csv": no Rules/); // prettier-ignore
    await expect(readRulesFile('town.pdf', new TextEncoder().encode('%PDF-1'))).rejects.toThrow(/is a PDF/); // prettier-ignore
    const { problems, setup } = setupFromSheets([{ name: 'Rules', cells: [['hello']] }]
      .concat([{ name: 'Kit', cells: [['Device', 'Family']] }])); // prettier-ignore
    expect(setup.rules).toBe(undefined);
    expect(problems.join(' ')).toMatch(/Sheet "Rules": no row of headers with Verdict/);
  });
});

describe('broken rows', () => {
  const cells: Cell[][] = [
    ['Town rules'],
    [],
    [null, 'Means', 'Hours', 'Verdict'],
    [null, 'bag', 'any', 'allow'],
    [null, 'bagg', '25:00-26:00', 'allow'],
    [null, 'hand', 'before 9', 'maybe'],
  ];
  const reading = readRules([{ name: 'Rules', cells }]);

  it('are named by row, column and cell of the sheet, with what was read and what is accepted', () => {
    const broken = reading.problems.filter((p) => p.kind === 'broken');
    expect(broken.map(({ row, column, address, read }) => [row, column, address, read])).toEqual([
      [5, 'Means', 'B5', 'bagg'],
      [5, 'Hours', 'C5', '25:00-26:00'],
      [6, 'Verdict', 'D6', 'maybe'],
    ]);
    expect(broken[2]!.accepted).toBe('allow, ban, free');
    for (const { sentence, read, accepted, row } of broken) {
      expect(sentence).toContain(`sheet "Rules", row ${row}, `);
      expect(sentence).toContain(`Read "${read}"; accepted: ${accepted}.`);
    }
    expect(reading.understood.map((u) => u.row)).toEqual([4]);
    expect([reading.given, reading.broken]).toEqual([3, 3]);
  });

  it('stop planning with every place named; whole rules do not', () => {
    const why = refusal(reading, 'Mend them.')!;
    expect(why).toMatch(/3 places to mend[^]*row 5, Means[^]*row 6, Verdict[^]*Mend them\.$/);
    expect(why).not.toContain('left out');
    expect(refusal(understandTables(RULES), 'x')).toBe(undefined);
  });

  it('rows that other rows contradict are named as on the sheet', () => {
    const { problems } = readRules([
      { name: 'Rules', cells: [['t'], [], ['Means', 'Days', 'Verdict'], ['bag', '', 'ban'], ['bag', 'Mon', 'allow']] },
    ]); // prettier-ignore
    const notice = problems.find((p) => /contradicts/.test(p.sentence))!;
    expect(notice.row).toBe(5);
    expect(notice.sentence).toContain('contradicts row 4');
  });

  it('unknown columns, doubled columns and a missing Verdict are said', () => {
    const table = understandTables([['Means', 'Section', 'Means', 'Verdict'], ['bag', '7', 'bag', 'allow']]); // prettier-ignore
    expect(table.problems.map((p) => p.column)).toEqual(['Section', 'Means']);
    const none = readRules([{ name: 'Rules', cells: [['Means', 'Hours'], ['bag', 'any']] }]); // prettier-ignore
    expect(none.problems[0]!.sentence).toMatch(/column Verdict is missing/);
    expect(none.broken).toBe(1);
  });
});

describe('in words', () => {
  it('counts the rows, says each, then what to look at', () => {
    const unread = ['lawn cannon', '', '', '', 'allow', ''];
    expect(inWords(readRules([{ name: '', cells: [...RULES, unread] }]))).toEqual([
      'Rules: 3 rows read, 2 understood.',
      ...SENTENCES.map((s, i) => `  row ${i + 2}: ${s}`),
      expect.stringMatching(/^✕ Rules: row 4, Means: .*lawn cannon/),
    ]);
  });

  it('stages of the site serve rules that came without', () => {
    const staged: Cell[][] = [['Stage', 'Means', 'Verdict'], ['2', 'bag', 'allow']]; // prettier-ignore
    const bare = readRules([{ name: '', cells: staged }]);
    expect(bare.staged).toBe(false);
    expect(withStages(bare, STAGES).table.stages).toHaveLength(1);
    const own = readRules([{ name: 'Rules', cells: [...staged, [], ...STAGES] }]);
    expect(withStages(own, [STAGES[0]!, ['2027-08-01', '9']]).table.stages[0]!.stage).toBe('2');
  });
});
