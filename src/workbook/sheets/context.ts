/** What every sheet is built from. */
import type { Day } from '../../engine/dates.js';
import type { Device, SeasonPlan } from '../../engine/plan/model.js';
import type { Units } from '../../engine/units.js';
import type { Cell } from '../../tables/cells.js';
import type { InventoryReading } from '../../tables/inventory/index.js';
import type { SiteOrigins } from '../../tables/site-notes.js';
import type { CrewLanguage } from '../crew-words.js';
import { shown, unitOf, type Quantity } from '../quantities.js';
import type { ServicePapers } from '../service-papers.js';

export interface BuildInput {
  plan: SeasonPlan;
  reading: InventoryReading;
  kit: Device[];
  /** tables as given, header row first; empty when there is none */
  ruleRows: Cell[][];
  stageRows: Cell[][];
  weatherRows: Cell[][];
  units: Units;
  /** name of the inventory file */
  source: string;
  madeOn: Day;
  title: string;
  /** inputs of the site that are not the default */
  origins?: SiteOrigins;
  /** sentences about the job itself: defaults used, tables missing */
  notes: string[];
  paper?: 'letter' | 'a4';
  /** contract, log, meters, clocks and limits, where any was given */
  papers?: ServicePapers;
  /** language of the crew sheet; 'both': a sheet each; default English */
  crewLanguage?: CrewLanguage;
}

/** A number somebody typed, without the tail that converting there and back leaves. */
export const typedNumber = (value: number): number => Number(value.toPrecision(12));

/** Above this many rows Plan and Crew join like waterings of a site and day. */
export const MOST_ROWS = 200_000;

export type Joining = 'no' | 'by site' | 'by day';

/** What waterings of one row have in common when they are joined. */
export const joinKey = (joined: Joining, site: string, device: string, hours: string): string =>
  joined === 'by day' ? `${device}\u0000${hours}` : `${site}\u0000${device}\u0000${hours}`;

/** The least joining that keeps the rows of Plan within bounds. */
function joiningFor({ plan }: BuildInput, most: number): Joining {
  const waterings = plan.trees.reduce((sum, t) => sum + t.chosen.plan.length, 0);
  if (waterings <= most) return 'no';
  const keys = new Set<string>();
  for (const { tree, chosen } of plan.trees)
    for (const w of chosen.plan) {
      keys.add(`${w.day}${joinKey('by site', tree.site, w.device, w.hours)}`);
      if (keys.size > most) return 'by day';
    }
  return 'by site';
}

export interface Context extends BuildInput {
  show(quantity: Quantity, value: number): number;
  unit(quantity: Quantity): string;
  automatic(device: string): boolean;
  /** how waterings become rows: one each, joined by site, day and means, or by day and means alone */
  joined: Joining;
}

/** @param most - rows above which waterings are joined */
export function context(input: BuildInput, most = MOST_ROWS): Context {
  const automatic = new Set(input.kit.filter((d) => d.automatic).map((d) => d.name));
  return {
    ...input,
    show: (quantity, value) => shown(quantity, input.units, value),
    unit: (quantity) => unitOf(quantity, input.units),
    automatic: (device) => automatic.has(device),
    joined: joiningFor(input, most),
  };
}

/** Characters of a cell as shown: long fractions are shown short. */
const shownLength = (cell: string | number | boolean): number =>
  typeof cell === 'number' && !Number.isInteger(cell)
    ? Math.min(9, String(cell).length)
    : String(cell).length;

/** Width for a column of cells: the longest of the first rows, within limits. */
export function widthFor(header: string, cells: readonly (Cell | undefined)[], most = 30): number {
  let longest = Math.min(header.length + 1, 15);
  for (const cell of cells.slice(0, 500))
    longest = Math.max(longest, cell === null || cell === undefined ? 0 : shownLength(cell));
  return Math.max(9, Math.min(most, longest + 3));
}
