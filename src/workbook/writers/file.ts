/**
 * The model as an .xlsx file. The only module, with `charts.ts`, that knows the file library, so the library can be
 * changed here. A file holds values and the spreadsheet's own functions, never add-in formulas.
 */
import { writeXlsx as writeBytes } from 'hucre/xlsx';
import type { CellStyle, ColumnDef, ConditionalRule, WriteSheet } from 'hucre/xlsx';
import { civil } from '../../engine/dates.js';
import { Problem } from '../../engine/problems.js';
import { renderChart } from './charts.js';
import { FACE, INK } from './ink.js';
import type { Column, Format, ModelCell, RichCell, Sheet, Style, WorkbookModel } from '../model.js';
import { FORMATS, letter, lines, looksLikeFormula, rich, tablesOf } from '../model.js';
import { writableModel } from '../writable.js';

interface Look {
  color: string;
  ground?: string;
  bold?: boolean;
  italic?: boolean;
  /** added to the sheet's body size [pt] */
  bigger?: number;
  border?: 'thin' | 'medium' | 'dotted';
}

/** Each style differs in more than colour: weight, slant or border as well. */
const LOOKS: Record<Style, Look> = {
  text: { color: INK.bark },
  input: { color: INK.ochre, ground: INK.straw, border: 'dotted' },
  calculation: { color: INK.loam, italic: true },
  result: { color: INK.water, bold: true },
  header: { color: INK.paper, ground: INK.water, bold: true, border: 'thin' },
  title: { color: INK.water, bold: true, bigger: 6 },
  heading: { color: INK.bark, ground: INK.sand, bold: true, bigger: 1 },
  note: { color: INK.loam },
  caution: { color: INK.clay, bold: true },
  look: { color: INK.clay, bold: true, ground: INK.paper, border: 'thin' },
  fine: { color: INK.leaf },
  field: { color: INK.bark, border: 'medium' },
  frame: { color: INK.bark, bold: true, border: 'medium' },
};

type Align = 'left' | 'center' | 'right';

/** Styles are made once for each combination in use. */
function styleMaker(size: number) {
  const made = new Map<string, CellStyle>();
  return (style: Style, format: Format, align?: Align, wrap = false): CellStyle => {
    const key = `${style}|${format}|${align ?? ''}|${wrap}`;
    let found = made.get(key);
    if (!found) {
      const look = LOOKS[style];
      const side = look.border && { style: look.border, color: { rgb: INK.rule } };
      found = {
        font: {
          name: FACE,
          size: size + (look.bigger ?? 0),
          color: { rgb: look.color },
          bold: look.bold ?? false,
          italic: look.italic ?? false,
        },
        alignment: {
          vertical: 'top',
          wrapText: wrap,
          ...(align && { horizontal: align }),
          ...(align === 'left' && wraps(style) && { indent: 1 }),
        },
        ...(look.ground && {
          fill: { type: 'pattern', pattern: 'solid', fgColor: { rgb: look.ground } },
        }),
        ...(side && {
          border:
            style === 'frame'
              ? { top: side, bottom: side }
              : { top: side, right: side, bottom: side, left: side },
        }),
        ...(format !== 'general' && { numFmt: FORMATS[format] }),
      };
      made.set(key, found);
    }
    return found;
  };
}

export interface FileOptions {
  /** leave cached results out, so that the program that opens the file must calculate; default false */
  uncached?: boolean;
}

/** Styles whose text is not held in by the width of its column. */
const SPANNING: ReadonlySet<Style> = new Set(['title', 'heading', 'caution', 'frame']);
const wraps = (style: Style): boolean => !SPANNING.has(style);
/** Rows above which text is not wrapped: nobody reads so many lines, and measuring them takes long. */
const MEASURED_ROWS = 20_000;
const NEUTRAL: Format = 'text';

