/** Models written into the open workbook as sheets: put in, remembered for saving, taken away again, and written anew. */
import type { ICellData, IWorksheetData } from '@univerjs/presets';
import { Problem } from '../engine/problems.js';
import type { Receipt, WriteOptions } from '../taskpane/host.js';
import type { WorkbookModel } from '../workbook/model.js';
import { deskSheetData } from '../workbook/writers/desk.js';
import { layOutAll, type LaidSheet } from '../workbook/writers/laid-out.js';
import { withFreeNames } from '../workbook/writers/rename.js';
import type { KeptBook, WrittenFrom } from './kept-form.js';
import { LONGEST_CALCULATION_MS, type OpenBook } from './open-book.js';

/** What is known of a sheet that a model gave. */
export interface WrittenSheet {
  readonly laid: LaidSheet;
  /** rows or columns were put in, taken out or moved since: the model's places are no longer those of the sheet */
  reshaped: boolean;
}

/** A sheet that was lifted out of the workbook, to be put back as it was. */
interface Lifted {
  data: Partial<IWorksheetData> & { id: string };
  index: number;
  written: WrittenSheet | undefined;
}
interface Aside {
  sheets: Lifted[];
  names: [name: string, range: string][];
  /** key of the sheet in front */
  front: string;
}

/** Where a written sheet comes from. */
interface Origin {
  /** id of the model */
  model: string;
  index: number;
}

type Formulas = Record<number, Record<number, ICellData>>;

/** Mutations after which cells no longer stand where the model has them. */
const RESHAPES = /^sheet\.mutation\.(?:insert|remove|move)-(?:row|col)/;
const LOOK_FOR_STOP_MS = 100;

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

export class WrittenModels {
  private readonly sheets = new Map<string, WrittenSheet>();
  private readonly origins = new Map<string, Origin>();
  private readonly given = new Map<string, WorkbookModel>();
  private count = 0;

  constructor(private readonly book: OpenBook) {}

  /** What a model gave for a sheet of the grid, by the grid's key. */
  sheet(key: string): WrittenSheet | undefined {
    return this.sheets.get(key);
  }

  /** To be told of every command of the grid. */
  noteCommand(id: string, params: object | undefined): void {
    if (!RESHAPES.test(id) || params === undefined || !('subUnitId' in params)) return;
    const written = this.sheets.get(String(params.subUnitId));
    if (written) written.reshaped = true;
  }

  forgetAll(): void {
    this.sheets.clear();
    this.origins.clear();
    this.given.clear();
  }

  /** Which model a sheet of the grid comes from, to be kept with it. */
  from(key: string): WrittenFrom | undefined {
    const [written, origin] = [this.sheets.get(key), this.origins.get(key)];
    return written && origin && { ...origin, reshaped: written.reshaped };
  }

  /** The models of the sheets that are there, by id. */
  models(): ReadonlyMap<string, WorkbookModel> {
    const used = new Set([...this.sheets.keys()].map((key) => this.origins.get(key)?.model));
    return new Map([...this.given].filter(([id]) => used.has(id)));
  }

  /** Takes up again what was known of the sheets of a kept workbook; their lay-out is made when it is first asked for. */
  takeUp({ sheets, models }: Pick<KeptBook, 'sheets' | 'models'>): void {
    this.forgetAll();
    const laidOut = new Map<string, LaidSheet[]>();
    const laidFrom = ({ model, index }: Origin): LaidSheet => {
      const laid = laidOut.get(model) ?? layOutAll(models.get(model)!);
      laidOut.set(model, laid);
      return laid[index]!;
    };
    for (const [id, model] of models) this.given.set(id, model);
    for (const { key, written } of sheets) {
      this.count = Math.max(this.count, Number(/^written-(\d+)$/.exec(key)?.[1] ?? 0));
      if (!written || models.get(written.model)?.sheets[written.index] === undefined) continue;
      const { model, index, reshaped } = written;
      this.origins.set(key, { model, index });
      this.sheets.set(key, {
        get laid() {
          return laidFrom({ model, index });
        },
        reshaped,
      });
    }
  }

