/** A draft as a setup to plan with, and what it says, input by input. */
import { isoDate } from '../engine/dates.js';
import { hosesPerTree } from '../engine/plan/hoses-per-tree.js';
import type { Device, Site, Tree } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import { isBlank, splitHeader, type Cell } from '../tables/cells.js';
import { hourText } from '../tables/hours.js';
import { kitRows, readKit } from '../tables/kit.js';
import { readSite } from '../tables/site.js';
import {
  fromSI,
  SITE_INPUTS,
  siteInput,
  siteValue,
  type SiteInput,
  type SiteKey,
} from '../tables/site-inputs.js';
import { SITE_NOTES, type SiteOrigins } from '../tables/site-notes.js';
import { exampleSetup, type Setup } from '../workbook/example-setup.js';
import { inventedNumbers } from './room-invented.js';
import type { Draft, SetupReport, SiteField } from './plan-room.js';
import { weatherReport } from './room-weather.js';

/** Latitude of the example where neither person nor inventory give one [deg]. */
export const EXAMPLE_LATITUDE = 33;

const unitOf = (input: SiteInput, units: Units): string =>
  units === 'US' ? input.unitUS : input.unitSI;

/** A date or an hour of the day says by itself what it is. */
const isMoment = ({ kind }: SiteInput): boolean => kind === 'day' || kind === 'hour';

/** Digits of a converted cell that are kept. */
const CELL_DIGITS = 10;

/** Digits a converted default is shown with: 300 m are 984.252 ft. */
const SHOWN_DIGITS = 6;

/** An input of a site as a person sees it: in their units, a day as yyyy-mm-dd, null for not known. */
function shownValue(site: Site, input: SiteInput, units: Units): Cell {
  const value = siteValue(site, input.key);
  if (value === '') return input.kind === 'text' ? '' : null;
  if (input.kind === 'day') return isoDate(value as number);
  if (input.kind === 'hour') return hourText(value as number);
  if (typeof value !== 'number' || input.kind !== 'number') return value;
  const shown = fromSI(input, value, units);
  return shown === value ? value : Number(shown.toPrecision(SHOWN_DIGITS));
}

/** What is wrong with a typed value, "" when it can be read. */
function troubleOf(input: SiteInput, typed: Cell, units: Units): string {
  const { problems } = readSite([[input.name, typed, unitOf(input, units)]]);
  const [first = ''] = problems;
  return first.replace(/^Site sheet, row 1: /, '').replace(/ The default .* is used\.$/, '');
}

export interface ReadSiteDraft {
  site: Site;
  /** by input; troubles between inputs stand with the later one */
  troubles: Map<SiteKey, string>;
  typed: ReadonlySet<SiteKey>;
}

/** Inputs a sentence about the whole site belongs to. */
const WHOLE: readonly (readonly [RegExp, SiteKey])[] = [
  [/^The season/, 'seasonTo'],
  [/^Water block 2/, 'block2UpTo'],
];

/**
 * The site of a draft: what is typed, else the inventory's latitude, else the example.
 * @param latitude - middle of the inventory's own coordinates [deg]
 */
export function siteOf({ site: typed, units }: Draft, latitude: number | undefined): ReadSiteDraft {
  const troubles = new Map<SiteKey, string>();
  const known = new Set<SiteKey>();
  for (const input of SITE_INPUTS) {
    const value = typed[input.key];
    if (value === undefined || isBlank(value)) continue;
    known.add(input.key);
    const trouble = troubleOf(input, value, units);
    if (trouble !== '') troubles.set(input.key, trouble);
  }
  const good = (key: SiteKey): boolean => known.has(key) && !troubles.has(key);
  const typedLatitude = good('latitude')
    ? readSite([['Latitude', typed.latitude ?? null, 'deg']]).site.latitude
    : undefined;
  const base = exampleSetup(typedLatitude ?? latitude ?? EXAMPLE_LATITUDE).site;
  const { site, problems } = readSite(
    SITE_INPUTS.flatMap((input): Cell[][] => {
      const { key, name } = input;
      if (good(key)) return [[name, typed[key] ?? null, unitOf(input, units)]];
      const value = siteValue(base, key);
      return value === '' ? [] : [[name, value, input.unitSI]];
    }),
    units,
  );
  for (const said of problems) {
    const key = WHOLE.find(([pattern]) => pattern.test(said))?.[1];
    if (key) troubles.set(key, said);
  }
  return { site, troubles, typed: known };
}

function siteFields(
  { site, troubles, typed }: ReadSiteDraft,
  draft: Draft,
  latitude: number | undefined,
): SiteField[] {
  return SITE_INPUTS.map((input) => {
    const { key, name, kind, words = [] } = input;
    const own = typed.has(key);
    const trouble = troubles.get(key) ?? '';
    return {
      key,
      name,
      unit: isMoment(input) ? '' : unitOf(input, draft.units),
      note: SITE_NOTES[key].note,
      source: SITE_NOTES[key].source,
      kind,
      words: [...words],
      // what cannot be read stays as it was typed, so that it can be mended
      value: own ? (draft.site[key] ?? null) : shownValue(site, input, draft.units),
      from: own ? 'typed' : key === 'latitude' && latitude !== undefined ? 'inventory' : 'default',
      trouble,
    };
  });
}

