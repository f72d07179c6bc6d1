/** Standing sentences of the workbook: cautions, the legend, what each sheet is for. */
import type { Family, SeasonPlan } from '../engine/plan/model.js';

/** What can hurt people or trees; shown on About, the short form on every crew page. */
/** `bag`: of no use on a crew’s page without bags. */
export const CAUTIONS: readonly { short: string; full: string; bag?: true }[] = [
  {
    bag: true,
    short: 'Weight: 15 gal weigh 125 lb. Set bags on the ground, never hung on the stem.',
    full: 'Weight. 15 gal (57 L) of water weigh 125 lb (57 kg). A full bag stands on the ground, never hangs on the stem; stake flex, slopes and walkways count.',
  },
  {
    bag: true,
    short: 'Bark: dry and check the stem; a bag not empty after two days is faulty.',
    full: 'Wet bark. Bark that stays damp under a bag rots. Lift or turn the bag between fills, look at the stem, and report a bag that is not empty after two days.',
  },
  {
    short: 'Soil still wet 6 in down: do not water; write it in Reading.',
    full: 'Too much water kills as well. A tree can wilt on wet soil. Feel the soil 6 to 8 in (15 to 20 cm) down and skip the watering if it is wet; a skipped turn is not added to the next.',
  },
  {
    short: 'Backflow: vacuum breaker at every tap, air gap at every tank.',
    full: 'Backflow. Every tap needs its vacuum breaker, with no valve downstream of it; a tank is filled through an air gap. Grey and reclaimed water have rules of their own.',
  },
  {
    short: 'Heat: water, shade and rest by the heat plan; new people start slowly.',
    full: 'Heat and lifting. Plan water, shade and rest for the crew, start new people slowly, and carry small loads.',
  },
  {
    short: 'Local code and licensed practice decide.',
    full: 'Local code and licensed practice decide. This is a planning aid: check every date against the ordinance in force before sending a crew.',
  },
];

/** Means that the plan waters with. */
export const familiesOf = ({ trees }: SeasonPlan): Set<Family> =>
  new Set(trees.flatMap(({ chosen }) => chosen.plan.map(({ family }) => family)));

/** What can hurt with the means of the plan, in full. */
export function cautionsOf(plan: SeasonPlan): string[] {
  const bags = familiesOf(plan).has('bag');
  return CAUTIONS.filter(({ bag }) => bags || !bag).map(({ full }) => full);
}

/** What each sheet is for, and for whom. */
export const SHEET_PURPOSES: Readonly<Record<string, { who: string; what: string }>> = {
  About: { who: 'all', what: 'what this workbook is, what came out, what to watch for' },
  Site: { who: 'office', what: 'every input of the site, one a row, with its source' },
  Weather: { who: 'arborist', what: 'weather as given, by month, and day by day as planned with' },
  Rules: { who: 'office', what: 'the watering rules and the stages in force' },
  'Rule days': { who: 'office', what: 'six weeks of open and closed days by means' },
  Kit: { who: 'office', what: 'devices that may be used' },
  Trees: { who: 'estimator', what: 'every inventory row, what the tree needs and what it gets' },
  Means: { who: 'arborist', what: 'every way of watering each tree, and the one chosen' },
  Plan: { who: 'all', what: 'one row a watering, with the reason for its day' },
  Calendar: { who: 'office', what: 'month by month: crew hours, water, stage, days barred' },
  Charts: { who: 'all', what: 'the season by weeks and the crew’s hours, as charts' },
  Cuadrilla: { who: 'crew', what: 'the crew pages in Spanish' },
  'Field checks': {
    who: 'arborist',
    what: 'bag timings, flows and pad weights: verdict and next action',
  },
  Balance: { who: 'arborist', what: 'one tree, picked from a list, day by day' },
  'Balance trees': { who: 'arborist', what: 'what Balance looks up of each tree' },
  Crew: { who: 'crew', what: 'pages to print: stops in order, what to do, boxes to tick' },
  Materials: { who: 'office', what: 'what to buy, fittings, mulch, water by month' },
  Estimate: {
    who: 'office',
    what: 'the price line by line with its costs, and water against published rules; the client has a copy of its own',
  },
  'What if': {
    who: 'office',
    what: 'the season planned again with one thing changed, beside it as it is',
  },
  Contract: { who: 'office', what: 'clauses as rows: met, short by how much, against the rules' },
  Log: { who: 'office', what: 'one row a visit to a tree, and the questions it raises' },
  Service: { who: 'office', what: 'what the log proves: invoice backup, visits made and missed' },
  Meters: { who: 'office', what: 'readings of meters and permits against the log' },
  Clocks: { who: 'office', what: 'terms, inspections, dead by contract, bags that are out' },
  Shortage: {
    who: 'office',
    what: 'who is served if water or hours are short, who is not, and why',
  },
  'Price views': { who: 'office', what: 'the price in every unit, and a dry season by who pays' },
  Checks: { who: 'all', what: 'totals that must agree, and everything to look at' },
  Sources: { who: 'arborist', what: 'equations, published numbers and assumptions' },
};

