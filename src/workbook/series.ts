/**
 * Plain numbers behind the pictures, in the units people see. They are those of the sheets Charts and Balance: both are
 * made by the same functions.
 */
import type { Day } from '../engine/dates.js';
import type { TreePlan } from '../engine/plan/model.js';
import { Problem } from '../engine/problems.js';
import { stageAt } from '../engine/rules/rule-match.js';
import { parseRules } from '../engine/rules/rule-table.js';
import type { Units } from '../engine/units.js';
import { calendarDays } from './calendar-days.js';
import type { PlanJob } from './plan-job.js';
import { shown, unitOf } from './quantities.js';
import type { CrewSeries, SeasonSeries, WaterLeftSeries } from './series-types.js';
import { balanceTrace, type BalanceDay } from './sheets/balance-trace.js';
import { stageWords } from './sheets/calendar.js';
import { hoursByDay, seasonWeeks } from './sheets/charts.js';
import type { BuildInput } from './sheets/context.js';
import { whyMeans } from './why-means.js';

export { coilSeries } from './coil-series.js';

/** A plan with what it was planned from. */
export type SeriesSource = Pick<BuildInput, 'plan' | 'kit' | 'ruleRows' | 'stageRows' | 'units'>;

/** What the series need of a finished job. */
export const seriesSource = (
  { plan, setup }: Pick<PlanJob, 'plan' | 'setup'>,
  units: Units,
): SeriesSource => ({
  plan,
  kit: setup.kit,
  ruleRows: setup.rules,
  stageRows: setup.stages,
  units,
});

/** Stress coefficients from here on are rounding, not stress [-]; as on the sheet Balance. */
const NO_STRESS = 0.999999999;

/** The first index of `starts` above `day`, less one: the span a day falls into. */
function spanOf(starts: readonly Day[], day: Day): number {
  let [low, high] = [0, starts.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (starts[middle]! <= day) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/**
 * The season by weeks, Monday to Sunday, for all trees together [gal or L, h].
 *
 * Waterings are rows of the sheet Plan: like trees of one inventory row are watered by one.
 */
export function seasonSeries(source: SeriesSource): SeasonSeries {
  const { plan, units } = source;
  const volume = (litres: number): number => shown('volume', units, litres);
  const weeks = seasonWeeks(source).map((w) => ({
    from: w.from,
    to: w.to,
    demand: volume(w.demand),
    rain: volume(w.rain),
    watering: volume(w.water),
    crewHours: 0,
    waterings: 0,
  }));
  const starts = weeks.map((w) => w.from);
  for (const { day, hours } of plan.crewDays) weeks[spanOf(starts, day)]!.crewHours += hours;
  for (const { chosen } of plan.trees)
    for (const { day } of chosen.plan) weeks[spanOf(starts, day)]!.waterings += 1;
  return { unit: unitOf('volume', units), weeks, stages: stagesOf(source) };
}

/** Stages of the season as they begin, the one in force on its first day included. */
function stagesOf({ plan, ruleRows, stageRows }: SeriesSource): SeasonSeries['stages'] {
  if (ruleRows.length <= 1) return [];
  const rules = parseRules(ruleRows, stageRows);
  const { seasonFrom, seasonTo } = plan.site;
  const days = [
    seasonFrom,
    ...rules.stages.map(({ from }) => from).filter((d) => d > seasonFrom && d <= seasonTo),
  ];
  const stages: SeasonSeries['stages'] = [];
  for (const day of days) {
    const name = stageWords(stageAt(rules, day) ?? '');
    if (name !== (stages.at(-1)?.name ?? '')) stages.push({ day, name });
  }
  return stages;
}

/** Crew hours of each day of the season against the hours all crews have [h]. */
export function crewSeries(source: SeriesSource): CrewSeries {
  const { crewHours, crews = 1 } = source.plan.site;
  const days = calendarDays(source, () => false);
  return {
    limit: crewHours * crews,
    days: hoursByDay(source).map(([day, hours], i) => ({
      day,
      hours,
      barred: days[i]!.barred,
      off: days[i]!.crewOff,
    })),
  };
}

/**
 * One tree, day by day from the day it stands [gal or L of one tree]: the numbers of the sheet Balance.
 *
 * @param row - of the inventory's sheet, from 1
 * @throws Problem if that row is not planned
 */
export function waterLeftSeries(source: SeriesSource, row: number): WaterLeftSeries {
  const { plan, units } = source;
  const planned = plan.trees.find(({ tree }) => tree.row === row);
  if (!planned) throw new Problem(notPlanned(source, row));
  const volume = (litres: number): number => shown('volume', units, litres);
  const trace = balanceTrace(source, planned);
  const first = trace.findIndex((day) => day !== undefined);
  const days = trace.slice(Math.max(0, first)).filter((day) => day !== undefined);
  const each = (pick: (day: BalanceDay) => number): number[] => days.map((d) => volume(pick(d)));
  const ballArea = (Math.PI / 4) * (planned.facts.ballDiameter / 1000) ** 2;
  const { from, effectiveRain } = plan.weather;
  return {
    row,
    id: planned.tree.id,
    unit: unitOf('volume', units),
    from: from + Math.max(0, first),
    ball: each((d) => d.ball),
    ring: each((d) => d.ring),
    threshold: each((d) => d.threshold),
    full: each((d) => planned.facts.ballTaw + d.ringTaw),
    rain: days.map((d, i) => volume(effectiveRain[first + i]! * (ballArea + d.ringArea))),
    stress: days.map((d) => d.ks < NO_STRESS),
    waterings: wateringsOf(planned, volume),
    whyMeans: whyMeans(planned, plan.site, units),
    means: planned.chosen.label,
  };
}

const wateringsOf = (
  { chosen }: TreePlan,
  volume: (litres: number) => number,
): WaterLeftSeries['waterings'] =>
  chosen.plan.map(({ day, litres, why }) => ({ day, amount: volume(litres), why }));

function notPlanned({ plan }: SeriesSource, row: number): string {
  const known = plan.notPlanned.find((r) => r.row === row);
  if (known) return `Row ${row} is not planned: ${known.reason}`;
  const rows = plan.trees.map(({ tree }) => tree.row);
  const span = rows.length === 0 ? 'no row is planned' : `planned are ${rows.length} rows from ${Math.min(...rows)} to ${Math.max(...rows)}`; // prettier-ignore
  return `Row ${row} holds no tree of this plan; ${span}`;
}
