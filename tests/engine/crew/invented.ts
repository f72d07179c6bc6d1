import { dayOf } from '../../../src/engine/dates.js';
import type {
  Device,
  MeansOutcome,
  Tree,
  TreePlan,
  Watering,
} from '../../../src/engine/plan/model.js';
import { device } from '../device.js';

/** Invented waterings, as a plan would hold them, without the season behind them. */
export const SEASON = dayOf(2027, 5, 3); // a Monday

export const kit: Device[] = [
  device({ name: 'bag', family: 'bag', volume: 60, holes: 4, ratedHours: 5 }),
  device({ name: 'truck', family: 'tanker', volume: 2000, flow: 50 }),
  device({ name: 'timer', family: 'soaker', rate: 8, length: 20, automatic: true }),
];

export const watering = (index: number, more: Partial<Watering> = {}): Watering => ({
  day: SEASON + index,
  family: 'bag',
  device: 'bag',
  litres: 60,
  minutes: 300,
  cycles: 1,
  hours: 'any',
  why: 'The store would run dry.',
  ...more,
});

export function treePlan(id: number, waterings: Watering[], more: Partial<Tree> = {}): TreePlan {
  const chosen: MeansOutcome = {
    label: 'bag',
    families: ['bag'],
    devices: ['bag'],
    feasible: true,
    verdict: '',
    waterings: waterings.length,
    litres: waterings.reduce((sum, w) => sum + w.litres, 0),
    visits: waterings.length,
    stressDays: 0,
    leastKs: 1,
    cost: 10,
    plan: waterings,
  };
  return {
    tree: {
      id: String(id),
      row: id + 1,
      species: 'invented',
      count: 1,
      site: `Site ${id}`,
      address: `${id} Invented Way`,
      ...more,
    },
    // crew days read the trees and their waterings only
    facts: {} as TreePlan['facts'],
    options: [chosen],
    chosen,
    state: 'planned',
    advice: '',
  };
}