function refuseAddIn(text: string, where: string): void {
  if (/\bSOAK\s*\.|_xldudf/i.test(text.replace(/"[^"]*"/g, '')))
    throw new Problem(`${where}: a file may not carry an add-in formula`);
}

/** Longest text a cell can hold; the end of a longer one is cut and marked [characters]. */
const LONGEST_TEXT = 32_767;
const fit = <T>(value: T): T | string =>
  typeof value === 'string' && value.length > LONGEST_TEXT
    ? `${value.slice(0, LONGEST_TEXT - 1)}…`
    : value;

/** Tables so small that blank cells are drawn as well, to show where to type. */
const DRAWN_BLANKS = 3000;

/** Mean width of a letter over the size of the type [-]. */
const LETTER = 0.475;
const BOLD_LETTER = 0.54;
const PIXELS_PER_POINT = 96 / 72;
/** Column widths count digits of this width, besides padding and indent [px]. */
const DIGIT_PIXELS = 7;
const PADDING_PIXELS = 9;
/** Height of a line of type over its size [-]. */
const LEADING = 1.32;
/** Paper for wet hands: rows at least this high where the type is big [pt]. */
const CREW_ROW = 26;

/** Heights of rows with big or wrapped text [pt]: programs that draw without measuring would cut them. */
function heights(sheet: Sheet): Map<number, { height: number }> {
  const out = new Map<number, { height: number }>();
  const set = (row: number, type: number, count: number, least: number): void => {
    const height = Math.max(least, Math.ceil(type * LEADING * count + 2));
    if (count > 1 || height > sheet.fontSize * LEADING + 2) out.set(row - 1, { height });
  };
  const linesIn = (value: ModelCell, column: Column, bold: boolean): number => {
    const content = rich(value);
    if (!column.wrap && !bold) return 1;
    if (typeof content.value !== 'string' || (content.style && SPANNING.has(content.style)))
      return 1;
    const letter = (bold ? BOLD_LETTER : LETTER) * sheet.fontSize * PIXELS_PER_POINT;
    const room = Math.max(3, (column.width * DIGIT_PIXELS - PADDING_PIXELS) / letter);
    return Math.max(1, lines(content.value, room).length);
  };
  for (const block of sheet.blocks) {
    if (block.kind === 'text') {
      block.lines.forEach((line, i) => {
        const bigger = Math.max(0, ...line.map((c) => LOOKS[c.style ?? 'text'].bigger ?? 0));
        if (bigger > 0) set(block.top + i, sheet.fontSize + bigger, 1, 0);
      });
      continue;
    }
    const least = sheet.fontSize >= 12 ? CREW_ROW : 0;
    const most = (row: readonly ModelCell[], bold: boolean): number =>
      block.columns.reduce((n, c, i) => Math.max(n, linesIn(row[i] ?? null, c, bold)), 1);
    set(
      block.top,
      sheet.fontSize,
      most(
        block.columns.map((c) => c.header),
        true,
      ),
      0,
    );
    if (block.rows.length <= MEASURED_ROWS)
      block.rows.forEach((row, i) =>
        set(block.top + 1 + i, sheet.fontSize, most(row, false), least),
      );
  }
  return out;
}

function renderSheet(sheet: Sheet, model: WorkbookModel, options: FileOptions): WriteSheet {
  const style = styleMaker(sheet.fontSize);
  const tables = tablesOf(sheet);
  const widest = [...tables].sort((a, b) => b.rows.length - a.rows.length)[0];
  const rows: (string | number | boolean | null)[][] = [];
  type FileCell = NonNullable<WriteSheet['cells']> extends Map<string, infer C> ? C : never;
  const cells = new Map<string, FileCell>();

  const put = (row: number, col: number, value: RichCell, base: Partial<Column>): void => {
    const text = typeof value.value === 'string' ? value.value : '';
    const format =
      value.formula === undefined && looksLikeFormula(text)
        ? NEUTRAL
        : (value.format ?? base.format ?? 'general');
    const own = value.style ?? base.style ?? 'text';
    // A heading runs over the cells to its right; one in the middle of a table keeps to its column.
    const alone = col === 0 || base.style === undefined;
    const runs =
      (SPANNING.has(own) && alone) || (own === 'look' && base.style === 'text' && col === 0);
    const out: FileCell = {
      value: fit(value.value),
      style: style(own, format, runs ? 'left' : base.align, runs ? false : (base.wrap ?? false)),
    };
    if (value.formula !== undefined) {
      refuseAddIn(value.formula, `${sheet.name}!${letter(col)}${row}`);
      out.formula = value.formula;
      out.value = null;
      if (!options.uncached) out.formulaResult = value.value;
    }
    if (value.jump) out.hyperlink = { target: '', location: value.jump };
    cells.set(`${row - 1},${col}`, out);
  };

  /** Most cells of a big table are plain and take their column's style; only the others are named. */
  const plain = (value: ModelCell): value is string | number | boolean | null =>
    value === null ||
    (typeof value !== 'object' && !(typeof value === 'string' && looksLikeFormula(value)));

  for (const block of sheet.blocks) {
    while (rows.length < block.top - 1) rows.push([]);
    if (block.kind === 'text') {
      block.lines.forEach((line, i) => {
        rows[block.top - 1 + i] = [];
        line.forEach((value, col) => put(block.top + i, col, value, {}));
      });
      continue;
    }
    rows[block.top - 1] = block.columns.map((c) => c.header);
    block.columns.forEach((c, col) =>
      put(block.top, col, { value: c.header, style: 'header' }, { align: c.align, wrap: true }),
    );
    block.rows.forEach((line, i) => {
      const at = block.top + 1 + i;
      rows[at - 1] = line.map((value) => (plain(value) ? fit(value) : null));
      line.forEach((value, col) => {
        const base = block.columns[col];
        if (!base) return;
        const blankToDraw =
          value === null && base.style !== 'text' && block.rows.length < DRAWN_BLANKS;
        if (block !== widest || !plain(value) || blankToDraw)
          put(
            at,
            col,
            rich(value),
            block.rows.length > MEASURED_ROWS ? { ...base, wrap: false } : base,
          );
      });
    });
  }

  const count = Math.max(0, ...tables.map((t) => t.columns.length));
  const measured = (widest?.rows.length ?? 0) <= MEASURED_ROWS;
  const columns: ColumnDef[] = Array.from({ length: Math.max(count, 1) }, (_, i) => {
    const own = widest?.columns[i];
    const width = Math.max(0, ...tables.map((t) => t.columns[i]?.width ?? 0)) || 12;
    return {
      width,
      hidden: sheet.hidden.includes(letter(i)),
      ...(own && { style: style(own.style, own.format, own.align, own.wrap && measured) }),
    };
  });

  const rowDefs = heights(sheet);

  const { print } = sheet;
  const conditions: ConditionalRule[] = sheet.conditions.map((c, i) => ({
    type: 'expression',
    priority: i + 1,
    range: c.range,
    formula: c.formula,
    style: {
      font: { color: { rgb: LOOKS[c.style].color }, bold: LOOKS[c.style].bold ?? false },
    },
  }));
  return {
    name: sheet.name,
    columns,
    rows,
    cells,
    rowDefs,
    tables: tables.map((t) => ({
      name: t.name,
      range: `A${t.top}:${letter(t.columns.length - 1)}${t.top + t.rows.length}`,
      columns: t.columns.map((c) => ({ name: c.header })),
      style: 'TableStyleLight1',
      showRowStripes: false,
      showAutoFilter: t.rows.length > 20,
    })),
    dataValidations: sheet.validations.map((v) => ({
      type: 'list',
      range: v.range,
      ...(v.source === undefined ? { values: v.values } : { formula1: v.source }),
      allowBlank: true,
      showInputMessage: true,
      inputMessage: v.message,
      showErrorMessage: true,
      errorStyle: 'warning',
      errorMessage: v.message,
    })),
    conditionalRules: conditions,
    ...(sheet.charts.length > 0 && { charts: sheet.charts.map(renderChart) }),
    ...((sheet.freeze.rows || sheet.freeze.columns) && { freezePane: sheet.freeze }),
    view: { showGridLines: false },
    rowBreaks: print.breaks.map((row) => row - 1),
    pageSetup: {
      paperSize: model.paper,
      orientation: print.orientation,
      margins: { top: 0.7, bottom: 0.7, left: 0.5, right: 0.5, header: 0.3, footer: 0.3 },
      ...(print.pagesWide > 0 && { fitToPage: true, fitToWidth: print.pagesWide, fitToHeight: 0 }),
      ...(print.titleRows && { printTitlesRow: `$${print.titleRows[0]}:$${print.titleRows[1]}` }),
      ...(print.titleColumns && {
        printTitlesColumn: `$${print.titleColumns[0]}:$${print.titleColumns[1]}`,
      }),
    },
    headerFooter: headerFooter(sheet, model),
    a11y: { summary: sheet.title },
  };
}

function headerFooter(sheet: Sheet, model: WorkbookModel) {
  const words = sheet.pageWords ?? {
    header: model.title,
    footer: 'A planning aid: local code and licensed practice decide',
    page: 'Page',
    of: 'of',
  };
  const type = `&"${FACE}"&9`;
  return {
    oddHeader: `&L${type}${headerText(words.header)}&R${type}${headerText(sheet.title)}`,
    oddFooter: `&L${type}${headerText(words.footer, 150)}&R${type} ${words.page} &P ${words.of} &N`,
  };
}

/** In headers an ampersand starts a code, and a digit after a size would join it. */
const headerText = (text: string, most = 90): string =>
  ` ${text.replace(/&/g, '&&').slice(0, most)}`;

/** The workbook as the bytes of an .xlsx file. */
export async function writeXlsx(
  given: WorkbookModel,
  options: FileOptions = {},
): Promise<Uint8Array> {
  const model = writableModel(given);
  const { year, month, date } = civil(model.madeOn);
  const made = new Date(Date.UTC(year, month - 1, date));
  return writeBytes({
    sheets: model.sheets.map((sheet) => renderSheet(sheet, model, options)),
    namedRanges: Object.entries(model.names).map(([name, range]) => ({ name, range })),
    properties: {
      title: model.title,
      description: model.description,
      creator: 'soakbook',
      created: made,
      modified: made,
    },
    defaultFont: { name: FACE, size: 10 },
  });
}
