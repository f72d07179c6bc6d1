/** Site, kit, rules, stages and weather from a JSON file or from a workbook like our own. */
import type { Device } from '../engine/plan/model.js';
import { Problem } from '../engine/problems.js';
import { isBlank, plainLabel, text, type Cell } from '../tables/cells.js';
import { readKit } from '../tables/kit.js';
import { siteInput, siteValue, type SiteKey } from '../tables/site-inputs.js';
import { OWN_KIND, type SiteOrigins } from '../tables/site-notes.js';
import { readSite, siteFromJson, type SiteReading } from '../tables/site.js';
import { exampleSetup, type Setup } from './example-setup.js';
import { findRules } from './rules-reading.js';
import { papersFromSheets } from './papers-sheets.js';
import { PAPERS } from './service-papers.js';
import { MARKS } from './sheets/inputs.js';

export interface GivenSetup {
  /** only the parts that were given */
  setup: Partial<Setup>;
  /** a sentence for everything that could not be used */
  problems: string[];
}

const TABLES = ['kit', 'rules', 'stages', 'weather', ...PAPERS] as const;

const isCell = (value: unknown): value is Cell =>
  value === null || ['string', 'number', 'boolean'].includes(typeof value);

/** A table in JSON: rows as arrays with the header first, or rows as objects keyed by header. */
function tableFromJson(name: string, value: unknown): Cell[][] {
  const wrong = new Problem(
    `"${name}" in the site file must be a list of rows, each a list or an object of text, numbers or yes/no`,
  );
  if (!Array.isArray(value)) throw wrong;
  const rows = value as unknown[];
  if (rows.every((row) => Array.isArray(row) && row.every(isCell))) return rows as Cell[][];
  const headers: string[] = [];
  for (const row of rows) {
    if (typeof row !== 'object' || row === null || Array.isArray(row)) throw wrong;
    for (const [key, cell] of Object.entries(row)) {
      if (!isCell(cell)) throw wrong;
      if (!headers.includes(key)) headers.push(key);
    }
  }
  return [
    headers,
    ...rows.map((row) => headers.map((key) => (row as Record<string, Cell>)[key] ?? null)),
  ];
}

const ownOf = (keys: readonly SiteKey[]): SiteOrigins =>
  Object.fromEntries(keys.map((key) => [key, 'own']));

/** A file that calls itself invented, as the sample does, has no figures of a person: their sources stay as they were. */
const isInvented = (file: Record<string, unknown>): boolean =>
  typeof file['_about'] === 'string' && /^invented\b/i.test(file['_about']);

const same = (a: string | number, b: string | number): boolean =>
  typeof a === 'number' && typeof b === 'number'
    ? Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(b))
    : a === b;

/**
 * Inputs of a Site sheet that are a person's own. A sheet written by this program holds all of them: there the kind says
 * so, or a value that is not the example's, for whoever changes a value changes no kind.
 */
function ownOnSheet({ site, given }: SiteReading, [header = [], ...rows]: Cell[][]): SiteKey[] {
  const at = header.findIndex((c) => plainLabel(text(c)) === 'kind');
  if (at < 0) return [...given];
  const kinds = new Map(rows.map((row) => [plainLabel(text(row[0])), text(row[at])]));
  const example = exampleSetup(site.latitude).site;
  return [...given].filter(
    (key) =>
      kinds.get(plainLabel(siteInput(key).name)) === OWN_KIND ||
      !same(siteValue(site, key), siteValue(example, key)),
  );
}

/**
 * A setup from JSON: `{ site: {…}, kit: […], rules: […], stages: […], weather: […] }`, every part optional; or the
 * bare inputs of a site.
 * @throws Problem if a table is not a list of rows
 */
export function setupFromJson(value: unknown): GivenSetup {
  const object =
    typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
  const whole = 'site' in object || TABLES.some((name) => name in object);
  if (!whole) {
    const { site, problems, given } = siteFromJson(value);
    return { setup: { site, origins: ownOf([...given]) }, problems };
  }
  const problems: string[] = [];
  const setup: Partial<Setup> = {};
  if ('site' in object) {
    const read = siteFromJson(object['site']);
    setup.site = read.site;
    setup.origins = isInvented(object) ? {} : ownOf([...read.given]);
    problems.push(...read.problems);
  }
  for (const name of TABLES) {
    if (!(name in object)) continue;
    const table = tableFromJson(name, object[name]);
    if (name === 'kit') setup.kit = kitOf(table, problems);
    else setup[name] = table;
  }
  for (const name of Object.keys(object))
    if (name !== 'site' && !(TABLES as readonly string[]).includes(name) && !name.startsWith('_'))
      problems.push(`Site file: "${name}" is not a part it knows; it is left out.`);
  return { setup, problems };
}

function kitOf(table: Cell[][], problems: string[]): Device[] {
  const read = readKit(table);
  problems.push(...read.problems);
  return read.kit;
}

/** The table under a heading: from the row after it to the first blank row. */
function tableUnder(cells: Cell[][], heading: string): Cell[][] | undefined {
  const at = cells.findIndex(
    (row) => text(row[0]) === heading && row.slice(1).every((c) => isBlank(c)),
  );
  if (at < 0) return undefined;
  const rest = cells.slice(at + 1);
  const end = rest.findIndex((row) => row.every((c) => isBlank(c)));
  const table = end < 0 ? rest : rest.slice(0, end);
  const width = (table[0] ?? []).filter((c) => !isBlank(c)).length;
  return table.map((row) => row.slice(0, width));
}

/**
 * A setup from the sheets Site, Kit, Rules and Weather of a workbook. Rules and Weather may be laid out as ours
 * are, or hold nothing but their table.
 */
export function setupFromSheets(sheets: readonly { name: string; cells: Cell[][] }[]): GivenSetup {
  const problems: string[] = [];
  const setup: Partial<Setup> = {};
  const sheet = (name: string): Cell[][] | undefined =>
    sheets.find((s) => plainLabel(s.name) === plainLabel(name))?.cells;
  const site = sheet('Site');
  if (site) {
    // Above our table stand a title and the header, whose "Name" is no site name.
    const header = site.findIndex(
      (row) => plainLabel(text(row[0])) === 'name' && plainLabel(text(row[1])) === 'value',
    );
    const read = readSite(site.slice(header + 1));
    setup.site = read.site;
    setup.origins = ownOf(ownOnSheet(read, site.slice(Math.max(0, header))));
    problems.push(...read.problems);
  }
  const kit = sheet('Kit');
  if (kit) setup.kit = kitOf(kit, problems);
  if (sheet('Rules')) {
    const found = findRules(sheets);
    if (found) setup.rules = found.rules.rows;
    else problems.push('Sheet "Rules": no row of headers with Verdict; its rules are not used.');
    if (found?.stages) setup.stages = found.stages.rows;
  }
  const weather = sheet('Weather');
  if (weather) setup.weather = tableUnder(weather, MARKS.weather) ?? weather;
  Object.assign(setup, papersFromSheets(sheets));
  if (Object.keys(setup).length === 0)
    throw new Problem('the workbook has no sheet named Site, Kit, Rules or Weather');
  return { setup, problems };
}
