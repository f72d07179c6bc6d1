/**
 * `npm run audit -- LOG.xlsx [--trees FILE] [--json]`: the questions a log of visits raises, its meters beside it, and its
 * contract clause by clause. Sheets Log, Trees, Kit, Meters and Contract of a workbook are read; a text table is a log.
 * Exit 0, also when there are questions; 2 when something cannot be read.
 */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { pathToFileURL } from 'node:url';
import { checkContract, type ClauseResult } from '../engine/contract/contract-check.js';
import { ledger, type Ledger } from '../engine/contract/ledger.js';
import { logFlags, type LogFlag } from '../engine/contract/log-flags.js';
import { productivity, serviceOfLog, type Productivity } from '../engine/contract/log-totals.js';
import { volumeWords } from '../engine/contract/say.js';
import { isoDate } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import { paperInPlace, paperLines } from '../workbook/papers-sheets.js';
import type { GivenPapers } from '../workbook/service-papers.js';
import type { Cell } from '../tables/cells.js';
import { plainLabel } from '../tables/cells.js';
import { readContract } from '../tables/contract.js';
import { contractTrees } from '../tables/contract-plan.js';
import { readMeters } from '../tables/meters.js';
import { readLogTrees, readTrucks, readVisitLog, type VisitLog } from '../tables/visit-log.js';
import { readTableFile, readWorkbookSheets } from '../workbook/readers/open.js';

const USAGE = `Usage: npm run audit -- LOG.xlsx [--trees FILE] [--json]

Reads a log of visits and asks about it, row by row. A workbook may hold the sheets Log, Trees, Kit, Meters
and Contract; a .csv holds the log alone.
  --trees FILE   list of trees, where the workbook has none: Tree id, Planted, Status, Since
  --json         everything as one JSON object
`;

export interface AuditStreams {
  out: (text: string) => void;
  err: (text: string) => void;
}

interface Sheet {
  name: string;
  cells: Cell[][];
}

export interface Audit {
  log: VisitLog;
  flags: LogFlag[];
  ledger: Ledger | undefined;
  contract: ClauseResult[] | undefined;
  productivity: Productivity | undefined;
  /** what could not be used, a sentence each */
  problems: string[];
}

async function sheetsOf(path: string): Promise<Sheet[]> {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new Problem(
      `"${path}" cannot be read: ${code === 'ENOENT' ? 'there is no such file' : code}`,
    );
  }
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return readWorkbookSheets(bytes);
  const name = basename(path);
  return [{ name, cells: (await readTableFile(name, bytes)).cells }];
}

/** Names of the sheets of a workbook of ours. */
const SHEET_OF: Readonly<Record<keyof GivenPapers, string>> = {
  visits: 'Log', contract: 'Contract', meters: 'Meters', clocks: 'Clocks', bags: 'Clocks', shortage: 'Shortage',
}; // prettier-ignore

/** The sheet of a name; a file with a single table is what it is asked for. */
const sheet = (sheets: readonly Sheet[], name: string): Sheet | undefined =>
  sheets.find((s) => plainLabel(s.name) === name);

/**
 * Asks about a log.
 *
 * @param sheets - of the workbook, or the log alone
 * @param list - the list of trees, where it is a file of its own
 * @throws Problem if there is no log, or no list of trees
 */
export function auditSheets(sheets: readonly Sheet[], list?: readonly Sheet[]): Audit {
  const logSheet = sheet(sheets, 'log') ?? (sheets.length === 1 ? sheets[0] : undefined);
  if (!logSheet)
    throw new Problem(
      `there is no sheet Log; found are ${sheets.map((s) => `"${s.name}"`).join(', ')}`,
    );
  // the clocks of a workbook of ours name every tree with its size and what has become of it
  const treeRows =
    (list?.find((s) => plainLabel(s.name) === 'trees') ?? list?.[0])?.cells ??
    paperLines(sheets, 'clocks') ??
    sheet(sheets, 'trees')?.cells;
  if (!treeRows)
    throw new Problem('there is no list of trees; add a sheet Trees, or name a file with --trees');
  const problems: string[] = [];
  const noted = <T extends { problems: string[] }>(from: string, reading: T): T => {
    problems.push(...reading.problems.map((p) => `${from}: ${p}`));
    return reading;
  };
  const own = (name: keyof GivenPapers, given: Sheet | undefined): Cell[][] | undefined =>
    given && (paperInPlace([{ ...given, name: SHEET_OF[name] }], name) ?? given.cells);
  const log = noted('Log', readVisitLog(own('visits', logSheet)!));
  const { trees } = noted('Trees', readLogTrees(treeRows));
  const [kitSheet, meterSheet, contractSheet] = ['kit', 'meters', 'contract'].map((n) => sheet(sheets, n)); // prettier-ignore
  const kit = kitSheet && noted('Kit', readTrucks(kitSheet.cells)).trucks;
  const meters = meterSheet && noted('Meters', readMeters(own('meters', meterSheet)!)).meters;
  const clauses = contractSheet && noted('Contract', readContract(own('contract', contractSheet)!)).clauses; // prettier-ignore
  return {
    log,
    flags: logFlags(log.rows, { trees, kit, units: log.units }),
    ledger: meters && ledger(meters, log.rows, undefined, log.units),
    contract: clauses && log.rows.length > 0 ? checkContract(serviceOfLog(log.rows, contractTrees(treeRows)), clauses) : undefined, // prettier-ignore
    productivity: productivity(log.rows),
    problems,
  };
}

