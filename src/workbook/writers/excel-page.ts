/** Tables, panes, lists, conditions and the printed page of a sheet, through the spreadsheet program. */
import type { LaidSheet } from './laid-out.js';
import { letter, type Validation } from '../model.js';

/** Longest list that can stand in a rule itself, and longest message of a prompt and of a warning [characters]. */
const LONGEST_LIST = 255;
const LONGEST_PROMPT = 255;
const LONGEST_WARNING = 225;

export function addTables(sheet: Excel.Worksheet, laid: LaidSheet): void {
  for (const { name, top, columns, rows, filter } of laid.tables) {
    const table = sheet.tables.add(`A${top}:${letter(columns.length - 1)}${top + rows}`, true);
    table.name = name;
    table.style = 'TableStyleLight1';
    table.showBandedRows = false;
    table.showFilterButton = filter;
  }
}

const short = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1)}…`;

/** The list as the program takes it; undefined when it cannot stand in a rule. */
function listSource({ values, source }: Validation): string | undefined {
  if (source !== undefined) return `=${source}`;
  const joined = values.join(',');
  const fits = joined.length <= LONGEST_LIST && !values.some((v) => /,/.test(v));
  return fits && !joined.startsWith('=') ? joined : undefined;
}

/** @returns lists that were left out, by their range */
export function addValidations(sheet: Excel.Worksheet, laid: LaidSheet): string[] {
  const left: string[] = [];
  for (const own of laid.validations) {
    const source = listSource(own);
    if (source === undefined) {
      left.push(own.range);
      continue;
    }
    const { dataValidation } = sheet.getRange(own.range);
    dataValidation.rule = { list: { inCellDropDown: true, source } };
    dataValidation.ignoreBlanks = true;
    dataValidation.prompt = {
      showPrompt: true,
      title: '',
      message: short(own.message, LONGEST_PROMPT),
    };
    dataValidation.errorAlert = {
      showAlert: true,
      style: 'Warning',
      title: '',
      message: short(own.message, LONGEST_WARNING),
    };
  }
  return left;
}

export function addConditions(sheet: Excel.Worksheet, laid: LaidSheet): void {
  for (const { range, formula, look } of laid.conditions) {
    const { custom } = sheet.getRange(range).conditionalFormats.add('Custom');
    custom.rule.formula = `=${formula}`;
    custom.format.font.color = `#${look.color}`;
    custom.format.font.bold = look.bold;
  }
}

export function setPanes(sheet: Excel.Worksheet, { freeze }: LaidSheet): void {
  const { rows, columns } = freeze;
  if (rows > 0 && columns > 0) sheet.freezePanes.freezeAt(`A1:${letter(columns - 1)}${rows}`);
  else if (rows > 0) sheet.freezePanes.freezeRows(rows);
  else if (columns > 0) sheet.freezePanes.freezeColumns(columns);
}

export function setPage(sheet: Excel.Worksheet, { page, breaks }: LaidSheet): void {
  const { pageLayout } = sheet;
  pageLayout.orientation = page.orientation === 'portrait' ? 'Portrait' : 'Landscape';
  pageLayout.paperSize = page.paper === 'a4' ? 'A4' : 'Letter';
  pageLayout.zoom = page.pagesWide > 0 ? { horizontalFitToPages: page.pagesWide } : { scale: 100 };
  pageLayout.setPrintMargins('Inches', page.margins);
  if (page.titleRows) pageLayout.setPrintTitleRows(`$${page.titleRows[0]}:$${page.titleRows[1]}`);
  if (page.titleColumns)
    pageLayout.setPrintTitleColumns(`$${page.titleColumns[0]}:$${page.titleColumns[1]}`);
  const words = pageLayout.headersFooters.defaultForAllPages;
  words.leftHeader = page.header.left;
  words.rightHeader = page.header.right;
  words.leftFooter = page.footer.left;
  words.rightFooter = page.footer.right;
  for (const row of breaks) sheet.horizontalPageBreaks.add(`A${row + 1}`);
}
