/**
 * Every input of a site, one line each: label, units, default, allowed range, where the default comes from.
 * The Site sheet, its reader, the command line and the side panel all work from this list.
 */
import { dayOf } from '../engine/dates.js';
import { TEXTURES } from '../engine/soil/texture.js';
import { RULE_NAMES } from '../engine/tree/rules-of-thumb.js';
import type { Family, Site } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import { convert, type Cell } from './cells.js';

export type SiteKey = Exclude<keyof Site, 'efficiency'> | `efficiency.${Family}`;

/** number: convert by units; count: whole number; word: one of `words`; text: anything; day: a date. */
export type SiteKind = 'number' | 'count' | 'word' | 'text' | 'day';

export interface SiteInput {
  key: SiteKey;
  /** label on the sheet, without the unit */
  name: string;
  kind: SiteKind;
  /** unit word shown with US units; '' for none */
  unitUS: string;
  /** unit word of the value inside the engine; '' for none */
  unitSI: string;
  /** in the SI unit; a day is a serial number */
  default: string | number;
  note: string;
  source: string;
  /** true when the default is a choice of this planner, not a published number */
  assumption: boolean;
  /** lowest and highest accepted value in the SI unit, inclusive */
  range?: readonly [number, number];
  words?: readonly string[];
}

const OURS = 'assumption of this planner';
const DEMO = 'invented demo figure, put your own';
const LOCAL = 'look up for the site; the default is only an example';
const INFINITE = Number.MAX_VALUE;
const SHARE: readonly [number, number] = [0, 1];

const number = (
  key: SiteKey,
  name: string,
  units: readonly [string, string],
  value: number,
  range: readonly [number, number],
  note: string,
  source: string,
): SiteInput => ({
  key,
  name,
  kind: 'number',
  unitUS: units[0],
  unitSI: units[1],
  default: value,
  note,
  source,
  assumption:
    [OURS, DEMO, LOCAL].includes(source) || /^(common practice|nursery practice)/.test(source),
  range,
});

const NONE = ['', ''] as const;
const PART = ['share', 'share'] as const;

const word = (
  key: SiteKey, name: string, value: string, words: readonly string[] | undefined, note: string, source: string,
): SiteInput => ({
  key, name, kind: words ? 'word' : 'text', unitUS: '', unitSI: '', default: value, note, source,
  assumption: true, ...(words ? { words } : {}),
}); // prettier-ignore

const day = (key: SiteKey, name: string, value: number, note: string): SiteInput => ({
  key, name, kind: 'day', unitUS: 'date', unitSI: 'date', default: value, note, source: LOCAL, assumption: true,
}); // prettier-ignore

