/** Site, Kit and Weather sheets: what is written reads back, what is wrong is said. */
import { describe, expect, it } from 'vitest';
import { dayOf, isoDate } from '../../src/engine/dates.js';
import { Problem } from '../../src/engine/problems.js';
import type { Cell } from '../../src/tables/cells.js';
import { convert, plainNumber, quantity } from '../../src/tables/cells.js';
import { KIT_COLUMNS, kitRows, readKit } from '../../src/tables/kit.js';
import { SITE_INPUTS, siteValue } from '../../src/tables/site-inputs.js';
import { siteRows } from '../../src/tables/site-notes.js';
import { defaultSite, readSite, siteFromJson } from '../../src/tables/site.js';
import { readWeather, weatherRows } from '../../src/tables/weather.js';

describe('cells', () => {
  it.each([
    ['1,234.5', false, 1234.5],
    ['1.234,5', false, 1234.5],
    ['12,5', false, 12.5],
    ['1,234', false, 1234],
    ['1,234', true, 1.234],
    ['1 234,5', false, 1234.5],
    ['1,234,567', false, 1234567],
    ['-0.5', false, -0.5],
  ])('%s (decimal comma %s) is %f', (s, comma, n) => expect(plainNumber(s, comma)).toBe(n));
  it.each(['', 'abc', '1-2', '12 in', '1e999', '--3', '1,2,3.4.5'])('%s is no number', (s) =>
    expect(plainNumber(s)).toBeUndefined(),
  );
  it('quantities carry their unit', () => {
    expect(quantity('12 in')).toEqual({ value: 12, unit: 'in' });
    expect(quantity('15%')).toEqual({ value: 15, unit: '%' });
    expect(quantity('12 parrots')).toBeUndefined();
  });
  it('conversion refuses to mix dimensions', () => {
    expect(convert(1, 'ft', 'm')).toBeCloseTo(0.3048, 12);
    expect(convert(100, 'gal/h per 100 ft', 'L/h per m')).toBeCloseTo(378.5411784 / 30.48, 9);
    expect(convert(3.785411784, 'per 1000 gal', 'per m³')).toBeCloseTo(1, 12);
    expect(convert(1, 'gal/min', 'L/min')).toBeCloseTo(3.785411784, 12);
    expect(convert(2, '€/m³', 'per m³')).toBe(2);
    expect(convert(1, 'gal', 'm')).toBeUndefined();
  });
});