  /** The model under names that are free in the open workbook. */
  private renamed(model: WorkbookModel): WorkbookModel {
    const workbook = this.book.workbook();
    const open = workbook.getSheets();
    return withFreeNames(model, {
      sheets: open.map((sheet) => sheet.getSheetName()),
      tables: open.flatMap((sheet) =>
        (this.sheet(sheet.getSheetId())?.laid.tables ?? []).map((table) => table.name),
      ),
      names: workbook.getDefinedNames().map((name) => name.getName()),
    });
  }

  /**
   * Sheets go in with the engine's numbers first and their formulas last: the grid works out what it is given at once, and
   * formulas would point at sheets that are still to come. All by mutations, which change no selection and leave nothing to
   * undo: taking a receipt's sheets away is the way back.
   */
  async write(given: WorkbookModel, options: WriteOptions): Promise<Receipt> {
    const workbook = this.book.workbook();
    const front = workbook.getActiveSheet().getSheetId();
    const model = this.renamed(given);
    const laid = layOutAll(model);
    // the count goes on in a workbook taken up again, so no two models of it have one id
    const id = `model-${this.count + 1}`;
    this.given.set(id, model);
    const receipt: Receipt = { sheets: [], names: [] };
    const formulas: { key: string; cells: Formulas }[] = [];
    try {
      for (const [i, sheet] of laid.entries()) {
        options.onProgress(i, laid.length, sheet.name);
        await pause(0);
        refuseStopped(options);
        formulas.push(this.insert(sheet, { model: id, index: i }, options.live, receipt));
      }
      for (const [name, range] of Object.entries(model.names)) {
        workbook.insertDefinedName(name, range);
        receipt.names.push(name);
      }
      await this.enter(formulas, options);
    } catch (error) {
      this.remove(receipt);
      throw error;
    } finally {
      // the grid brings a new sheet to the front
      if (workbook.getSheetBySheetId(front)) workbook.setActiveSheet(front);
    }
    options.onProgress(laid.length, laid.length, laid.at(-1)?.name ?? '');
    const used = this.models();
    for (const old of this.given.keys()) if (!used.has(old)) this.given.delete(old);
    for (const key of this.origins.keys()) if (!this.sheets.has(key)) this.origins.delete(key);
    return receipt;
  }

  private insert(
    sheet: LaidSheet,
    origin: Origin,
    live: boolean,
    receipt: Receipt,
  ): { key: string; cells: Formulas } {
    const workbook = this.book.workbook();
    this.count += 1;
    const key = `written-${this.count}`;
    const data = deskSheetData(sheet, { id: key, live });
    const cells = takeFormulas(data);
    this.origins.set(key, origin);
    this.book.run('sheet.mutation.insert-sheet', {
      unitId: workbook.getId(),
      index: workbook.getSheets().length,
      sheet: data,
    });
    this.sheets.set(key, { laid: sheet, reshaped: false });
    receipt.sheets.push({ key, name: sheet.name });
    return { key, cells };
  }

  /** Enters all formulas in one go and waits for their results, or for a stop. */
  private async enter(
    formulas: readonly { key: string; cells: Formulas }[],
    options: WriteOptions,
  ): Promise<void> {
    refuseStopped(options);
    const filled = formulas.filter(({ cells }) => Object.keys(cells).length > 0);
    if (filled.length === 0) return;
    this.enterNow(filled);
    // Asked for only now: the grid waits half a second for a calculation to begin, and entering takes longer.
    let done = false;
    const results = this.book.calculated(LONGEST_CALCULATION_MS).finally(() => (done = true));
    // A stop leaves the results to themselves; that they then never come is no trouble.
    results.catch(() => undefined);
    while (!done) {
      await Promise.race([results, pause(LOOK_FOR_STOP_MS)]);
      if (options.signal.aborted) this.book.stopCalculation();
      refuseStopped(options);
    }
  }

  private enterNow(formulas: readonly { key: string; cells: Formulas }[]): void {
    const unitId = this.book.workbook().getId();
    for (const { key, cells } of formulas)
      this.book.run('sheet.mutation.set-range-values', {
        unitId,
        subUnitId: key,
        cellValue: cells,
      });
  }

