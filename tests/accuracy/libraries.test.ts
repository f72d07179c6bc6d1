/**
 * Libraries by others as outside references. Each comparison says where the other formulation differs and how much
 * difference that explains; a limit is that figure, rounded up.
 */
import { convert } from 'convert';
import psychrolib from 'psychrolib';
import * as suncalc from 'suncalc';
import { beforeAll, describe, expect, it } from 'vitest';
import { dayFromIso, isoDate } from '../../src/engine/dates.js';
import * as units from '../../src/engine/units.js';
import {
  airPressure,
  dewPointOf,
  referenceEtParts,
  saturationPressure,
} from '../../src/engine/weather/reference-et.js';
import { FUNCTIONS } from '../../src/functions/index.js';

const steps = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
const number = (id: string, ...args: unknown[]): number => FUNCTIONS[id]?.(...args) as number;

/** psychrolib 1.1.1 (MIT): ASHRAE Handbook of Fundamentals (2017), chapter 1. */
describe('moist air against psychrolib', () => {
  beforeAll(() => psychrolib.SetUnitSystem(psychrolib.SI));
  const kPa = (t: number): number => psychrolib.GetSatVapPres(t) / 1000;

  it('saturation pressure over water, 0.5 to 50 °C: Magnus form against Hyland-Wexler, within 0.12 %', () => {
    for (const t of steps(0.5, 50, 0.5))
      expect(Math.abs(saturationPressure(t) / kPa(t) - 1), `${t} °C`).toBeLessThan(0.0012);
  });

  it('below freezing ours stays over water and theirs goes over ice: higher by 4 to 6 % at -5 °C, never lower', () => {
    expect(saturationPressure(-5) / kPa(-5)).toBeGreaterThan(1.04);
    expect(saturationPressure(-5) / kPa(-5)).toBeLessThan(1.06);
    for (const t of steps(-40, -1, 1)) expect(saturationPressure(t)).toBeGreaterThan(kPa(t));
  });

  it('dew point, 1 to 40 °C, within 0.03 °C', () => {
    for (const t of steps(1, 40, 0.5)) {
      const theirs = psychrolib.GetTDewPointFromVapPres(45, saturationPressure(t) * 1000);
      expect(Math.abs(dewPointOf(saturationPressure(t)) - theirs), `${t} °C`).toBeLessThan(0.03);
    }
  });

  it('air pressure to 3,000 m: FAO-56 takes 20 °C at sea level, the standard atmosphere 15 °C; within 0.6 %', () => {
    for (const z of steps(-400, 3000, 100))
      expect(
        Math.abs(airPressure(z) / (psychrolib.GetStandardAtmPressure(z) / 1000) - 1),
      ).toBeLessThan(0.006);
  });

  it('ET0 with their vapour pressures, slope and air pressure in Eq. 6, warm days: within 0.2 %', () => {
    let worst = 0;
    for (const tmin of steps(5, 25, 5))
      for (const range of [8, 14, 20])
        for (const wind of [1, 3, 6])
          for (const elevation of [0, 800, 2000]) {
            const tmax = tmin + range;
            const dew = tmin - 4;
            const mean = (tmax + tmin) / 2;
            const solar = 24;
            const { rn } = referenceEtParts({
              ...{ tmax, tmin, latitude: 34, dayOfYear: 200, elevation, wind, solar },
              vapourPressure: kPa(dew),
            });
            const slope = (kPa(mean + 0.01) - kPa(mean - 0.01)) / 0.02;
            const gamma = 0.665e-3 * (psychrolib.GetStandardAtmPressure(elevation) / 1000);
            const deficit = (kPa(tmax) + kPa(tmin)) / 2 - kPa(dew);
            const theirs =
              (0.408 * slope * rn + ((gamma * 900) / (mean + 273)) * wind * deficit) /
              (slope + gamma * (1 + 0.34 * wind));
            // 19 July, day 200
            const ours = number(
              'ET0',
              tmax,
              tmin,
              34,
              '2027-07-19',
              dew,
              wind,
              solar,
              elevation,
              'SI',
            );
            worst = Math.max(worst, Math.abs(ours / theirs - 1));
          }
    expect(worst).toBeGreaterThan(0);
    expect(worst).toBeLessThan(0.002);
  });
});

