import { describe, expect, it } from 'vitest';
import { dayOf } from '../../../src/engine/dates.js';
import { Problem } from '../../../src/engine/problems.js';
import { monthlyEffectiveRain } from '../../../src/engine/weather/rainfall.js';
import { seasonWeather, seasonWeatherDaily } from '../../../src/engine/weather/season-weather.js';

const months = [
  { month: 5, et0: 6, rain: 31, share: 1 },
  { month: 6, et0: 8, rain: 60, share: 0.5 },
  { month: 7, et0: 7.5, rain: 0, share: 1 },
];
const may = (date: number): number => dayOf(2027, 5, date);
const sum = (days: Float64Array): number => days.reduce((a, b) => a + b, 0);

describe('a season from monthly normals', () => {
  const season = seasonWeather({
    from: may(1),
    to: dayOf(2027, 7, 31),
    monthly: months,
    plantFactor: 0.5,
  });

  it('has a value for every day, first and last inside', () => {
    expect(season.et0).toHaveLength(31 + 30 + 31);
    expect(season.et0[0]).toBe(6);
    expect(season.et0[30]).toBe(6);
    expect(season.et0[31]).toBe(8);
    expect(season.et0[91]).toBe(7.5);
  });

  it('gives each month its rain and its effective rain, no more and no less', () => {
    expect(sum(season.rain)).toBeCloseTo(91, 9);
    const mayRain = monthlyEffectiveRain(31, 6 * 0.5 * 31);
    expect(sum(season.effectiveRain.slice(0, 31))).toBeCloseTo(mayRain, 9);
    const juneRain = monthlyEffectiveRain(60, 8 * 0.5 * 30);
    expect(sum(season.effectiveRain.slice(31, 61))).toBeCloseTo(juneRain * 0.5, 9);
    expect(mayRain).toBeGreaterThan(10);
  });

  it('never counts more rain than falls or than the planting uses', () => {
    season.effectiveRain.forEach((effective, i) => {
      expect(effective).toBeLessThanOrEqual((season.rain[i] ?? 0) + 1e-12);
      expect(effective).toBeLessThanOrEqual(0.5 * (season.et0[i] ?? 0) + 1e-12);
    });
  });

  it('names the hottest month', () => {
    expect(season.peakMonth).toBe(6);
    expect(season.peakEt0).toBeCloseTo(8, 12);
  });

  it('uses whole-month rain also where the season takes part of a month', () => {
    const part = seasonWeather({ from: may(20), to: may(25), monthly: months, plantFactor: 0.5 });
    expect(part.effectiveRain[0]).toBeCloseTo(season.effectiveRain[0] ?? NaN, 12);
    expect(part.et0).toHaveLength(6);
  });

  it('knows that February has 29 days in a leap year', () => {
    const monthly = [{ month: 2, et0: 2, rain: 29, share: 1 }];
    const input = { from: dayOf(2028, 2, 1), to: dayOf(2028, 2, 29), monthly, plantFactor: 0.5 };
    expect(seasonWeather(input).rain[0]).toBeCloseTo(1, 12);
  });

  it('says which month is missing, twice, or out of range', () => {
    const input = { from: may(1), to: dayOf(2027, 8, 1), monthly: months, plantFactor: 0.5 };
    expect(() => seasonWeather(input)).toThrow(/no row for Aug/);
    const twice = { ...input, monthly: [...months, ...months] };
    expect(() => seasonWeather(twice)).toThrow(/May twice/);
    const wet = [{ month: 5, et0: 6, rain: -1, share: 1 }];
    expect(() => seasonWeather({ ...input, monthly: wet })).toThrow(/rain of May must be from 0/);
    expect(() => seasonWeather({ ...input, to: may(1) - 1 })).toThrow(/before it starts/);
    expect(() => seasonWeather({ ...input, to: may(1) + 2000 })).toThrow(Problem);
  });
});

describe('a season from daily records', () => {
  const daily = [
    { day: may(3), et0: 7, rain: 0 },
    { day: may(1), et0: 5, rain: 25.4 },
    { day: may(2), et0: 6, rain: 2 },
  ];

  it('takes each day by itself, in any order, by the per-event rule', () => {
    const season = seasonWeatherDaily({ from: may(1), to: may(3), daily, share: 0.5 });
    expect([...season.et0]).toEqual([5, 6, 7]);
    expect(season.effectiveRain[0]).toBeCloseTo(0.5 * 0.9 * 25.4, 9);
    expect(season.effectiveRain[1]).toBe(0);
    expect(season.peakMonth).toBe(5);
    expect(season.peakEt0).toBeCloseTo(6, 12);
  });

  it('says which day is missing or twice', () => {
    const input = { from: may(1), to: may(4), daily, share: 1 };
    expect(() => seasonWeatherDaily(input)).toThrow(/no row for 2027-05-04/);
    const twice = { ...input, daily: [...daily, ...daily] };
    expect(() => seasonWeatherDaily(twice)).toThrow(/gives 2027-05-03 twice/);
  });
});
