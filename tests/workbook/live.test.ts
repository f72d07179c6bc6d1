/** Formulas by our own functions, beside those by the spreadsheet's: the same numbers, in calls the functions know. */
import { beforeAll, describe, expect, it } from 'vitest';
import metadata from '../../src/generated/functions.json' with { type: 'json' };
import { rich, tablesOf, type RichCell, type WorkbookModel } from '../../src/workbook/model.js';
import { both, ownCall, twin, TWIN_IDS, twinArguments } from '../../src/workbook/native-twins.js';
import { layOutAll, type LaidSheet } from '../../src/workbook/writers/laid-out.js';
import { openGrid, writing, type OpenGrid } from '../desk/open-grid.js';
import { sampleJob } from './job.js';

const SLOW = 240_000;
const DIGITS = 1e-9;

const known = new Map(metadata.functions.map((fn) => [fn.id, fn.parameters]));

/** Our functions called in a formula, each with its arguments as text. */
function calls(formula: string): { id: string; args: string[] }[] {
  return [...formula.matchAll(/\bSOAK\.([A-Z0-9_]+)\(/g)].map((found) => {
    const args = [''];
    let depth = 0;
    let quoted = false;
    for (let at = found.index + found[0].length; depth >= 0; at++) {
      const sign = formula[at];
      if (sign === undefined) throw new Error(`unclosed call in ${formula}`);
      if (sign === '"') quoted = !quoted;
      if (!quoted && sign === '(') depth += 1;
      if (!quoted && sign === ')') depth -= 1;
      if (!quoted && depth === 0 && sign === ',') args.push('');
      else args[args.length - 1] += sign;
    }
    args[args.length - 1] = args.at(-1)!.slice(0, -1);
    return { id: found[1]!, args };
  });
}

const cellsOf = (model: WorkbookModel): RichCell[] =>
  model.sheets.flatMap((sheet) => tablesOf(sheet).flatMap((t) => t.rows.flat().map(rich)));

describe('a call in both voices', () => {
  it('says the unit system only where it is SI and the function takes one', () => {
    expect(ownCall('TREE_DEMAND', ['A1', 'B1'], 'US')).toBe('SOAK.TREE_DEMAND(A1,B1)');
    expect(ownCall('TREE_DEMAND', ['A1', 'B1'], 'SI')).toBe('SOAK.TREE_DEMAND(A1,B1,,,"SI")');
    expect(ownCall('INTERVAL', ['A1', 'B1'], 'SI')).toBe('SOAK.INTERVAL(A1,B1)');
  });

  it.each(TWIN_IDS)(
    '%s has as many arguments as functions.json says, in both unit systems',
    (id) => {
      const parameters = known.get(id)!;
      const args = twinArguments(id).map((_, i) => `A${i + 1}`);
      expect(calls(ownCall(id, args, 'US'))).toEqual([{ id, args }]);
      const takesUnits = parameters.at(-1)?.name === 'units';
      const inSI = takesUnits ? [...args, '"SI"'] : args;
      expect(calls(ownCall(id, args, 'SI'))).toEqual([{ id, args: inSI }]);
      expect(inSI.length).toBeLessThanOrEqual(parameters.length);
      if (takesUnits) expect(inSI).toHaveLength(parameters.length);
    },
  );

  it('refuses what the twin refuses', () => {
    expect(() => ownCall('INTERVAL', ['A1'], 'US')).toThrow('needs its argument demand');
    expect(() => ownCall('PRICE', ['A1', 'B1', 'C1'], 'US')).toThrow('takes 2 arguments; got 3');
  });

  it('keeps what stands around the call', () => {
    const made = both('US', (call) => `IF(A1="","",2*${call('INTERVAL', ['A1', 'B1'])})`);
    expect(made.live).toBe('IF(A1="","",2*SOAK.INTERVAL(A1,B1))');
    expect(made.formula).toBe(`IF(A1="","",2*${twin('INTERVAL', ['A1', 'B1'], 'US')})`);
  });

  it('a formula without our functions has one voice', () => {
    expect(both('SI', () => 'A1+B1')).toEqual({ formula: 'A1+B1' });
  });
});

describe.each(['US', 'SI'] as const)('live formulas of the sample in %s', (units) => {
  let model: WorkbookModel;
  let laid: LaidSheet[];
  let grid: OpenGrid;
  beforeAll(async () => {
    ({ model } = await sampleJob({ units }));
    laid = layOutAll(model);
    grid = openGrid({ Mine: { 0: { 0: { v: 1 } } } });
    // numbers of the cells with live formulas are taken away first: what is there later was calculated
    for (const sheet of model.sheets)
      for (const table of tablesOf(sheet))
        table.rows = table.rows.map((row) =>
          row.map((c) => (rich(c).live === undefined ? c : { ...rich(c), value: null })),
        );
    await grid.models.write(model, writing(true));
  }, SLOW);

  it('there are some on Trees, Clocks, Field checks and Balance, and none goes without a twin', () => {
    const live = cellsOf(model).filter((c) => c.live !== undefined);
    expect(live.length).toBeGreaterThan(900);
    expect(live.filter((c) => c.formula === undefined)).toEqual([]);
    const where = laid.filter((sheet) => sheet.tables.some((t) => t.values.flat().some((c) => rich(c).live))); // prettier-ignore
    expect(where.map((sheet) => sheet.name)).toEqual([
      'Trees',
      'Clocks',
      'Field checks',
      'Balance',
    ]);
  });

  it('each calls functions of functions.json with no more arguments than they have', () => {
    for (const { live } of cellsOf(model)) {
      if (live === undefined) continue;
      for (const { id, args } of calls(live)) {
        expect(known.has(id), live).toBe(true);
        expect(args.length, live).toBeLessThanOrEqual(known.get(id)!.length);
        expect(args.at(-1) === '"SI"', live).toBe(
          units === 'SI' && known.get(id)!.at(-1)?.name === 'units',
        );
      }
    }
  });

  it('each gives the number the engine gave, in the grid', () => {
    let compared = 0;
    const wrong: string[] = [];
    for (const sheet of laid)
      for (let row = 0; row < sheet.rows; row++)
        for (let column = 0; column < sheet.columns; column++) {
          const cell = sheet.cells(row, column);
          if (cell?.live === undefined) continue;
          const shown = grid.shown(sheet.name, row, column);
          const same =
            typeof cell.value === 'number'
              ? typeof shown === 'number' &&
                Math.abs(shown - cell.value) <= DIGITS * Math.max(1, Math.abs(cell.value))
              : (shown ?? '') === (cell.value ?? '');
          compared += 1;
          if (!same) wrong.push(`${sheet.name} ${row + 1},${column + 1}: ${shown}, not ${cell.value}`); // prettier-ignore
        }
    expect(wrong).toEqual([]);
    expect(compared).toBeGreaterThan(900);
    grid.close();
  });
});