/** Published gallons for each inch of trunk at one watering; the Trees sheet shows their span. */
export const RULES_OF_THUMB: readonly {
  rule: string;
  low: number;
  high: number;
  source: string;
}[] = [
  {
    rule: 'two to three gallons an inch',
    low: 2,
    high: 3,
    source: 'University of Florida IFAS, watering schedule for new trees',
  },
  {
    rule: 'one to one and a half gallons an inch',
    low: 1,
    high: 1.5,
    source: 'University of Minnesota Extension, watering newly planted trees',
  },
];

/** Where the numbers of the Trees, Plan and Weather sheets come from. */
export const EQUATIONS: readonly {
  what: string;
  equation: string;
  source: string;
  kind: string;
}[] = [
  {
    what: 'Daily demand',
    equation: 'reference ET × plant factor × site factor × canopy area',
    source: 'ANSI/ASABE S623.1 (2017) for the plant factor; FAO-56 for reference ET',
    kind: 'published',
  },
  {
    what: 'Usable water',
    equation: 'soil volume × available share × allowed depletion, for ball and reached soil',
    source: 'FAO-56 (Allen et al. 1998) Eq. 82 and 83',
    kind: 'published',
  },
  {
    what: 'Allowed depletion',
    equation: 'base + 0.04 × (5 − demand in mm/day), held to 0.1 … 0.8',
    source: 'FAO-56 chapter 8, Table 22 footnote',
    kind: 'published',
  },
  {
    what: 'Interval',
    equation: 'usable water ÷ daily demand',
    source: 'definition',
    kind: 'published',
  },
  {
    what: 'Stress days',
    equation: 'days on which more than the usable water is gone, simulated day by day',
    source: 'FAO-56 Eq. 84 and 85',
    kind: 'published',
  },
  {
    what: 'Months to establish',
    equation: 'trunk inches × 3 (zones 9 up), 6 (7 and 8) or 12 (below)',
    source: 'University of Florida IFAS, establishment period',
    kind: 'published',
  },
  {
    what: 'Root zone while roots spread',
    equation: 'ball + (reach × canopy − ball) × months since planting ÷ months to establish',
    source: 'assumption of this planner',
    kind: 'assumption',
  },
  {
    what: 'Canopy where not measured',
    equation: '1 + 2 × trunk inches up to 4 in, 4 + 1.25 × trunk inches above, in feet',
    source: 'assumption of this planner',
    kind: 'assumption',
  },
  {
    what: 'Ball diameter and depth where not measured',
    equation: 'least sizes of balled nursery stock; true volume of the container class',
    source: 'American nursery stock practice (ANSI Z60.1); HortScience 39(3):591',
    kind: 'published',
  },
  {
    what: 'Rain that counts, monthly weather',
    equation: 'SCS formula by month, times the share to count on, spread over the days',
    source: 'USDA NEH 623 chapter 2, Eq. 2-84 and 2-85',
    kind: 'published',
  },
  {
    what: 'Rain that counts, daily weather',
    equation: 'first 0.1 in lost, full to 1 in, two thirds of the second inch, none above',
    source: 'Texas A&M AgriLife per-event rule',
    kind: 'published',
  },
  {
    what: 'Drain time of a bag',
    equation: '2A ÷ (n Cd a √2g) × (√h1 − √h2)',
    source: "Torricelli's law with a discharge coefficient of 0.62",
    kind: 'published',
  },
  {
    what: 'Choice of means',
    equation:
      'kit ÷ seasons + set-up + visits · (minutes there + share of the drive) + water; least cost among those with no more stress days than accepted',
    source: 'assumption of this planner',
    kind: 'assumption',
  },
  {
    what: 'Price of a line',
    equation: 'cost ÷ (1 − margin), to the cent; the lines add up to the total',
    source: 'definition of gross margin in bookkeeping',
    kind: 'published',
  },
  {
    what: 'Kit on the estimate',
    equation: 'pieces in use × price ÷ seasons, owned or bought',
    source: 'assumption of this planner',
    kind: 'assumption',
  },
  {
    what: 'Mulch',
    equation:
      'π/4 × (ring² − bare circle²) × missing depth; bare to 3 in (7.5 cm) off the bark, ring to the root zone of the peak month or the widest ring',
    source: 'geometry; distance to the bark is common practice, no source',
    kind: 'assumption',
  },
  {
    what: 'Water of a rule of thumb over the season',
    equation:
      'gallons an inch × inches of trunk × the rule’s own days from planting, on trees and days it speaks of',
    source: 'the publication named with each rule; months to establish as above',
    kind: 'published',
  },
];
