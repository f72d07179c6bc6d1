import { describe, expect, it } from 'vitest';
import { defaultSite, readSite, siteFromJson } from '../../src/tables/site.js';
import { hourOf, hourText } from '../../src/tables/hours.js';
import { isAssumption, siteRows } from '../../src/tables/site-notes.js';
import type { Cell } from '../../src/tables/cells.js';

describe('an hour of the day', () => {
  it.each([
    [6, 6],
    [6.5, 6.5],
    ['6', 6],
    ['6.5', 6.5],
    ['6,5', 6.5],
    ['6:30', 6.5],
    ['06:30', 6.5],
    ['6:30 am', 6.5],
    ['6:30 a.m.', 6.5],
    ['6 pm', 18],
    ['12 am', 0],
    ['12:15 pm', 12.25],
    ['18:00', 18],
    ['18:00:00', 18],
    ['18 h', 18],
    ['6h30', 6.5],
    ['0:30', 0.5],
    [0, 0],
    ['23:59', 23 + 59 / 60],
    // a spreadsheet keeps a time as a part of a day
    [0.25, 6],
    [0.270833333333333, 6.5],
    [0.999305555555556, 23 + 59 / 60],
  ] as [Cell, number][])('%j is %f', (cell, hours) => {
    expect(hourOf(cell)).toBeCloseTo(hours, 9);
  });
  it.each(['', 'dawn', '24:00', 24, 25, -1, '6:75', '13 pm', '0 am', '6:3', '6-14', true, null] as Cell[])(
    '%j is none',
    (cell) => expect(hourOf(cell)).toBe(undefined),
  ); // prettier-ignore
  it('is written with two digits each, and read back', () => {
    for (let minute = 0; minute < 1440; minute++) {
      const text = hourText(minute / 60);
      expect(text).toMatch(/^\d\d:\d\d$/);
      expect(hourOf(text)! * 60).toBeCloseTo(minute, 9);
    }
  });
});

describe('the hour a crew starts, an input of the site', () => {
  it('is six unless it is given, an assumption with its note and source', () => {
    expect(defaultSite().crewStart).toBe(6);
    expect(readSite([['Latitude', 33, 'deg']]).site.crewStart).toBe(6);
    expect(isAssumption('crewStart')).toBe(true);
  });
  it('goes to the Site sheet and back in both systems of units', () => {
    for (const units of ['US', 'SI'] as const) {
      const rows = siteRows(defaultSite({ crewStart: 18.5 }), units);
      const row = rows.find(([name]) => name === 'Crew starts at')!;
      expect(row.slice(1, 3)).toEqual(['18:30', 'time']);
      const { site, problems } = readSite(rows);
      expect(problems).toEqual([]);
      expect(site.crewStart).toBe(18.5);
    }
  });
  it('is read from a typed time, a text and a site file', () => {
    for (const cell of [0.25, '6:00', 6, '6 am'])
      expect(readSite([['Crew starts at', cell, 'time']])).toMatchObject({
        site: { crewStart: 6 },
        problems: [],
      });
    expect(siteFromJson({ crewStart: '5:15' })).toMatchObject({
      site: { crewStart: 5.25 },
      problems: [],
    });
  });
  it('that cannot be read gives a sentence and the default', () => {
    const { site, problems } = readSite([['Crew starts at', 'dawn', 'time']]);
    expect(site.crewStart).toBe(6);
    expect(problems).toEqual([
      'Site sheet, row 1: Crew starts at is "dawn", which is not an hour of the day; accepted is an hour of the day from 0:00 to 23:59, such as 6:30, 6.5, 6:30 pm or 18:00. The default 06:00 is used.',
    ]);
  });
  it('that is missing in an older sheet is the default, which a blank cell is said to be', () => {
    expect(readSite([['Crew hours a day', 8, 'h']]).problems).toEqual([]);
    expect(readSite([['Crew starts at', '', 'time']]).problems).toEqual([
      'Site sheet, row 1: Crew starts at is blank; the default is used.',
    ]);
  });
});
