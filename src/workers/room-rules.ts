/** Which rules are in use, what they say, and six weeks of them. */
import type { Day } from '../engine/dates.js';
import { crewOpen, type CrewOpen } from '../engine/plan/crew-open.js';
import type { Device, Site, Tree } from '../engine/plan/model.js';
import { Problem } from '../engine/problems.js';
import { numberNotice, RULE_COLUMNS } from '../engine/rules/rule-table.js';
import { STARTER_TABLES } from '../engine/rules/starter-tables.js';
import { plainLabel, type Cell } from '../tables/cells.js';
import { exampleSetup } from '../workbook/example-setup.js';
import { readRules, understandTables, type RulesReading } from '../workbook/rules-reading.js';
import { ruleStrip, stripStart } from '../workbook/rules-strip.js';
import type { PlanAsk, RulesReport } from './plan-room.js';

export const STARTERS: readonly string[] = STARTER_TABLES.map(({ name }) => name);

/** Rules with where they are from. */
export interface RulesInUse {
  origin: string;
  example: boolean;
  reading: RulesReading;
  /** why the sheet itself cannot be read, "" when it can */
  trouble: string;
  /** what the plan says about them */
  notes: string[];
  /** nobody gave any: the plan names its own example itself */
  builtIn: boolean;
}

const EXAMPLE = /^example\b/i;
const saysExample = (rows: Cell[][]): boolean =>
  rows.some((row) => row.some((c) => typeof c === 'string' && EXAMPLE.test(c)));

/**
 * A starter table, else the sheet Rules of the workbook, else the draft's own, else the example.
 * @throws Problem for a starter there is not
 */
export function rulesInUse(
  { draft, sheets }: Pick<PlanAsk, 'draft' | 'sheets'>,
  latitude: number,
): RulesInUse {
  const { starter, rules, stages } = draft;
  const plain = { trouble: '', notes: [], builtIn: false };
  if (starter !== '') {
    const found = STARTER_TABLES.find(({ name }) => name === starter);
    if (!found)
      throw new Problem(
        `there is no rules table "${starter}" to start from; there are ${STARTERS.join(', ')}`,
      );
    const origin = `the example “${found.name}”`;
    const notes = [`The rules are ${origin}: replace by your ordinance.`];
    return { ...plain, origin, example: true, reading: understandTables(found.rows), notes };
  }
  const sheet = sheets.find(({ name }) => plainLabel(name) === 'rules');
  if (sheet) return { ...plain, origin: `the sheet “${sheet.name}”`, ...onSheet(sheets) };
  if (rules !== undefined) {
    const reading = understandTables(rules, stages);
    return { ...plain, origin: 'the site’s own table', example: saysExample(rules), reading };
  }
  const own = exampleSetup(latitude);
  const reading = understandTables(own.rules, own.stages);
  return { ...plain, origin: 'the built-in example', example: true, reading, builtIn: true };
}

function onSheet(
  sheets: PlanAsk['sheets'],
): Pick<RulesInUse, 'example' | 'reading' | 'trouble' | 'notes'> {
  try {
    const reading = readRules(sheets);
    return { example: saysExample(reading.rows), reading, trouble: '', notes: [] };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const notes = [`${error.message}. Planned without rules: every hour counts as open.`];
    return { example: false, reading: understandTables([]), trouble: error.message, notes };
  }
}

/** Work days that cannot be read are said where they are typed and when planning; until then there is nothing to tell. */
function crewOf(...of: Parameters<typeof crewOpen>): CrewOpen | undefined {
  try {
    return crewOpen(...of);
  } catch (error) {
    if (error instanceof Problem) return undefined;
    throw error;
  }
}

/** @param today - six weeks begin on it if it lies in the season */
export function rulesReport(
  { origin, example, reading, trouble }: RulesInUse,
  trees: readonly Tree[],
  site: Site,
  kit: readonly Device[],
  today: Day,
): RulesReport {
  const problems = reading.problems.map(({ kind, sentence }) => ({
    broken: kind === 'broken',
    sentence,
  }));
  if (trouble !== '') problems.unshift({ broken: true, sentence: trouble });
  const { understood, table, rows, stages, found } = reading;
  const unnumbered = numberNotice(table, trees, found.rules.headerRow);
  if (unnumbered !== undefined) problems.push({ broken: false, sentence: unnumbered });
  return {
    origin,
    example,
    sentences: understood.map(({ row, sentence }) => ({ row, sentence })),
    problems,
    strip: trees.length === 0 ? undefined : ruleStrip(table, trees, kit, stripStart(today, site)),
    crew: trees.length === 0 ? undefined : crewOf(table, trees, kit, site),
    rules: rows,
    stages,
    columns: RULE_COLUMNS,
  };
}
