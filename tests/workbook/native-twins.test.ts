import { describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { formula, SheetDraft, type WorkbookModel } from '../../src/workbook/model.js';
import { twin, twinArguments, TWIN_IDS, type TwinId } from '../../src/workbook/native-twins.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { recalculate, skipWithout, type Values } from './programs.js';

/** Ranges from which arguments are drawn, US | SI; a third number is the step of whole values. */
type Range = readonly [number, number, number?];
const RANGES: Record<TwinId, Record<'US' | 'SI', Range[]>> = {
  SUN_ENERGY: { US: [[-89, 89], [40000, 50000, 1]], SI: [[-89, 89], [40000, 50000, 1]] },
  ET0_TEMP: {
    US: [[75, 118], [30, 74], [-60, 60], [40000, 50000, 1]],
    SI: [[24, 48], [0, 23], [-60, 60], [40000, 50000, 1]],
  },
  TREE_DEMAND: {
    US: [[0.05, 0.5], [2, 60], [0.1, 1], [0.5, 1.4]],
    SI: [[1, 12], [0.5, 20], [0.1, 1], [0.5, 1.4]],
  },
  ROOTZONE_VOLUME: {
    US: [[10, 300], [6, 36], [0.03, 0.3], [0.1, 0.8]],
    SI: [[20, 800], [15, 90], [0.03, 0.3], [0.1, 0.8]],
  },
  INTERVAL: { US: [[1, 500], [1, 40], [0, 0.9]], SI: [[1, 500], [1, 40], [0, 0.9]] },
  BAG_HOURS: {
    US: [[5, 40], [1, 8, 1], [0.02, 0.2], [6, 40], [0.5, 0.9], [0, 4]],
    SI: [[20, 150], [1, 8, 1], [0.5, 5], [15, 100], [0.5, 0.9], [0, 15]],
  },
  BAG_HOLE: {
    US: [[5, 40], [1, 8, 1], [1, 24], [6, 40], [0.5, 0.9]],
    SI: [[20, 150], [1, 8, 1], [1, 24], [15, 100], [0.5, 0.9]],
  },
  BAG_OPEN_HOLES: { US: [[1, 8, 1], [2, 10], [2, 48], [0, 0.9]], SI: [[1, 8, 1], [2, 10], [2, 48], [0, 0.9]] },
  PAD_VOLUME: { US: [[20, 60], [1, 10], [0.5, 1]], SI: [[10, 30], [0.5, 5], [0.5, 1]] },
  RECHARGE_DATE: { US: [[40000, 50000, 1], [1, 20], [0.05, 2], [0, 0.5]], SI: [[40000, 50000, 1], [4, 60], [0.2, 8], [0, 0.5]] },
  HOSE_FLOW: {
    US: [[10, 100], [20, 120], [5, 25], [8, 12], [0.5, 1.3]],
    SI: [[3, 30], [2, 15], [30, 170], [50, 80], [0.5, 1.3]],
  },
  HOSE_MINUTES: { US: [[1, 300], [0.2, 10], [0.5, 1]], SI: [[5, 1000], [1, 40], [0.5, 1]] },
  COIL_LENGTH: { US: [[0.5, 4], [5, 30], [6, 24]], SI: [[0.2, 1.2], [1.5, 9], [15, 60]] },
}; // prettier-ignore

const SETS = 60;

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
  !['SUN_ENERGY', 'INTERVAL', 'BAG_OPEN_HOLES', 'RECHARGE_DATE', 'HOSE_MINUTES'].includes(id);

function answerOf(id: TwinId, units: 'US' | 'SI', args: number[]): number {
  const given: unknown[] =
    id === 'RECHARGE_DATE' ? [args[0], args[1], [[args[2]]], args[3]] : [...args];
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
  const letters = ['C', 'D', 'E', 'F', 'G', 'H'];
  draft.table(
    'TwinCases',
    ['id', 'units', ...letters, 'answer'].map((key) => ({ key, header: key, width: 12 })),
    all.length,
    (i, at) => {
      const { id, units, args, expected } = all[i]!;
      const refs = args.map((_, k) => `${letters[k]!}${at.row(i)}`);
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
    const value = values['Twins']![`I${i + 2}`];
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
  it('has at least fifty sets of arguments for each function and unit system', () => {
    for (const id of TWIN_IDS)
      for (const units of ['US', 'SI'])
        expect(all.filter((c) => c.id === id && c.units === units).length).toBeGreaterThanOrEqual(
          50,
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
      'ABS ACOS COS DATE IF INT LN MAX MIN NA PI ROUND ROUNDUP SIN SQRT TAN YEAR'.split(' '),
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
