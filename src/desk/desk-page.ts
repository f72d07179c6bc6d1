/** The desk page: grid, panel and sample put together, with a small hook for tests and curious people. */
import { Problem } from '../engine/problems.js';
import type { Cell } from '../tables/cells.js';
import { draftFromSiteFile, draftText, emptyDraft } from '../taskpane/draft.js';
import { mountPanel } from '../taskpane/mount.js';
import { pickedBytes } from '../taskpane/picked-file.js';
import { rasterise } from '../taskpane/rasterise.js';
import { Session } from '../taskpane/session.js';
import type { OpenedFile } from '../workers/plan-room.js';
import { roomLine } from '../workers/room-line.js';
import { takeDrops } from './drop-file.js';
import { createGrid, type DeskGrid, type FunctionSet } from './grid.js';
import { startOffline } from './offline-start.js';
import { deskSheets, plainSheet } from './sheets.js';

/** What window.soakbook offers: the grid's own values, by sheet name and address. */
export type DeskHook = Pick<DeskGrid, 'show' | 'formula' | 'trouble' | 'write' | 'openSheets'> & {
  /** resolves when the first workbook is calculated and the panel has read it */
  ready: Promise<void>;
  /** resolves to true when the desk can be opened again without its server */
  offline: Promise<boolean>;
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
  const grid = createGrid(container, functions, rasterise);
  const room = roomLine({ rasterise });

  /**
   * Opens a file's sheets, the inventory in front; settings of ours that it carries go with it. The sample opens at its
   * live columns, a person's own table at its beginning, where it is recognised.
   */
  async function openTable(name: string, file: OpenedFile, own: boolean): Promise<void> {
    const { sheets, front, settings } = file;
    const inventory = sheets[front];
    if (inventory === undefined) throw new Problem(`"${name}" has no sheet with anything on it`);
    const title = inventory.name === '' ? sheetNameFrom(name) : inventory.name;
    const reading = await room.read(inventory, emptyDraft());
    const made = deskSheets(title, inventory, reading.columns, reading.headerRow);
    const shown = own ? made.map((sheet) => ({ ...sheet, firstColumn: 0 })) : made;
    const taken = new Set(shown.map((sheet) => sheet.name));
    const others = sheets.filter((sheet) => sheet !== inventory && !taken.has(sheet.name));
    await grid.open(title, [...shown, ...others.map((sheet) => plainSheet(sheet.name, sheet))]);
    for (const [key, value] of Object.entries(settings)) await grid.writeSetting(key, value);
  }

  async function openFile(name: string, bytes: Uint8Array): Promise<void> {
    await openTable(name, await room.open(name, bytes), true);
  }

  async function openSample(): Promise<void> {
    const given: unknown = JSON.parse(new TextDecoder().decode(await fetched(sample.setup)));
    const { rules = [], stages = [], ...draft } = draftFromSiteFile(given, 'US');
    const file = sample.inventory.replace(/^.*\//, '');
    const opened = await room.open(file, await fetched(sample.inventory));
    const sheets = [...opened.sheets, { name: 'Rules', cells: rulesCells(rules, stages) }];
    await openTable(file, { ...opened, sheets }, false);
    await grid.writeSetting('draft', draftText(draft));
  }

  const ready = openSample().then(async () => {
    const makeSession = (language: 'en' | 'es') =>
      new Session({ ...grid, openFile }, room, language);
    const mount = { language: navigator.language, planAtOnce: true };
    const session = await mountPanel(panel, makeSession, mount);
    takeDrops(document, (file) => {
      const open = async () => session.openFile(file.name, await pickedBytes(file));
      void session.attempt(open);
    });
  });
  ready.catch((error: unknown) => {
    const line = document.createElement('p');
    line.setAttribute('role', 'alert');
    line.className = 'start-trouble';
    line.textContent = error instanceof Error ? error.message : String(error);
    panel.replaceChildren(line);
  });
  // the first screen comes before what is for later
  const offline = ready.then(startOffline, () => false);
  const { show, formula, trouble, write, openSheets } = grid;
  window.soakbook = { ready, offline, show, formula, trouble, write, openSheets };
}
