/** A season plan laid out by hand, so that an estimate can be worked out on paper. Invented. */
import { dayOf } from '../../../src/engine/dates.js';
import type {
  CrewDay,
  Device,
  SeasonPlan,
  Site,
  TreePlan,
} from '../../../src/engine/plan/model.js';
import { defaultSite } from '../../../src/tables/site.js';
import { device } from '../device.js';

export const FROM = dayOf(2027, 4, 1);
export const TO = dayOf(2027, 9, 30);

export const BAG: Device = device({
  name: 'bag', family: 'bag', volume: 50, price: 30, seasons: 3, stock: 1, setupMinutes: 6, visitMinutes: 5,
}); // prettier-ignore

/** Two like trees, each watered with 50 L from a bag on two days. */
export function madeTree(more: Partial<TreePlan['tree']> = {}): TreePlan {
  const watering = (day: number) => ({
    day, family: 'bag' as const, device: 'bag', litres: 50, minutes: 300, cycles: 1, hours: 'any', why: '',
  }); // prettier-ignore
  const chosen = {
    label: 'bag, full fills', families: ['bag' as const], devices: ['bag'], feasible: true,
    verdict: 'keeps the tree without stress', waterings: 2, litres: 100, visits: 2, stressDays: 0, leastKs: 1, cost: 40,
    plan: [watering(FROM + 10), watering(FROM + 40)],
  }; // prettier-ignore
  return {
    tree: { id: 'a', row: 2, species: '', count: 2, caliper: 50, planted: FROM, site: 'Yard', address: '1 Yard', tap: true, ...more },
    facts: {
      canopy: 2, ballDiameter: 600, ballDepth: 400, ballVolume: 100, ballAvailable: 0.15, soilAvailable: 0.15, intake: 10,
      ballTaw: 15, establishedDiameter: 2, monthsToEstablish: 6, monthsAtStart: 0, plantFactor: 0.5, flags: [],
      peak: { ringDiameter: 1, taw: 20, depletion: 0.3, raw: 6, demand: 3, interval: 2 },
    },
    options: [chosen], chosen, state: 'planned', advice: '',
  }; // prettier-ignore
}

/** Half an hour at the trees, 18 minutes on the road, one refill of 12 minutes. */
const crewDay = (day: number): CrewDay => ({
  day,
  stops: [{ site: 'Yard', address: '1 Yard', tasks: [], litres: 100, minutes: 30 }],
  litres: 100,
  hours: 1,
  tankLoads: 1,
  overload: false,
});

export function madePlan(site: Partial<Site> = {}, trees: TreePlan[] = [madeTree()]): SeasonPlan {
  const days = TO - FROM + 1;
  return {
    site: defaultSite({
      seasonFrom: FROM, seasonTo: TO, wage: 30, crewSize: 2, waterPrice: 2, tankRefillMinutes: 12, margin: 0.25, ...site,
    }),
    weather: {
      from: FROM, et0: new Float64Array(days), rain: new Float64Array(days), effectiveRain: new Float64Array(days),
      peakMonth: 7, peakEt0: 6,
    },
    trees, notPlanned: [], crewDays: [crewDay(FROM + 10), crewDay(FROM + 40)], problems: [],
  }; // prettier-ignore
}
