/** Other people's spreadsheet programs, to open and recalculate our files with. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';

export type Value = string | number | boolean | null;
/** Sheet name → cell address → value. Blank cells are left out. */
export type Values = Record<string, Record<string, Value>>;

const onPath = (name: string): string | undefined =>
  (process.env['PATH'] ?? '')
    .split(delimiter)
    .map((folder) => join(folder, name))
    .find((path) => existsSync(path));

const reads = (python: string): boolean => {
  try {
    execFileSync(python, ['-c', 'import openpyxl'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
};

const python = ['/usr/bin/python3', 'python3'].find((path) => reads(path));

/** Programs that recalculate, by name; undefined where the machine has none. */
export const PROGRAMS = {
  LibreOffice: onPath('soffice'),
  Gnumeric: onPath('ssconvert'),
  openpyxl: python,
} as const;
export type Program = keyof typeof PROGRAMS;

/**
 * True when a test must be skipped because programs are missing. In CI nothing may be missing: there the
 * test runs and fails with a sentence.
 */
export function skipWithout(...programs: Program[]): boolean {
  const missing = programs.filter((name) => PROGRAMS[name] === undefined);
  if (missing.length === 0) return false;
  if (process.env['CI']) return false;
  console.warn(`skipped: ${missing.join(' and ')} not installed on this machine`);
  return true;
}

function program(name: Program): string {
  const path = PROGRAMS[name];
  if (path === undefined)
    throw new Error(`${name} is missing; this test needs it to recalculate the workbook`);
  return path;
}

export function inFolder<T>(use: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'soak-test-'));
  try {
    return use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const READ = `
import datetime, json, sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1], data_only=sys.argv[2] == "values")
epoch = datetime.datetime(1899, 12, 30)
out = {}
for sheet in book.worksheets:
    cells = out[sheet.title] = {}
    for row in sheet.iter_rows():
        for cell in row:
            v = cell.value
            if v is None: continue
            if isinstance(v, datetime.datetime): v = (v - epoch).total_seconds() / 86400
            elif isinstance(v, (datetime.date, datetime.time, datetime.timedelta)): v = str(v)
            cells[cell.coordinate] = v
json.dump(out, sys.stdout)
`;

/** Every cell as openpyxl reads it: what formulas are, or what they last gave. */
export function readCells(path: string, what: 'values' | 'formulas'): Values {
  const text = execFileSync(program('openpyxl'), ['-c', READ, path, what], {
    maxBuffer: 1 << 30,
    encoding: 'utf8',
  });
  return JSON.parse(text) as Values;
}

/** Open, calculate, save again, and read what every cell then shows. */
export function recalculate(name: 'LibreOffice' | 'Gnumeric', book: Uint8Array): Values {
  const path = program(name);
  return inFolder((folder) => {
    const source = join(folder, 'book.xlsx');
    const result = join(folder, 'out', 'book.xlsx');
    writeFileSync(source, book);
    if (name === 'LibreOffice')
      execFileSync(
        path,
        [
          `-env:UserInstallation=file://${join(folder, 'profile')}`,
          '--headless', '--convert-to', 'xlsx:Calc MS Excel 2007 XML', '--outdir', join(folder, 'out'), source,
        ],
        { stdio: 'ignore' },
      ); // prettier-ignore
    else {
      execFileSync('mkdir', ['-p', join(folder, 'out')]);
      execFileSync(path, ['--recalc', '-T', 'Gnumeric_Excel:xlsx2', source, result], {
        stdio: 'ignore',
      });
    }
    if (!existsSync(result)) throw new Error(`${name} opened the workbook but saved nothing`);
    return readCells(result, 'values');
  });
}

export const bytesOf = (path: string): Uint8Array => readFileSync(path);
