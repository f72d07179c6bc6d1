/** Heat and salinity: the printed rows are in tests/reference/safety.json; here what must hold between and around them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { REFERENCE_TABLES } from '../../src/engine/reference-tables.js';
import {
  adjustedTemperature,
  SCHEDULE,
  SUNS,
  workRest,
  WORKLOADS,
} from '../../src/engine/safety/heat.js';
import {
  SALINITY_MEASURES,
  SALINITY_LIMITS,
  salinityClass,
} from '../../src/engine/safety/salinity.js';
import { fahrenheitToCelsius } from '../../src/engine/units.js';
import { heatRest, salinity } from '../../src/functions/safety.js';

const minutes = (adjusted: number, load: (typeof WORKLOADS)[number]): number => {
  const hour = workRest(adjusted, load);
  return hour === 'stop' ? 0 : hour.work;
};
const adjusted = (f: number, humidity = 0.3, sun: (typeof SUNS)[number] = 'shade'): number =>
  adjustedTemperature({ temperature: fahrenheitToCelsius(f), humidity, sun });

describe('the schedule', () => {
  it('has whole hours, and never more work when it is hotter or the work is heavier', () => {
    for (let f = 60; f <= 140; f++) {
      for (const load of WORKLOADS) {
        const hour = workRest(f, load);
        if (hour !== 'stop') expect(hour.work + hour.rest).toBe(60);
        expect(minutes(f + 1, load)).toBeLessThanOrEqual(minutes(f, load));
      }
      expect(minutes(f, 'heavy')).toBeLessThanOrEqual(minutes(f, 'moderate'));
      expect(minutes(f, 'moderate')).toBeLessThanOrEqual(minutes(f, 'light'));
    }
  });
  it('ascends, and says stop above its last printed row', () => {
    const tops = SCHEDULE.map((row) => row.upTo);
    expect(tops).toEqual([...tops].sort((a, b) => a - b));
    for (const load of WORKLOADS) expect(workRest(113, load)).toBe('stop');
    for (const load of WORKLOADS) expect(workRest(1000, load)).toBe('stop');
    expect(() => workRest(NaN, 'light')).toThrow(/^temperature must be a number/);
  });
});

describe('adjusted temperature, rounded to the careful side', () => {
  it.each([
    [94, 94],
    [94.1, 95],
    [94.9, 95],
    [95, 95],
  ])('%d °F counts as %d', (f, expected) => {
    expect(adjusted(f)).toBe(expected);
  });
  it('whole degrees stay themselves through the conversion', () => {
    for (let f = -40; f <= 140; f++) expect(adjusted(f)).toBe(f);
  });
  it.each([
    [0.05, 92],
    [0.1, 92],
    [0.11, 96],
    [0.25, 100],
    [0.3, 100],
    [0.1 + 0.2, 100],
    [0.31, 103],
    [0.55, 109],
    [0.6, 109],
  ])('100 °F at humidity %d counts as %d', (humidity, expected) => {
    expect(adjusted(100, humidity)).toBe(expected);
  });
  it('more sun and more humidity never make it cooler', () => {
    const share = fc.double({ min: 0.01, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(share, share, (a, b) => {
        expect(adjusted(95, Math.max(a, b))).toBeGreaterThanOrEqual(adjusted(95, Math.min(a, b)));
      }),
    );
    expect(adjusted(80, 0.3, 'full')).toBe(93);
    expect(adjusted(80, 0.3, 'partly')).toBe(87);
  });
  it('above 60 % nothing is published, and that is said as a question without an answer', () => {
    let problem: unknown;
    try {
      heatRest(90, 'light', 0.61);
    } catch (error) {
      problem = error;
    }
    expect(problem).toBeInstanceOf(Problem);
    expect((problem as Problem).kind).toBe('none');
    expect((problem as Problem).message).toBe(
      'humidity is 61 % and the schedule has no adjustment above 60 %; go by the heat index and local rules',
    );
  });
});

describe('HEAT_REST as a cell asks it', () => {
  it('is two cells side by side', () => {
    expect(heatRest(91, 'heavy')).toEqual([[20, 40]]);
    expect(heatRest(70, 'Heavy', '', ' Shade ')).toEqual([[60, 0]]);
    expect(heatRest(120, 'light')).toEqual([['stop', 'stop']]);
  });
  it('a blank or 0 humidity is the 30 % of the schedule, per cent may be written', () => {
    for (const blank of [undefined, null, '', 0])
      expect(heatRest(96, 'heavy', blank, 'shade')).toEqual([[45, 15]]);
    expect(heatRest(98, 'heavy', '50%', 'shade')).toEqual([[20, 40]]);
  });
  it.each([
    [
      () => heatRest('', 'light'),
      'temperature must be a number from 40 to 140 °F; got a blank cell',
    ],
    [
      () => heatRest(95, 'light', null, null, 'SI'),
      'temperature must be a number from 5 to 60 °C; got 95',
    ],
    [
      () => heatRest(95, 'hard'),
      'workload must be one of "light", "moderate", "heavy"; got "hard"',
    ],
    [() => heatRest(95, 'light', 30), 'humidity must be a number above 0, at most 1; got 30'],
    [
      () => heatRest(95, 'light', 0.3, 'moon'),
      'sun must be one of "full", "partly", "shade"; got "moon"',
    ],
  ])('%s', (call, sentence) => {
    expect(call).toThrow(sentence);
  });
});

describe('SALINITY', () => {
  it('gets no better with more salt, for any measure', () => {
    const order = ['none', 'slight to moderate', 'severe'];
    for (const what of SALINITY_MEASURES) {
      const { low, high } = SALINITY_LIMITS[what];
      const classes = [0, low / 2, low, (low + high) / 2, high, high * 2].map((v) =>
        order.indexOf(salinityClass(v, what)),
      );
      expect(classes).toEqual([0, 0, 1, 1, 1, 2]);
    }
  });
  it('0 is a reading, and a blank measure is conductivity', () => {
    expect(salinity(0)).toBe('none');
    expect(salinity(1.27, '')).toBe('slight to moderate');
    expect(salinity(5)).toBe('severe');
  });
  it.each([
    [() => salinity(''), 'ec must be a number from 0 to 100000; got a blank cell'],
    [() => salinity(-1), 'ec must be a number from 0 to 100000; got -1'],
    [
      () => salinity(1, 'salt'),
      'what must be one of "ec", "tds", "sar", "chloride", "boron"; got "salt"',
    ],
  ])('%s', (call, sentence) => {
    expect(call).toThrow(sentence);
  });
});

describe('the tables shown to people', () => {
  it('have a cell for every column, a source in every row, and rows without gaps', () => {
    for (const id of ['HEAT_REST', 'SALINITY'])
      for (const table of REFERENCE_TABLES[id]!)
        for (const row of table.rows) {
          expect(row.cells).toHaveLength(table.columns.length);
          expect(row.source.length).toBeGreaterThan(10);
        }
    expect(REFERENCE_TABLES['HEAT_REST']![0]!.rows.map((row) => row.cells[0])).toEqual([
      '89 and below',
      '90 to 94',
      '95 to 96',
      '97',
      '98 to 99',
      '100',
      '101',
      '102',
      '103 to 104',
      '105',
      '106',
      '107',
      '108',
      '109',
      '110',
      '111 to 112',
      '113 and above',
    ]);
  });
  it('mark what is from memory', () => {
    const [, sun, humidity] = REFERENCE_TABLES['HEAT_REST']!;
    expect(sun!.rows.map((row) => row.certainty)).toEqual(['memory', 'memory', 'memory']);
    expect(
      humidity!.rows.filter((row) => row.certainty !== 'memory').map((row) => row.cells[0]),
    ).toEqual([30]);
  });
});
