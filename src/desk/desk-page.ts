/** The desk page: grid, panel and sample put together, with a small hook for tests and curious people. */
import { Problem } from '../engine/problems.js';
import type { Cell, Grid } from '../tables/cells.js';
import { mountPanel } from '../taskpane/panel.js';
import type { Planner } from '../taskpane/planner.js';
import { plannerWith } from '../taskpane/planning.js';
import { readTableFile, readWorkbookSheets } from '../workbook/readers/open.js';
import { setupFromJson } from '../workbook/setup.js';
import { browserPlanner } from '../workers/browser-pool.js';
import { createGrid, type DeskGrid, type FunctionSet } from './grid.js';
import { deskSheets, plainSheet } from './sheets.js';

/** What window.soakbook offers: the grid's own values, by sheet name and address. */
export type DeskHook = Pick<DeskGrid, 'show' | 'formula' | 'trouble' | 'write' | 'openSheets'> & {
  /** resolves when the first workbook is calculated and the panel has read it */
  ready: Promise<void>;
};

declare global {
  interface Window {
    soakbook: DeskHook;
  }
}

const LONGEST_SHEET_NAME = 31;

/** A sheet name from a file name: no path, no ending, none of the signs sheets refuse. */
function sheetNameFrom(file: string): string {
  const name = file
    .replace(/\.[a-z]+$/i, '')
    .replace(/[[\]:*?/\\']+/g, ' ')
    .trim();
  return (name === '' ? 'Trees' : name).slice(0, LONGEST_SHEET_NAME);
}

/** Where the sample lies on the server: the inventory, and the site, kit, rules and weather it goes with. */
export interface Sample {
  inventory: string;
  setup: string;
}

async function fetched(path: string): Promise<Uint8Array> {
  const answer = await fetch(path);
  if (!answer.ok) throw new Error(`${path} was not served (${answer.status}).`);
  return new Uint8Array(await answer.arrayBuffer());
}

interface NamedGrid extends Grid {
  name: string;
}

/** The sheets Rules and Stages of a workbook; a text table has none. */
async function rulesBeside(bytes: Uint8Array): Promise<NamedGrid[]> {
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) return [];
  const sheets = await readWorkbookSheets(bytes);
  return sheets.filter(({ name }) => /^(rules|stages)$/i.test(name.trim()));
}

/** Both tables on one sheet, as on the Rules sheet of a plan. */
const rulesCells = (rules: Cell[][], stages: Cell[][]): Cell[][] => [
  ['Stages'],
  ...stages,
  [],
  ['Rules'],
  ...rules,
];

export function startDesk(functions: FunctionSet, sample: Sample): void {
  const container = document.getElementById('grid');
  const panel = document.getElementById('panel');
  if (container === null || panel === null)
    throw new Error('The page lacks its grid or its panel.');
  const grid = createGrid(container, functions);
  const planSeason = browserPlanner();
  let current = plannerWith(planSeason);
  const planner: Planner = {
    starters: current.starters,
    read: (cells) => current.read(cells),
    rules: (trees, sheets, starter) => current.rules(trees, sheets, starter),
    plan: (...asked) => current.plan(...asked),
  };

  async function openTable(
    name: string,
    bytes: Uint8Array,
    beside: readonly NamedGrid[] = [],
  ): Promise<void> {
    const table = await readTableFile(name, bytes);
    const cells = {
      cells: table.cells,
      ...(table.dateCells === undefined ? {} : { dateCells: table.dateCells }),
    };
    const title = sheetNameFrom(name);
    let columns: ReturnType<Planner['read']>['columns'] = [];
    let headerRow = 0;
    try {
      ({ columns, headerRow } = planner.read(cells));
    } catch (error) {
      // The sheet still opens, without live columns; the panel says what is wrong with it.
      if (!(error instanceof Problem)) throw error;
    }
    const others = beside.filter((sheet) => sheet.name !== table.sheet && sheet.name !== title);
    await grid.open(title, [
      ...deskSheets(title, cells, columns, headerRow),
      ...others.map((sheet) => plainSheet(sheet.name, sheet)),
    ]);
  }

  /** A person's own file is not planned with the sample's site. */
  async function openFile(name: string, bytes: Uint8Array): Promise<void> {
    current = plannerWith(planSeason);
    await openTable(name, bytes, await rulesBeside(bytes));
  }

  async function openSample(): Promise<void> {
    const given: unknown = JSON.parse(new TextDecoder().decode(await fetched(sample.setup)));
    const { setup } = setupFromJson(given);
    current = plannerWith(planSeason, setup);
    const rules = { name: 'Rules', cells: rulesCells(setup.rules ?? [], setup.stages ?? []) };
    const file = sample.inventory.replace(/^.*\//, '');
    await openTable(file, await fetched(sample.inventory), [rules]);
  }

  const ready = openSample().then(() => mountPanel(panel, { ...grid, openFile }, planner, true));
  ready.catch((error: unknown) => {
    const line = document.createElement('p');
    line.setAttribute('role', 'alert');
    line.className = 'says-trouble';
    line.textContent = error instanceof Error ? error.message : String(error);
    panel.replaceChildren(line);
  });
  const { show, formula, trouble, write, openSheets } = grid;
  window.soakbook = { ready, show, formula, trouble, write, openSheets };
}
