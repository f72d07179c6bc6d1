import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dewPointOf,
  hargreavesEt,
  referenceEt,
  referenceEtParts,
  saturationPressure,
} from '../../../src/engine/weather/reference-et.js';
import { daylightHours, extraterrestrialRadiation } from '../../../src/engine/weather/sun.js';

const day = { tmax: 36, tmin: 22, latitude: 33, dayOfYear: 190, elevation: 300 };

describe('reference ET', () => {
  it('rises with wind, sun and dryness', () => {
    const et = referenceEt({ ...day, wind: 2, solar: 26, dewPoint: 10 });
    expect(referenceEt({ ...day, wind: 4, solar: 26, dewPoint: 10 })).toBeGreaterThan(et);
    expect(referenceEt({ ...day, wind: 2, solar: 28, dewPoint: 10 })).toBeGreaterThan(et);
    expect(referenceEt({ ...day, wind: 2, solar: 26, dewPoint: 5 })).toBeGreaterThan(et);
  });

  it('keeps the clear-sky ratio between 0.3 and 1', () => {
    const dull = referenceEtParts({ ...day, solar: 0.5 });
    const duller = referenceEtParts({ ...day, solar: 5 });
    expect(dull.rnl).toBeCloseTo(duller.rnl, 12);
    expect(referenceEtParts({ ...day, solar: 45 }).rnl).toBeCloseTo(
      referenceEtParts({ ...day, solar: 40 }).rnl,
      12,
    );
  });

  it('is a number on every day at every latitude, polar night included', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -90, max: 90 }),
        fc.integer({ min: 1, max: 366 }),
        fc.double({ min: -50, max: 45, noNaN: true }),
        fc.double({ min: 0, max: 15, noNaN: true }),
        (latitude, dayOfYear, tmin, range) => {
          const weather = { tmax: tmin + range, tmin, latitude, dayOfYear };
          return (
            Number.isFinite(referenceEt(weather)) &&
            hargreavesEt(weather.tmax, tmin, latitude, dayOfYear) >= 0
          );
        },
      ),
      { seed: 3 },
    );
  });

  it('refuses a dew point above the highest temperature and a minimum above the maximum', () => {
    expect(() => referenceEt({ ...day, dewPoint: 37 })).toThrow(/dew point/);
    expect(() => referenceEt({ ...day, tmin: 40 })).toThrow(/lowest temperature/);
  });

  it('the dew point turns the vapour pressure round', () => {
    expect(dewPointOf(saturationPressure(12.3))).toBeCloseTo(12.3, 10);
  });
});

describe('the sun', () => {
  it('does not set in polar summer and does not rise in polar winter', () => {
    expect(daylightHours(80, 172)).toBe(24);
    expect(daylightHours(80, 355)).toBe(0);
    expect(extraterrestrialRadiation(80, 355)).toBe(0);
    expect(extraterrestrialRadiation(90, 172)).toBeGreaterThan(40);
  });

  it('gives the daylight hours of the printed table', () => {
    const at50 = [8.3, 9.8, 11.6, 13.5, 15.2, 16.1, 15.7, 14.3, 12.3, 10.4, 8.7, 7.9];
    const mid = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349];
    mid.forEach((j, i) => {
      expect(Math.abs(daylightHours(50, j) - (at50[i] ?? NaN))).toBeLessThan(0.06);
      expect(daylightHours(0, j)).toBeCloseTo(12, 9);
    });
  });
});
