/** The desk page: grid, panel and sample put together, with a small hook for tests and curious people. */
import { Problem } from '../engine/problems.js';
import type { Cell } from '../tables/cells.js';
import { builtOf } from '../taskpane/built.js';
import { draftFromSiteFile, draftText, emptyDraft } from '../taskpane/draft.js';
// what is kept in the browser is shown by this page alone
import '../taskpane/parts/kept.js';
import { mountPanel } from '../taskpane/mount.js';
import { pickedBytes } from '../taskpane/picked-file.js';
import { rasterise } from '../taskpane/rasterise.js';
import { Session } from '../taskpane/session.js';
import { buildWords } from '../taskpane/words/build.js';
import { replaceWords } from '../taskpane/words/replace.js';
import type { OpenedFile, PlanRoom } from '../workers/plan-room.js';
import { roomLine } from '../workers/room-line.js';
import { takeDrops } from './drop-file.js';
import { deskHost, type ComingBook } from './desk-host.js';
import { createGrid, type DeskGrid, type FunctionSet } from './grid.js';
import type { AtStake } from './keeper.js';
import { deskKeeper, keptHost } from './kept-desk.js';
import { startOffline } from './offline-start.js';
import { deskSheets, plainSheet } from './sheets.js';
import { askToReplace } from './replace-question.js';
import { switchPanes } from './two-panes.js';
import { gridLibrary, nextTask } from './vendor.js';

/** What window.soakbook offers: the grid's own values, by sheet name and address. */
export type DeskHook = Pick<DeskGrid, 'show' | 'formula' | 'trouble' | 'write' | 'openSheets'> & {
  /** resolves when the first workbook is calculated in the grid, and the panel has read and planned it */
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

const sampleName = ({ inventory }: Sample): string => inventory.replace(/^.*\//, '');

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

/**
 * A file's sheets as the grid takes them, the inventory in front; settings of ours that the file carries go with it. The
 * sample opens at its live columns; a person's own table is left as it is.
 */
async function comingBook(
  room: PlanRoom,
  name: string,
  { sheets, front, settings }: OpenedFile,
  own: boolean,
): Promise<ComingBook> {
  const inventory = sheets[front];
  if (inventory === undefined) throw new Problem(`"${name}" has no sheet with anything on it`);
  const title = inventory.name === '' ? sheetNameFrom(name) : inventory.name;
  const reading = await room.read(inventory, emptyDraft());
  const made = deskSheets(title, inventory, own ? [] : reading.columns, reading.headerRow);
  const taken = new Set(made.map((sheet) => sheet.name));
  const others = sheets.filter((sheet) => sheet !== inventory && !taken.has(sheet.name));
  return {
    title,
    sheets: [...made, ...others.map((sheet) => plainSheet(sheet.name, sheet))],
    settings: new Map(Object.entries(settings)),
  };
}

async function sampleBook(room: PlanRoom, sample: Sample): Promise<ComingBook> {
  const file = sampleName(sample);
  const [setup, inventory] = await Promise.all([fetched(sample.setup), fetched(sample.inventory)]);
  const given: unknown = JSON.parse(new TextDecoder().decode(setup));
  const { rules = [], stages = [], ...draft } = draftFromSiteFile(given, 'US');
  const opened = await room.open(file, inventory);
  const sheets = [...opened.sheets, { name: 'Rules', cells: rulesCells(rules, stages) }];
  const book = await comingBook(room, file, { ...opened, sheets }, false);
  book.settings.set('draft', draftText(draft));
  return book;
}

/** The panel does not wait for the grid, which is large: the sample is read and planned in the worker meanwhile. */
export function startDesk(functions: FunctionSet, sample: Sample): void {
  const container = document.getElementById('grid');
  const panel = document.getElementById('panel');
  if (container === null || panel === null)
    throw new Error('The page lacks its grid or its panel.');
  const panes = switchPanes(container, panel);
  const room = roomLine({ rasterise });
  const first = sampleBook(room, sample);
  let there: DeskGrid | undefined;

  async function gridWithSample(): Promise<DeskGrid> {
    const library = await gridLibrary();
    await nextTask();
    const grid = createGrid(library, container as HTMLElement, functions, rasterise);
    await nextTask();
    const { title, sheets, settings } = await first;
    grid.open(title, sheets, settings);
    there = grid;
    return grid;
  }
  const coming = gridWithSample();
  /** set with the panel: without it nobody can open anything */
  let session: Session | undefined;
  let asking = false;
  const keeper = deskKeeper(() => there, coming, mayReplace);
  keeper.opened({ name: sampleName(sample), own: false });

  /** Asks where a person's own work would be gone; saves it first where that is the answer. */
  async function mayReplace(next: string, stake: AtStake): Promise<boolean> {
    if (!session || (!stake.open && !stake.kept)) return true;
    // a second file let go over the question
    if (asking) return false;
    asking = true;
    const { language, host } = session;
    const answer = await askToReplace(language, next, stake);
    asking = false;
    if (answer === 'stay') {
      session.say(replaceWords(language).stayed(next));
      return false;
    }
    if (answer === 'save' && host.wholeWorkbook) {
      // the file keeps what was built, under the names sheets have by now
      await builtOf(session).load();
      await host.saveFile(buildWords(language).files.wholeName, await host.wholeWorkbook());
    }
    return true;
  }

  async function openFile(name: string, bytes: Uint8Array): Promise<boolean> {
    const { title, sheets, settings } = await comingBook(room, name, await room.open(name, bytes), true); // prettier-ignore
    if (!(await mayReplace(name, keeper.atStake(true)))) return false;
    (await coming).open(title, sheets, settings);
    keeper.opened({ name, own: true });
    return true;
  }

  async function startPanel(): Promise<void> {
    const desk = deskHost(first, coming);
    const showCell: typeof desk.showCell = async (...place) => {
      await coming;
      panes.mayTakeFocus();
      await desk.showCell(...place);
    };
    const host = keptHost({ ...desk, openFile, showCell }, keeper);
    const makeSession = (language: 'en' | 'es') => (session = new Session(host, room, language));
    const mount = { language: navigator.language, readFirst: true, planAtOnce: true };
    const mounted = await mountPanel(panel as HTMLElement, makeSession, mount);
    takeDrops(document, (file) => {
      const open = async () => mounted.openFile(file.name, await pickedBytes(file));
      void mounted.attempt(open);
    });
  }

  const calculated = coming.then((grid) => grid.calculated());
  const ready = Promise.all([startPanel(), calculated]).then(() => undefined);
  ready.catch((error: unknown) => {
    const line = document.createElement('p');
    line.setAttribute('role', 'alert');
    line.className = 'start-trouble';
    line.textContent = error instanceof Error ? error.message : String(error);
    panel.replaceChildren(line);
  });
  // the first screen comes before what is for later
  const offline = ready.then(startOffline, () => false);
  const grid = (): DeskGrid => {
    if (there === undefined) throw new Error('The grid is still on its way; wait for "ready".');
    return there;
  };
  window.soakbook = {
    ready,
    offline,
    show: (...place) => grid().show(...place),
    formula: (...place) => grid().formula(...place),
    trouble: (...place) => grid().trouble(...place),
    write: async (...place) => grid().write(...place),
    openSheets: async () => grid().openSheets(),
  };
}
