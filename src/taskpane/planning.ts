/** The planner behind the panel: reads the open sheet, plans it, writes the workbook. */
import { civil, dayOf, isoDate } from '../engine/dates.js';
import { L_PER_GALLON } from '../engine/units.js';
import type { Grid } from '../tables/cells.js';
import {
  readInventory,
  type ColumnMatch,
  type InventoryReading,
  type InventoryRow,
  type Meaning,
} from '../tables/inventory/index.js';
import type { Setup } from '../workbook/example-setup.js';
import { planFromTablesBy, type PlanJob } from '../workbook/plan-job.js';
import { writeXlsx } from '../workbook/writers/file.js';
import type { SeasonPlanner } from '../workers/pool.js';
import type { LookRow, MatchedColumn, Planner, PlanSummary, SheetReading } from './planner.js';
import { rulesReport, STARTERS } from './rules-report.js';

/** Names of meanings for people. */
const LABELS: Readonly<Record<Meaning, string>> = {
  id: 'Tree id', species: 'Species', commonName: 'Common name', genus: 'Genus', epithet: 'Species, second word',
  count: 'Count', caliper: 'Trunk diameter', circumference: 'Trunk circumference', diameterClass: 'Trunk diameter class',
  container: 'Container class', ballDiameter: 'Ball diameter', ballDepth: 'Ball depth', planted: 'Planted',
  plantedYear: 'Year planted', canopy: 'Canopy diameter', height: 'Height', waterNeed: 'Water use',
  texture: 'Soil texture', mulchDepth: 'Mulch depth', site: 'Site', address: 'Address', houseNumber: 'House number',
  street: 'Street', latitude: 'Latitude', longitude: 'Longitude', tap: 'Tap', tapFlow: 'Tap flow',
  source: 'Water source', meansWanted: 'Means wanted', status: 'Status', note: 'Note',
}; // prettier-ignore

const SAMPLES = 3;

function matchedColumn(match: ColumnMatch): MatchedColumn {
  const { column, header, meaning, unit, confidence, why, samples } = match;
  return {
    column,
    header,
    meaning,
    label: LABELS[meaning],
    unit,
    samples: samples.slice(0, SAMPLES),
    doubt: confidence === 'near' || confidence === 'content' ? why : '',
  };
}

/** The row's id as the sheet has it, "" when no column holds ids. */
function idOf(row: InventoryRow, idColumn: number | undefined): string {
  if (row.tree !== undefined) return row.tree.id;
  return idColumn === undefined ? '' : String(row.cells[idColumn] ?? '');
}

function lookRows(rows: readonly InventoryRow[], idColumn: number | undefined): LookRow[] {
  const made = rows.flatMap((row): LookRow[] => {
    const reasons = row.unusable === undefined ? row.notes : [row.unusable];
    if (reasons.length === 0) return [];
    // The list names the row itself.
    const reason = reasons.join(' ').replace(/^Row \d+: /, '');
    return [
      { row: row.row, id: idOf(row, idColumn), reason, unusable: row.unusable !== undefined },
    ];
  });
  return made.sort((a, b) => Number(b.unusable) - Number(a.unusable) || a.row - b.row);
}

const dates = (dateCells: Set<string> | undefined) =>
  dateCells === undefined ? {} : { dateCells };

const readings = new WeakMap<Grid['cells'], InventoryReading>();

/** The inventory of a grid; the same cells are read once. */
function inventoryOf({ cells, dateCells }: Grid): InventoryReading {
  const known = readings.get(cells);
  if (known) return known;
  const reading = readInventory(cells, dates(dateCells));
  readings.set(cells, reading);
  return reading;
}

function read(grid: Grid): SheetReading {
  const reading = inventoryOf(grid);
  return {
    headerRow: Math.max(0, reading.headerRow - 1),
    columns: reading.matches.map(matchedColumn),
    unmatched: reading.unmatched,
    usable: reading.rows.filter((row) => row.tree !== undefined).length,
    rows: reading.rows.length,
    look: lookRows(reading.rows, reading.matches.find((m) => m.meaning === 'id')?.column),
    notes: reading.notes,
  };
}

/** Today on the person's own calendar. */
function today(): number {
  const now = new Date();
  return dayOf(now.getFullYear(), now.getMonth() + 1, now.getDate());
}

const MONTH_NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const; // prettier-ignore

function dayName(day: number): string {
  const { year, month, date } = civil(day);
  return `${date} ${MONTH_NAMES[month - 1] ?? isoDate(day)} ${year}`;
}

function summaryOf({ plan, notes, remarks, reading, model }: PlanJob): PlanSummary {
  const sum = (value: (tree: (typeof plan.trees)[number]) => number): number =>
    plan.trees.reduce((total, tree) => total + value(tree), 0);
  const lost = plan.trees.filter(({ state }) => state === 'cannot be kept');
  return {
    planned: sum(({ state, tree }) => (state === 'planned' ? tree.count : 0)),
    cannotBeKept: sum(({ state, tree }) => (state === 'planned' ? 0 : tree.count)),
    notPlanned: plan.notPlanned.length,
    waterings: sum(({ chosen, tree }) => chosen.waterings * tree.count),
    gallons: sum(({ chosen, tree }) => chosen.litres * tree.count) / L_PER_GALLON,
    stressDays: sum(({ chosen, tree }) => chosen.stressDays * tree.count),
    crewDays: plan.crewDays.length,
    season: `Season ${dayName(plan.site.seasonFrom)} to ${dayName(plan.site.seasonTo)}`,
    lost: lost.map(({ tree, advice }) => ({
      row: tree.row,
      id: tree.id,
      reason: advice,
      unusable: false,
    })),
    remarks,
    problems: [...notes, ...reading.notes, ...plan.problems],
    file: () => writeXlsx(model),
  };
}

/**
 * A planner that plans with the given site, kit, rules and weather; what is missing is the example.
 *
 * @param planSeason - plans the season: in a worker, where the page has one
 */
export function plannerWith(planSeason: SeasonPlanner, setup: Partial<Setup> = {}): Planner {
  return {
    starters: STARTERS,
    read,
    rules: (grid, sheets, starter) => {
      const inventory = grid.cells.length > 0 ? inventoryOf(grid).rows : [];
      const trees = inventory.flatMap((row) => (row.tree ? [row.tree] : []));
      return rulesReport(setup, trees, sheets, starter, today());
    },
    plan: async ({ cells, dateCells }, source, rules, watch) =>
      summaryOf(
        await planFromTablesBy(
          {
            ...setup,
            ...rules,
            ...dates(dateCells),
            ...watch,
            inventory: cells,
            fileName: source,
            madeOn: today(),
          },
          planSeason,
        ),
      ),
  };
}
