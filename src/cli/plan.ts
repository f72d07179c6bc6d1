/**
 * `npm run plan -- FILE [--site site.json|workbook.xlsx] [--rules rules.csv|.xlsx|.json] [--out plan.xlsx] [--json]
 * [--force]`: an inventory in, a workbook out, without any window. `--csv`, `--ics`, `--pdf`, `--crew` and `--client`
 * name files to write beside it. `--log` plans the rest of the season again from what really happened; `--what-if` plans
 * it again with one thing changed at a time.
 */
import { randomBytes } from 'node:crypto';
import {
  constants,
  copyFileSync,
  existsSync,
  linkSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { dayOf, isoDate, type Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import { L_PER_GALLON } from '../engine/units.js';
import { highsSolver } from '../workbook/highs.js';
import {
  planFromTablesBy,
  replanFromTablesBy,
  type PlanJob,
  type PlanJobInput,
  type ReplannedJob,
} from '../workbook/plan-job.js';
import { readTableFile, readWorkbookSheets } from '../workbook/readers/open.js';
import {
  inWords,
  readRules,
  readRulesFile,
  refusal,
  understandTables,
  withStages,
  type RulesReading,
} from '../workbook/rules-reading.js';
import { changesInWords } from '../workbook/season-news.js';
import { setupFromJson, setupFromSheets, type GivenSetup } from '../workbook/setup.js';
import { whatIfInWords } from '../workbook/sheets/what-if.js';
import { writeXlsx } from '../workbook/writers/file.js';
import { planInThreads } from '../workers/node-pool.js';
import { readLogFiles } from './season-log-files.js';
import { rasterise } from './rasterise.js';
import { exportBytes } from './plan-exports.js';
import { readOptions, type Options } from './plan-options.js';

export interface Streams {
  out: (text: string) => void;
  err: (text: string) => void;
  /** the day the plan is made on */
  today: number;
}

/** @throws Problem naming the file when it cannot be read */
function bytesOf(path: string): Uint8Array {
  try {
    return readFileSync(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const why =
      code === 'ENOENT'
        ? 'there is no such file'
        : code === 'EISDIR'
          ? 'it is a folder'
          : (code ?? 'unknown error');
    throw new Problem(`"${path}" cannot be read: ${why}`);
  }
}

function jsonOf(path: string, bytes: Uint8Array, kinds: string): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(bytes).replace(/^\ufeff/, ''));
  } catch (error) {
    throw new Problem(`"${path}" is neither ${kinds} nor JSON: ${(error as Error).message}`);
  }
}

async function setupOf(path: string): Promise<GivenSetup> {
  const bytes = bytesOf(path);
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) {
    try {
      return setupFromSheets(await readWorkbookSheets(bytes));
    } catch (error) {
      if (error instanceof Problem) throw new Problem(`"${path}": ${error.message}`);
      throw error;
    }
  }
  const value = jsonOf(path, bytes, 'a workbook');
  try {
    return setupFromJson(value);
  } catch (error) {
    if (error instanceof Problem) throw new Problem(`"${path}": ${error.message}`);
    throw error;
  }
}

