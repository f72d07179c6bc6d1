/**
 * Reads trees from a range headed as on the workbook's Trees sheet, or in plain English, for the functions that plan
 * from cells. Inventories that others made go through `inventory/`, which knows many more headers and asks; a formula
 * in a cell has nobody to ask, so a header that only comes close to a size is an error here.
 */
import { convert, isBlank, plainLabel, quoted, text, type Cell } from './cells.js';
import { MEASURES, type ColumnUse, type InventoryRow } from './inventory/columns.js';
import { dateOrder, type DateOrder } from './inventory/dates.js';
import { ENGLISH } from './inventory/english-headers.js';
import { buildRows } from './inventory/rows.js';
import { OWN_HEADERS, type Meaning } from './inventory/vocabulary.js';

export interface TreesReading {
  /** 1-based; 0 when every cell is blank */
  headerRow: number;
  /** every non-blank row below the header, as a tree or with the reason it is none */
  rows: InventoryRow[];
  /** why the headers cannot be used */
  problems: string[];
}

interface Named {
  meaning: Meaning;
  /** 2 where a radius is given */
  factor: number;
}

const squeeze = (header: string): string => plainLabel(header).replace(/ /g, '');

/** Header without blanks and signs → meaning; our own headers come first. */
const KNOWN = new Map<string, Named>();
const learn = (word: string, meaning: Meaning, factor = 1): void => {
  if (!KNOWN.has(squeeze(word))) KNOWN.set(squeeze(word), { meaning, factor });
};
for (const [header, meaning] of Object.entries(OWN_HEADERS)) learn(header, meaning);
for (const { meaning, words, factor, loose } of ENGLISH)
  if (!loose) words.forEach((word) => learn(word, meaning, factor));

const isSize = (meaning: Meaning): boolean =>
  MEASURES[meaning] !== undefined || meaning === 'container';
/** First words of names of sizes: a header that begins so and is not known is a slip of the pen. */
const SIZE_WORDS = new Set(
  [
    ...Object.entries(OWN_HEADERS),
    ...ENGLISH.flatMap((each) => each.words.map((word) => [word, each.meaning] as const)),
  ]
    .filter(([, meaning]) => isSize(meaning))
    .map(([word]) => plainLabel(word).split(' ')[0] ?? '')
    .filter((word) => word.length > 3 && word !== 'tree'),
);
/** The Trees sheet's own computed sizes end so. */
const COMPUTED = /\bused$/;
/** Two-digit years are read around it; the sheet itself writes four digits. */
const PIVOT_YEAR = 2030;

/**
 * @param cells - the range, header row first; blank rows may stand anywhere
 * @returns trees and reasons; never throws for what cells hold
 */
export function readTrees(cells: Cell[][]): TreesReading {
  const at = cells.findIndex((row) => row.some((cell) => !isBlank(cell)));
  if (at < 0) return { headerRow: 0, rows: [], problems: [] };
  const headers = (cells[at] ?? []).map((cell) => text(cell));
  const problems: string[] = [];
  const uses: ColumnUse[] = [];
  headers.forEach((header, column) => {
    const [, name = header, unit = ''] = /^(.*?)\s*\(([^()]*)\)$/.exec(header) ?? [];
    const known = KNOWN.get(squeeze(name));
    if (!known) {
      const words = plainLabel(name);
      if (SIZE_WORDS.has(words.split(' ')[0] ?? '') && !COMPUTED.test(words))
        problems.push(
          `${quoted(header)} begins like a size but is no header known here; write it as on the Trees sheet, such as Canopy diameter (ft), or begin it otherwise`,
        );
      // other computed columns and notes of one's own may stand between
      return;
    }
    const { meaning, factor } = known;
    const twin = uses.find((use) => use.meaning === meaning);
    if (twin && isSize(meaning))
      problems.push(`${quoted(header)} and ${quoted(twin.header)} say the same; keep one`);
    if (twin) return;
    const said = unitOf(header, meaning, unit, problems);
    uses.push({
      column,
      header,
      meaning,
      unit: said,
      unitFrom: unit === '' ? 'guess' : 'header',
      wantedUnit: '',
      loose: false,
      confidence: 'exact',
      why: '',
      samples: [],
      factor,
      rank: 0,
      year: undefined,
      language: undefined,
      named: unit,
      decimalComma: false,
      pair: false,
      forced: true,
    });
  });
  if (uses.length === 0)
    problems.push(
      `no column is headed as on the Trees sheet; accepted are names such as ${Object.keys(OWN_HEADERS).slice(0, 6).join(', ')}, sizes with their unit, as in Caliper (in)`,
    );
  if (problems.length > 0) return { headerRow: at + 1, rows: [], problems };

  const data = cells
    .map((row, r) => ({ row: r + 1, cells: row }))
    .slice(at + 1)
    .filter((row) => row.cells.some((cell) => !isBlank(cell)));
  const rows = buildRows({
    headers,
    data,
    unitsRow: undefined,
    uses,
    orders: ordersOf(uses, data),
    pivotYear: PIVOT_YEAR,
    seasonFrom: undefined,
    dateCells: undefined,
    sayIn: undefined,
    notes: [],
  });
  return { headerRow: at + 1, rows, problems };
}

/** The unit of a measure: as its header names it, else the US one. */
function unitOf(header: string, meaning: Meaning, unit: string, problems: string[]): string {
  const measure = MEASURES[meaning];
  if (!measure) return '';
  if (unit === '') return measure.US;
  if (convert(1, unit, measure.to) === undefined)
    problems.push(
      `${quoted(header)} is in a unit not known for it; accepted are ${measure.US} and ${measure.SI}`,
    );
  return unit;
}

const ordersOf = (
  uses: readonly ColumnUse[],
  data: readonly { cells: Cell[] }[],
): ReadonlyMap<number, DateOrder> =>
  new Map(
    uses
      .filter((use) => use.meaning === 'planted')
      .map(({ column }) => {
        const written = data.map((row) => row.cells[column] ?? null);
        return [column, dateOrder(written, true).order];
      }),
  );
