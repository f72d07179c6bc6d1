/** The sample plan as exports read it, and other people's programs that read what comes out. */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { exportContext } from '../../../src/workbook/exports/context.js';
import { FONT_FILES, type Fonts } from '../../../src/workbook/exports/pdf.js';
import type { PlanJob, PlanJobInput } from '../../../src/workbook/plan-job.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { sampleJob } from '../job.js';
import { inFolder, PROGRAMS } from '../programs.js';

export const contextOf = (job: PlanJob, units: 'US' | 'SI'): Context =>
  exportContext(job, { units, source: 'harbour-row-trees.csv' });

export const sampleContext = async (
  units: 'US' | 'SI' = 'US',
  more: Partial<PlanJobInput> = {},
): Promise<Context> => contextOf(await sampleJob({ units, ...more }), units);

const { resolve } = createRequire(import.meta.url);
export const FONTS: Fonts = {
  regular: readFileSync(resolve(FONT_FILES.regular)),
  bold: readFileSync(resolve(FONT_FILES.bold)),
};

const runs = (name: string): boolean => {
  try {
    execFileSync(name, ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
};

/** True when a test of pages must be skipped because poppler's programs are missing; never in CI. */
export function skipWithoutPoppler(): boolean {
  if (runs('pdftotext') || process.env['CI']) return false;
  console.warn('skipped: pdftotext (poppler-utils) not installed on this machine');
  return true;
}

/** What poppler says of a PDF: its text as laid out, its facts, its fonts. */
export function readPdf(bytes: Uint8Array): {
  text: string;
  pages: number;
  size: string;
  fonts: string[];
} {
  return inFolder((folder) => {
    const path = join(folder, 'pages.pdf');
    writeFileSync(path, bytes);
    const say = (name: string, ...args: string[]): string =>
      execFileSync(name, args, { encoding: 'utf8', maxBuffer: 1 << 28 });
    const info = say('pdfinfo', path);
    const fact = (name: string): string =>
      new RegExp(`^${name}:\\s*(.*)$`, 'm').exec(info)?.[1] ?? '';
    return {
      // blanks that hold a number and its unit together are blanks to a reader
      text: say('pdftotext', '-layout', path, '-').replaceAll('\u00a0', ' '),
      pages: Number(fact('Pages')),
      size: fact('Page size'),
      fonts: say('pdffonts', path).trim().split('\n').slice(2),
    };
  });
}

/** Runs a few lines of Python over a file and reads the JSON they print. */
export function python<T>(lines: string, bytes: Uint8Array | string, name: string): T {
  return inFolder((folder) => {
    const path = join(folder, name);
    writeFileSync(path, bytes);
    const said = execFileSync(PROGRAMS.openpyxl ?? 'python3', ['-c', lines, path], {
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    return JSON.parse(said) as T;
  });
}

/** Formula cells and texts of a workbook, as openpyxl tells the two apart. */
export const kindsOf = (
  book: Uint8Array,
): { formulas: string[]; texts: string[]; breaks: number; titles: string[] } =>
  python(
    `
import json, sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
out = {"formulas": [], "texts": [], "breaks": 0, "titles": []}
for sheet in book.worksheets:
    out["breaks"] += len(sheet.row_breaks.brk)
    out["titles"].append(sheet.print_title_rows or "")
    for row in sheet.iter_rows():
        for c in row:
            if c.data_type == "f": out["formulas"].append(sheet.title + "!" + c.coordinate)
            elif isinstance(c.value, str): out["texts"].append(c.value)
json.dump(out, sys.stdout)
`,
    book,
    'book.xlsx',
  );

/** A CSV file as Python's csv module reads it, in its strict mode. */
export const readCsv = (text: string): string[][] =>
  python(
    `
import csv, json, sys
csv.field_size_limit(10**9)
with open(sys.argv[1], newline="", encoding="utf-8-sig") as f:
    json.dump(list(csv.reader(f, strict=True)), sys.stdout)
`,
    text,
    'plan.csv',
  );

/** A CSV file as LibreOffice opens it, saved as a workbook. */
export const asBook = (text: string): Uint8Array =>
  inFolder((folder) => {
    writeFileSync(join(folder, 'plan.csv'), text);
    const profile = `-env:UserInstallation=file://${join(folder, 'profile')}`;
    execFileSync(
      PROGRAMS.LibreOffice ?? 'soffice',
      [profile, '--headless', '--convert-to', 'xlsx', '--outdir', folder, join(folder, 'plan.csv')],
      { stdio: 'ignore' },
    );
    return readFileSync(join(folder, 'plan.xlsx'));
  });