const plural = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

/** An audit in words, a line each. */
export function auditWords({
  log,
  flags,
  ledger: book,
  contract,
  productivity: done,
  problems,
}: Audit): string[] {
  const lines: string[] = problems.map((p) => `Not used: ${p}.`);
  const rows = new Map(log.rows.map((row) => [row.row, row]));
  const asked = new Set(flags.map((f) => f.row)).size;
  lines.push(`${plural(log.rows.length, 'visit')}, ${plural(flags.length, 'question')} about ${plural(asked, 'row')}. A question is not an accusation.`); // prettier-ignore
  for (const { row, sentence } of flags) {
    const visit = rows.get(row)!;
    lines.push(`Row ${row}, ${visit.tree}, ${isoDate(visit.day)}: ${sentence}`);
  }
  if (book) lines.push(...ledgerWords(book, log.units));
  for (const { clause, verdict, litres, visits, where } of contract ?? [])
    lines.push(`Contract row ${clause.row}: ${verdict}${litres > 0 ? `, ${volumeWords(litres, log.units)}` : ''}${visits > 0 ? `, ${plural(visits, 'visit')}` : ''}${where === '' ? '' : `; ${where}`}.`); // prettier-ignore
  if (done)
    lines.push(`A crew did ${done.treesPerDay.toFixed(0)} trees a day, ${done.minutesAtTree.toFixed(1)} min at each and ${done.minutesBetween.toFixed(1)} min between, ${volumeWords(done.litresPerTree, log.units)} a tree.`); // prettier-ignore
  return lines;
}

function ledgerWords({ rows, unmetered }: Ledger, units: Units): string[] {
  const lines = rows.map(({ meter, used, logged, questions }) => {
    const through = used === undefined ? 'not known' : volumeWords(used, units);
    return `Meter ${meter.meter} from ${isoDate(meter.from)}: ${through} through it, ${volumeWords(logged, units)} in the log. ${questions.join(' ')}`.trim(); // prettier-ignore
  });
  if (unmetered.rows.length > 0)
    lines.push(`${volumeWords(unmetered.litres, units)} in ${plural(unmetered.rows.length, 'row')} came through no meter of the ledger.`); // prettier-ignore
  return lines;
}

/** @returns exit code */
export async function runAudit(
  args: readonly string[],
  { out, err }: AuditStreams,
): Promise<number> {
  if (args.includes('--help')) {
    out(USAGE);
    return 0;
  }
  const at = args.indexOf('--trees');
  const listPath = at >= 0 ? args[at + 1] : undefined;
  const rest = args.filter((arg, i) => arg !== '--json' && (at < 0 || (i !== at && i !== at + 1)));
  const unknown = rest.find((arg) => arg.startsWith('--'));
  if (rest.length !== 1 || unknown !== undefined || (at >= 0 && listPath === undefined)) {
    const why = unknown ? `There is no option ${unknown}.` : at >= 0 && listPath === undefined ? '--trees names no file.' : 'Name one log.'; // prettier-ignore
    err(`${why}\n\n${USAGE}`);
    return 2;
  }
  try {
    const list = listPath === undefined ? undefined : await sheetsOf(listPath);
    const audit = auditSheets(await sheetsOf(rest[0]!), list);
    if (args.includes('--json')) out(`${JSON.stringify(audit)}\n`);
    else out(`${auditWords(audit).join('\n')}\n`);
    return 0;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    err(`${error.message}\n`);
    return 2;
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  process.exitCode = await runAudit(process.argv.slice(2), {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
  });
