/** An invented street list of young trees of several sizes, all full on the first day: the case in which crew days bunch. */
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { joinVisits } from '../../src/engine/plan/joint-visits.js';
import { MM_PER_INCH } from '../../src/engine/units.js';
import { BAG, DAYS, FROM, NOZZLE, site, tree, weather, ANY_DAY } from './invented-season.js';
import { random } from './small-cases.js';

/** Share of the crews' hours a list asks for on average [-]. */
export const ASKED = 0.75;
const CREWS = 2;

/**
 * @param perSite - most trees of a site
 * @returns a season whose joined visits ask for `asked` of the hours of two crews, on an average day
 */
export function streetList(
  seed: number,
  rows = 150,
  perSite = 6,
  asked = ASKED,
  more: Partial<SeasonInput> = {},
): SeasonInput {
  const next = random(7919 * (seed + 1));
  let left = 0;
  let at = 0;
  const trees = Array.from({ length: rows }, (_, k) => {
    if (left-- <= 0) {
      at++;
      left = Math.floor(next() * perSite);
    }
    return tree(String(k + 1), {
      caliper: (1 + 3 * next()) * MM_PER_INCH,
      planted: FROM - Math.floor(900 * next()),
      plantFactor: [0.4, 0.5, 0.6][Math.floor(3 * next())]!,
      site: `Block ${at}`,
      address: `${at} Invented Street`,
    });
  });
  const season: SeasonInput = {
    trees,
    site: site({ crews: CREWS, crewHours: 24, driveMinutes: 8, workDays: 'any' }),
    weather: weather(5.5),
    rules: ANY_DAY,
    kit: [BAG, NOZZLE],
    ...more,
  };
  const { plan } = joinVisits(season, planSeason(season));
  const hours = plan.crewDays.reduce((sum, day) => sum + day.hours, 0);
  return { ...season, site: { ...season.site, crewHours: hours / DAYS / CREWS / asked } };
}