/** Devices of a draft with sentences about them; undefined: the example's. */
function kitOf({ kit }: Draft): { kit: Device[]; problems: string[] } | undefined {
  return kit === undefined ? undefined : readKit(kit);
}

/**
 * The parts of a draft that a person has given; what is left out is the example.
 * @param latitude - middle of the inventory's own coordinates [deg]
 */
export function setupOf(
  draft: Draft,
  latitude: number | undefined,
): { setup: Partial<Setup>; problems: string[] } {
  const read = siteOf(draft, latitude);
  const kit = kitOf(draft);
  return {
    setup: {
      ...(read.typed.size > 0 && { site: read.site, origins: originsOf(read, latitude) }),
      ...(kit && { kit: kit.kit }),
      ...(draft.weather && { weather: draft.weather }),
    },
    problems: [
      ...[...read.troubles].map(([key, said]) => notUsed(read, key, said, draft.units)),
      ...(kit?.problems ?? []),
    ],
  };
}

/** What a person has typed and is used, and a latitude that the inventory gave. */
function originsOf({ typed, troubles }: ReadSiteDraft, latitude: number | undefined): SiteOrigins {
  const own = [...typed].filter((key) => !troubles.has(key));
  return {
    ...(latitude !== undefined && { latitude: 'inventory' }),
    ...Object.fromEntries(own.map((key) => [key, 'own'])),
  };
}

/** A trouble for the plan's own notes: it says what stands in its place. */
function notUsed({ site, typed }: ReadSiteDraft, key: SiteKey, said: string, units: Units): string {
  const input = SITE_INPUTS.find((i) => i.key === key)!;
  if (!typed.has(key) || /^(The season|Water block 2)/.test(said)) return `Site: ${said}`;
  const value = shownValue(site, input, units);
  const unit = unitOf(input, units);
  const used = value === null ? 'Nothing' : String(value);
  const named = value === null || unit === '' || isMoment(input) ? '' : ` ${unit}`;
  return `Site: ${said} ${used}${named} is used.`;
}

/** @param trees - of the list, asked for only where the kit has hoses */
export function setupReport(
  draft: Draft,
  latitude: number | undefined,
  trees: () => readonly Tree[] = () => [],
): SetupReport {
  const read = siteOf(draft, latitude);
  const example = exampleSetup(read.site.latitude, draft.units);
  const kit = kitOf(draft);
  const devices = kit?.kit ?? example.kit;
  const invented = inventedNumbers(devices, draft.kit);
  return {
    site: siteFields(read, draft, latitude),
    weather: weatherReport(draft.weather, example.weather, read.site, draft.units),
    kit: {
      example: kit === undefined,
      devices: devices.map((device) => ({
        name: device.name,
        family: device.family,
        size: sizeOf(device, draft.units),
        stock: device.stock,
        price: device.price,
      })),
      fromExample: invented.flatMap(({ name, all }) => (all ? name : [])),
      invented,
      ...tankOf(devices, draft.units),
      hoses: hosesOf(devices, read.site, trees),
      rows: draft.kit ?? kitRows(example.kit, draft.units).map((row) => row.map(tidy)),
      problems: kit?.problems ?? [],
    },
  };
}

/** A converted number without the last digits, in which 15 gallons are 15.000000000000002. */
const tidy = (cell: Cell): Cell =>
  typeof cell === 'number' ? Number(cell.toPrecision(CELL_DIGITS)) : cell;

/** What the trees of the list take of each kind of hose. */
function hosesOf(
  devices: readonly Device[],
  site: Site,
  trees: () => readonly Tree[],
): SetupReport['kit']['hoses'] {
  const hoses = devices.filter(({ family, length }) => family === 'soaker' && length !== undefined);
  if (hoses.length === 0) return [];
  const list = trees();
  return hoses.map((hose) => ({ name: hose.name, ...hosesPerTree(list, hose, site) }));
}

/** The truck whose own tank crews drive with: the kit's first tanker, where it says how much it holds. */
function tankOf(devices: readonly Device[], units: Units): Pick<SetupReport['kit'], 'tank'> {
  const truck = devices.find(({ family }) => family === 'tanker');
  if (truck?.volume === undefined) return {};
  const input = siteInput('tankVolume');
  return {
    tank: {
      device: truck.name,
      volume: Number(fromSI(input, truck.volume, units).toPrecision(SHOWN_DIGITS)),
      unit: unitOf(input, units),
    },
  };
}

/** "15 gal", "40 ft at 2.1 gal/h per 100 ft" … in the units of the kit's sheet. */
function sizeOf(device: Device, units: Units): string {
  const [header = [], row = []] = kitRows([device], units);
  const said = (name: string): string => {
    const at = header.findIndex((h) => splitHeader(String(h)).name === name);
    const value = row[at];
    if (typeof value !== 'number') return '';
    const unit = /\(([^)]*)\)/.exec(String(header[at]))?.[1] ?? '';
    return `${Number(value.toPrecision(3))} ${unit}`.trim();
  };
  switch (device.family) {
    case 'bag':
    case 'pad':
      return said('Volume');
    case 'soaker':
      return [said('Length'), said('Rate')].filter((part) => part !== '').join(' at ');
    case 'hand':
      return said('Flow');
    case 'tanker':
      return [said('Volume'), said('Flow')].filter((part) => part !== '').join(' at ');
  }
}
