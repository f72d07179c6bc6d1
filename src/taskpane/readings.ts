/** Everything the panel reads of the open workbook under a draft: the trees, the site, the rules. */
import { Problem } from '../engine/problems.js';
import type { Grid } from '../tables/cells.js';
import type { NamedCells } from '../workbook/rules-reading.js';
import type { GivenPapers } from '../workbook/service-papers.js';
import type {
  Draft,
  PlanRoom,
  RulesReport,
  SetupReport,
  SheetReading,
} from '../workers/plan-room.js';
import type { Host } from './host.js';
import {
  headersKey,
  isOtherSheet,
  onlyRange,
  readPaperSheets,
  readRuleSheets,
} from './sheets-read.js';

export interface Readings {
  /** names of the open sheets, and the one in front */
  sheets: string[];
  front: string;
  /** the sheet with the trees, and the part of it that is read, "" for all */
  sheet: string;
  range: string;
  /** a person named the sheet: it stays, whatever comes to the front */
  picked: boolean;
  trees: Grid;
  ruleSheets: NamedCells[];
  papers: GivenPapers;
  reading: SheetReading | undefined;
  setup: SetupReport | undefined;
  rules: RulesReport | undefined;
  /** why a part could not be read, "" when it could */
  troubles: { trees: string; setup: string; rules: string };
  /** key of the headers the corrections belong to */
  headers: string;
  corrections: Record<string, string>;
}

export const nothingRead = (): Readings => ({
  sheets: [],
  front: '',
  sheet: '',
  range: '',
  picked: false,
  trees: { cells: [] },
  ruleSheets: [],
  papers: {},
  reading: undefined,
  setup: undefined,
  rules: undefined,
  troubles: { trees: '', setup: '', rules: '' },
  headers: '',
  corrections: {},
});

/** Where corrections of a sheet with such headers are kept in the workbook. */
export const correctionsKey = (headers: string): string => `columns.${headers}`;

function correctionsFrom(kept: string): Record<string, string> {
  if (kept === '') return {};
  try {
    const read: unknown = JSON.parse(kept);
    const isTable =
      typeof read === 'object' &&
      read !== null &&
      Object.values(read).every((v) => typeof v === 'string');
    if (isTable) return read as Record<string, string>;
  } catch {
    // said below, as for any other text that is not ours
  }
  throw new Problem(
    'the corrections kept in this workbook for these headers cannot be read; forget them under Trees, or correct the columns again',
  );
}

/**
 * The sheet that was read stays, as long as it is there and holds trees or was picked, whatever comes to the front. To begin
 * with it is the one in front; where that holds no trees by its name, the first that may.
 */
function sheetToRead(before: Readings, sheets: readonly string[], front: string): string {
  const { sheet, reading, picked } = before;
  const isOther = isOtherSheet(front);
  const worth = picked || (reading?.usable ?? 0) > 0 || isOther;
  if (sheets.includes(sheet) && worth) return sheet;
  return isOther ? (sheets.find((name) => !isOtherSheet(name)) ?? front) : front;
}

/**
 * What a person said of columns with these headers. A list that gets a column, or loses one, has other headers than before:
 * what was said of those that stayed goes on and is kept for the new ones, where nothing is kept for them.
 */
async function correctionsOf(
  host: Host,
  key: string,
  before: Pick<Readings, 'headers' | 'corrections'>,
  { columns }: Pick<SheetReading, 'columns'>,
): Promise<Record<string, string>> {
  const kept = await host.readSetting(correctionsKey(key));
  if (kept !== '' || before.headers === '') return correctionsFrom(kept);
  const there = new Set(columns.map(({ header }) => header));
  const stay = Object.entries(before.corrections).filter(([header]) => there.has(header));
  const corrections = Object.fromEntries(stay);
  if (stay.length > 0) await host.writeSetting(correctionsKey(key), JSON.stringify(corrections));
  return corrections;
}

async function readTrees(
  host: Host,
  room: PlanRoom,
  now: Readings,
  draft: Draft,
): Promise<Partial<Readings>> {
  const trees = onlyRange(await host.readTable(now.sheet), now.range);
  if (trees.cells.length === 0) return { trees };
  const reading = await room.read(trees, { ...draft, corrections: now.corrections });
  const headers = headersKey(trees.cells[reading.headerRow] ?? []);
  if (headers === now.headers) return { trees, reading };
  const corrections = await correctionsOf(host, headers, now, reading);
  if (JSON.stringify(corrections) === JSON.stringify(now.corrections))
    return { trees, reading, headers };
  const again = await room.read(trees, { ...draft, corrections });
  return { trees, reading: again, headers, corrections };
}

/**
 * @param before - the last reading, or the sheet, range and corrections to begin with
 * @param today - yyyy-mm-dd
 * @param sentenceOf - an error in words, for the part that could not be read
 */
export async function readEverything(
  host: Host,
  room: PlanRoom,
  draft: Draft,
  before: Readings,
  today: string,
  sentenceOf: (error: unknown) => string,
): Promise<Readings> {
  const [sheets, front] = [await host.openSheets(), await host.sheetName()];
  const sheet = sheetToRead(before, sheets, front);
  const same = before.sheet === sheet;
  // what was said of the columns of another sheet is nothing said of these
  const { headers, corrections } = same ? before : { headers: '', corrections: {} };
  const now: Readings = {
    ...nothingRead(),
    ...{ sheets, front, sheet, headers, corrections },
    range: same ? before.range : '',
    picked: same && before.picked,
  };
  const noting = async (part: keyof Readings['troubles'], work: () => Promise<void>) => {
    try {
      await work();
    } catch (error) {
      now.troubles[part] = sentenceOf(error);
    }
  };
  await noting('trees', async () =>
    void Object.assign(now, await readTrees(host, room, now, draft)),
  );
  now.ruleSheets = await readRuleSheets(host, sheets);
  now.papers = await readPaperSheets(host, sheets);
  const usable = (now.reading?.usable ?? 0) > 0 ? now.trees : { cells: [] };
  const under: Draft = { ...draft, corrections: now.corrections };
  await noting('setup', async () => {
    now.setup = await room.setup(usable, under);
  });
  await noting('rules', async () => {
    const { ruleSheets } = now;
    now.rules = await room.rules({ trees: usable, source: sheet, sheets: ruleSheets, draft: under, today });
  });
  return now;
} // prettier-ignore
