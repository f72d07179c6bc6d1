/**
 * One question asked in two unit systems has one answer: every function with `units` is called in SI and, with the same
 * quantities converted, in US. The factors come from the definitions of the units, not from the project.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/index.js';
import metadata from '../../src/generated/functions.json' with { type: 'json' };
import { US_UNIT, type UnitName } from '../accuracy/precise.js';

/** What may be given: a value in SI, and the same in US. */
interface Quantity {
  si: fc.Arbitrary<unknown>;
  us: (si: unknown) => unknown;
}
type Result = UnitName | 'none';

/** Numbers off every round value, so that no step of a table lies within rounding of one. */
const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 999_999 }).map((k) => low + ((high - low) * (k + 0.371)) / 1_000_000);
const size = (unit: UnitName, low: number, high: number): Quantity => ({
  si: between(low, high),
  us: (si) => (si as number) / US_UNIT[unit].toNumber(),
});
const degrees = (low: number, high: number): Quantity => ({
  si: between(low, high),
  us: (si) => (si as number) * 1.8 + 32,
});
const same = (si: fc.Arbitrary<unknown>): Quantity => ({ si, us: (value) => value });
const pure = (low: number, high: number): Quantity => same(between(low, high));
const whole = (min: number, max: number): Quantity => same(fc.integer({ min, max }));
const words = (...choices: string[]): Quantity => same(fc.constantFrom(...choices));
const date = whole(36526, 58440);
/** Up to in litres and the price of 1 m³; up to in gallons and the price of 1,000 gallons. */
const gallon = US_UNIT.volume.toNumber();
const tiers: Quantity = {
  si: fc
    .tuple(between(1e3, 1e5), between(2e5, 9e5), between(1, 3), between(3, 9), between(9, 20))
    .map(([a, b, p, q, r]) => [
      [a, p],
      [b, q],
      ['', r],
    ]),
  us: (si) =>
    (si as [number | string, number][]).map(([upTo, price]) => [
      typeof upTo === 'number' ? upTo / gallon : upTo,
      price * gallon,
    ]),
};

/** Trunk from in centimetres and litres; in inches and gallons. */
const sizeTable: Quantity = {
  si: fc
    .tuple(between(1, 2), between(4, 9), between(10, 20), between(10, 200))
    .map(([a, b, c, litres]) => [
      [a, litres],
      [b, litres * 2],
      [c, litres * 3],
    ]),
  us: (si) =>
    (si as [number, number][]).map(([from, litres]) => [
      from / US_UNIT.size.toNumber(),
      litres / gallon,
    ]),
};

const textures = words('sand', 'loamy sand', 'sandy loam', 'loam', 'silt loam', 'clay');
const bag = {
  volume: size('volume', 20, 400),
  holes: whole(1, 20),
  hole: size('depth', 0.5, 8),
  depth: size('size', 5, 120),
  discharge: pure(0.2, 0.95),
};
const porous = {
  rate: size('hoseRate', 1, 20),
  pressure: size('pressure', 20, 300),
  bore: size('depth', 9, 25),
  exponent: pure(0.4, 1.5),
  c: pure(100, 155),
};

