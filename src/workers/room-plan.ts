/** A finished plan in the numbers the panel shows, and what it would be with one thing changed. */
import { isoDate } from '../engine/dates.js';
import { crewHours, estimate } from '../engine/money/estimate.js';
import { materials } from '../engine/money/materials.js';
import { Calendars } from '../engine/plan/calendars.js';
import { idleStock } from '../engine/plan/idle-stock.js';
import type { TreePlan } from '../engine/plan/model.js';
import { beginSeason, finishSeason, STOPPED } from '../engine/plan/season.js';
import { batchesOf } from '../engine/plan/tree-plans.js';
import { oneWhatIf, type WhatIfRow } from '../engine/plan/what-if.js';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import type { PlanJob } from '../workbook/plan-job.js';
import { shown, unitOf } from '../workbook/quantities.js';
import { coilSeries, crewSeries, seasonSeries, seriesSource } from '../workbook/series.js';
import { questions, sentenceOf } from '../workbook/sheets/what-if.js';
import { inventedPrices } from './room-invented.js';
import type { InventedNumbers, LookRow, PlanSummary, PlanWatch, WhatIfLine } from './plan-room.js';
import type { SeasonPlanner } from './pool.js';
import { overOf } from './room-over.js';

/** Lets messages in: a wish to stop, another question. */
export const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** Plans in this thread, a batch at a time with a breath between, so that it can be stopped. */
export const planInSlices: SeasonPlanner = async (input) => {
  const job = beginSeason(input);
  const columns = [];
  for (const batch of batchesOf(job)) {
    columns.push(batch);
    await breath();
  }
  if (input.signal?.aborted) throw new Problem(STOPPED);
  return finishSeason(job, columns);
};

/** "bag", by the trees that get it, most first. */
function byMeans(trees: readonly TreePlan[], units: Units): PlanSummary['means'] {
  const found = new Map<string, { trees: number; litres: number }>();
  for (const { tree, chosen } of trees) {
    const sum = found.get(chosen.label) ?? { trees: 0, litres: 0 };
    found.set(chosen.label, {
      trees: sum.trees + tree.count,
      litres: sum.litres + chosen.litres * tree.count,
    });
  }
  return [...found]
    .map(([means, sum]) => ({
      means,
      trees: sum.trees,
      water: shown('volume', units, sum.litres),
    }))
    .sort((a, b) => b.trees - a.trees || (a.means < b.means ? -1 : 1));
}

const lostRow = ({ tree, advice }: TreePlan): LookRow => ({
  row: tree.row,
  id: tree.id,
  reasons: [{ sentence: advice }],
  unusable: false,
});

/** The plan in numbers; reading it makes labels and waterings, which takes a while where there are many trees. */
export function planSummary(
  job: PlanJob,
  units: Units,
  invented: readonly InventedNumbers[],
): PlanSummary {
  const { plan, setup, notes, remarks, reading } = job;
  const { trees, site } = plan;
  const sum = (value: (tree: TreePlan) => number): number =>
    trees.reduce((total, tree) => total + value(tree), 0);
  const source = seriesSource(job, units);
  const hours = crewHours(plan, setup.kit);
  const { price, lines } = estimate(plan, setup.kit);
  const automatic = new Set(setup.kit.flatMap((d) => (d.automatic ? d.name : [])));
  const atTaps = new Set(setup.kit.flatMap((d) => (d.family === 'hand' || d.family === 'soaker' ? d.name : []))); // prettier-ignore
  const settingOut = lines.reduce((all, l) => all + (l.kind === 'set-up' ? l.quantity : 0), 0);
  return {
    planned: sum(({ state, tree }) => (state === 'planned' ? tree.count : 0)),
    cannotBeKept: sum(({ state, tree }) => (state === 'planned' ? 0 : tree.count)),
    notPlanned: plan.notPlanned.length,
    waterings: sum(({ chosen, tree }) => chosen.waterings * tree.count),
    water: shown(
      'volume',
      units,
      sum(({ chosen, tree }) => chosen.litres * tree.count),
    ),
    waterUnit: unitOf('volume', units),
    stressDays: sum(({ chosen, tree }) => chosen.stressDays * tree.count),
    crewDays: plan.crewDays.length,
    crewHours: hours.watering + hours.driving + hours.refills,
    ...overOf(job, hours),
    otherHours: { settingOut, hoseChecks: hours.hoseChecks },
    price,
    currency: site.currency,
    from: isoDate(site.seasonFrom),
    to: isoDate(site.seasonTo),
    lost: trees.filter(({ state }) => state === 'cannot be kept').map(lostRow),
    means: byMeans(trees, units),
    tapsAssumed: sum(({ chosen, tree }) =>
      tree.tap === undefined && chosen.devices.some((name) => atTaps.has(name)) ? tree.count : 0,
    ),
    onTimers: sum(({ chosen, tree }) =>
      chosen.devices.some((name) => automatic.has(name)) ? tree.count : 0,
    ),
    toBuy: materials(plan, setup.kit)
      .filter((each) => each.toBuy > 0)
      .map(({ device, toBuy, buyNow }) => ({ device: device.name, pieces: toBuy, cost: buyNow })),
    inventedPrices: inventedPrices(job, invented),
    idle: idleStock(trees, setup.kit, site.toleratedStress, new Calendars(job.season.rules, site)),
    remarks,
    problems: [...notes, ...reading.notes, ...plan.problems],
    season: seasonSeries(source),
    crew: crewSeries(source),
    coils: coilSeries(source),
    picks: trees.map(({ tree: { row, id, species } }) => ({
      row,
      label: [id, species].filter((part) => part !== '').join(', '),
    })),
  };
}

/** The season as it is and with one thing changed; progress counts questions. */
export async function whatIfRows(job: PlanJob, watch?: PlanWatch): Promise<WhatIfRow[]> {
  const { season } = job;
  const asked = [undefined, ...questions(season, job.plan)];
  const rows: WhatIfRow[] = [];
  for (const change of asked) {
    await breath();
    if (watch?.signal.aborted) throw new Problem(STOPPED);
    rows.push(oneWhatIf(season, change));
    watch?.onProgress(rows.length, asked.length);
  }
  return rows;
}

export const whatIfLines = (rows: readonly WhatIfRow[], units: Units): WhatIfLine[] =>
  rows.map((row) => ({
    question: row.name,
    waterings: row.waterings,
    water: shown('volume', units, row.litres),
    stressDays: row.stressDays,
    cannotBeKept: row.treesNotKept,
    notPlanned: row.treesNotPlanned,
    cost: row.cost,
    crewDaysOver: row.crewDaysOver,
    note: sentenceOf(row, rows[0]!),
  }));
