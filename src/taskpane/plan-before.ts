/** What is kept of a plan once it is withdrawn or planned again, so that the next one can be compared with it. */
import type { PlanSummary } from '../workers/plan-room.js';

/** Units and meanings as in PlanSummary. */
export type PlanBefore = Pick<
  PlanSummary,
  | ('planned' | 'cannotBeKept' | 'notPlanned' | 'waterings' | 'stressDays')
  | ('water' | 'waterUnit' | 'crewDays' | 'crewHours' | 'price' | 'currency')
> & {
  /** days on which a crew has more work than hours */
  daysOver: number;
};

export function planBefore(plan: PlanSummary): PlanBefore {
  const { planned, cannotBeKept, notPlanned, waterings, water, waterUnit } = plan;
  const { stressDays, crewDays, crewHours, price, currency, over } = plan;
  return {
    ...{ planned, cannotBeKept, notPlanned, waterings, water, waterUnit },
    ...{ stressDays, crewDays, crewHours, price, currency, daysOver: over?.days ?? 0 },
  };
}

/** Whether numbers of both can stand side by side: not after the units or the currency were changed. */
export const comparable = (plan: PlanSummary, before: PlanBefore): boolean =>
  plan.waterUnit === before.waterUnit && plan.currency === before.currency;