const FIRST_OF_JSON = /^(?:\xef\xbb\xbf)?\s*[[{]/;

/** Rules of a file: a table in .csv or .xlsx, or JSON with `rules` and `stages`, or JSON that is the table. */
async function rulesOf(path: string): Promise<RulesReading> {
  const bytes = bytesOf(path);
  const head = String.fromCharCode(...bytes.subarray(0, 64));
  if (!FIRST_OF_JSON.test(head)) return readRulesFile(path, bytes);
  const value = jsonOf(path, bytes, 'a table');
  try {
    const { setup } = setupFromJson(Array.isArray(value) ? { rules: value } : value);
    if (setup.rules === undefined)
      throw new Problem(
        'it has no part "rules"; accepted is { "rules": [rows], "stages": [rows] }',
      );
    return readRules([
      { name: '', cells: setup.rules },
      ...(setup.stages ? [{ name: 'Stages', cells: setup.stages }] : []),
    ]);
  } catch (error) {
    throw error instanceof Problem ? new Problem(`"${path}": ${error.message}`) : error;
  }
}

/**
 * The rules to plan with, said in words before anything is planned.
 * @returns what takes the place of the site's own rules
 * @throws Problem when a row cannot be read, unless the person said to go on without it
 */
async function rulesFor(
  options: Options,
  site: GivenSetup['setup'],
  say: (text: string) => void,
): Promise<GivenSetup['setup']> {
  const { rules: file, skipBroken } = options;
  if (file === undefined && site.rules === undefined) return {};
  const reading =
    file === undefined
      ? understandTables(site.rules ?? [], site.stages)
      : withStages(await rulesOf(file), site.stages ?? []);
  say(`${inWords(reading).join('\n')}\n`);
  const why = refusal(
    reading,
    'Mend them, or plan without them: --skip-broken-rules. Nothing was written.',
  );
  if (why !== undefined && !skipBroken)
    throw new Problem(file === undefined ? why : `"${file}": ${why}`);
  return { rules: reading.rows, stages: reading.stages };
}

/** Write beside the target, then move into place: a crash leaves the old file whole. */
function put(path: string, bytes: Uint8Array, force: boolean): void {
  const target = resolve(path);
  const temporary = join(
    dirname(target),
    `.${basename(target)}.${randomBytes(4).toString('hex')}.part`,
  );
  try {
    writeFileSync(temporary, bytes, { flag: 'wx' });
    if (force) renameSync(temporary, target);
    else moveToNew(temporary, target);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === 'EEXIST') throw new Problem(standing(path));
    if (code === 'ENOENT')
      throw new Problem(`"${path}" cannot be written: there is no such folder`);
    if (code === 'EACCES' || code === 'EISDIR' || code === 'ENOTDIR' || code === 'EROFS')
      throw new Problem(`"${path}" cannot be written: ${code}`);
    throw error;
  } finally {
    rmSync(temporary, { force: true });
  }
}

/** Fails with EEXIST if the target came to be meanwhile. */
function moveToNew(temporary: string, target: string): void {
  try {
    linkSync(temporary, target);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') throw error;
    copyFileSync(temporary, target, constants.COPYFILE_EXCL);
  }
}

/**
 * Refuses, before any work, what may not be written.
 * @throws Problem if a file to write is one that is read, is named twice, or exists already
 */
function checkTargets(options: Options): void {
  const { file, site, rules, log, out, wanted, force } = options;
  const read = [file, site, rules, ...log].flatMap((path) =>
    path === undefined ? [] : [resolve(path)],
  );
  const seen = new Set<string>();
  for (const path of [out, ...wanted.files.values()]) {
    const target = resolve(path);
    if (target === read[0])
      throw new Problem(`"${path}" is the inventory itself; name another file with --out`);
    if (read.includes(target))
      throw new Problem(`"${path}" is read for this plan; name another file`);
    if (seen.has(target))
      throw new Problem(`"${path}" is named for two files; give each its own name`);
    if (!force && existsSync(path)) throw new Problem(standing(path));
    if (!existsSync(dirname(target)))
      throw new Problem(`"${path}" cannot be written: there is no such folder`);
    seen.add(target);
  }
}

const standing = (path: string): string =>
  `"${path}" exists already and was left as it is; use --force to replace it, or give another name`;

/** What came out, for people and for machines. */
export function summary(job: PlanJob, out: string): Record<string, unknown> {
  const { plan, reading } = job;
  const litres = plan.trees.reduce((sum, t) => sum + t.chosen.litres * t.tree.count, 0);
  const means: Record<string, number> = {};
  for (const t of plan.trees) means[t.chosen.label] = (means[t.chosen.label] ?? 0) + 1;
  return {
    file: out,
    rows: reading.rows.length,
    planned: plan.trees.filter((t) => t.state === 'planned').length,
    cannotBeKept: plan.trees.filter((t) => t.state === 'cannot be kept').length,
    notPlanned: plan.notPlanned.length,
    trees: plan.trees.reduce((sum, t) => sum + t.tree.count, 0),
    waterings: plan.trees.reduce((sum, t) => sum + t.chosen.plan.length, 0),
    litres: Math.round(litres),
    gallons: Math.round(litres / L_PER_GALLON),
    crewDays: plan.crewDays.length,
    overloadedDays: plan.crewDays.filter((d) => d.overload).length,
    means,
    season: [isoDate(plan.site.seasonFrom), isoDate(plan.site.seasonTo)],
    remarks: job.remarks,
    notes: [...job.notes, ...reading.notes, ...plan.problems],
    notPlannedRows: plan.notPlanned,
  };
}

const LISTED = 20;

/** @param said - notes that were printed already */
function spoken(
  s: Record<string, unknown>,
  job: PlanJob,
  said: ReadonlySet<string> = new Set(),
): string {
  const n = (key: string): string => Number(s[key]).toLocaleString('en-US');
  const { notPlanned } = job.plan;
  const lines = [
    `${[s['file'], ...(s['exports'] as string[])].join(', ')} written.`,
    `Rows ${n('rows')}: planned ${n('planned')}, cannot be kept ${n('cannotBeKept')}, not planned ${n('notPlanned')}.`,
    `${n('waterings')} waterings of ${n('trees')} trees, ${n('gallons')} gal (${n('litres')} L), ${n('crewDays')} crew days, ${n('overloadedDays')} overloaded.`,
    ...(Number(s['overloadedDays']) > 0
      ? [
          `! Planned, but ${n('overloadedDays')} crew ${s['overloadedDays'] === 1 ? 'day does' : 'days do'} not fit: all of this holds only if every visit could be made.`,
        ]
      : []),
    ...Object.entries(s['means'] as Record<string, number>).map(
      ([label, rows]) => `  ${label}: ${rows} rows`,
    ),
    ...job.remarks,
    ...(s['notes'] as string[]).filter((note) => !said.has(note)).map((note) => `! ${note}`),
    ...notPlanned
      .slice(0, LISTED)
      .map(
        (r) =>
          `not planned: row ${r.row}${r.id ? ` (${r.id})` : ''}: ${r.reason.replace(/^Row \d+: /, '')}`,
      ),
    ...(notPlanned.length > LISTED
      ? [`… and ${notPlanned.length - LISTED} more, on the sheet Trees`]
      : []),
  ];
  return `${lines.join('\n')}\n`;
}

/** The season planned again from the log's files. */
async function againFrom(
  input: PlanJobInput,
  { log: files, from, chooseAgain, timersAsPlanned, units }: Options,
  today: Day,
): Promise<ReplannedJob> {
  const log = await readLogFiles(files, bytesOf, units);
  const again = { log, today: from ?? today, chooseAgain, timersAsPlanned };
  return replanFromTablesBy(input, again, planInThreads, highsSolver());
}

/** What changed, what the log means, and every row of it that was not used. */
function news({ changes, refused, said }: ReplannedJob, units: Options['units']): string {
  const lines = [
    ...changesInWords(changes, units),
    ...said.map((sentence) => `! ${sentence}`),
    ...refused.map((sentence) => `not used: ${sentence}`),
  ];
  return `${lines.join('\n')}\n`;
}

/**
 * Runs the command.
 * @returns 0 done, 1 done with rows not planned or rows of the log not used, 2 input that cannot be read or output that may not be written
 */
export async function run(argv: readonly string[], io: Streams): Promise<number> {
  try {
    const options = readOptions(argv);
    checkTargets(options);
    io.err(`reading ${options.file}\n`);
    const table = await readTableFile(basename(options.file), bytesOf(options.file));
    const given = options.site === undefined ? undefined : await setupOf(options.site);
    const ruled = await rulesFor(options, given?.setup ?? {}, options.json ? io.err : io.out);
    const input: PlanJobInput = {
      inventory: table.cells,
      ...(table.dateCells && { dateCells: table.dateCells }),
      fileName: basename(options.file),
      madeOn: io.today,
      units: options.units,
      ...(options.crewLanguage && { crewLanguage: options.crewLanguage }),
      ...(given?.setup ?? {}),
      ...ruled,
      notes: [...table.notes, ...(given?.problems ?? [])],
      whatIf: options.whatIf,
      onProgress: (done, total) => io.err(`planned ${done} of ${total}\n`),
    };
    const again = options.log.length > 0 ? await againFrom(input, options, io.today) : undefined;
    const job = again ?? (await planFromTablesBy(input, planInThreads, highsSolver()));
    io.err('writing the workbook\n');
    const book = await writeXlsx(job.model, { rasterise });
    const { units, wanted } = options;
    const others = await exportBytes(job, { units, source: basename(options.file) }, wanted);
    for (const [path, bytes] of [[options.out, book] as const, ...others])
      put(path, bytes, options.force);
    const result = {
      ...summary(job, options.out),
      exports: others.map(([path]) => path),
      ...(again && { changes: again.changes, refused: again.refused, logNotes: again.said }),
      ...(job.whatIf && { whatIf: job.whatIf }),
    };
    if (options.json) io.out(`${JSON.stringify(result)}\n`);
    else {
      if (again) io.out(news(again, units));
      io.out(spoken(result, job, new Set(again ? [...again.said, ...again.refused] : [])));
      if (job.whatIf)
        io.out(`${whatIfInWords(job.whatIf, units, job.plan.site.currency).join('\n')}\n`);
    }
    return job.plan.notPlanned.length > 0 || (again?.refused.length ?? 0) > 0 ? 1 : 0;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    io.err(`${error.message}\n`);
    return 2;
  }
}

function today(): number {
  const now = new Date();
  return dayOf(now.getFullYear(), now.getMonth() + 1, now.getDate());
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  // npm runs scripts in the project's folder; file names are meant where the person stands
  const { INIT_CWD: stands, npm_lifecycle_event: script } = process.env;
  if (script === 'plan' && stands) process.chdir(stands);
  process.exitCode = await run(process.argv.slice(2), {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    today: today(),
  });
}