/** Every function with `units`: its parameters in order without `units`, and what its cells show. */
const TABLE: Readonly<Record<string, { gives: Result | Result[]; takes: Quantity[] }>> = {
  ET0: {
    gives: 'depth',
    takes: [
      degrees(24, 45),
      degrees(2, 22),
      pure(-55, 55),
      date,
      degrees(-10, 20),
      size('speed', 0.2, 9),
      pure(9, 34),
      size('span', -100, 3000),
    ],
  },
  ET0_TEMP: { gives: 'depth', takes: [degrees(24, 45), degrees(2, 22), pure(-55, 55), date] },
  RAIN_MONTH: {
    gives: 'depth',
    takes: [size('depth', 1, 400), size('depth', 1, 300), size('depth', 10, 180)],
  },
  RAIN_DAY: { gives: 'depth', takes: [size('depth', 0, 90)] },
  TREE_DEMAND: {
    gives: 'volume',
    takes: [size('depth', 0.1, 15), size('span', 0.5, 20), pure(0.1, 1.2), pure(0.3, 2)],
  },
  BALL_DIAMETER: { gives: 'size', takes: [size('size', 1.3, 12.6)] },
  BALL_DEPTH: { gives: 'size', takes: [size('size', 20, 200)] },
  CONTAINER_VOLUME: { gives: 'volume', takes: [whole(1, 100)] },
  ROOT_MONTHS: { gives: 'none', takes: [size('size', 1, 40), whole(2, 11)] },
  ROOT_SPREAD: {
    gives: 'span',
    takes: [size('size', 30, 140), size('span', 1, 15), pure(0, 60), pure(3, 60), pure(0.5, 3)],
  },
  SOIL_INTAKE: { gives: 'depth', takes: [textures] },
  DEPLETION: { gives: 'none', takes: [pure(0.1, 0.8), size('depth', 0, 15)] },
  ROOTZONE_VOLUME: {
    gives: 'volume',
    takes: [size('size', 20, 900), size('size', 10, 120), pure(0.03, 0.4), pure(0.1, 1)],
  },
  MULCH_VOLUME: {
    gives: 'heap',
    takes: [size('span', 1.5, 9), size('size', 2, 15), size('span', 0.1, 1.4)],
  },
  RULE_OF_THUMB: {
    gives: ['volume', 'volume'],
    takes: [size('size', 1, 60), words('florida', 'minnesota', 'extension', 'colorado')],
  },
  CONTRACT_GALLONS: { gives: 'volume', takes: [size('size', 3, 60), sizeTable] },
  DEFICIT_GALLONS: {
    gives: ['volume', 'volume'],
    takes: [
      size('size', 10, 200),
      words('kansas', 'texas', 'california', 'colorado', 'georgia'),
      whole(1, 366),
    ],
  },
  BAG_HOURS: {
    gives: 'none',
    takes: [bag.volume, bag.holes, bag.hole, bag.depth, bag.discharge, size('volume', 0.1, 19)],
  },
  BAG_LEFT: {
    gives: 'volume',
    takes: [bag.volume, pure(0, 1), bag.holes, bag.hole, bag.depth, bag.discharge],
  },
  BAG_HOLE: {
    gives: 'depth',
    takes: [bag.volume, bag.holes, pure(0.3, 60), bag.depth, bag.discharge],
  },
  WATER_WEIGHT: { gives: 'weight', takes: [size('volume', 1, 5000)] },
  PAD_VOLUME: {
    gives: 'volume',
    takes: [size('weight', 5, 60), size('weight', 0.2, 4), pure(0.3, 1)],
  },
  PAD_CHARGED: { gives: 'volume', takes: [size('volume', 1, 90), pure(0, 30), pure(0.5, 9)] },
  BUCKET_FLOW: { gives: 'flow', takes: [size('volume', 5, 40), pure(5, 200)] },
  HOSE_FLOW: {
    gives: 'flow',
    takes: [size('span', 2, 90), porous.rate, porous.pressure, porous.pressure, porous.exponent],
  },
  HOSE_LOSS: {
    gives: 'pressure',
    takes: [
      size('flow', 1, 200),
      size('span', 5, 200),
      size('depth', 10, 90),
      pure(70, 155),
      whole(0, 40),
    ],
  },
  HOSE_EVENNESS: {
    gives: 'none',
    takes: [
      size('span', 5, 60),
      porous.rate,
      porous.pressure,
      porous.bore,
      porous.exponent,
      porous.c,
    ],
  },
  HOSE_LONGEST: {
    gives: 'span',
    takes: [porous.rate, porous.pressure, porous.bore, pure(0.4, 0.97), porous.exponent, porous.c],
  },
  COIL_LENGTH: {
    gives: 'span',
    takes: [size('span', 0.1, 2), size('span', 2.1, 9), size('size', 5, 90)],
  },
  COIL_DIAMETER: {
    gives: 'span',
    takes: [size('span', 2, 200), size('span', 0.1, 3), size('size', 5, 90)],
  },
  SOAK_CYCLES: {
    gives: ['none', 'none', 'none'],
    takes: [pure(1, 200), size('depth', 5, 90), size('depth', 1, 40), size('depth', 2, 15)],
  },
  WATER_COST: { gives: 'none', takes: [size('volume', 10, 2e6), tiers] },
  HEAT_REST: {
    gives: ['none', 'none'],
    takes: [
      degrees(15, 48),
      words('light', 'moderate', 'heavy'),
      pure(0.05, 0.58),
      words('full', 'partly', 'shade'),
    ],
  },
};

interface Listed {
  id: string;
  parameters: { name: string; optional?: boolean }[];
}
const listed = metadata.functions as Listed[];
const withUnits = listed.filter((f) => f.parameters.some((p) => p.name === 'units'));

describe('US and SI', () => {
  it('the table here knows every function with units, and every parameter of each', () => {
    expect(Object.keys(TABLE).sort()).toEqual(withUnits.map((f) => f.id).sort());
    for (const { id, parameters } of withUnits) {
      expect(parameters.at(-1)?.name, id).toBe('units');
      expect(TABLE[id]?.takes.length, id).toBe(parameters.length - 1);
    }
  });

  it.each(withUnits.map((f) => [f.id, f] as const))('%s', (id, { parameters }) => {
    const row = TABLE[id];
    const call = FUNCTIONS[id];
    if (!row || !call) throw new Error(`${id} is not in the table or no function`);
    const given = row.takes.map((quantity, i) =>
      parameters[i]?.optional === true
        ? fc.option(quantity.si, { nil: undefined, freq: 3 })
        : quantity.si,
    );
    const cells = (shown: unknown): unknown[] => (Array.isArray(shown) ? shown.flat() : [shown]);

    // A pressure without the pressure the rate was measured at is refused, so the two go together.
    const paired = (args: unknown[]): boolean =>
      id !== 'HOSE_FLOW' || args[2] === undefined || args[3] !== undefined;
    fc.assert(
      fc.property(fc.tuple(...given).filter(paired), (si) => {
        const us = si.map((value, i) =>
          value === undefined ? undefined : row.takes[i]?.us(value),
        );
        const metric = cells(call(...si, 'SI'));
        const customary = cells(call(...us, 'US'));
        const kinds = Array.isArray(row.gives) ? row.gives : [row.gives];
        expect(metric.length).toBe(kinds.length);
        expect(customary.length).toBe(kinds.length);
        expect(cells(call(...us))).toEqual(customary); // US when left out
        kinds.forEach((kind, i) => {
          const [m, c] = [metric[i], customary[i]];
          if (typeof m === 'string') return expect(c).toBe(m);
          expect(m).toBeTypeOf('number');
          const factor = kind === 'none' ? 1 : US_UNIT[kind].toNumber();
          const error = Math.abs((c as number) * factor - (m as number));
          return expect(error).toBeLessThanOrEqual(1e-9 * Math.abs(m as number) + 1e-12);
        });
      }),
      { numRuns: 200, seed: 231 },
    );
  });
});
