/**
 * What any answer about weather and trees must keep whatever the numbers: which way it moves, and bounds it
 * cannot leave. Nothing here repeats a formula; the equations are checked in tests/reference and tests/accuracy.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { always, between, date, number, pair, SLACK } from './sense.js';

/** A dry summer day of the north, °C: there more sun always means more energy left for water. */
const summer = {
  tmin: between(12, 24),
  range: between(8, 20),
  latitude: between(5, 45),
  date: fc.integer({ min: 46508, max: 46600 }), // 1 May to 1 August 2027
};

/** A dew point of exactly 0 °C is read as a blank cell, as the parameter's description says. */
const dewPoints = pair(-8, 12).filter((dews) => dews.every((dew) => Math.abs(dew) > 0.01));

describe('weather', () => {
  it('ET0 rises with wind where the air is dry', () =>
    always(
      [summer.tmin, summer.range, summer.latitude, summer.date, between(-8, 4), pair(0.5, 9)],
      (tmin, range, latitude, day, dew, [calm, windy]) => {
        const et = (wind: number): number =>
          number('ET0', tmin + range, tmin, latitude, day, dew, wind, 24, 300, 'SI');
        expect(et(windy)).toBeGreaterThan(et(calm));
      },
    ));

  it('ET0 rises with the sun', () =>
    always(
      [summer.tmin, summer.range, summer.latitude, summer.date, between(0, 12), pair(8, 34)],
      (tmin, range, latitude, day, dew, [dull, bright]) => {
        const et = (solar: number): number =>
          number('ET0', tmin + range, tmin, latitude, day, dew, 2, solar, 300, 'SI');
        expect(et(bright)).toBeGreaterThan(et(dull));
      },
    ));

  it('ET0 rises with the temperature range, which stands for the sun where none was measured', () =>
    always(
      [between(18, 28), pair(6, 22), summer.latitude, summer.date],
      (mean, [narrow, wide], latitude, day) => {
        const et = (range: number): number =>
          number('ET0', mean + range / 2, mean - range / 2, latitude, day, 5, 2, '', 300, 'SI');
        expect(et(wide)).toBeGreaterThan(et(narrow));
      },
    ));

  it('ET0 falls as the dew point rises, in wind', () =>
    always(
      [summer.tmin, summer.range, summer.latitude, summer.date, dewPoints, between(3, 9)],
      (tmin, range, latitude, day, [dry, moist], wind) => {
        const et = (dew: number): number =>
          number('ET0', tmin + range, tmin, latitude, day, dew, wind, 24, 300, 'SI');
        expect(et(moist)).toBeLessThan(et(dry));
      },
    ));

  it('ET0 and ET0_TEMP are never negative, on any day at any latitude, and below 20 mm', () =>
    always(
      [between(-50, 45), between(0, 15), between(-90, 90), date],
      (tmin, range, latitude, day) => {
        const args = [tmin + range, tmin, latitude, day];
        for (const et of [
          number('ET0', ...args, '', '', '', '', 'SI'),
          number('ET0_TEMP', ...args, 'SI'),
        ]) {
          expect(et).toBeGreaterThanOrEqual(0);
          expect(et).toBeLessThan(20);
        }
      },
    ));

  it('ET0_TEMP rises with the highest temperature', () =>
    always(
      [between(0, 15), pair(16, 45), between(-50, 50), date],
      (tmin, [mild, hot], latitude, day) => {
        const et = (tmax: number): number => number('ET0_TEMP', tmax, tmin, latitude, day, 'SI');
        expect(et(hot)).toBeGreaterThan(et(mild));
      },
    ));

  it('SUN_ENERGY lies between the polar night and the polar midsummer, 0 to 49 MJ/m²', () =>
    always([between(-90, 90), date], (latitude, day) => {
      expect(number('SUN_ENERGY', latitude, day)).toBeGreaterThanOrEqual(0);
      expect(number('SUN_ENERGY', latitude, day)).toBeLessThan(49);
    }));

  it('SUN_HOURS: a day here is a night on the other half of the earth, and 12 h at the equator', () =>
    always([between(-90, 90), date], (latitude, day) => {
      const hours = number('SUN_HOURS', latitude, day);
      expect(hours).toBeGreaterThanOrEqual(0);
      expect(hours + number('SUN_HOURS', -latitude, day)).toBeCloseTo(24, 6);
      expect(number('SUN_HOURS', 0, day)).toBeCloseTo(12, 9);
      expect(number('SUN_ENERGY', latitude, day) > 1e-6).toBe(hours > 0.01);
    }));

  it('SUN_HOURS grow northward in the northern summer', () =>
    always([pair(-80, 80), summer.date], ([south, north], day) => {
      expect(number('SUN_HOURS', north, day)).toBeGreaterThanOrEqual(
        number('SUN_HOURS', south, day) - SLACK,
      );
    }));

  it('RAIN_MONTH never exceeds rain or demand, and never falls with rain, demand or storage', () =>
    always(
      [pair(0, 30), pair(0, 20), pair(0.1, 7.5)],
      ([less, more], [idle, thirsty], [small, large]) => {
        const counted = number('RAIN_MONTH', more, thirsty, large);
        expect(counted).toBeGreaterThanOrEqual(0);
        expect(counted).toBeLessThanOrEqual(Math.min(more, thirsty) + SLACK);
        expect(number('RAIN_MONTH', less, thirsty, large)).toBeLessThanOrEqual(counted + SLACK);
        expect(number('RAIN_MONTH', more, idle, large)).toBeLessThanOrEqual(counted + SLACK);
        expect(number('RAIN_MONTH', more, thirsty, small)).toBeLessThanOrEqual(counted + SLACK);
      },
    ));

  it('RAIN_DAY never falls with rain, never exceeds it, and counts nothing above two inches', () =>
    always([pair(0, 6)], ([less, more]) => {
      expect(number('RAIN_DAY', less)).toBeLessThanOrEqual(number('RAIN_DAY', more) + SLACK);
      expect(number('RAIN_DAY', more)).toBeLessThanOrEqual(more);
      expect(number('RAIN_DAY', 2 + more)).toBeCloseTo(number('RAIN_DAY', 2), 9);
    }));
});