describe('site', () => {
  it('has one input for every field, within its own range', () => {
    const site = defaultSite();
    const fields = Object.entries(site).flatMap(([k, v]) => typeof v === 'object' ? Object.keys(v as object).map((f) => `${k}.${f}`) : [k]); // prettier-ignore
    const known = SITE_INPUTS.filter((i) => i.default !== '');
    expect(known.map((i) => i.key).sort()).toEqual(fields.sort());
    for (const i of SITE_INPUTS) {
      const v = siteValue(site, i.key);
      expect(v, i.key).toBe(i.default);
      if (i.range && v !== '')
        expect(Number(v) >= i.range[0] && Number(v) <= i.range[1], i.key).toBe(true);
    }
    expect(new Set(SITE_INPUTS.map((i) => i.name)).size).toBe(SITE_INPUTS.length);
  });
  it('what is not known by default stays unknown until it is given', () => {
    expect(SITE_INPUTS.filter((i) => i.default === '').map((i) => i.key)).toEqual(['yardLatitude', 'yardLongitude']); // prettier-ignore
    const blank = readSite([['Yard, latitude', '', 'deg']]);
    expect(blank.problems).toEqual([]);
    expect('yardLatitude' in blank.site).toBe(false);
    expect(readSite([['Yard, latitude', 33.5, 'deg']]).site.yardLatitude).toBe(33.5);
  });
  it.each(['US', 'SI'] as const)('written in %s reads back the same', (units) => {
    const site = defaultSite({ rootDepth: 250, tankVolume: 900, waterPrice: 1.1, seasonFrom: dayOf(2026, 3, 4), currency: '€' }); // prettier-ignore
    const { site: back, problems } = readSite(siteRows(site, units));
    expect(problems).toEqual([]);
    for (const i of SITE_INPUTS) {
      const v = siteValue(site, i.key);
      if (typeof v === 'number') expect(siteValue(back, i.key), i.key).toBeCloseTo(v, 6);
      else expect(siteValue(back, i.key)).toBe(v);
    }
  });
  it('units in the unit cell, the label or the value; shares in percent', () => {
    const { site, problems } = readSite([
      ['Root depth', 30, 'cm'],
      ['Tank volume (gal)', 100],
      ['Elevation', '1,000 ft'],
      ['Tank usable', '80%'],
      ['Season from', '2027-05-02'],
      ['Soil texture', 'Sandy-Loam'],
    ]);
    expect(problems).toEqual([]);
    expect(site.rootDepth).toBeCloseTo(300, 9);
    expect(site.tankVolume).toBeCloseTo(378.5411784, 9);
    expect(site.elevation).toBeCloseTo(304.8, 9);
    expect(site.tankUsable).toBeCloseTo(0.8, 12);
    expect(isoDate(site.seasonFrom)).toBe('2027-05-02');
    expect(site.texture).toBe('sandy loam');
  });
  it.each<[Cell[], RegExp]>([
    [['Latitude', 123], /row 1: Latitude is "123".*from -90 to 90/],
    [['Latitude', 'north'], /not a number/],
    [['Climate', 'wet'], /one of dry, humid/],
    [['Root depth', 12, 'gal'], /unit "gal"/],
    [['Season from', '2027-02-30'], /not a date/],
    [['Crew size', 2.5], /whole number/],
    [['Tank volume', 500], /names no unit; it is read in L/],
    [['Frobs', 3], /"Frobs" is not the name/],
    [['Zone', ''], /"Zone" is not|is blank/],
    [['Soil texture', 'porridge'], /one of sand/],
  ])('%j is said', (row, why) => {
    const { problems } = readSite([row]);
    expect(problems.join(' ')).toMatch(why);
  });
  it('a season that ends before it starts is mended and said', () => {
    const { site, problems } = readSite([['Season from', '2027-06-01'], ['Season to', '2027-05-01']]); // prettier-ignore
    expect(site.seasonTo).toBe(site.seasonFrom + 182);
    expect(problems.join(' ')).toMatch(/before it starts/);
  });
  it('from JSON', () => {
    const { site, problems } = siteFromJson({ latitude: 40, efficiency: { bag: 0.9 }, seasonTo: '2027-10-15', colour: 'red', tankUsable: 2 }); // prettier-ignore
    expect(site.latitude).toBe(40);
    expect(site.efficiency).toMatchObject({ bag: 0.9, hand: 0.7 });
    expect(isoDate(site.seasonTo)).toBe('2027-10-15');
    expect(problems.length).toBe(2);
    expect(siteFromJson(null).problems.length).toBe(1);
  });
});

