/** Published and computed cases, data in tests/reference, run through the worksheet functions where one exists. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as bag from '../../src/engine/means/bag.js';
import * as pipe from '../../src/engine/means/pipe-flow.js';
import { adjustDepletion, usableWater } from '../../src/engine/soil/root-zone.js';
import { basicIntake } from '../../src/engine/soil/texture.js';
import { plantFactor } from '../../src/engine/tree/plant-factor.js';
import { dailyEffectiveRain, monthlyEffectiveRain } from '../../src/engine/weather/rainfall.js';
import * as et from '../../src/engine/weather/reference-et.js';
import { daylightHours } from '../../src/engine/weather/sun.js';
import { FUNCTIONS } from '../../src/functions/index.js';

type Call = (...args: never[]) => unknown;
type Parts = Record<string, number>;
type Cell = number | string | boolean;
/** A cell, cells of a spill row after row, named parts, the result of another call, or a share of one. */
type Expected = Cell | Cell[] | Parts | { sameAs: unknown[] } | { share: number; of: unknown[] };

interface Case {
  name: string;
  function?: string;
  engine?: string;
  inputs?: unknown[];
  expected?: Expected;
  rows?: { inputs: unknown[]; expected: Expected }[];
  /** of numbers, absolute or by part; texts and truths must be the same */
  tolerance?: number | Parts;
  relative?: number;
  source: string;
  certainty: string;
}

const ENGINE: Record<string, Call> = {
  referenceEt: et.referenceEt,
  referenceEtParts: et.referenceEtParts,
  standardisedEt: et.standardisedEt,
  airPressure: et.airPressure,
  saturationPressure: et.saturationPressure,
  windAt2m: et.windAt2m,
  monthlySoilHeat: et.monthlySoilHeat,
  daylightHours,
  monthlyEffectiveRain,
  dailyEffectiveRain,
  usableWater,
  adjustDepletion,
  basicIntakeRate: (texture: string) => basicIntake(texture).rate,
  plantFactorValue: (kind: string, climate?: 'dry' | 'humid') => plantFactor(kind, climate).value,
  frustumDrainTime: bag.frustumDrainTime,
  frustumVolume: bag.frustumVolume,
  frictionHead: pipe.frictionHead,
  frictionHeadSi: pipe.frictionHeadSi,
};
const CERTAINTIES = ['seen', 'secondary', 'memory', 'computed', 'common practice, no source'];

/** The files of this suite; other suites keep their own data beside them. */
const FILES = [
  'weather',
  'sun-energy',
  'rain',
  'soil',
  'tree',
  'bag',
  'pad',
  'hose',
  'interval',
  'crew',
  'safety',
  'rule-functions',
  'contract',
];
const folder = new URL('../reference/', import.meta.url);
const casesOf = (file: string): Case[] =>
  JSON.parse(readFileSync(new URL(`${file}.json`, folder), 'utf8')) as Case[];

const call = (target: Call, inputs: unknown[]): unknown =>
  (target as (...args: unknown[]) => unknown)(...inputs);

function check(actual: unknown, expected: number, each: Case, part?: string): void {
  const tolerance =
    each.relative !== undefined
      ? Math.abs(expected) * each.relative
      : typeof each.tolerance === 'object'
        ? each.tolerance[part ?? '']
        : each.tolerance;
  if (tolerance === undefined) throw new Error(`${each.name}: no tolerance for ${part ?? 'it'}`);
  expect(actual, part ?? each.name).toBeTypeOf('number');
  expect(
    Math.abs((actual as number) - expected),
    `${part ?? each.name}: got ${String(actual)}`,
  ).toBeLessThanOrEqual(tolerance);
}

function checkCell(actual: unknown, expected: Cell, each: Case, place = each.name): void {
  if (typeof expected === 'number') check(actual, expected, each);
  else expect(actual, place).toBe(expected);
}

function checkSpill(actual: unknown, expected: Cell[], each: Case, inputs: unknown[]): void {
  expect(Array.isArray(actual), `${each.name}: one cell, not a spill`).toBe(true);
  const cells = (actual as unknown[]).flat();
  const place = `${each.name}, ${JSON.stringify(inputs)}`;
  expect(cells.length, `${place}: cells ${JSON.stringify(cells)}`).toBe(expected.length);
  expected.forEach((cell, i) => {
    checkCell(cells[i], cell, each, `${place}, cell ${i + 1}`);
  });
}

function run(each: Case, target: Call, inputs: unknown[], expected: Expected): void {
  const actual = call(target, inputs);
  if (typeof expected !== 'object') checkCell(actual, expected, each);
  else if (Array.isArray(expected)) checkSpill(actual, expected, each, inputs);
  else if ('sameAs' in expected)
    check(actual, call(target, expected.sameAs as unknown[]) as number, each);
  else if ('of' in expected) {
    const whole = call(target, expected.of as unknown[]) as number;
    check((actual as number) / whole, expected.share as number, each);
  } else
    for (const [part, value] of Object.entries(expected))
      check((actual as Parts)[part], value, each, part);
}

describe.each(FILES)('reference cases: %s', (file) => {
  it.each(casesOf(file).map((each) => [each.name, each] as const))('%s', (_, each) => {
    const target =
      each.function === undefined ? ENGINE[each.engine ?? ''] : FUNCTIONS[each.function];
    if (!target) throw new Error(`unknown target ${each.function ?? each.engine ?? 'none'}`);
    expect(each.source).not.toBe('');
    expect(CERTAINTIES).toContain(each.certainty);
    const rows = each.rows ?? [{ inputs: each.inputs ?? [], expected: each.expected ?? NaN }];
    for (const row of rows) run(each, target, row.inputs, row.expected);
  });
});

describe('the reference data', () => {
  it('leaves out no file of cases for a worksheet function', () => {
    const others = readdirSync(folder)
      .filter((name) => name.endsWith('.json') && !FILES.includes(name.replace('.json', '')))
      .filter((name) => {
        const data: unknown = JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
        return Array.isArray(data) && data.some((each) => (each as Case).function !== undefined);
      });
    expect(others).toEqual([]);
  });
});

describe('common practice, no source', () => {
  it('a 15-gallon bag with four holes sized for 5 h, drilled to the nearest 0.002 in, empties in 4 to 6 h', () => {
    const exact = call(FUNCTIONS['BAG_HOLE'] as Call, [15, 4, 5, 24]) as number;
    const drilled = Math.round(exact / 0.002) * 0.002;
    expect(drilled).toBeGreaterThan(0.02);
    const hours = call(FUNCTIONS['BAG_HOURS'] as Call, [15, 4, drilled, 24]);
    expect(hours).toBeGreaterThan(4);
    expect(hours).toBeLessThan(6);
  });
});
