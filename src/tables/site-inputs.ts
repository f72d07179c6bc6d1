/**
 * Every input of a site, one line each: label, units, default, allowed range. The Site sheet, its reader, the command
 * line and the side panel all work from this list; what each means and where its default comes from is in site-notes.ts.
 */
import { CREW_START } from '../engine/crew/shift.js';
import { CREW_TIME_WORTH } from '../engine/plan/crew-time.js';
import { dayOf } from '../engine/dates.js';
import { TEXTURES } from '../engine/soil/texture.js';
import { RULE_NAMES } from '../engine/tree/rules-of-thumb.js';
import type { Family, Site } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import { convert } from './cells.js';

export type SiteKey = Exclude<keyof Site, 'efficiency'> | `efficiency.${Family}`;

/** number: convert by units; count: whole number; word: one of `words`; text: anything; day: a date; hour: a time of day. */
export type SiteKind = 'number' | 'count' | 'word' | 'text' | 'day' | 'hour';

export interface SiteInput {
  key: SiteKey;
  /** label on the sheet, without the unit */
  name: string;
  kind: SiteKind;
  /** unit word shown with US units; '' for none */
  unitUS: string;
  /** unit word of the value inside the engine; '' for none */
  unitSI: string;
  /** in the SI unit; a day is a serial number, an hour of the day in hours; '' for a number that is not known unless it is given */
  default: string | number;
  /** lowest and highest accepted value in the SI unit, inclusive; of a day, serial numbers */
  range?: readonly [number, number];
  words?: readonly string[];
}

const INFINITE = Number.MAX_VALUE;
const SHARE: readonly [number, number] = [0, 1];

const number = (
  key: SiteKey,
  name: string,
  units: readonly [string, string],
  value: number | '',
  range: readonly [number, number],
): SiteInput => ({
  key,
  name,
  kind: 'number',
  unitUS: units[0],
  unitSI: units[1],
  default: value,
  range,
});

const NONE = ['', ''] as const;
const PART = ['share', 'share'] as const;

const word = (
  key: SiteKey, name: string, value: string, words?: readonly string[],
): SiteInput => ({
  key, name, kind: words ? 'word' : 'text', unitUS: '', unitSI: '', default: value, ...(words ? { words } : {}),
}); // prettier-ignore

/** Years a season is planned for: a year of two or three digits is a slip, and so is the next century. Our choice. */
const YEARS: readonly [number, number] = [dayOf(1990, 1, 1), dayOf(2100, 12, 31)];

const day = (key: SiteKey, name: string, value: number): SiteInput => ({
  key, name, kind: 'day', unitUS: 'date', unitSI: 'date', default: value, range: YEARS,
}); // prettier-ignore

