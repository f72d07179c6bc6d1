/** One model, three writers: every cell of the sample is the same in the file, on the desk and in the spreadsheet program. */
import type { IStyleData } from '@univerjs/presets';
import { readXlsx } from 'hucre/xlsx';
import { beforeAll, describe, expect, it } from 'vitest';
import { deskSheetData } from '../../src/workbook/writers/desk.js';
import { writeExcel } from '../../src/workbook/writers/excel.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { layOutAll, type LaidSheet } from '../../src/workbook/writers/laid-out.js';
import { FORMATS, type Scalar, type WorkbookModel } from '../../src/workbook/model.js';
import { FakeHost } from '../office/fake-host.js';
import { sampleJob } from './job.js';

const SLOW = 240_000;

/** What is compared of a cell, in words all three can be put in. */
interface Seen {
  /** of a formula's result only the file and the desk hold any */
  value: Scalar;
  formula: string;
  format: string;
  bold: boolean;
  italic: boolean;
  color: string;
  fill: string;
  align: string;
  upright: string;
  wrap: boolean;
}
type Grid = (sheet: string, row: number, column: number) => Seen;

const upper = (color: string | undefined): string => (color ?? '').replace('#', '').slice(-6).toUpperCase(); // prettier-ignore

/** Files and the spreadsheet program call the middle of a row its center. */
const upright = (vertical: string | undefined): string =>
  vertical?.toLowerCase() === 'center' ? 'middle' : (vertical?.toLowerCase() ?? '');

/** As laid out: what the three are held against, and which cells there are. */
function asLaid(laid: LaidSheet, row: number, column: number): Seen | undefined {
  const cell = laid.cells(row, column);
  if (!cell) return undefined;
  const { look } = cell;
  const holds = cell.value !== null || cell.formula !== undefined;
  // a blank cell without ground and border shows nothing
  if (!holds && look.ground === undefined && look.border === undefined) return undefined;
  return {
    value: cell.value === '' ? null : cell.value,
    formula: cell.formula ?? '',
    format: cell.format,
    bold: look.bold,
    italic: look.italic,
    color: upper(look.color),
    fill: upper(look.ground),
    align: cell.align ?? '',
    upright: laid.upright,
    wrap: cell.wrap,
  };
}

async function fileGrid(model: WorkbookModel): Promise<Grid> {
  const bytes = await writeXlsx(model, { pictures: false });
  const { sheets } = await readXlsx(bytes, { readStyles: true });
  return (name, row, column) => {
    const sheet = sheets.find((s) => s.name === name)!;
    const cell = sheet.cells?.get(`${row},${column}`);
    const value = cell?.formulaResult ?? cell?.value ?? sheet.rows[row]?.[column] ?? null;
    const style = cell?.style;
    const fill = style?.fill?.type === 'pattern' ? style.fill.fgColor?.rgb : undefined;
    return {
      value: value instanceof Date ? dated(value, style?.numFmt) : value === '' ? null : (value as Scalar), // prettier-ignore
      formula: cell?.formula ?? '',
      format: style?.numFmt ?? 'General',
      bold: style?.font?.bold ?? false,
      italic: style?.font?.italic ?? false,
      color: upper(style?.font?.color?.rgb),
      fill: upper(fill),
      align: style?.alignment?.horizontal ?? '',
      upright: upright(style?.alignment?.vertical),
      wrap: style?.alignment?.wrapText ?? false,
    };
  };
}

const serial = (date: Date): number => date.getTime() / 86_400_000 + 25569;

/** A time of day is read as one of the first days there are: its minutes are what the cell holds. */
const dated = (date: Date, format: string | undefined): number =>
  format === FORMATS.time ? Math.round((serial(date) % 1) * 1440) / 1440 : serial(date);

function deskGrid(laid: readonly LaidSheet[]): Grid {
  const data = new Map(laid.map((s) => [s.name, deskSheetData(s, { id: s.name, live: false })]));
  const SIDES = ['', 'left', 'center', 'right'];
  return (name, row, column) => {
    const cell = data.get(name)?.cellData[row]?.[column];
    const style = (cell?.s ?? {}) as IStyleData;
    const value = cell?.v ?? null;
    return {
      value: cell?.t === 3 ? value === 1 : value === '' ? null : value,
      formula: (cell?.f ?? '').replace(/^=/, ''),
      format: style.n?.pattern ?? 'General',
      bold: style.bl === 1,
      italic: style.it === 1,
      color: upper(style.cl?.rgb ?? undefined),
      fill: upper(style.bg?.rgb ?? undefined),
      align: SIDES[style.ht ?? 0] ?? '?',
      upright: ['', 'top', 'middle', 'bottom'][style.vt ?? 0] ?? '?',
      wrap: style.tb === 3,
    };
  };
}

async function officeGrid(model: WorkbookModel): Promise<Grid> {
  const host = new FakeHost();
  const remove = host.install();
  try {
    await writeExcel(model, { live: false, onProgress: () => undefined, signal: { aborted: false } }); // prettier-ignore
  } finally {
    remove();
  }
  return (name, row, column) => {
    const cell = host.cellAt(name, row, column);
    return {
      value: cell.formula !== '' || cell.value === '' ? null : cell.value,
      formula: cell.formula.replace(/^=/, ''),
      format: cell.numberFormat,
      bold: cell.font.bold,
      italic: cell.font.italic,
      color: upper(cell.font.color),
      fill: upper(cell.fill),
      align: cell.align === 'General' ? '' : cell.align.toLowerCase(),
      upright: upright(cell.vertical),
      wrap: cell.wrap,
    };
  };
}

describe('one model, three writers', () => {
  let model: WorkbookModel;
  let laid: LaidSheet[];
  beforeAll(async () => {
    ({ model } = await sampleJob());
    laid = layOutAll(model);
  }, SLOW);

  /** Differences of a writer's grid from the layout, some of them in words; and how many cells were compared. */
  function compare(grid: Grid, computed: boolean): { cells: number; differences: string[] } {
    const differences: string[] = [];
    let cells = 0;
    for (const sheet of laid)
      for (let row = 0; row < sheet.rows; row++)
        for (let column = 0; column < sheet.columns; column++) {
          const wanted = asLaid(sheet, row, column);
          if (!wanted) continue;
          cells += 1;
          const got = grid(sheet.name, row, column);
          const value = computed || wanted.formula === '' ? wanted.value : null;
          for (const [key, want] of Object.entries({ ...wanted, value })) {
            const have = got[key as keyof Seen];
            if (have !== want && !(typeof want === 'number' && Math.abs(Number(have) - want) <= 1e-12 * Math.abs(want)))
              differences.push(`${sheet.name} ${row + 1},${column + 1} ${key}: ${have}, not ${want}`);
          }
        }
    return { cells, differences };
  } // prettier-ignore

  const holds = ({ cells, differences }: ReturnType<typeof compare>): void => {
    expect(differences.slice(0, 20)).toEqual([]);
    expect(cells).toBeGreaterThan(20_000);
  };

  it('the file has every cell as laid out', async () => holds(compare(await fileGrid(model), true)), SLOW); // prettier-ignore
  it('the desk has every cell as laid out', () => holds(compare(deskGrid(laid), true)), SLOW);
  it(
    'the spreadsheet program is handed every cell as laid out',
    async () => holds(compare(await officeGrid(model), false)),
    SLOW,
  );
});
