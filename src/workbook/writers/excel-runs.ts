/** Cells of equal look gathered into areas, so that a sheet is dressed in few operations instead of one a cell. */
import { letter } from '../model.js';

/** 0-based, both ends included. */
export interface Rectangle {
  top: number;
  bottom: number;
  left: number;
  right: number;
}

/** `B2` or `B2:D9` */
export function addressOf({ top, bottom, left, right }: Rectangle): string {
  const from = `${letter(left)}${top + 1}`;
  return top === bottom && left === right ? from : `${from}:${letter(right)}${bottom + 1}`;
}

/**
 * Areas of equal keys: neighbours in a row, joined with the row above where that has the same stretch.
 *
 * @param keyAt - what must be equal; "" for cells that need nothing
 * @returns areas by key
 */
export function gather(
  rows: number,
  columns: number,
  keyAt: (row: number, column: number) => string,
): Map<string, Rectangle[]> {
  const out = new Map<string, Rectangle[]>();
  let open = new Map<number, { key: string; area: Rectangle }>();
  for (let row = 0; row < rows; row++) {
    const next: typeof open = new Map();
    for (let left = 0; left < columns;) {
      const key = keyAt(row, left);
      let right = left;
      while (right + 1 < columns && keyAt(row, right + 1) === key) right++;
      const above = open.get(left);
      if (key !== '') {
        if (above?.key === key && above.area.right === right) {
          above.area.bottom = row;
          next.set(left, above);
        } else {
          const area = { top: row, bottom: row, left, right };
          next.set(left, { key, area });
          const own = out.get(key);
          if (own) own.push(area);
          else out.set(key, [area]);
        }
      }
      left = right + 1;
    }
    open = next;
  }
  return out;
}

/** Longest address handed over at once; the program takes about four times as much [characters]. */
const LONGEST_ADDRESS = 2000;

/** Addresses joined by commas, in as few texts as are short enough. */
export function batches(addresses: readonly string[]): string[] {
  const out: string[] = [];
  let current = '';
  for (const address of addresses) {
    if (current !== '' && current.length + address.length + 1 > LONGEST_ADDRESS) {
      out.push(current);
      current = '';
    }
    current = current === '' ? address : `${current},${address}`;
  }
  if (current !== '') out.push(current);
  return out;
}

/** Neighbours with equal values as stretches: `[[0, 2, 12], [3, 3, 20]]`. */
export function stretches<T>(values: readonly T[]): [from: number, to: number, value: T][] {
  const out: [number, number, T][] = [];
  values.forEach((value, i) => {
    const last = out.at(-1);
    if (last && last[2] === value) last[1] = i;
    else out.push([i, i, value]);
  });
  return out;
}
