/** Which numbers of a kit are the example's still, invented; and which of them the price of a plan is made from. */
import { materials } from '../engine/money/materials.js';
import type { Device } from '../engine/plan/model.js';
import type { Cell } from '../tables/cells.js';
import { marksByName } from '../tables/kit-example.js';
import { exampleKit } from '../workbook/example-kit.js';
import type { PlanJob } from '../workbook/plan-job.js';
import type { InventedNumbers, PlanSummary } from './plan-room.js';

const EXAMPLES: readonly Device[] = [...exampleKit('US'), ...exampleKit('SI')];
/** What is no number of the device itself makes no example one’s own. */
const OF_NO_EXAMPLE: ReadonlySet<keyof Device> = new Set(['name', 'family', 'stock', 'automatic']);

const numbersOf = (example: Device): (keyof Device)[] =>
  (Object.keys(example) as (keyof Device)[]).filter((key) => !OF_NO_EXAMPLE.has(key));
const alike = (a: unknown, b: unknown): boolean =>
  typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) <= 1e-6 * Math.abs(b) : a === b;

/**
 * The numbers of a device that are the example's. Without marks only a device whose numbers all are counts: one equal number
 * may be chance. With them, those that are marked and have not changed since.
 */
function keysOf(device: Device, marks: readonly (keyof Device)[] | undefined): (keyof Device)[] {
  const examples = EXAMPLES.filter(({ family }) => family === device.family);
  const same = (example: Device, key: keyof Device): boolean => alike(device[key], example[key]);
  if (marks) return marks.filter((key) => examples.some((example) => same(example, key)));
  const whole = examples.find((example) => numbersOf(example).every((key) => same(example, key)));
  return whole ? numbersOf(whole) : [];
}

/**
 * @param devices - as read
 * @param rows - the table they are read from; undefined: the example's own
 */
export function inventedNumbers(
  devices: readonly Device[],
  rows: readonly (readonly Cell[])[] | undefined,
): InventedNumbers[] {
  const marks = marksByName(rows ?? []);
  return devices.flatMap((device) => {
    const keys = keysOf(device, marks.get(device.name));
    const example = EXAMPLES.find(({ family }) => family === device.family);
    if (keys.length === 0 || !example) return [];
    return [{ name: device.name, keys, all: keys.length === numbersOf(example).length }];
  });
}

/** Prices of devices the plan uses that are the example's. */
export function inventedPrices(
  { plan, setup }: PlanJob,
  invented: readonly InventedNumbers[],
): PlanSummary['inventedPrices'] {
  const prices = new Set(
    invented.flatMap(({ name, keys }) => (keys.includes('price') ? name : [])),
  );
  return materials(plan, setup.kit)
    .filter(({ device }) => prices.has(device.name))
    .map(({ device: { name, price } }) => ({ device: name, price }));
}
