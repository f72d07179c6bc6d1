import { describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { formula, SheetDraft, type WorkbookModel } from '../../src/workbook/model.js';
import { twin, twinArguments, TWIN_IDS, type TwinId } from '../../src/workbook/native-twins.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import metadata from '../../src/generated/functions.json' with { type: 'json' };
import { recalculate, skipWithout, type Values } from './programs.js';
import { FIXED, RANGES } from './twin-ranges.js';

/** Sets of arguments for each function in each unit system. */
const SETS = 200;

/** Numbers that look random and are the same on every run (a linear congruence, 32 bit). */
function stream(seed: number): () => number {
  let state = seed;
  return () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
}

interface Case {
  id: TwinId;
  units: 'US' | 'SI';
  args: number[];
  expected: number;
}

const TAKES_UNITS = (id: TwinId): boolean =>
  metadata.functions.find((each) => each.id === id)?.parameters.at(-1)?.name === 'units';

function answerOf(id: TwinId, units: 'US' | 'SI', args: number[]): number {
  const given: unknown[] =
    id === 'RECHARGE_DATE' ? [args[0], args[1], [[args[2]]], args[3]] : [...args];
  const fixed = FIXED[id];
  if (fixed && fixed.at < args.length) given[fixed.at] = fixed[units][0];
  // arguments left out arrive as null, so that units stay in their place
  const full = twinArguments(id).map((_, i) => given[i] ?? null);
  return FUNCTIONS[id]!(...full, ...(TAKES_UNITS(id) ? [units] : [])) as number;
}

function cases(): Case[] {
  const next = stream(20270401);
  return TWIN_IDS.flatMap((id) =>
    (['US', 'SI'] as const).flatMap((units) =>
      Array.from({ length: SETS }, (_, i): Case => {
        const required = twinArguments(id).filter((a) => a.fallback === undefined).length;
        const all = RANGES[id][units].map(([low, high, step]) => {
          const value = low + next() * (high - low);
          return step ? Math.round(value / step) * step : Number(value.toFixed(4));
        });
        // every fourth set leaves the optional arguments out, to try the defaults
        const args = i % 4 === 3 ? all.slice(0, required) : all;
        return { id, units, args, expected: answerOf(id, units, args) };
      }),
    ),
  );
}

function book(all: Case[]): WorkbookModel {
  const draft = new SheetDraft('Twins', 'Twins');
  const letters = ['C', 'D', 'E', 'F', 'G', 'H', 'I'];
  draft.table(
    'TwinCases',
    ['id', 'units', ...letters, 'answer'].map((key) => ({ key, header: key, width: 12 })),
    all.length,
    (i, at) => {
      const { id, units, args, expected } = all[i]!;
      const fixed = FIXED[id];
      const refs = args.map((_, k) =>
        fixed?.at === k ? fixed[units][1] : `${letters[k]!}${at.row(i)}`,
      );
      return [
        id,
        units,
        ...letters.map((_, k) => args[k] ?? null),
        formula(twin(id, refs, units), expected),
      ];
    },
  );
  return {
    title: 't',
    description: 't',
    madeOn: 46000,
    paper: 'a4',
    sheets: [draft.done()],
    names: {},
  };
}

const all = cases();

const worst = (values: Values): { id: string; error: number } => {
  let found = { id: '', error: 0 };
  all.forEach((c, i) => {
    const value = values['Twins']![`J${i + 2}`];
    const error =
      typeof value === 'number'
        ? Math.abs(value - c.expected) / Math.max(1e-12, Math.abs(c.expected))
        : Infinity;
    if (!(error <= found.error))
      found = {
        id: `${c.id} ${c.units} ${c.args.join(', ')}: ${String(value)} for ${c.expected}`,
        error,
      };
  });
  return found;
};

describe('native twins', () => {
  it('has at least 200 sets of arguments for each function and unit system', () => {
    for (const id of TWIN_IDS)
      for (const units of ['US', 'SI'])
        expect(all.filter((c) => c.id === id && c.units === units).length).toBeGreaterThanOrEqual(
          200,
        );
  });

  for (const program of ['LibreOffice', 'Gnumeric'] as const)
    it.skipIf(skipWithout(program, 'openpyxl'))(
      `give the numbers of the functions to 1e-9 in ${program}`,
      async () => {
        const bytes = await writeXlsx(book(all), { uncached: true });
        const found = worst(recalculate(program, bytes));
        console.info(`${program}: ${all.length} cases, worst relative error ${found.error}`);
        expect(found.error, found.id).toBeLessThanOrEqual(1e-9);
      },
    );

  it.skipIf(skipWithout('LibreOffice', 'Gnumeric', 'openpyxl'))(
    'answer #N/A where rain covers demand',
    async () => {
      const draft = new SheetDraft('Twins', 'Twins');
      draft.text([[formula(twin('INTERVAL', ['10', '2', '2'], 'US'), null)]]);
      const bytes = await writeXlsx(
        {
          title: 't',
          description: 't',
          madeOn: 46000,
          paper: 'a4',
          sheets: [draft.done()],
          names: {},
        },
        { uncached: true },
      );
      expect(recalculate('LibreOffice', bytes)['Twins']!['A1']).toBe('#N/A');
      expect(recalculate('Gnumeric', bytes)['Twins']!['A1']).toBe('#N/A');
    },
  );

  it('wrap arguments that are not plain, so that signs and sums cannot change the meaning', () => {
    expect(twin('HOSE_MINUTES', ['A1+B1', 'C1'], 'US')).toBe('(A1+B1)/(C1*0.9)');
    expect(twin('INTERVAL', ['A1', 'Sheet!$B$1'], 'US')).toContain('Sheet!$B$1');
  });

  it('refuse a missing argument and one too many with a sentence', () => {
    expect(() => twin('BAG_HOURS', ['A1', 'B1'], 'US')).toThrow(Problem);
    expect(() => twin('PAD_VOLUME', ['1', '2', '3', '4'], 'US')).toThrow(/takes 3 arguments/);
  });

  it('use only functions of every spreadsheet program of the last ten years', () => {
    const known = new Set(
      'ABS ACOS COS DATE DAY IF INT LEN LN MAX MIN MONTH NA PI ROUND ROUNDUP SIN SQRT TAN VLOOKUP YEAR'.split(
        ' ',
      ),
    );
    for (const id of TWIN_IDS) {
      const text = twin(
        id,
        twinArguments(id).map((_, i) => `A${i + 1}`),
        'US',
      );
      for (const [, name] of text.matchAll(/([A-Z][A-Z0-9.]*)\(/g))
        expect([...known]).toContain(name);
    }
  });
});