  /**
   * Writes a model in the place of a receipt's sheets. The grid knows sheets by their names when it calculates, so two of a
   * name cannot stand side by side: the old ones are lifted out meanwhile, and put back whole if the writing breaks off.
   */
  async replace(old: Receipt, model: WorkbookModel, options: WriteOptions): Promise<Receipt> {
    refuseStopped(options);
    const aside = this.lift(old);
    this.remove(old);
    try {
      return await this.write(model, options);
    } catch (error) {
      this.putBack(aside);
      throw error;
    }
  }

  private lift({ sheets, names }: Receipt): Aside {
    const workbook = this.book.workbook();
    const keys = new Set(sheets.map(({ key }) => key));
    const wanted = new Set(names);
    return {
      sheets: workbook.getSheets().flatMap((sheet, index): Lifted[] => {
        const key = sheet.getSheetId();
        if (!keys.has(key)) return [];
        const data = structuredClone(sheet.getSheet().getConfig());
        return [{ data: { ...data, id: key }, index, written: this.sheets.get(key) }];
      }),
      names: workbook
        .getDefinedNames()
        .filter((name) => wanted.has(name.getName()))
        .map((name) => [name.getName(), name.getFormulaOrRefString().replace(/^=/, '')]),
      front: workbook.getActiveSheet().getSheetId(),
    };
  }

  private putBack({ sheets, names, front }: Aside): void {
    const workbook = this.book.workbook();
    const unitId = workbook.getId();
    const formulas = sheets.map(({ data, index, written }) => {
      const cells = takeFormulas(data, true);
      this.book.run('sheet.mutation.insert-sheet', { unitId, index, sheet: data });
      if (written) this.sheets.set(data.id, written);
      return { key: data.id, cells };
    });
    const there = new Set(workbook.getDefinedNames().map((name) => name.getName()));
    for (const [name, range] of names)
      if (!there.has(name)) workbook.insertDefinedName(name, range);
    this.enterNow(formulas);
    if (workbook.getSheetBySheetId(front)) workbook.setActiveSheet(front);
  }

  /** Takes away the sheets and names of a receipt that are still there. */
  remove({ sheets, names }: Receipt): void {
    const workbook = this.book.workbook();
    const there = sheets.filter(({ key }) => workbook.getSheetBySheetId(key) !== null);
    // A workbook keeps at least one sheet, and the one in front must not be taken from under the person.
    const staying = workbook
      .getSheets()
      .filter((s) => !there.some(({ key }) => key === s.getSheetId()));
    const next = staying[0] ?? workbook.insertSheet();
    if (there.some(({ key }) => key === workbook.getActiveSheet().getSheetId()))
      workbook.setActiveSheet(next);
    this.book.forget(there.map(({ key }) => key));
    for (const { key, name } of there) {
      this.book.run('sheet.mutation.remove-sheet', {
        unitId: workbook.getId(),
        subUnitId: key,
        subUnitName: name,
      });
      this.sheets.delete(key);
    }
    const defined = new Set(workbook.getDefinedNames().map((name) => name.getName()));
    // a workbook opened since may define the same names
    if (there.length === 0) return;
    for (const name of names) if (defined.has(name)) workbook.deleteDefinedName(name);
  }
}

function refuseStopped({ signal }: WriteOptions): void {
  if (signal.aborted)
    throw new Problem('writing was stopped; the sheets written so far were taken away again');
}

/**
 * Takes the formulas out of a sheet's cells, which keep the numbers.
 *
 * @param withResults - the results stay with the formulas, too: they show until they are worked out again
 */
function takeFormulas({ cellData }: Partial<IWorksheetData>, withResults = false): Formulas {
  const formulas: Formulas = {};
  for (const [row, line] of Object.entries(cellData ?? {}))
    for (const [column, cell] of Object.entries(line ?? {}) as [string, ICellData][]) {
      const { f, si } = cell;
      if ((f ?? si ?? '') === '') continue;
      // filled cells share the formula of the first one
      const { v, t } = cell;
      (formulas[Number(row)] ??= {})[Number(column)] = {
        ...(f !== undefined && { f }),
        ...(si !== undefined && { si }),
        ...(withResults && { v: v ?? null, t: t ?? null }),
      };
      delete cell.f;
      delete cell.si;
    }
  return formulas;
}