describe('tree', () => {
  it('PLANT_FACTOR: the more water a class needs, the higher; a wet season asks for no less', () => {
    const classes = ['very low', 'low', 'moderate', 'high'].map((kind) =>
      number('PLANT_FACTOR', kind),
    );
    expect(classes).toEqual([...classes].sort((a, b) => a - b));
    expect(new Set(classes).size).toBe(4);
    expect(number('PLANT_FACTOR', 'tree', 'humid')).toBeGreaterThanOrEqual(
      number('PLANT_FACTOR', 'tree', 'dry'),
    );
    for (const factor of classes) {
      expect(factor).toBeGreaterThan(0);
      expect(factor).toBeLessThanOrEqual(1);
    }
  });

  it('TREE_DEMAND: twice the crown is four times the water, twice the weather or factor twice', () =>
    always(
      [between(0.01, 0.4), between(1, 40), between(0.05, 0.7), between(0.2, 1.4)],
      (et0, canopy, plant, site) => {
        const one = number('TREE_DEMAND', et0, canopy, plant, site);
        expect(one).toBeGreaterThan(0);
        expect(number('TREE_DEMAND', et0, 2 * canopy, plant, site) / one).toBeCloseTo(4, 9);
        expect(number('TREE_DEMAND', 2 * et0, canopy, plant, site) / one).toBeCloseTo(2, 9);
        expect(number('TREE_DEMAND', et0, canopy, 2 * plant, site) / one).toBeCloseTo(2, 9);
        expect(number('TREE_DEMAND', et0, canopy, plant, 2 * site) / one).toBeCloseTo(2, 9);
      },
    ));

  it('BALL_DIAMETER grows with the caliper and is 8 to 24 times as wide', () =>
    always([pair(0.5, 5)], ([thin, thick]) => {
      expect(number('BALL_DIAMETER', thick)).toBeGreaterThan(number('BALL_DIAMETER', thin));
      expect(number('BALL_DIAMETER', thick) / thick).toBeGreaterThanOrEqual(8);
      expect(number('BALL_DIAMETER', thick) / thick).toBeLessThanOrEqual(24);
    }));

  it('BALL_DEPTH: 60 to 75 % of the diameter, a smaller share for a larger ball', () =>
    always([pair(6, 100)], ([small, large]) => {
      const [a, b] = [small, large].map((d) => number('BALL_DEPTH', d) / d) as [number, number];
      expect(b).toBeLessThanOrEqual(a + SLACK);
      expect(b).toBeGreaterThanOrEqual(0.6 - SLACK);
      expect(a).toBeLessThanOrEqual(0.75 + SLACK);
    }));

  it('CONTAINER_VOLUME grows with the class and is less than 1.3 gallons a number', () => {
    for (let size = 2; size <= 100; size++) {
      expect(number('CONTAINER_VOLUME', size)).toBeGreaterThan(
        number('CONTAINER_VOLUME', size - 1),
      );
      expect(number('CONTAINER_VOLUME', size)).toBeLessThan(1.3 * size);
      expect(number('CONTAINER_VOLUME', `#${size}`)).toBe(number('CONTAINER_VOLUME', size));
    }
  });

  it('ROOT_MONTHS: in proportion to the caliper, and never longer in a warmer zone', () =>
    always([between(0.5, 15), fc.integer({ min: 1, max: 12 })], (caliper, zone) => {
      const months = number('ROOT_MONTHS', caliper, zone);
      expect(number('ROOT_MONTHS', 2 * caliper, zone) / months).toBeCloseTo(2, 9);
      expect(number('ROOT_MONTHS', caliper, zone + 1)).toBeLessThanOrEqual(months);
    }));

  it('ROOT_SPREAD never shrinks with time, from the ball to the reach of the crown', () =>
    always(
      [between(10, 50), between(1, 30), pair(0, 60), between(1, 48), between(0.3, 3)],
      (ball, canopy, [before, after], needed, reach) => {
        const spread = (months: number): number =>
          number('ROOT_SPREAD', ball, canopy, months, needed, reach);
        expect(spread(after)).toBeGreaterThanOrEqual(spread(before) - SLACK);
        expect(spread(0)).toBeGreaterThanOrEqual(ball / 12 - SLACK);
        expect(spread(after)).toBeLessThanOrEqual(Math.max(ball / 12, reach * canopy) + SLACK);
        expect(spread(needed)).toBeCloseTo(Math.max(ball / 12, reach * canopy), 9);
      },
    ));
});