/** All inputs, in the order of the sheet. */
export const SITE_INPUTS: readonly SiteInput[] = [
  word('name', 'Site name', 'Example site', undefined, 'Shown on every sheet.', DEMO),
  number('latitude', 'Latitude', ['deg', 'deg'], 33, [-90, 90], 'North positive; sets day length and sun.', LOCAL),
  number('elevation', 'Elevation', ['ft', 'm'], 300, [-430, 5000], 'Above the sea; sets air pressure.', LOCAL),
  word('texture', 'Soil texture', 'loam', TEXTURES, 'USDA texture word; trees may have their own.', LOCAL),
  number('zone', 'Hardiness zone', NONE, 9, [1, 13], 'Sets the months a tree takes to establish.', LOCAL),
  word('climate', 'Climate', 'dry', ['dry', 'humid'], 'dry or humid; picks the plant factor and the storm rules.', LOCAL),
  day('seasonFrom', 'Season from', dayOf(2027, 4, 1), 'First day of the plan.'),
  day('seasonTo', 'Season to', dayOf(2027, 9, 30), 'Last day of the plan, inclusive.'),
  number('plantFactor', 'Plant factor', NONE, 0.5, [0.05, 1.2], 'For trees whose row names no water use.', 'ANSI/ASABE S623 woody plants, dry climate'),
  number('siteFactor', 'Site factor', NONE, 1, [0.5, 1.4], 'Above 1 beside hot walls and in wind, below 1 in shade.', 'landscape coefficient practice, 0.5 to 1.4'),
  number('reach', 'Root zone reach', NONE, 1, [0.5, 3], 'Diameter of the irrigated root zone over canopy diameter.', OURS),
  number('rootDepth', 'Root depth', ['in', 'mm'], 304.8, [50, 2000], 'Most absorbing roots are in the top foot.', OURS),
  number('depletionNew', 'Depletion allowed, new tree', PART, 0.3, [0.05, 0.8], 'Part of the stored water used before stress, at 5 mm/day.', OURS),
  number('depletionEstablished', 'Depletion allowed, established tree', PART, 0.5, [0.05, 0.8], 'Part of the stored water used before stress, at 5 mm/day.', OURS),
  number('substrateAvailable', 'Available water of container substrate', PART, 0.25, [0.02, 0.6], 'Volume of water a bark or peat ball gives up, over its volume.', 'nursery practice guides print 0.25 to 0.35: the low end'),
  number('joiningShare', 'Water in newly reached soil', PART, 0.5, SHARE, 'Part of its available water that soil holds when roots reach it.', OURS),
  number('overflowToRing', 'Ball overflow to the ring', PART, 0.5, SHARE, 'The rest of what leaves a full ball sinks below the roots.', OURS),
  number('padRelease', 'Pad release rate', ['1/day', '1/day'], 1 / 7, SHARE, 'Part of its capacity a pad gives to a fully dry ball in a day.', OURS),
  number('padCover', 'Pad cover', PART, 0.5, SHARE, 'Part of the ball a pad lies on and sheds rain from.', OURS),
  number('padDecay', 'Pad decay', ['1/year', '1/year'], 0.15, SHARE, 'Part of its capacity a pad loses each year.', OURS),
  number('padReserve', 'Pad reserve', PART, 0.1, SHARE, 'A pad is lifted and soaked again when it holds this part.', OURS),
  number('efficiency.bag', 'Efficiency, bag', PART, 0.95, [0.1, 1], 'Part of the water that reaches the roots.', OURS),
  number('efficiency.pad', 'Efficiency, pad', PART, 1, [0.1, 1], 'Part of the water that reaches the roots.', OURS),
  number('efficiency.soaker', 'Efficiency, soaker hose', PART, 0.9, [0.1, 1], 'Part of the water that reaches the roots.', OURS),
  number('efficiency.hand', 'Efficiency, hand', PART, 0.7, [0.1, 1], 'Part of the water that reaches the roots.', OURS),
  number('efficiency.tanker', 'Efficiency, tanker', PART, 0.8, [0.1, 1], 'Part of the water that reaches the roots.', OURS),
  number('toleratedStress', 'Stress accepted', ['days', 'days'], 0, [0, 366], 'Days of water stress a season that are accepted for a tree.', OURS),
  word('workDays', 'Work days', 'Mon-Sat', undefined, 'Weekdays the crew goes out: Mon-Sat, Mon Wed Fri, any. Automatic hoses run on all of them.', DEMO),
  { key: 'crewSize', name: 'Crew size', kind: 'count', unitUS: 'people', unitSI: 'people', default: 2, note: 'People on one truck.', source: DEMO, assumption: true, range: [1, 50] },
  number('wage', 'Wage', ['per hour', 'per hour'], 30, [0, INFINITE], 'Paid and burdened, for one person and hour.', DEMO),
  number('waterPrice', 'Water price', ['per 1000 gal', 'per m³'], 2, [0, INFINITE], 'What the water itself costs.', DEMO),
  number('crewHours', 'Crew hours a day', ['h', 'h'], 8, [0.5, 24], 'Hours a crew can work on site and road in a day.', DEMO),
  number('driveMinutes', 'Driving between sites', ['min', 'min'], 15, [0, 600], 'Mean drive from one site to the next.', DEMO),
  number('tankVolume', 'Tank volume', ['gal', 'L'], 1892.705892, [0, 50000], 'Tank on the truck, full.', DEMO),
  number('tankUsable', 'Tank usable', PART, 0.9, [0.1, 1], 'Part of the tank the pump can draw.', 'common practice, no source'),
  number('tankRefillMinutes', 'Tank refill', ['min', 'min'], 20, [0, 600], 'Drive to water, fill and return.', DEMO),
  number('margin', 'Margin', PART, 0.25, [0, 0.95], 'Part of the price that is left over the cost: price = cost/(1 − margin).', OURS),
  number('block1UpTo', 'Water block 1, up to', ['gal', 'm³'], 0, [0, INFINITE], 'Monthly block rates, for the estimate. 0: the water price holds for every gallon or litre.', DEMO),
  number('block1Price', 'Water block 1, price', ['per 1000 gal', 'per m³'], 2, [0, INFINITE], 'Read only where block 1 has an end.', DEMO),
  number('block2UpTo', 'Water block 2, up to', ['gal', 'm³'], 0, [0, INFINITE], 'Counted from the first gallon or litre of the month. 0: block 2 has no end.', DEMO),
  number('block2Price', 'Water block 2, price', ['per 1000 gal', 'per m³'], 3, [0, INFINITE], 'Read only where block 1 has an end.', DEMO),
  number('block3Price', 'Water block 3, price', ['per 1000 gal', 'per m³'], 4, [0, INFINITE], 'Read only where block 2 has an end.', DEMO),
  number('mulchDepth', 'Mulch target', ['in', 'mm'], 0, [0, 300], 'Depth every tree is brought up to; what the row already has is taken off. 0: no mulch is priced.', OURS),
  number('mulchRing', 'Mulch ring, widest', ['ft', 'm'], 1.8288, [0.3, 20], 'The ring ends at the root zone of the peak month, or at this diameter.', OURS),
  number('mulchPrice', 'Mulch price', ['per yd³', 'per m³'], 80, [0, INFINITE], 'Delivered and laid.', DEMO),
  word('blanketRule', 'Rule of thumb to compare with', 'colorado', RULE_NAMES, 'The water of the plan is compared with this published rule; the others stand beside it.', OURS),
  word('currency', 'Currency', '$', undefined, 'Sign before amounts.', DEMO),
]; // prettier-ignore

