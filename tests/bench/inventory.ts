/** An invented inventory of any length, no two trees alike, with a full kit and an ordinance of two stages. */
import { dayOf } from '../../src/engine/dates.js';
import type { Device, SeasonWeather, Site, Tree } from '../../src/engine/plan/model.js';
import { parseRules, type RuleTable } from '../../src/engine/rules/rule-table.js';
import { readWeather } from '../../src/tables/weather.js';
import { exampleSetup } from '../../src/workbook/example-setup.js';

export const FROM = dayOf(2027, 4, 1);
export const DAYS = 214;

const RULES = [
  ['Stage', 'Means', 'Address', 'Days', 'Hours', 'Verdict'],
  ['1', 'any', 'any', 'any', '00:00-10:00, 19:00-24:00', 'allow'],
  ['2', 'bag, soaker, hand, pad', 'odd', 'Tue Thu Sat', '00:00-10:00', 'allow'],
  ['2', 'bag, soaker, hand, pad', 'even', 'Wed Fri Sun', '00:00-10:00', 'allow'],
  ['2', 'tanker', 'any', 'any', 'any', 'free'],
];
const STAGES = [
  ['From', 'Stage'],
  ['2027-04-01', '1'],
  ['2027-07-01', '2'],
];

export interface BenchSeason {
  site: Site;
  weather: SeasonWeather;
  rules: RuleTable;
  kit: Device[];
}

/** Bag, pad, soaker, hand, tanker. The soaker has no timer, so that it is combined with the pad, too. */
export function benchSeason(): BenchSeason {
  const setup = exampleSetup(33);
  const site = { ...setup.site, seasonFrom: FROM, seasonTo: FROM + DAYS - 1 };
  return {
    site,
    weather: readWeather(setup.weather, site).weather,
    rules: parseRules(RULES, STAGES),
    kit: setup.kit.map((device) => ({ ...device, automatic: false })),
  };
}

/** Trees of 1 to 8 inches, planted up to three and a half years ago or during the season, on 60 sites. */
export const benchTrees = (count: number): Tree[] =>
  Array.from({ length: count }, (_, i) => ({
    id: String(i),
    row: i + 2,
    species: 'invented',
    count: 1,
    caliper: 25.4 * (1 + ((i % 997) / 997) * 7),
    canopy: 1.5 + ((i % 1009) / 1009) * 6,
    planted: FROM - 1200 + (i % 1300),
    site: `Site ${i % 60}`,
    address: `${i} Invented Way`,
    tap: true,
  }));
