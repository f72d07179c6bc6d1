/** An inventory planned under a rule shape as people get it, visits joined and days relieved; example site, kit, weather. */
import { isoDate } from '../../src/engine/dates.js';
import type { Device, SeasonPlan } from '../../src/engine/plan/model.js';
import { crewedSeason } from '../../src/engine/plan/crewed-season.js';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { parseRules, type RuleTable } from '../../src/engine/rules/rule-table.js';
import type { Cell } from '../../src/tables/cells.js';
import { readInventory } from '../../src/tables/inventory/index.js';
import { readWeather } from '../../src/tables/weather.js';
import { exampleSetup } from '../../src/workbook/example-setup.js';
import { ruleShapes, type RuleShape } from './rule-shapes.js';

export interface Planned {
  plan: SeasonPlan;
  rules: RuleTable;
  /** rows of the inventory below its header */
  rows: number[];
}

const EXAMPLE = exampleSetup(33);
const { seasonFrom, seasonTo } = EXAMPLE.site;

/** Kits that make different means the cheapest: a timer's hose otherwise wins most trees. */
export const KITS: Record<string, Device[]> = {
  'whole kit': EXAMPLE.kit,
  'visits only': EXAMPLE.kit.filter((d) => !d.automatic),
  'bags and pads': EXAMPLE.kit.filter((d) => d.family === 'bag' || d.family === 'pad'),
  'hand only': EXAMPLE.kit.filter((d) => d.family === 'hand'),
};

/** The five shapes with their stages laid over the example season. */
export const exampleShapes = (): RuleShape[] =>
  ruleShapes((share) => isoDate(Math.round(seasonFrom + share * (seasonTo - seasonFrom))));

export function planTable(
  cells: Cell[][],
  shape: Pick<RuleShape, 'rules' | 'stages'>,
  kit: Device[],
  dateCells?: Set<string>,
): Planned {
  const reading = readInventory(cells, { seasonFrom, ...(dateCells && { dateCells }) });
  const rules = parseRules(shape.rules, shape.stages);
  const season: SeasonInput = {
    trees: reading.rows.flatMap((row) => (row.tree ? [row.tree] : [])),
    notPlanned: reading.rows.flatMap((row) =>
      row.tree ? [] : [{ row: row.row, id: '', reason: row.unusable ?? '' }],
    ),
    site: EXAMPLE.site,
    weather: readWeather(EXAMPLE.weather, EXAMPLE.site).weather,
    rules,
    kit,
  };
  const { plan } = crewedSeason(season, planSeason(season));
  return { plan, rules, rows: reading.rows.map((row) => row.row) };
}
