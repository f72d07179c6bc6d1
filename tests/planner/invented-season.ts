/** Invented sites, rules and weather for tests of whole seasons, the same every time. */
import { dayOf } from '../../src/engine/dates.js';
import type { Device, SeasonWeather, Site, Tree } from '../../src/engine/plan/model.js';
import type { SeasonInput } from '../../src/engine/plan/season.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { dailyEffectiveRain } from '../../src/engine/weather/rainfall.js';
import { L_PER_GALLON, MM_PER_INCH } from '../../src/engine/units.js';
import { defaultSite } from '../../src/tables/site.js';
import { device } from '../engine/device.js';
import { random } from './small-cases.js';

export const FROM = dayOf(2027, 4, 1);
export const TO = dayOf(2027, 9, 30);
export const DAYS = TO - FROM + 1;

export const BAG = device({
  name: 'bag', family: 'bag', volume: 15 * L_PER_GALLON, holes: 4, ratedHours: 5,
}); // prettier-ignore
export const HOSE = device({
  name: 'hose', family: 'soaker', rate: 8, length: 20, automatic: true, price: 60,
}); // prettier-ignore
export const NOZZLE = device({ name: 'nozzle', family: 'hand', flow: 15 });
export const PAD = device({ name: 'pad', family: 'pad', volume: 11, price: 15 });
export const TRUCK = device({ name: 'truck', family: 'tanker', volume: 2000, flow: 60 });
export const KIT: Device[] = [BAG, HOSE, NOZZLE, PAD, TRUCK];

export const site = (more: Partial<Site> = {}): Site =>
  defaultSite({ seasonFrom: FROM, seasonTo: TO, texture: 'loam', zone: 9, ...more });

export const tree = (id: string, more: Partial<Tree> = {}): Tree => ({
  id,
  row: Number(id.replace(/\D/g, '')) + 1,
  species: 'invented',
  count: 1,
  caliper: 2 * MM_PER_INCH,
  planted: FROM - 800,
  site: 'Yard',
  address: `${id.replace(/\D/g, '')} Invented Way`,
  ...more,
});

/** Rain: 10 mm on every fifteenth day, or none. */
export function weather(et0 = 6.5, wet = false): SeasonWeather {
  const rain = Float64Array.from({ length: DAYS }, (_, i) => (wet && i % 15 === 7 ? 10 : 0));
  return {
    from: FROM,
    et0: new Float64Array(DAYS).fill(et0),
    rain,
    effectiveRain: rain.map(dailyEffectiveRain),
    peakMonth: 7,
    peakEt0: et0,
  };
}

export const rulesOf = (...rows: (string | null)[][]) =>
  parseRules(
    [['Stage', 'Means', 'Address', 'Days', 'Hours', 'Verdict'], ...rows],
    [
      ['From', 'Stage'],
      ['2027-04-01', '1'],
      ['2027-07-01', '2'],
    ],
  );

/** Three days a week, from July two, by the house number's parity. */
export const STAGED = rulesOf(
  ['1', 'any', 'any', 'Mon Wed Sat', '00:00-10:00, 19:00-24:00', 'allow'],
  ['2', 'any', 'odd', 'Tue Sat', '00:00-10:00', 'allow'],
  ['2', 'any', 'even', 'Wed Sun', '00:00-10:00', 'allow'],
);
export const ANY_DAY = rulesOf([null, 'any', 'any', 'any', 'any', 'allow']);
export const TWICE_A_WEEK = rulesOf([null, 'any', 'any', '2 per week', 'any', 'allow']);

/** A season of `rows` random trees on a few sites. */
export function inventedSeason(seed: number, rows = 12): SeasonInput {
  const next = random(104729 * (seed + 1));
  const between = (low: number, high: number): number => low + (high - low) * next();
  const one = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const trees = Array.from({ length: rows }, (_, k) =>
    tree(String(k + 1), {
      caliper: between(1, 6) * MM_PER_INCH,
      planted: FROM - Math.floor(between(0, 1500)),
      count: one([1, 1, 1, 2, 5]),
      plantFactor: between(0.3, 0.7),
      site: `Site ${Math.floor(between(0, 4))}`,
      tap: one([true, true, false, undefined]),
    }),
  );
  return {
    trees,
    site: site({ texture: one(['loam', 'sandy loam', 'clay']), driveMinutes: between(5, 40) }),
    weather: weather(between(4, 7.5), next() < 0.5),
    rules: one([STAGED, ANY_DAY, TWICE_A_WEEK]),
    kit: next() < 0.5 ? KIT : [BAG, NOZZLE, TRUCK],
  };
}