/**
 * suncalc 2.0.2 (BSD-2-Clause): the sun's place by Meeus. Its sunrise is at -0.833°, the upper edge seen through the air;
 * FAO-56 takes the centre without air at 0°, so a second pair of times at 0° is asked for. What is left is Eq. 24, one sine
 * for a year: in October its declination is 1.16° off, 1.25° in a leap year, and a degree then moves the day by 9 · tan(latitude)
 * minutes. So the limit is 1.25 · 9 · tan(latitude), and half a minute for the turn of the sun meanwhile.
 */
describe('day length against suncalc, every third day of a common and of a leap year', () => {
  beforeAll(() => suncalc.addTime(0, 'geometricRise', 'geometricSet'));
  const days = [
    ...steps(dayFromIso('2027-01-01'), dayFromIso('2027-12-31'), 3),
    ...steps(dayFromIso('2028-01-01'), dayFromIso('2028-12-31'), 3),
  ];
  const hoursBetween = (from: unknown, to: unknown): number =>
    ((to as Date).getTime() - (from as Date).getTime()) / 3_600_000;
  const theirs = (day: number, latitude: number): { seen: number; geometric: number } => {
    const at = suncalc.getTimes(new Date(`${isoDate(day)}T12:00Z`), latitude, 0);
    return {
      seen: hoursBetween(at.sunrise, at.sunset),
      geometric: hoursBetween(at['geometricRise'], at['geometricSet']),
    };
  };
  const worst = (latitude: number, which: 'seen' | 'geometric'): number =>
    Math.max(
      ...days.map((day) =>
        Math.abs(number('SUN_HOURS', latitude, day) - theirs(day, latitude)[which]),
      ),
    ) * 60;

  const byDeclination = (latitude: number): number =>
    0.5 + 1.25 * 9 * Math.tan((Math.abs(latitude) * Math.PI) / 180);

  it.each(steps(-60, 60, 10))(
    'at %d°, without air: no further off than Eq. 24 explains',
    (latitude) => {
      expect(worst(latitude, 'geometric')).toBeLessThan(byDeclination(latitude));
    },
  );

  it('as seen from the ground the day is 6 to 23 minutes longer up to 60°, which FAO-56 leaves out', () => {
    for (const latitude of steps(-60, 60, 10)) {
      const longer = days.map((day) => {
        const at = theirs(day, latitude);
        return (at.seen - at.geometric) * 60;
      });
      expect(Math.min(...longer)).toBeGreaterThan(6);
      expect(Math.max(...longer)).toBeLessThan(23);
      expect(worst(latitude, 'seen')).toBeLessThan(byDeclination(latitude) + 23);
    }
  });
});

/** convert 8.0.2 (MIT): its own table of units. It rounds psi to seven figures. */
describe('unit factors against convert', () => {
  it.each([
    ['inch in mm', units.MM_PER_INCH, convert(1, 'in').to('mm')],
    ['foot in m', units.M_PER_FOOT, convert(1, 'ft').to('m')],
    ['US gallon in L', units.L_PER_GALLON, convert(1, 'gallon').to('L')],
    ['cubic yard in m³', units.M3_PER_CUBIC_YARD, convert(1, 'yd3').to('m3')],
    ['pound in kg', units.KG_PER_POUND, convert(1, 'lb').to('kg')],
    ['mile an hour in m/s', units.MS_PER_MPH, convert(1, 'mi').to('m') / convert(1, 'h').to('s')],
  ])('%s', (_, ours, theirs) => {
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(1e-12);
  });

  it('psi in kPa, to the seven figures it carries', () => {
    expect(Math.abs(units.KPA_PER_PSI / convert(1, 'psi').to('kPa') - 1)).toBeLessThan(1e-7);
  });

  it('degrees Fahrenheit, -76 to 140', () => {
    for (const f of steps(-76, 140, 4))
      expect(units.fahrenheitToCelsius(f)).toBeCloseTo(convert(f, 'F').to('C'), 10);
  });
});