describe('kit', () => {
  const header = KIT_COLUMNS.map((c) => (c.unitUS ? `${c.name} (${c.unitUS})` : c.name));
  const row = (values: Record<string, Cell>): Cell[] =>
    KIT_COLUMNS.map((c) => values[c.key] ?? null);
  it('reads US units and fills blanks', () => {
    const { kit, problems } = readKit([
      ['My kit'],
      header,
      row({ name: 'Big bag', family: 'Bag', volume: 20, holes: 4, ratedHours: 5, price: '19.5', automatic: 'no' }),
      row({ name: 'Hose A', family: 'soaker hose', rate: 80, length: 25, automatic: 'yes' }),
    ]); // prettier-ignore
    expect(problems).toEqual([]);
    expect(kit[0]).toMatchObject({ name: 'Big bag', family: 'bag', holes: 4, price: 19.5, seasons: 1, stock: 0, automatic: false }); // prettier-ignore
    expect(kit[0]?.volume).toBeCloseTo(75.70823568, 8);
    expect(kit[1]?.rate).toBeCloseTo((80 * 3.785411784) / 30.48, 8);
    expect(kit[1]?.length).toBeCloseTo(7.62, 9);
    expect(kit[1]?.automatic).toBe(true);
  });
  it.each(['US', 'SI'] as const)('written in %s reads back', (units) => {
    const { kit } = readKit([header, row({ name: 'Truck', family: 'tanker', volume: 500, flow: 8, price: 3, seasons: 4, stock: 1, setupMinutes: 5, visitMinutes: 2 })]); // prettier-ignore
    const back = readKit(kitRows(kit, units));
    expect(back.problems).toEqual([]);
    expect(back.kit[0]?.volume).toBeCloseTo(kit[0]?.volume ?? NaN, 8);
    expect(back.kit[0]).toMatchObject({
      name: 'Truck',
      family: 'tanker',
      seasons: 4,
      setupMinutes: 5,
    });
  });
  it.each<[Record<string, Cell>, RegExp]>([
    [{ name: 'Hose', family: 'soaker', length: 25 }, /"Hose" is left out.*measured rate/],
    [{ name: 'Bag', family: 'bag' }, /needs its full volume/],
    [{ name: 'Thing', family: 'sprinkler' }, /names no family.*bag, pad, soaker, hand, tanker/],
    [{ family: 'bag', volume: 15 }, /no name/],
    [{ name: 'Bag', family: 'bag', volume: 'big' }, /Volume is "big"/],
    [{ name: 'Bag', family: 'bag', volume: 15, price: -2 }, /Price is "-2".*out of range/],
    [{ name: 'Bag', family: 'bag', volume: 15, automatic: 'perhaps' }, /yes and no/],
  ])('%j is said', (values, why) => {
    expect(readKit([header, row(values)]).problems.join(' ')).toMatch(why);
  });
  it('whether more may be bought is yes, no, or left to the site', () => {
    const bag = (buy: Cell): Cell[] => row({ name: `Bag ${String(buy)}`, family: 'bag', volume: 15, buy }); // prettier-ignore
    const { kit, problems } = readKit([header, ...['yes', 'No', null, 'perhaps'].map(bag)]);
    expect(kit.map(({ buy }) => buy)).toEqual([true, false, undefined, undefined]);
    expect(problems).toEqual([
      'Kit sheet, row 5: Buy more is "perhaps"; accepted are yes, no and blank. It is taken as blank: the answer for the whole kit holds.',
    ]);
    const rows = kitRows(kit, 'US');
    const place = rows[0]!.indexOf('Buy more (yes/no)');
    expect(rows.slice(1).map((cells) => cells[place])).toEqual(['yes', 'no', null, null]);
    expect(readKit(rows).kit.map(({ buy }) => buy)).toEqual(kit.map(({ buy }) => buy));
  });
  it('a column without unit is said', () => {
    const { kit, problems } = readKit([
      ['Device', 'Family', 'Volume'],
      ['Bag', 'bag', 15],
    ]);
    expect(kit[0]?.volume).toBeCloseTo(56.78117676, 8);
    expect(problems.join(' ')).toMatch(/"Volume" names no unit; it is read in gal/);
  });
  it('without a header there is no kit', () => {
    expect(readKit([['a', 'b']]).problems[0]).toMatch(/no header row/);
  });
});

