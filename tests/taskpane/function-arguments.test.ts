/** What is typed for an argument: how it is understood, and that the panel answers as the sheet would. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/desk/headless.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import described from '../../src/generated/functions.json' with { type: 'json' };
import notes from '../../src/generated/function-notes.json' with { type: 'json' };
import { typedExamples } from '../../src/help/typed-examples.js';
import {
  argued,
  meantBy,
  plainlyTyped,
  takenBy,
} from '../../src/taskpane/corners/argument-value.js';
import {
  argumentsOf,
  formulaFor,
  missingIn,
} from '../../src/taskpane/corners/function-arguments.js';
import type { FunctionEntry } from '../../src/taskpane/corners/function-data.js';
import { columnsOf, formatFor, resultOf } from '../../src/taskpane/corners/function-results.js';
import { formats, typedValue, understood } from '../../src/taskpane/parts/format.js';
import { inSpanish } from '../../src/taskpane/spanish/index.js';
import type { Given } from '../../src/workers/room-function.js';
import { functionAnswer } from '../../src/workers/room-function.js';
import { helpData } from '../../scripts/build-help.js';

const functions = described.functions as readonly FunctionEntry[];
const entryOf = (id: string): FunctionEntry => functions.find((f) => f.id === id)!;
const parameter = (id: string, name: string) => entryOf(id).parameters.find((p) => p.name === name)!; // prettier-ignore

describe('a fraction', () => {
  it.each([
    ['1/16', 0.0625],
    ['1 1/2', 1.5],
    ['3/4', 0.75],
    ['1½', 1.5],
    ['2,5', 2.5],
  ])('%s is a number in a field of numbers', (typed, value) => {
    expect(typedValue(typed)).toBe(value);
    expect(argued(typed, 'number').read).toBe(value);
  });
  it('is shown back as what was understood; what needs no reading is not', () => {
    expect(understood('1/16', formats('en'))).toBe('1/16 = 0.0625');
    expect(understood('0.5', formats('en'))).toBe('');
    expect(understood('half', formats('en'))).toBe('');
    expect(understood('1/0', formats('en'))).toBe('');
  });
  it('stays a text where a day or words are asked', () => {
    expect(takenBy(parameter('SUN_HOURS', 'date'))).toBe('date');
    expect(argued('1/16', takenBy(parameter('SUN_HOURS', 'date'))).formula).toBe('"1/16"');
    expect(argued('12 1/2', takenBy(parameter('RULE_OPEN', 'address'))).formula).toBe('"12 1/2"');
  });
  it('with a unit is taken in the argument’s own', () => {
    expect(argued('1/16 in', 'number', 'in').formula).toBe('0.0625');
    expect(argued('2.54 cm', 'number', 'in').formula).toBe('1');
    expect(argued('3 gal', 'number', 'in').formula).toBe('"3 gal"');
  });
});

describe('an argument', () => {
  it.each([
    ['sandy loam', '"sandy loam"'],
    ['2027-06-01', '"2027-06-01"'],
    ['1.5', '1.5'],
    ['Kit!A1:C9', 'Kit!A1:C9'],
    ['=D2*2', 'D2*2'],
    ['10%', '10%'],
  ])('%s stands in the formula as %s', (typed, stands) =>
    expect(argued(typed, 'words').formula).toBe(stands),
  );
  it('points at cells, also of another sheet', () => {
    expect(meantBy('$D$3')).toEqual({ kind: 'pointed', at: { range: 'D3' } });
    expect(meantBy("'Street trees'!A1:B2")).toEqual({
      kind: 'pointed',
      at: { sheet: 'Street trees', range: 'A1:B2' },
    });
    expect(meantBy('D2*2')).toEqual({ kind: 'formula' });
    expect(meantBy('{"a",1;"b;c",2}')).toEqual({ kind: 'value', value: [['a', 1], ['b;c', 2]] }); // prettier-ignore
    expect(plainlyTyped('"#15"')).toBe('#15');
    expect(plainlyTyped('"9"')).toBe('"9"');
  });
  it('that points at a cell names its sheet when the formula goes onto another one', () => {
    const list = argumentsOf(entryOf('TREE_DEMAND'), { units: 'US', columns: [], row: undefined, example: undefined }, { et0: '1/4', canopy: 'D3' }); // prettier-ignore
    expect(formulaFor('TREE_DEMAND', list)).toBe('=SOAK.TREE_DEMAND(0.25,D3)');
    expect(formulaFor('TREE_DEMAND', list, 'Street trees')).toBe("=SOAK.TREE_DEMAND(0.25,'Street trees'!D3)"); // prettier-ignore
  });
});

describe('the answer of the panel', () => {
  const examples = typedExamples(helpData());
  const listOf = (entry: FunctionEntry, units: 'US' | 'SI') =>
    argumentsOf(entry, { units, columns: [], row: undefined, example: examples[entry.id] });
  const answer = (entry: FunctionEntry, units: 'US' | 'SI') =>
    functionAnswer({
      id: entry.id,
      parameters: entry.parameters,
      given: listOf(entry, units).map(({ formula }) => meantBy(formula) as Given),
    });
  const ready = (units: 'US' | 'SI') =>
    functions.filter((entry) => missingIn(listOf(entry, units)) === undefined);

  it('stands at once in both systems: all but functions of tables have an example', () => {
    const none = (units: 'US' | 'SI') => functions.map(({ id }) => id).filter((id) => !ready(units).some((entry) => entry.id === id)); // prettier-ignore
    const tables = ['CONTRACT_CHECK', 'LOG_FLAGS', 'PLAN_DATES', 'PLAN_DAYS', 'PLAN_MEANS', 'PLAN_TOTALS', 'TRIAGE', 'WATER_COST']; // prettier-ignore
    expect(none('US')).toEqual(tables);
    expect(none('SI').filter((id) => !tables.includes(id))).toEqual(['CONTRACT_GALLONS']);
  });

  it.each(['US', 'SI'] as const)(
    'is what the sheet shows for the same formula: %s',
    async (units) => {
      // the grid's engine cuts a text inside a list at its comma
      const all = ready(units).filter(
        (entry) => !/\{.*"[^"]*, [^"]*"/.test(formulaFor(entry.id, listOf(entry, units))),
      );
      expect(all.length).toBeGreaterThan(45);
      const sheet = await calculate(
        all.map((entry) => formulaFor(entry.id, listOf(entry, units))),
        { metadata: described.functions, implementations: FUNCTIONS },
      );
      for (const [i, entry] of all.entries()) {
        const shown = sheet[i]!;
        const said = await answer(entry, units);
        expect('value' in said && 'value' in shown, `${shown.formula} ${JSON.stringify([said, shown])}`).toBe(true); // prettier-ignore
        if (!('value' in said) || !('value' in shown)) continue;
        const one = (v: unknown) => (Array.isArray(v) && v.flat().length === 1 ? v.flat()[0] : v);
        expect(one(said.value), shown.formula).toEqual(one(shown.value));
      }
    },
    60_000,
  );

  it('is the function’s own sentence where it refuses', async () => {
    const { id, parameters } = entryOf('BAG_HOURS');
    const given: Given[] = [25, 2, 9, 24].map((value) => ({ kind: 'value', value }));
    expect(await functionAnswer({ id, parameters, given })).toMatchObject({
      trouble: expect.stringMatching(/^hole must be a number from 0\.004 to 4 in; got 9/) as string,
    });
  });
  it('is said in Spanish where an argument is refused', async () => {
    const refused = async (id: string, ...values: (string | number)[]): Promise<string> => {
      const given: Given[] = values.map((value) => ({ kind: 'value', value }));
      const said = await functionAnswer({ id, parameters: entryOf(id).parameters, given });
      if (!('trouble' in said)) throw new Error(`${id} was to refuse ${values.join()}`);
      return inSpanish(said.trouble) ?? said.trouble;
    };
    expect(await refused('BAG_HOURS', 25, 2, 9, 24)).toBe('hole debe ser un número de 0.004 a 4 in; se recibió 9'); // prettier-ignore
    expect(await refused('BAG_HOURS', 25, 2.5, 1, 24)).toBe('holes debe ser un número entero de 1 a 100; se recibió 2.5'); // prettier-ignore
    expect(await refused('BAG_HOURS', 'much', 2, 1, 24)).toBe('volume debe ser un número mayor que 0, a lo más 10000 gal; se recibió «much»'); // prettier-ignore
    expect(await refused('SUN_HOURS', 30, '1/16')).toBe('date debe ser una fecha de 1900-03-01 a 9999-12-31, como celda de fecha o aaaa-mm-dd; se recibió «1/16»'); // prettier-ignore
    expect(await refused('SOIL_WATER', 'mud')).toMatch(/^texture debe ser una de estas palabras: .*; se recibió «mud»$/); // prettier-ignore
  });
  it('takes a blank cell as the spreadsheet hands it over, and refuses a block', async () => {
    const { id, parameters } = entryOf('WATER_WEIGHT');
    const said = (cells: (number | null)[][]) => functionAnswer({ id, parameters, given: [{ kind: 'cells', cells }] }); // prettier-ignore
    expect(await said([[20]])).toEqual({ value: FUNCTIONS.WATER_WEIGHT!(20) });
    expect(await said([[null]])).toMatchObject({ trouble: expect.stringContaining('volume must be') as string }); // prettier-ignore
    expect(await said([[1, 2]])).toMatchObject({ trouble: 'volume takes one value; got a range of 1 by 2 cells' }); // prettier-ignore
  });
});

describe('a result', () => {
  it('has the unit its declaration names', () => {
    for (const [id, { result }] of Object.entries(notes)) {
      if (columnsOf(id) !== undefined || !result.includes(' | ')) continue;
      const { US, SI } = resultOf(id);
      const pair = `${US.replace(/\/day$/, '')} | ${SI.replace(/\/day$/, '')}`;
      expect(result, id).toContain(pair);
    }
  });
  it('has as many columns as the function gives', async () => {
    for (const { id, parameters } of functions) {
      const example = typedExamples(helpData())[id]!.US;
      if (columnsOf(id) === undefined || example.includes(null) || example.length === 0) continue;
      const given = example.map((typed) => meantBy(typed ?? '') as Given);
      const said = await functionAnswer({ id, parameters, given });
      if (!('value' in said) || !Array.isArray(said.value)) throw new Error(id);
      expect(columnsOf(id), id).toHaveLength(said.value[0]!.length);
    }
  });
  it('is formatted with three digits and its unit', () => {
    expect(formatFor(resultOf('BAG_HOURS'), 'h', 6.19503528)).toBe('0.00" h"');
    expect(formatFor(resultOf('BAG_HOURS'), 'h', 48)).toBe('0" h"');
    expect(formatFor(resultOf('NEXT_DATE'), '', 46_000)).toBe('yyyy-mm-dd');
  });
});
