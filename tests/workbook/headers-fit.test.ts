/** Columns hold the words of their headers, and rows the lines of their text, measured with the font's own file of widths. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { deskSheets } from '../../src/desk/sheets.js';
import { clientCopy } from '../../src/workbook/exports/client-copy.js';
import { crewCopy } from '../../src/workbook/exports/crew-copy.js';
import { SheetDraft, tablesOf, type WorkbookModel } from '../../src/workbook/model.js';
import { layOut, layOutAll } from '../../src/workbook/writers/laid-out.js';
import { linesOfText, textWidth } from '../../src/workbook/writers/type-width.js';
import { contextOf } from './exports/samples.js';
import { sampleJob } from './job.js';

const SLOW = 240_000;
/** Widths of the type as Adobe publishes them, from the file that a library for PDF carries. */
const METRICS = join(import.meta.dirname, '..', '..', 'node_modules', 'pdfkit', 'js', 'data');

/** Name of a sign that is not its own name in a file of widths. */
const SIGNS = new Map(Object.entries({
  ' ': 'space', '(': 'parenleft', ')': 'parenright', ',': 'comma', '.': 'period', '/': 'slash', '-': 'hyphen', ':': 'colon',
  '·': 'periodcentered', ';': 'semicolon', '=': 'equal', '÷': 'divide', '×': 'multiply', '–': 'endash', '#': 'numbersign', '%': 'percent', $: 'dollar', '’': 'quoteright', "'": 'quotesingle', '³': 'threesuperior', '²': 'twosuperior',
  á: 'aacute', é: 'eacute', í: 'iacute', ó: 'oacute', ú: 'uacute', ñ: 'ntilde', Á: 'Aacute', '?': 'question', '+': 'plus',
  ...Object.fromEntries(['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'].map((name, n) => [String(n), name])),
})); // prettier-ignore

function published(file: string): (text: string, size: number) => number {
  const widths = new Map(
    [...readFileSync(join(METRICS, file), 'utf8').matchAll(/WX (\d+) ; N (\w+)/g)].map(
      ([, width, name]) => [name!, Number(width)],
    ),
  );
  return (text, size) => {
    const units = [...text].map((sign) => {
      const width = widths.get(SIGNS.get(sign) ?? sign);
      if (width === undefined) throw new Error(`no width of ${sign}`);
      return width;
    });
    return (units.reduce((sum, width) => sum + width, 0) / 1000) * size * (96 / 72);
  };
}

const bold = published('Helvetica-Bold.afm');
/** A file's column of that many characters, less what a spreadsheet program keeps free and an indent [px]. */
const room = (width: number, align: string): number => width * 7 - 5 - (align === 'left' ? 10 : 0);

/** Words of headers that are wider than their column. */
const broken = (model: WorkbookModel): string[] =>
  layOutAll(model).flatMap((laid, s) =>
    tablesOf(model.sheets[s]!).flatMap((table) =>
      table.columns.flatMap(({ header, align }, c) =>
        header
          .split(' ')
          .filter((word) => bold(word, laid.bodySize) > room(laid.widths[c]!, align))
          .map((word) => `${laid.name}: ${word} in “${header}”`),
      ),
    ),
  );

describe('columns hold the words of their headers', () => {
  it.each(['US', 'SI'] as const)(
    'on every sheet of the workbook and of its copies, in both languages, %s',
    async (units) => {
      const job = await sampleJob({ crewLanguage: 'both', units });
      const ctx = { ...contextOf(job, units), crewLanguage: 'both' as const };
      const copies = [job.model, crewCopy(ctx), clientCopy(ctx)];
      expect(job.model.sheets.length).toBeGreaterThan(20);
      expect(job.model.sheets.map((s) => s.name)).toContain('Cuadrilla');
      expect(copies.flatMap(broken)).toEqual([]);
    },
    SLOW,
  );

  it('of an inventory in capitals as well, on the sheet Trees and on the desk', () => {
    const header = 'LONGITUDE WESTERNMOST';
    const draft = new SheetDraft('Trees', 'Trees');
    draft.table('Trees', [{ key: 'a', header, width: 6 }], 1, () => [-1]);
    const sheet = draft.done();
    const model = { title: '', description: '', madeOn: 46_000, paper: 'letter', sheets: [sheet], names: {} } as const; // prettier-ignore
    const asGiven = tablesOf(sheet)[0]!.columns[0]!.width;
    expect(bold('WESTERNMOST', 10)).toBeGreaterThan(room(asGiven, 'left'));
    expect(broken({ ...model, sheets: [sheet] })).toEqual([]);

    const [open] = deskSheets('trees', { cells: [['LONGITUDE'], [-1]] }, [], 0);
    // a browser without the face falls back on one a fifth wider
    expect(open!.widths[0]).toBeGreaterThan(bold('LONGITUDE', 11) * 1.2 + 10);
  });

  it('but no single word takes the page', () => {
    const draft = new SheetDraft('Trees', 'Trees');
    draft.table('Trees', [{ key: 'a', header: 'W'.repeat(400), width: 6 }], 1, () => [-1]);
    const model = { title: '', description: '', madeOn: 46_000, paper: 'letter', sheets: [], names: {} } as const; // prettier-ignore
    const laid = layOut(draft.done(), { ...model, sheets: [] });
    expect(laid.widths[0]).toBe(30);
    // what is broken has its lines
    expect(laid.heights.get(0)!).toBeGreaterThan(15 * 10 * 1.15);
  });
});

describe('the measure', () => {
  it('is the published one, letter by letter', () => {
    const regular = published('Helvetica.afm');
    for (const sign of [...'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ', ...SIGNS.keys()]) {
      if (sign === "'" || sign === '’') continue; // typewriter and printer's quotes share a code in the old files
      expect([sign, textWidth(sign, 10, false)]).toEqual([sign, regular(sign, 10)]);
      expect([sign, textWidth(sign, 10, true)]).toEqual([sign, bold(sign, 10)]);
    }
  }); // prettier-ignore

  it('breaks text between words, and words only where they are wider than the room', () => {
    const two = textWidth('aaaa bbbb', 10, false);
    expect(linesOfText('aaaa bbbb', two, 10, false)).toBe(1);
    expect(linesOfText('aaaa bbbb', two - 1, 10, false)).toBe(2);
    expect(linesOfText('aaaa\nbbbb', two, 10, false)).toBe(2);
    expect(linesOfText('a'.repeat(40), textWidth('a'.repeat(10), 10, false), 10, false)).toBe(4);
    expect(linesOfText('', 50, 10, false)).toBe(1);
  });
});
