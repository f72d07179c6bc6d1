/**
 * What any answer about soil, intervals and crews must keep whatever the numbers: which way it moves, and bounds it
 * cannot leave. Nothing here repeats a formula; the equations are checked in tests/reference and tests/accuracy.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { always, between, call, cells, date, number, pair, SLACK } from './sense.js';

describe('soil', () => {
  const RANGED = ['sand', 'loamy sand', 'sandy loam', 'loam', 'silt loam', 'silt', 'clay'];

  it('SOIL_WATER: a soil holds more at field capacity than at wilting, and gives no more than it holds', () => {
    for (const texture of RANGED) {
      const [full, dry, gives] = ['field capacity', 'wilting point', 'available'].map((what) =>
        number('SOIL_WATER', texture, what),
      ) as [number, number, number];
      expect(full).toBeGreaterThan(dry);
      expect(gives).toBeGreaterThan(0);
      expect(gives).toBeLessThan(full);
    }
  });

  it('SOIL_INTAKE: sand takes water fastest, clay slowest', () => {
    const rates = ['sand', 'sandy loam', 'loam', 'clay'].map((t) => number('SOIL_INTAKE', t));
    expect(rates).toEqual([...rates].sort((a, b) => b - a));
    expect(new Set(rates).size).toBe(4);
  });

  it('DEPLETION: the thirstier the day, the less may be used; always 0.1 to 0.8', () =>
    always([between(0.05, 0.9), pair(0, 1)], (base, [mild, hot]) => {
      const [a, b] = [number('DEPLETION', base, mild), number('DEPLETION', base, hot)];
      expect(b).toBeLessThanOrEqual(a);
      expect(b).toBeGreaterThanOrEqual(0.1);
      expect(a).toBeLessThanOrEqual(0.8);
    }));

  it('ROOTZONE_VOLUME: twice as wide holds four times, twice as deep or as fine twice', () =>
    always(
      [between(5, 300), between(3, 40), between(0.02, 0.3), between(0.05, 0.5)],
      (wide, deep, available, depletion) => {
        const one = number('ROOTZONE_VOLUME', wide, deep, available, depletion);
        const ratio = (...args: number[]): number => number('ROOTZONE_VOLUME', ...args) / one;
        expect(ratio(2 * wide, deep, available, depletion)).toBeCloseTo(4, 9);
        expect(ratio(wide, 2 * deep, available, depletion)).toBeCloseTo(2, 9);
        expect(ratio(wide, deep, 2 * available, depletion)).toBeCloseTo(2, 9);
        expect(ratio(wide, deep, available, 2 * depletion)).toBeCloseTo(2, 9);
      },
    ));

  it('STRESS: none until the allowed share is used, all when everything is, never easing in between', () =>
    always([between(10, 500), between(0.1, 0.9), pair(0, 1)], (total, allowed, [less, more]) => {
      const ks = (share: number): number => number('STRESS', share * total, total, allowed);
      expect(ks(allowed * less)).toBeCloseTo(1, 9);
      expect(ks(1)).toBeCloseTo(0, 9);
      expect(ks(more)).toBeLessThanOrEqual(ks(less) + SLACK);
      expect(ks(more)).toBeGreaterThanOrEqual(0);
      expect(ks(less)).toBeLessThanOrEqual(1);
    }));

  it('MULCH_VOLUME grows with the circle, shrinks with the clear ring, goes with the depth', () =>
    always([pair(4, 20), between(1, 6), pair(0.5, 3.5)], ([narrow, wide], deep, [small, large]) => {
      const one = number('MULCH_VOLUME', wide, deep, small);
      expect(number('MULCH_VOLUME', narrow, deep, small)).toBeLessThan(one);
      expect(number('MULCH_VOLUME', wide, deep, large)).toBeLessThan(one);
      expect(number('MULCH_VOLUME', wide, 2 * deep, small) / one).toBeCloseTo(2, 9);
    }));
});

describe('interval', () => {
  it('INTERVAL: more water lasts longer, more demand shorter, rain longer', () =>
    always([pair(1, 200), pair(2, 30), pair(0, 1.9)], ([few, many], [slow, fast], [dry, wet]) => {
      const one = number('INTERVAL', many, slow, dry);
      expect(number('INTERVAL', few, slow, dry)).toBeLessThan(one);
      expect(number('INTERVAL', many, fast, dry)).toBeLessThan(one);
      expect(number('INTERVAL', many, slow, wet)).toBeGreaterThan(one);
    }));

  it('NEXT_DATE agrees with INTERVAL to the day, and never moves back with more water', () =>
    always([date, pair(1, 60), between(0.5, 5)], (last, [few, many], demand) => {
      const next = (volume: number): number => number('NEXT_DATE', last, volume, demand);
      const days = number('INTERVAL', many, demand);
      expect(Math.abs(next(many) - last - days)).toBeLessThanOrEqual(1);
      expect(next(many)).toBeGreaterThan(last - SLACK);
      expect(next(few)).toBeLessThanOrEqual(next(many));
    }));

  it('RULE_OF_THUMB: low is not above high, and both go with the trunk', () =>
    always(
      [between(0.5, 20), fc.constantFrom('florida', 'minnesota', 'extension', 'colorado')],
      (caliper, rule) => {
        const [low, high] = cells('RULE_OF_THUMB', caliper, rule) as [number, number];
        const [, twice] = cells('RULE_OF_THUMB', 2 * caliper, rule) as [number, number];
        expect(low).toBeGreaterThan(0);
        expect(low).toBeLessThanOrEqual(high);
        expect(twice / high).toBeCloseTo(2, 9);
      },
    ));
});

describe('crew', () => {
  it('TANK_LOADS: whole loads that carry the water, and one fewer would not', () =>
    always([between(1, 20000), between(50, 3000), between(0.4, 1)], (volume, tank, usable) => {
      const loads = number('TANK_LOADS', volume, tank, usable);
      expect(Number.isInteger(loads)).toBe(true);
      expect(loads * usable * tank).toBeGreaterThanOrEqual(volume * (1 - 1e-6));
      expect((loads - 1) * usable * tank).toBeLessThan(volume);
    }));

  it('STOP_MINUTES: set-up and filling; the faster hose is sooner done', () =>
    always([between(1, 500), pair(0.5, 30), between(0, 60)], (volume, [slow, fast], setup) => {
      expect(number('STOP_MINUTES', volume, fast, setup)).toBeLessThan(
        number('STOP_MINUTES', volume, slow, setup),
      );
      expect(number('STOP_MINUTES', 0, fast, setup)).toBeCloseTo(setup, 9);
    }));

  it('WATER_COST never falls with the volume and lies between the cheapest and the dearest tier', () =>
    always([pair(0, 50000), between(1, 5), between(5, 20)], ([less, more], cheap, dear) => {
      const tiers = [
        [4000, cheap],
        [9000, (cheap + dear) / 2],
        ['', dear],
      ];
      const cost = (volume: number): number => number('WATER_COST', volume, tiers);
      expect(cost(less)).toBeLessThanOrEqual(cost(more));
      expect(cost(more)).toBeGreaterThanOrEqual((more / 1000) * cheap - SLACK);
      expect(cost(more)).toBeLessThanOrEqual((more / 1000) * dear + SLACK);
      // prices that rise: two bills of half the water cost no more than one of all
      expect(2 * cost(more / 2)).toBeLessThanOrEqual(cost(more) + 1e-6);
    }));

  it('PRICE leaves the margin asked for', () =>
    always([between(1, 1e5), between(0.01, 0.9)], (cost, margin) => {
      const price = number('PRICE', cost, margin);
      expect((price - cost) / price).toBeCloseTo(margin, 9);
    }));

  it('HEAT_REST: an hour is 60 minutes, and no hotter, harder or sunnier hour gives more work', () =>
    always(
      [fc.integer({ min: 60, max: 119 }), fc.integer({ min: 0, max: 20 }), between(0.1, 0.6)],
      (temperature, hotter, humidity) => {
        const work = (t: number, load: string, sun: string): number => {
          const [minutes, rest] = cells('HEAT_REST', t, load, humidity, sun);
          if (minutes === 'stop') {
            expect(rest).toBe('stop');
            return -1;
          }
          expect((minutes as number) + (rest as number)).toBe(60);
          return minutes as number;
        };
        for (const load of ['light', 'moderate', 'heavy']) {
          expect(work(temperature + hotter, load, 'full')).toBeLessThanOrEqual(
            work(temperature, load, 'full'),
          );
          expect(work(temperature, load, 'full')).toBeLessThanOrEqual(
            work(temperature, load, 'partly'),
          );
          expect(work(temperature, load, 'partly')).toBeLessThanOrEqual(
            work(temperature, load, 'shade'),
          );
        }
        expect(work(temperature, 'heavy', 'full')).toBeLessThanOrEqual(
          work(temperature, 'light', 'full'),
        );
      },
    ));

  it('SALINITY: saltier water is never less restricted', () => {
    const classes = ['none', 'slight to moderate', 'severe'];
    for (const what of ['ec', 'tds', 'sar', 'chloride', 'boron'])
      always([pair(0, 30)], ([fresh, salt]) => {
        const factor = what === 'tds' ? 500 : 1;
        const rank = (value: number): number =>
          classes.indexOf(String(call('SALINITY', value * factor, what)));
        expect(rank(fresh)).toBeGreaterThanOrEqual(0);
        expect(rank(salt)).toBeGreaterThanOrEqual(rank(fresh));
        expect(rank(0.1)).toBe(0);
      });
  });
});
