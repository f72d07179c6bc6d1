/** The water of a plan beside what published rules of thumb would give the same trees on the same days. */
import type { SeasonPlan, TreePlan } from '../plan/model.js';
import { monthsToEstablish } from '../tree/establishment.js';
import { RULE_NAMES, type RuleName } from '../tree/rules-of-thumb.js';
import { MM_PER_INCH } from '../units.js';
import { ruleSeason } from './rule-season.js';

/** Trunk diameter the plan worked with, also where it was estimated [mm]. */
export const trunkUsed = (t: TreePlan, zone: number): number =>
  t.tree.caliper ??
  (t.facts.monthsToEstablish / monthsToEstablish(MM_PER_INCH, zone)) * MM_PER_INCH;

export interface RuleComparison {
  rule: RuleName;
  /** trees the rule speaks of on some day of the season, and the others */
  trees: number;
  others: number;
  /** what the rule gives them, least and most [L] */
  low: number;
  high: number;
  /** what the plan gives the same trees on the same days [L] */
  plan: number;
}

/**
 * One rule against the plan. Only trees and days the rule speaks of are compared, so that a rule for new trees does not
 * look thrifty by saying nothing of old ones.
 */
export function againstRule(rule: RuleName, plan: SeasonPlan): RuleComparison {
  const { site } = plan;
  const sum: RuleComparison = { rule, trees: 0, others: 0, low: 0, high: 0, plan: 0 };
  for (const t of plan.trees) {
    const { count } = t.tree;
    const taken = Number.isFinite(t.facts.monthsAtStart) ? site.seasonFrom : undefined;
    const season = ruleSeason(
      rule,
      {
        caliper: trunkUsed(t, site.zone),
        planted: t.tree.planted ?? taken,
        monthsToEstablish: t.facts.monthsToEstablish,
      },
      site.seasonFrom,
      site.seasonTo,
    );
    if (!season) {
      sum.others += count;
      continue;
    }
    sum.trees += count;
    sum.low += season.low * count;
    sum.high += season.high * count;
    for (const { day, litres } of t.chosen.plan)
      if (day >= season.from && day <= season.to) sum.plan += litres * count;
  }
  return sum;
}

/** Every published rule against the plan; the site's own first. */
export const againstRules = (plan: SeasonPlan): RuleComparison[] => {
  const own = plan.site.blanketRule;
  return [own, ...RULE_NAMES.filter((rule) => rule !== own)].map((rule) => againstRule(rule, plan));
};