/** The input of a key. @throws RangeError for a key the list does not hold (a programming error) */
export function siteInput(key: SiteKey): SiteInput {
  const found = SITE_INPUTS.find((i) => i.key === key);
  if (!found) throw new RangeError(`no site input ${key}`);
  return found;
}

/** Reads a value of a site through its dotted key. */
export function siteValue(site: Site, key: SiteKey): string | number {
  return key.startsWith('efficiency.')
    ? site.efficiency[key.slice('efficiency.'.length) as Family]
    : (site[key as Exclude<keyof Site, 'efficiency'>] as string | number);
}

/** Value in a shown unit → value in the SI unit; the same number where nothing is to convert. */
export const toSI = (input: SiteInput, value: number, unit: string): number | undefined =>
  unit === '' || unit === input.unitSI ? value : convert(value, unit, input.unitSI);

/** Value in the SI unit → value in the unit shown for `units`. */
export const fromSI = (input: SiteInput, value: number, units: Units): number =>
  units === 'SI' || input.unitUS === input.unitSI
    ? value
    : (convert(value, input.unitSI, input.unitUS) ?? value);

/** The Site sheet as rows: header, then name, value, unit, note, source. Dates stay serial numbers. */
export function siteRows(site: Site, units: Units): Cell[][] {
  const rows: Cell[][] = [['Name', 'Value', 'Unit', 'Note', 'Source']];
  for (const i of SITE_INPUTS) {
    const v = siteValue(site, i.key);
    const shown = i.kind === 'number' && typeof v === 'number' ? fromSI(i, v, units) : v;
    rows.push([i.name, shown, units === 'US' ? i.unitUS : i.unitSI, i.note, i.source]);
  }
  return rows;
}