describe('weather', () => {
  const site = defaultSite({ seasonFrom: dayOf(2027, 6, 1), seasonTo: dayOf(2027, 7, 31) });
  it('by month, in and mm agree', () => {
    const us = readWeather([['Month', 'ET0 (in/day)', 'Rain (in)', 'Share counted'], ['Jun', 0.3, 2, '50%'], ['July', 0.32, 1, 0.5]], site); // prettier-ignore
    const si = readWeather([['Month', 'ET0 (mm/day)', 'Rain (mm)', 'Share counted'], [6, 7.62, 50.8, 0.5], [7, 8.128, 25.4, 0.5]], site); // prettier-ignore
    expect(us.problems).toEqual([]);
    expect(us.weather.et0.length).toBe(61);
    expect(us.weather.peakMonth).toBe(7);
    for (let i = 0; i < 61; i++) {
      expect(us.weather.et0[i]).toBeCloseTo(si.weather.et0[i] ?? NaN, 9);
      expect(us.weather.effectiveRain[i]).toBeCloseTo(si.weather.effectiveRain[i] ?? NaN, 9);
    }
    expect(us.weather.et0[0]).toBeCloseTo(7.62, 9);
  });
  it('what the writer writes reads back', () => {
    const monthly = [{ month: 6, et0: 7, rain: 30, share: 0.6 }, { month: 7, et0: 8, rain: 10, share: 0.6 }]; // prettier-ignore
    const { weather, problems } = readWeather(weatherRows(monthly, 'US'), site);
    expect(problems).toEqual([]);
    expect(weather.et0[60]).toBeCloseTo(8, 9);
  });
  it('a missing month is a problem with its name; assumed shares are said', () => {
    const one: Cell[][] = [
      ['Month', 'ET0 (mm/day)', 'Rain (mm)'],
      [6, 7, 30],
    ];
    expect(() => readWeather(one, site)).toThrow(/Jul/);
    expect(readWeather([...one, ['Jul', 8, 10]], site).problems.join(' ')).toMatch(
      /0\.5 is assumed/,
    );
    expect(() => readWeather([['nothing']], site)).toThrow(Problem);
  });
  it('by day, with ET0 from temperatures in F as in C', () => {
    const days = Array.from({ length: 61 }, (_, i) => dayOf(2027, 6, 1) + i);
    const f = readWeather([['Date', 'Tmax (F)', 'Tmin (F)', 'Rain (in)'], ...days.map((d): Cell[] => [isoDate(d), 95, 68, 0])], site); // prettier-ignore
    const c = readWeather([['Date', 'Tmax (C)', 'Tmin (C)', 'Rain (mm)'], ...days.map((d): Cell[] => [d, 35, 20, 0])], site); // prettier-ignore
    expect(f.weather.et0[10]).toBeCloseTo(c.weather.et0[10] ?? NaN, 9);
    expect(f.weather.et0[10]).toBeGreaterThan(5);
    expect(f.problems.join(' ')).toMatch(/computed from temperatures/);
  });
  it('by month, with ET0 from mean highs and lows: FAO-56 Eq. 52 with the radiation of its Table 2.6', () => {
    // Ra of the middle of the month at 10° north [MJ/m² per day]; Source: FAO-56 Annex 2, Table 2.6
    const printed = [[6, 37.0], [7, 37.1]] as const; // prettier-ignore
    const north = { ...site, latitude: 10 };
    const c = readWeather([['Month', 'Tmax (C)', 'Tmin (C)', 'Rain (mm)'], [6, 30, 20, 25.4], ['Jul', 30, 20, 0]], north); // prettier-ignore
    const f = readWeather([['Month', 'High (F)', 'Low (F)', 'Rain (in)'], ['June', 86, 68, 1], [7, 86, 68, 0]], north); // prettier-ignore
    for (const [month, ra] of printed) {
      const at = month === 6 ? 0 : 60;
      const expected = 0.0023 * (25 + 17.8) * Math.sqrt(10) * 0.408 * ra;
      // the table's own rounding, and days of a month between those of its middle
      expect(Math.abs(c.weather.et0[at]! / expected - 1)).toBeLessThan(0.005);
      expect(f.weather.et0[at]).toBeCloseTo(c.weather.et0[at]!, 9);
    }
    expect(c.problems.join(' ')).toContain(
      'ET0 of 2 months is computed from temperatures alone (Hargreaves), at latitude 10.',
    );
    expect(f.weather.rain[0]).toBeCloseTo(c.weather.rain[0]!, 9);
  });
  it('a month with one temperature, or with a low above the high, is left out and named', () => {
    const rows: Cell[][] = [['Month', 'Tmax (C)', 'Tmin (C)', 'Rain (mm)'], [6, 30, 20, 0], [7, 30, 20, 0], [8, 30, null, 0], [9, 10, 20, 0]]; // prettier-ignore
    const said = readWeather(rows, site).problems.join(' ');
    expect(said).toMatch(/row 4: the month has neither ET0 nor both temperatures; it is left out/);
    expect(said).toMatch(/row 5: the lowest temperature must not be above the highest/);
  });
  it('bad days are left out, and their lack is said', () => {
    expect(() => readWeather([['Date', 'ET0 (mm/day)', 'Rain (mm)'], ['someday', 5, 0]], site)).toThrow(/2027-06-01/); // prettier-ignore
  });
});
