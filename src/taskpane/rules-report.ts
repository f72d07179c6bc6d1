/** Which rules are in use, what they say, and six weeks of them. */
import type { Day } from '../engine/dates.js';
import type { Tree } from '../engine/plan/model.js';
import { Problem } from '../engine/problems.js';
import { STARTER_TABLES } from '../engine/rules/starter-tables.js';
import { plainLabel, type Cell } from '../tables/cells.js';
import { exampleSetup, type Setup } from '../workbook/example-setup.js';
import {
  readRules,
  understandTables,
  type NamedCells,
  type RulesReading,
} from '../workbook/rules-reading.js';
import { ruleStrip, stripStart } from '../workbook/rules-strip.js';
import type { RulesReport } from './planner.js';

export const STARTERS: readonly string[] = STARTER_TABLES.map(({ name }) => name);

interface Source {
  origin: string;
  example: boolean;
  reading: RulesReading;
  /** why the sheet itself cannot be read, "" when it can */
  trouble: string;
  /** what the plan says about it */
  notes: string[];
}

/** The planner's own example, which it names in the plan itself. */
const BUILT_IN = 'the built-in example';
const EXAMPLE = /^example\b/i;
const saysExample = (rows: Cell[][]): boolean =>
  rows.some((row) => row.some((c) => typeof c === 'string' && EXAMPLE.test(c)));

/** A starter table, else the sheet Rules of the workbook, else the rules given with the site, else the example. */
function sourceOf(
  setup: Partial<Setup>,
  sheets: readonly NamedCells[],
  starter: string,
  latitude: number,
): Source {
  if (starter !== '') {
    const found = STARTER_TABLES.find(({ name }) => name === starter);
    if (!found) throw new Problem(`there is no rules table "${starter}" to start from`);
    const reading = understandTables(found.rows);
    const origin = `the example “${found.name}”`;
    const notes = [`The rules are ${origin}: replace by your ordinance.`];
    return { origin, example: true, reading, trouble: '', notes };
  }
  const sheet = sheets.find(({ name }) => plainLabel(name) === 'rules');
  if (sheet) {
    const origin = `the sheet “${sheet.name}”`;
    try {
      const reading = readRules(sheets);
      return { origin, example: saysExample(reading.rows), reading, trouble: '', notes: [] };
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      const notes = [`${error.message}. Planned without rules: every hour counts as open.`];
      const reading = understandTables([]);
      return { origin, example: false, reading, trouble: error.message, notes };
    }
  }
  const own = setup.rules !== undefined;
  const { rules, stages } = own
    ? { rules: setup.rules ?? [], stages: setup.stages ?? [] }
    : exampleSetup(latitude);
  const reading = understandTables(rules, stages);
  const origin = own ? 'the site’s own table' : BUILT_IN;
  return { origin, example: saysExample(rules), reading, trouble: '', notes: [] };
}

/**
 * @param setup - what the planner was given
 * @param sheets - sheets of the open workbook that may hold rules
 * @param starter - name of a starter table, "" for none
 * @param madeOn - the day of planning: six weeks begin on it if it lies in the season
 */
export function rulesReport(
  setup: Partial<Setup>,
  trees: readonly Tree[],
  sheets: readonly NamedCells[],
  starter: string,
  madeOn: Day,
): RulesReport {
  const latitude =
    setup.site?.latitude ?? trees.find((t) => t.latitude !== undefined)?.latitude ?? 33;
  const { origin, example, reading, trouble, notes } = sourceOf(setup, sheets, starter, latitude);
  const { site, kit } = { ...exampleSetup(latitude), ...setup };
  const problems = reading.problems.map(({ kind, sentence }) => ({
    broken: kind === 'broken',
    sentence,
  }));
  if (trouble !== '') problems.unshift({ broken: true, sentence: trouble });
  return {
    origin,
    example,
    sentences: reading.understood.map(({ row, sentence }) => ({ row, sentence })),
    problems,
    strip:
      trees.length === 0
        ? undefined
        : ruleStrip(reading.table, trees, kit, stripStart(madeOn, site)),
    forPlan: origin === BUILT_IN ? {} : { rules: reading.rows, stages: reading.stages, notes },
  };
}