/** All inputs, in the order of the sheet. */
export const SITE_INPUTS: readonly SiteInput[] = [
  word('name', 'Site name', 'Example site'),
  number('latitude', 'Latitude', ['deg', 'deg'], 33, [-90, 90]),
  number('elevation', 'Elevation', ['ft', 'm'], 300, [-430, 5000]),
  word('texture', 'Soil texture', 'loam', TEXTURES),
  number('zone', 'Hardiness zone', NONE, 9, [1, 13]),
  word('climate', 'Climate', 'dry', ['dry', 'humid']),
  day('seasonFrom', 'Season from', dayOf(2027, 4, 1)),
  day('seasonTo', 'Season to', dayOf(2027, 9, 30)),
  number('plantFactor', 'Plant factor', NONE, 0.5, [0.05, 1.2]),
  number('siteFactor', 'Site factor', NONE, 1, [0.5, 1.4]),
  number('reach', 'Root zone reach', NONE, 1, [0.5, 3]),
  number('rootDepth', 'Root depth', ['in', 'mm'], 304.8, [50, 2000]),
  number('depletionNew', 'Depletion allowed, new tree', PART, 0.3, [0.05, 0.8]),
  number('depletionEstablished', 'Depletion allowed, established tree', PART, 0.5, [0.05, 0.8]),
  number('substrateAvailable', 'Available water of container substrate', PART, 0.25, [0.02, 0.6]),
  number('joiningShare', 'Water in newly reached soil', PART, 0.5, SHARE),
  number('overflowToRing', 'Ball overflow to the ring', PART, 0.5, SHARE),
  number('padRelease', 'Pad release rate', ['1/day', '1/day'], 1 / 7, SHARE),
  number('padCover', 'Pad cover', PART, 0.5, SHARE),
  number('padDecay', 'Pad decay', ['1/year', '1/year'], 0.15, SHARE),
  number('padReserve', 'Pad reserve', PART, 0.1, SHARE),
  number('efficiency.bag', 'Efficiency, bag', PART, 0.95, [0.1, 1]),
  number('efficiency.pad', 'Efficiency, pad', PART, 1, [0.1, 1]),
  number('efficiency.soaker', 'Efficiency, soaker hose', PART, 0.9, [0.1, 1]),
  number('efficiency.hand', 'Efficiency, hand', PART, 0.7, [0.1, 1]),
  number('efficiency.tanker', 'Efficiency, tanker', PART, 0.8, [0.1, 1]),
  number('toleratedStress', 'Stress accepted', ['days', 'days'], 0, [0, 366]),
  word('workDays', 'Work days', 'Mon-Sat'),
  { key: 'crewSize', name: 'Crew size', kind: 'count', unitUS: 'people', unitSI: 'people', default: 2, range: [1, 50] },
  number('wage', 'Wage', ['per hour', 'per hour'], 30, [0, INFINITE]),
  number('waterPrice', 'Water price', ['per 1000 gal', 'per m³'], 2, [0, INFINITE]),
  number('crewHours', 'Crew hours a day', ['h', 'h'], 8, [0.5, 24]),
  { key: 'crewStart', name: 'Crew starts at', kind: 'hour', unitUS: 'time', unitSI: 'time', default: CREW_START },
  number('crewTimeWorth', 'Worth of crew time', NONE, CREW_TIME_WORTH, [1, 100]),
  number('driveMinutes', 'Driving between sites', ['min', 'min'], 15, [0, 600]),
  { key: 'crews', name: 'Crews', kind: 'count', unitUS: 'crews', unitSI: 'crews', default: 1, range: [1, 50] },
  number('driveKmh', 'Driving speed', ['mph', 'km/h'], 25, [3, 130]),
  number('yardLatitude', 'Yard, latitude', ['deg', 'deg'], '', [-90, 90]),
  number('yardLongitude', 'Yard, longitude', ['deg', 'deg'], '', [-180, 180]),
  number('topUp', 'Top-up from', PART, 0.6, SHARE),
  word('stockOnly', 'Stock only', 'no', ['no', 'yes']),
  number('tankVolume', 'Tank volume', ['gal', 'L'], 1892.705892, [0, 50000]),
  number('tankUsable', 'Tank usable', PART, 0.9, [0.1, 1]),
  number('tankRefillMinutes', 'Tank refill', ['min', 'min'], 20, [0, 600]),
  number('margin', 'Margin', PART, 0.25, [0, 0.95]),
  number('block1UpTo', 'Water block 1, up to', ['gal', 'm³'], 0, [0, INFINITE]),
  number('block1Price', 'Water block 1, price', ['per 1000 gal', 'per m³'], 2, [0, INFINITE]),
  number('block2UpTo', 'Water block 2, up to', ['gal', 'm³'], 0, [0, INFINITE]),
  number('block2Price', 'Water block 2, price', ['per 1000 gal', 'per m³'], 3, [0, INFINITE]),
  number('block3Price', 'Water block 3, price', ['per 1000 gal', 'per m³'], 4, [0, INFINITE]),
  number('mulchDepth', 'Mulch target', ['in', 'mm'], 0, [0, 300]),
  number('mulchRing', 'Mulch ring, widest', ['ft', 'm'], 1.8288, [0.3, 20]),
  number('mulchPrice', 'Mulch price', ['per yd³', 'per m³'], 80, [0, INFINITE]),
  word('blanketRule', 'Rule of thumb to compare with', 'colorado', RULE_NAMES),
  word('currency', 'Currency', '$'),
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
    : ((site[key as Exclude<keyof Site, 'efficiency'>] as string | number | undefined) ?? '');
}

/** Value in a shown unit → value in the SI unit; the same number where nothing is to convert. */
export const toSI = (input: SiteInput, value: number, unit: string): number | undefined =>
  unit === '' || unit === input.unitSI ? value : convert(value, unit, input.unitSI);

/** Value in the SI unit → value in the unit shown for `units`. */
export const fromSI = (input: SiteInput, value: number, units: Units): number =>
  units === 'SI' || input.unitUS === input.unitSI
    ? value
    : (convert(value, input.unitSI, input.unitUS) ?? value);
