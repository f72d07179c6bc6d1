/** The draft as it is kept in the workbook: made, stored as JSON, read back, turned into other units. */
import { isoDate, type Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import { convert, type Cell } from '../tables/cells.js';
import { fromSI, SITE_INPUTS, siteInput, type SiteKey } from '../tables/site-inputs.js';
import { CREW_LANGUAGES } from '../workbook/crew-words.js';
import type { Draft } from '../workers/plan-room.js';

/** A draft that says nothing yet: everything is the default or the example. */
export const emptyDraft = (): Draft => ({
  units: 'US',
  crewLanguage: 'en',
  corrections: {},
  site: {},
  starter: '',
});

const TABLES = ['weather', 'kit', 'rules', 'stages'] as const;
const KEYS: ReadonlySet<string> = new Set(SITE_INPUTS.map(({ key }) => key));

const isCell = (value: unknown): value is Cell =>
  value === null || ['string', 'number', 'boolean'].includes(typeof value);
const isTable = (value: unknown): value is Cell[][] =>
  Array.isArray(value) && value.every((row) => Array.isArray(row) && row.every(isCell));
const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What is written into the workbook; corrections are kept by their sheet's headers, not here. */
export function draftText({ corrections: _, ...kept }: Draft): string {
  return JSON.stringify(kept);
}

/**
 * A draft from the text kept in a workbook; "" is an empty draft.
 *
 * @throws Problem if the text is not one of ours, naming the part
 */
export function draftFrom(kept: string): Draft {
  const draft = emptyDraft();
  if (kept === '') return draft;
  const wrong = (part: string): Problem =>
    new Problem(`the settings kept in this workbook cannot be read (${part}); defaults are used`);
  let read: unknown;
  try {
    read = JSON.parse(kept);
  } catch {
    throw wrong('they are no JSON');
  }
  if (!isObject(read)) throw wrong('they are no object');
  if (read['units'] !== 'US' && read['units'] !== 'SI') throw wrong('units');
  const crewLanguage = CREW_LANGUAGES.find((language) => language === read['crewLanguage']);
  if (crewLanguage === undefined) throw wrong('crew language');
  if (typeof read['starter'] !== 'string') throw wrong('starter');
  if (!isObject(read['site'])) throw wrong('site');
  const site: Draft['site'] = {};
  for (const [key, value] of Object.entries(read['site'])) {
    if (!KEYS.has(key) || !isCell(value)) throw wrong(`site, ${key}`);
    site[key as SiteKey] = value;
  }
  Object.assign(draft, { units: read['units'], crewLanguage, site, starter: read['starter'] });
  for (const name of TABLES) {
    const table = read[name];
    if (table === undefined) continue;
    if (!isTable(table)) throw wrong(name);
    draft[name] = table;
  }
  return draft;
}

/** A number with as many digits as survive a conversion there and back. */
const rounded = (value: number): number => Number(value.toPrecision(10));

/** The same draft in other units: numbers typed for the site are converted, texts stay as they are. */
export function inUnits(draft: Draft, units: Units): Draft {
  if (draft.units === units) return draft;
  const site: Draft['site'] = {};
  for (const [key, value] of Object.entries(draft.site) as [SiteKey, Cell][]) {
    const { unitUS, unitSI, kind } = siteInput(key);
    const [from, to] = draft.units === 'US' ? [unitUS, unitSI] : [unitSI, unitUS];
    const converted =
      kind === 'number' && typeof value === 'number' && from !== to
        ? convert(value, from, to)
        : undefined;
    site[key] = converted === undefined ? value : rounded(converted);
  }
  return { ...draft, units, site };
}

/** A draft from a site file: SI inputs by key, efficiencies as an object, dates as text; tables as they are. */
export function draftFromSiteFile(given: unknown, units: Units): Draft {
  const draft: Draft = { ...emptyDraft(), units };
  if (!isObject(given)) throw new Problem('the site file is not an object of named parts');
  const inputs = isObject(given['site']) ? given['site'] : {};
  const flat = Object.entries(inputs).flatMap(([key, value]): [string, unknown][] =>
    key === 'efficiency' && isObject(value)
      ? Object.entries(value).map(([family, share]) => [`efficiency.${family}`, share])
      : [[key, value]],
  );
  for (const [key, value] of flat) {
    if (!KEYS.has(key) || !isCell(value))
      throw new Problem(`the site file: "${key}" is not an input of a site`);
    const input = siteInput(key as SiteKey);
    draft.site[input.key] =
      typeof value !== 'number'
        ? value
        : input.kind === 'day'
          ? isoDate(value as Day)
          : rounded(fromSI(input, value, units));
  }
  for (const name of TABLES) {
    const table = given[name];
    if (table === undefined) continue;
    if (!isTable(table)) throw new Problem(`the site file: "${name}" is not a list of rows`);
    draft[name] = table;
  }
  return draft;
}
