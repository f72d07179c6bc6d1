/** What a device that is added begins with: the example's numbers of its kind, to be replaced. */
import type { Device, Family } from '../../engine/plan/model.js';
import type { Units } from '../../engine/units.js';
import { text, type Cell } from '../../tables/cells.js';
import { kitRows } from '../../tables/kit.js';
import { exampleKit } from '../../workbook/example-kit.js';
import { devicesOf, unitIn, withDevice } from '../kit-table.js';
import type { Language } from '../parts/format.js';
import { description } from './device-names.js';
import { columnOf, SIZE_OF, storedCell, tidied, unitShown } from './kit-cells.js';

export const KINDS = ['bag', 'pad', 'soaker', 'timed', 'hand', 'tanker'] as const;
/** A family; hoses with and without a timer are two kinds. */
export type Kind = (typeof KINDS)[number];

const familyOf = (kind: Kind): Family => (kind === 'timed' ? 'soaker' : kind);

/** @returns the table with a further device at its end, which has the example's numbers and a name that says what it is */
export function withNew(
  rows: readonly Cell[][],
  kind: Kind,
  units: Units,
  language: Language,
): { kit: Cell[][]; at: number; name: string } {
  const family = familyOf(kind);
  const example = exampleKit(units).find((device) => device.family === family)!;
  // how many there are is what nobody but the person knows
  const device: Device = { ...example, name: '-', stock: 0, automatic: kind === 'timed' };
  const [of] = devicesOf(kitRows([device], units));
  const cells = { ...of!.cells };
  for (const key of Object.keys(cells) as (keyof typeof cells)[]) {
    const column = columnOf(key);
    // written in the units of the panel; the table may have others
    if (column.kind === 'number')
      cells[key] = tidied(storedCell(rows, column, cells[key] ?? null, units));
  }
  const size = columnOf(SIZE_OF[family]);
  const described = { family, cells, unit: unitIn(rows, size, units) };
  const others = devicesOf(rows).map((row) => text(row.cells.name));
  cells.name = description(described, unitShown(rows, size, units), language, others);
  const kit = withDevice(rows, undefined, cells, units);
  return { kit, at: kit.length - 1, name: text(cells.name) };
}
