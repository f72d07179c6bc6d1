/** The cells of one sheet, and what they look like: layers of settings, the last one over a cell counts. */
import { COLUMNS, holds, type Area } from './areas.js';
import { invalid } from './errors.js';
import type { Entry, Value } from './typed.js';

interface Layer {
  area: Area;
  value: unknown;
  /** one value a cell instead of one for all */
  each?: unknown[][];
}

/** Most cells the stand-in looks at in one go; the host's own limit is five million. */
const MOST_CELLS = 5_000_000;

export class Grid {
  private readonly cells = new Map<number, Entry>();
  private readonly layers = new Map<string, Layer[]>();

  at(row: number, column: number): Entry | undefined {
    return this.cells.get(row * COLUMNS + column);
  }

  put(row: number, column: number, entry: Entry): void {
    if (entry.value === '' && entry.formula === undefined)
      this.cells.delete(row * COLUMNS + column);
    else this.cells.set(row * COLUMNS + column, entry);
  }

  clear(area: Area): void {
    for (const at of [...this.cells.keys()])
      if (holds(area, Math.floor(at / COLUMNS), at % COLUMNS)) this.cells.delete(at);
  }

  paint(key: string, area: Area, value: unknown): void {
    this.layer(key, { area, value });
  }

  paintEach(key: string, area: Area, each: unknown[][]): void {
    this.layer(key, { area, value: undefined, each });
  }

  private layer(key: string, layer: Layer): void {
    const own = this.layers.get(key) ?? [];
    own.push(layer);
    this.layers.set(key, own);
  }

  /** What a setting is for a cell. */
  look(key: string, row: number, column: number, otherwise: unknown): unknown {
    const own = this.layers.get(key) ?? [];
    for (let i = own.length - 1; i >= 0; i--) {
      const { area, value, each } = own[i]!;
      if (!holds(area, row, column)) continue;
      const found = each ? each[row - area.top]![column - area.left] : value;
      if (found !== null && found !== undefined) return found;
    }
    return otherwise;
  }

  format(row: number, column: number): string {
    return this.look('numberFormat', row, column, 'General') as string;
  }

  /** The smallest area with all cells that hold something. */
  used(): Area | undefined {
    if (this.cells.size === 0) return undefined;
    let [top, left, bottom, right] = [Infinity, Infinity, 0, 0];
    for (const at of this.cells.keys()) {
      const row = Math.floor(at / COLUMNS);
      const column = at % COLUMNS;
      top = Math.min(top, row);
      bottom = Math.max(bottom, row);
      left = Math.min(left, column);
      right = Math.max(right, column);
    }
    return { top, left, rows: bottom - top + 1, columns: right - left + 1 };
  }

  /** Every cell that holds something. */
  *filled(): Generator<{ row: number; column: number; entry: Entry }> {
    for (const [at, entry] of this.cells)
      yield { row: Math.floor(at / COLUMNS), column: at % COLUMNS, entry };
  }

  /** One thing of every cell of an area. */
  table<T>(area: Area, of: (row: number, column: number) => T): T[][] {
    if (area.rows * area.columns > MOST_CELLS) throw invalid('The range holds too many cells');
    return Array.from({ length: area.rows }, (_, r) =>
      Array.from({ length: area.columns }, (_, c) => of(area.top + r, area.left + c)),
    );
  }

  shown(row: number, column: number): Value {
    return this.at(row, column)?.value ?? '';
  }
}
