/** Inventories in the shapes people really send, all invented. */
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import type { Tree } from '../../src/engine/plan/model.js';
import type { Cell } from '../../src/tables/cells.js';
import { readInventory, type InventoryReading } from '../../src/tables/inventory/index.js';

const table = (s: string): Cell[][] => s.trim().split('\n').map((line) => line.split('|').map((c) => (c.trim() === '' ? null : c.trim()))); // prettier-ignore
const trees = (r: InventoryReading): Tree[] => r.rows.flatMap((x) => x.tree ?? []);
const meaningOf = (r: InventoryReading, header: string): string | undefined =>
  r.matches.find((m) => m.header === header)?.meaning;
const reason = (r: InventoryReading, row: number): string =>
  r.rows.find((x) => x.row === row)?.unusable ?? '';
const notesOf = (r: InventoryReading, row: number): string =>
  (r.rows.find((x) => x.row === row)?.notes ?? []).join(' ');

describe('our own columns', () => {
  const r = readInventory(
    table(`
Tree id | Species | Count | Caliper (in) | Container class | Ball diameter (in) | Ball depth (in) | Planted | Canopy diameter (ft) | Height (ft) | Water use | Soil texture | Mulch depth (in) | Site | Address | Latitude | Longitude | Tap | Tap flow (gpm) | Source | Means wanted | Note
A1 | Quercus imaginaria | 3 | 2 | | 24 | 16 | 2026-11-05 | 6 | 12 | low | sandy loam | 3 | North lawn | 12 Fable Way | 33.5 | -101.5 | yes | 5 | well | bag, pad | lean`),
  );
  it('are matched exactly and turned to SI', () => {
    expect(r.matches.every((m) => m.confidence === 'exact')).toBe(true);
    expect(r.unmatched).toEqual([]);
    const t = trees(r)[0];
    expect(t).toMatchObject({
      id: 'A1',
      row: 2,
      species: 'Quercus imaginaria',
      count: 3,
      planted: dayOf(2026, 11, 5),
      plantFactor: 0.2,
      texture: 'sandy loam',
      site: 'North lawn',
      address: '12 Fable Way',
      tap: true,
      source: 'well',
      meansWanted: ['bag', 'pad'],
      note: 'lean',
      latitude: 33.5,
      longitude: -101.5,
    });
    expect(t?.caliper).toBeCloseTo(50.8, 9);
    expect(t?.ballDiameter).toBeCloseTo(609.6, 9);
    expect(t?.ballDepth).toBeCloseTo(406.4, 9);
    expect(t?.canopy).toBeCloseTo(1.8288, 9);
    expect(t?.height).toBeCloseTo(3.6576, 9);
    expect(t?.mulchDepth).toBeCloseTo(76.2, 9);
    expect(t?.tapFlow).toBeCloseTo(18.92705892, 9);
  });
});

describe('headers of others', () => {
  it.each([
    ['DBH_IN', 'caliper', 'in'],
    ['dbhcm', 'caliper', 'cm'],
    ['Trunk_Diam', 'caliper', 'in'],
    ['Trunk dia. (in)', 'caliper', 'in'],
    ['Trunk Diamter (in)', 'caliper', 'in'],
    ['7_Diameter_at_Breast', 'caliper', 'in'],
    ['Stammdurchmesser [cm]', 'caliper', 'cm'],
    ['stammumfangCM', 'circumference', 'cm'],
    ['Circonférence', 'circumference', 'cm'],
    ['CAP', 'circumference', 'cm'],
    ['TREECALIPER', 'caliper', 'in'],
    ['dbh_class', 'diameterClass', 'in'],
  ])('%s means %s in %s', (header, meaning, unit) => {
    const r = readInventory([['Tree No.', header], ['1', '20'], ['2', '30'], ['3', '25']]); // prettier-ignore
    expect(r.matches.map((m) => [m.header, m.meaning, m.unit])).toContainEqual([header, meaning, unit]); // prettier-ignore
  });
  it.each([
    ['COMMON_NAM', 'commonName'],
    ['Nome volgare', 'commonName'],
    ['Botanischer Name', 'species'],
    ['Nom scientifique', 'species'],
    ['Nombre científico', 'species'],
    ['Specis', 'species'],
    ['Genus ', 'genus'],
    ['GATTUNG', 'genus'],
  ])('%s holds names: %s', (header, meaning) => {
    const r = readInventory([['Tree No.', header, 'DBH'], ['1', 'Fabula', '3'], ['2', 'Mythica', '4']]); // prettier-ignore
    expect(meaningOf(r, header.trim())).toBe(meaning);
  });
  it('survey days are not planting days', () => {
    for (const header of [
      'date_inven',
      'yearinv',
      'created_at',
      'EditDate',
      'Inventory_Date',
      'CreationDa',
    ]) {
      const r = readInventory([['Tree ID', 'DBH', header], ['1', '3', '2019-05-06'], ['2', '3', '2019-05-07']]); // prettier-ignore
      expect(r.unmatched, header).toContain(header);
      expect(trees(r)[0]?.planted, header).toBeUndefined();
    }
  });
  it('a name without support in its cells is refused, and said', () => {
    const r = readInventory([['id', 'Genero', 'Nombre científico', 'CAP'], ['1', '28', 'Fabula ficta', '60'], ['2', '63', 'Fabula vera', '75']]); // prettier-ignore
    expect(meaningOf(r, 'Genero')).toBeUndefined();
    expect(r.notes.join(' ')).toMatch(/"Genero" is named like a genus/);
  });
  it('a code column gives way to the scientific name', () => {
    const r = readInventory([['species', 'scientific', 'dbh'], ['FAFI', 'Fabula ficta', '3'], ['FAVE', 'Fabula vera', '4']]); // prettier-ignore
    expect(trees(r).map((t) => t.species)).toEqual(['Fabula ficta', 'Fabula vera']);
  });
  it('genus and epithet make a species; common names after :: are dropped', () => {
    const a = readInventory([['genus', 'species', 'dbh'], ['Fabula', 'ficta Auct.', '12'], ['Fabula', 'x vera', '12']]); // prettier-ignore
    expect(trees(a).map((t) => t.species)).toEqual(['Fabula ficta Auct.', 'Fabula x vera']);
    const b = readInventory([
      ['id', 'species', 'dbh'],
      ['1', 'Fabula ficta :: Story Oak', '3'],
    ]);
    expect(trees(b)[0]?.species).toBe('Fabula ficta');
  });
  it('the user overrules, and may ignore', () => {
    const cells: Cell[][] = [['id', 'date', 'girth'], ['1', '2020-02-03', '30'], ['2', '2020-02-04', '31']]; // prettier-ignore
    const r = readInventory(cells, { matches: { date: 'ignore', girth: 'caliper' }, units: 'US' });
    expect(meaningOf(r, 'girth')).toBe('caliper');
    expect(r.unmatched).toEqual(['date']);
    expect(trees(r)[0]?.caliper).toBeCloseTo(762, 9);
    expect(readInventory(cells, { matches: { date: 'birthday' } }).notes.join(' ')).toMatch(/"birthday" is not a meaning/); // prettier-ignore
  });
  it('a line of units under the header is used and listed', () => {
    const r = readInventory(table(`Tree ID | DBH | Height\n- | cm | m\n1 | 20 | 5\n2 | 25 | 6`));
    expect(trees(r).map((t) => t.caliper)).toEqual([200, 250]);
    expect(reason(r, 2)).toMatch(/units/);
  });
});

describe('where the table begins and ends', () => {
  it('skips a preamble and says so', () => {
    const r = readInventory(table(`
Street trees of Fableton
made | yesterday

Tree ID | Species | DBH (in)
1 | Fabula ficta | 3`)); // prettier-ignore
    expect(r.headerRow).toBe(4);
    expect(r.notes.join(' ')).toMatch(/2 rows above the header/);
    expect(trees(r)[0]?.row).toBe(5);
  });
  it('reads a sheet without header by its contents', () => {
    const r = readInventory(table(`
Story Linden | Tilia fabulosa | 40.5128053 | -75.7823380 | 15 gal.
Story Linden | Tilia fabulosa | 40.5128453 | -75.7822960 | 5 gal.
Myth Maple | Acer mythicum | 40.5129135 | -75.7823334 | #7`)); // prettier-ignore
    expect(r.headerRow).toBe(0);
    expect(r.matches.map((m) => m.meaning)).toEqual(['commonName', 'species', 'latitude', 'longitude', 'container']); // prettier-ignore
    expect(trees(r).map((t) => [t.species, t.container, t.row])).toEqual([
      ['Tilia fabulosa', 15, 1],
      ['Tilia fabulosa', 5, 2],
      ['Acer mythicum', 7, 3],
    ]);
  });
  const ends = readInventory(table(`
Tree ID | Species | Qty | DBH (in) | Status
1 | Fabula ficta | 2 | 3 | Good

2 | Fabula vera | 4 | 4 | Fair
Tree ID | Species | Qty | DBH (in) | Status
3 | Fabula vera | 5 | 4 | Dead
4 | Blank | 1 | 4 |
5 | Stump | 1 | 4 |
6 | Fabula ficta | 1 | 5 | Remove deadwood
7 | Fabula ficta | 1 | |
8 | Fabula ficta | 120000 | 4 |
9 | Fabula ficta | | 4 |
Total | | 13 | |
fin | | | |`)); // prettier-ignore
  it('lists every row once, as a tree or with its reason', () => {
    expect(ends.rows.map((x) => x.row)).toEqual([2, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14]);
    for (const x of ends.rows) expect(x.tree === undefined).toBe(x.unusable !== undefined);
    expect(trees(ends).map((t) => t.id)).toEqual(['1', '2', '6', '9']);
    expect(ends.notes.join(' ')).toMatch(/1 entirely blank row skipped/);
  });
  it.each([
    [5, /repeats the header/],
    [6, /"Dead"/],
    [7, /"Blank".*no living tree/],
    [8, /"Stump".*no living tree/],
    [10, /no trunk diameter, container, ball or canopy.*fill one of/],
    [11, /count is "120000"/],
    [13, /sums/],
    [14, /ends the list/],
  ])('row %i says why', (row, why) => {
    expect(reason(ends, row)).toMatch(why);
    expect(reason(ends, row)).toMatch(new RegExp(`^Row ${row}: .*\\.$`));
  });
  it('a blank count is one tree, noted', () => {
    expect(trees(ends)[3]?.count).toBe(1);
    expect(notesOf(ends, 12)).toMatch(/Count is blank/);
  });
  it('knows a sum line without a label', () => {
    const r = readInventory(table(`Species | Tree Planted Qty | Tree Size\nMyth Oak | 3 | 15 gal.\nMyth Oak | 4 | 15 gal.\nMyth Elm | 5 | 5 gal.\n | 12 |`)); // prettier-ignore
    expect(trees(r).length).toBe(3);
    expect(reason(r, 5)).toMatch(/sums of the columns above/);
  });
  it.each(['abattu', 'SUPPRIMÉ', 'Essouché', 'gefällt', 'talado', 'Rimosso nel 2019', 'Removed'])(
    'a tree that is "%s" is listed',
    (status) => {
      const r = readInventory([['Tree ID', 'DBH', 'Status'], ['1', '3', 'ok'], ['2', '3', status]]); // prettier-ignore
      expect(trees(r).map((t) => t.id)).toEqual(['1']);
    },
  );
  it.each([
    ['Removed', false],
    ['Dec 90 removed', false],
    ['Gone', false],
    ['Dead tree next door', true],
    ['removed stakes', true],
    ['Dead branches', true],
  ])('a note "%s" leaves the tree: %s', (note, stays) => {
    const r = readInventory([
      ['Tree ID', 'DBH', 'Note'],
      ['1', '3', note],
    ]);
    expect(trees(r).length === 1).toBe(stays);
  });
  it('an empty sheet and a sheet of blanks have no rows', () => {
    expect(readInventory([]).rows).toEqual([]);
    expect(readInventory([[null, ''], ['  ']]).rows).toEqual([]);
  });
});

describe('ids, addresses, sites', () => {
  it('makes double ids unique and names missing ones', () => {
    const r = readInventory(table(`Tree ID | DBH\n7 | 3\n7 | 3\n7-2 | 3\n | 3\n0 | 3\n7 | 3`));
    const ids = trees(r).map((t) => t.id);
    expect(new Set(ids).size).toBe(6);
    expect(ids.slice(0, 2)).toEqual(['7', '7-2']);
    expect(ids.slice(3, 5)).toEqual(['row 5', 'row 6']);
    expect(notesOf(r, 3)).toMatch(/already used/);
  });
  it('joins house number and street; the site falls back to the address', () => {
    const r = readInventory(table(`House Number | Street | DBH\n12 | Fable Way | 3\n | Fable Way | 3\n | | 3`)); // prettier-ignore
    expect(trees(r).map((t) => [t.address, t.site])).toEqual([
      ['12 Fable Way', '12 Fable Way'],
      ['Fable Way', 'Fable Way'],
      ['', 'no address'],
    ]);
  });
  it('carries a street down where it is written once a group', () => {
    const r = readInventory(table(`
Street | Street Number | Tree Number | DBH
Fable Way | 3 | 1 | 5
 | | 2 | 5
 | 5 | 1 | 5
 | | 2 | 5
Myth Lane | 9 | 1 | 5
 | | 2 | 5
 | | 3 | 5`)); // prettier-ignore
    expect(trees(r).map((t) => t.address)).toEqual([
      '3 Fable Way', '3 Fable Way', '5 Fable Way', '5 Fable Way', '9 Myth Lane', '9 Myth Lane', '9 Myth Lane',
    ]); // prettier-ignore
    expect(r.notes.join(' ')).toMatch(/carried down/);
  });
  it('reads a pair of coordinates in one cell', () => {
    const r = readInventory([['id', 'Geopoint', 'DBH'], ['1', '(45.5, 9.25)', '10'], ['2', '(45.6, 9.35)', '12']]); // prettier-ignore
    expect(trees(r)[1]).toMatchObject({ latitude: 45.6, longitude: 9.35 });
  });
});

describe('units', () => {
  it('follow the coordinates when no header names one', () => {
    const at = (lat: string, lon: string): number | undefined =>
      trees(readInventory([['lat', 'lon', 'dbh'], [lat, lon, '20'], [lat, lon, '24'], [lat, lon, '30']]))[0]?.caliper; // prettier-ignore
    expect(at('35.125', '-101.555')).toBeCloseTo(508, 9);
    expect(at('-35.125', '144.555')).toBeCloseTo(200, 9);
  });
  it('too large for inches is read as cm, loudly', () => {
    const r = readInventory([
      ['id', 'dbh'],
      ['1', '70'],
      ['2', '80'],
      ['3', '90'],
    ]);
    expect(r.matches[1]?.unit).toBe('cm');
    expect(r.notes.join(' ')).toMatch(/Look here: "dbh"/);
  });
  it('a "diameter" beyond 1 m on half the rows is a circumference, loudly', () => {
    const r = readInventory(
      table(`id | tronc_diam\n1 | 314.159265358979\n2 | 150\n3 | 110\n4 | 0`),
    );
    expect(r.matches[1]).toMatchObject({ meaning: 'circumference', unit: 'cm' });
    expect(trees(r)[0]?.caliper).toBeCloseTo(1000, 6);
    expect(r.notes.join(' ')).toMatch(/Look here: "tronc_diam" is named as a diameter/);
    expect(reason(r, 5)).toMatch(/"0" is taken as not measured/);
  });
  it('circumference and diameter that disagree are noted, the diameter wins', () => {
    const r = readInventory(table(`id | DBH (cm) | Girth (cm)\n1 | 20 | 62.83\n2 | 20 | 90`));
    expect(trees(r).map((t) => t.caliper)).toEqual([200, 200]);
    expect(notesOf(r, 2)).not.toMatch(/differ/);
    expect(notesOf(r, 3)).toMatch(/differ/);
  });
  it('decimal commas', () => {
    const r = readInventory(table(`Baumnummer | Stammumfang (cm) | Kronendurchmesser (m)\n1 | 62,8 | 4,5\n2 | 94,25 | 6`)); // prettier-ignore
    expect(trees(r)[0]?.caliper).toBeCloseTo(628 / Math.PI, 9);
    expect(trees(r)[0]?.canopy).toBeCloseTo(4.5, 9);
  });
  it('a radius is doubled and two crown widths are averaged', () => {
    expect(trees(readInventory(table(`id | Canopy radius (ft)\n1 | 10`)))[0]?.canopy).toBeCloseTo(6.096, 9); // prettier-ignore
    const two = readInventory(table(`id | CROWNWIDTH_EW | CROWNWIDTH_NS\n1 | 10 | 20`), { units: 'SI' }); // prettier-ignore
    expect(trees(two)[0]?.canopy).toBeCloseTo(15, 9);
  });
});

describe('survey years side by side', () => {
  const r = readInventory(table(`
Tree No. | Species | Diameter - 1981 | Diameter - 1988 | Diameter (1997) | Height - 1981
1 | Myth ash | 3 | 4 | 5 | 10
2 | Myth ash | 3 | 4 | - |
3 | Myth ash | 3 | | 0 | 12
4 | Myth ash | | | |`)); // prettier-ignore
  it('use the latest that is filled', () => {
    expect(trees(r).map((t) => Math.round((t.caliper ?? 0) / 25.4))).toEqual([5, 4, 3]);
    expect(r.notes.join(' ')).toMatch(/survey years 1981 to 1997/);
    expect(reason(r, 5)).toMatch(/no trunk diameter/);
  });
});

describe('messy trunks', () => {
  const inches = (cell: Cell): number | undefined => {
    const mm = trees(readInventory([['id', 'Caliper (in)', 'Canopy (ft)'], ['1', cell, 5], ['2', 3, 5], ['3', 4, 5]]))[0]?.caliper; // prettier-ignore
    return mm === undefined ? undefined : mm / 25.4;
  };
  it.each([
    ['2-2.5', 2.25],
    ['6-12', 9],
    ['3x2', Math.sqrt(13)],
    ['3, 2, 2', Math.sqrt(17)],
    ['8/6/5', Math.sqrt(125)],
    ['8/6', 10],
    ['3 + 4', 5],
    ['2 1/2"', 2.5],
    ['2-1/2', 2.5],
    ['2½', 2.5],
    ['3/4', 0.75],
    ['5.08 cm', 2],
    ['2 in', 2],
    ['2" cal.', 2],
    ['>30', 30],
    ['30+', 30],
    ['<6', 3],
    [2.5, 2.5],
  ])('%s is %f in', (cell, expected) => expect(inches(cell)).toBeCloseTo(expected, 9));
  it.each(['Clump', '0', '0.1', '300', 'n/a', '16/05/10', '-3'])('%s is no trunk', (cell) =>
    expect(inches(cell)).toBeUndefined(),
  );
});

describe('containers', () => {
  it.each([
    ['15 gal.', 15],
    ['#15', 15],
    ['15 gallon', 15],
    ['5 gal., 15 gal.', 5],
    ['3 gal., Seedling', 3],
    [15, 15],
  ])('%s is class %i', (cell, expected) => {
    const r = readInventory([
      ['id', 'Container'],
      ['1', cell],
    ]);
    expect(trees(r)[0]?.container).toBe(expected);
  });
  it('a seedling has no container, and the row says so', () => {
    const r = readInventory([
      ['id', 'Container'],
      ['1', 'Seedling'],
      ['2', '15 gal'],
    ]);
    expect(reason(r, 2)).toMatch(/"Seedling" is not a container class/);
  });
  it('a "size" column is told by its cells', () => {
    const size = (...cells: Cell[]): string | undefined =>
      meaningOf(readInventory([['id', 'Size'], ...cells.map((c, i) => [i, c])]), 'Size');
    expect(size('15 gal', '5 gal', '#7')).toBe('container');
    expect(size('3', '4.5', '6')).toBe('caliper');
  });
});

describe('planting dates', () => {
  const planted = (
    cells: Cell[],
    options = {},
  ): { days: (number | undefined)[]; r: InventoryReading } => {
    const r = readInventory([['id', 'DBH (in)', 'Planted'], ...cells.map((c, i) => [`t${i}`, 3, c] as Cell[])], options); // prettier-ignore
    return { days: trees(r).map((t) => t.planted), r };
  };
  it.each<[Cell, number]>([
    ['2021-04-16', dayOf(2021, 4, 16)],
    ['2021-04', dayOf(2021, 4, 15)],
    ['20210416', dayOf(2021, 4, 16)],
    [44302, dayOf(2021, 4, 16)],
    ['2021-04-16 17:47:40+00', dayOf(2021, 4, 16)],
    ['Spring 84', dayOf(1984, 4, 1)],
    ['Fall 92', dayOf(1992, 10, 1)],
    ['fall 86 (551)', dayOf(1986, 10, 1)],
    ['May-92', dayOf(1992, 5, 15)],
    ['Oct. 6/93', dayOf(1993, 10, 6)],
    ['6 October 1993', dayOf(1993, 10, 6)],
    ['3 mars 2019', dayOf(2019, 3, 3)],
    ['20-Dec-13', dayOf(2013, 12, 20)],
    ['1982', dayOf(1982, 7, 1)],
    [1982, dayOf(1982, 7, 1)],
    ['14.10.1998', dayOf(1998, 10, 14)],
  ])('%s', (cell, expected) => expect(planted([cell]).days).toEqual([expected]));
  it('a year before spreadsheet dates keeps the tree old', () => {
    expect(planted(['1862']).days).toEqual([61]);
  });
  it.each<[Cell, RegExp]>([
    ['1900', /zero/],
    [1, /zero/],
    ['1899-12-30', /zero/],
    ['30/02/2020', /does not exist/],
    ['Hedge', /not a date/],
  ])('%s is noted and left out', (cell, why) => {
    const { days, r } = planted([cell, '2020-05-06']);
    expect(days[0]).toBeUndefined();
    expect(notesOf(r, 2)).toMatch(why);
  });
  it('day and month order is decided by the whole column', () => {
    expect(planted(['10/12/1998', '14/10/1998']).days[0]).toBe(dayOf(1998, 12, 10));
    expect(planted(['10/12/1998', '5/15/1998']).days[0]).toBe(dayOf(1998, 10, 12));
  });
  it('an open column follows the units and says so', () => {
    const us = planted(['10/12/1998', '01/02/1999'], { units: 'US' });
    const si = planted(['10/12/1998', '01/02/1999'], { units: 'SI' });
    expect(us.days[0]).toBe(dayOf(1998, 10, 12));
    expect(si.days[0]).toBe(dayOf(1998, 12, 10));
    expect(us.r.notes.join(' ')).toMatch(/Look here: the dates of "Planted"/);
  });
  it('both orders in one column are noted', () => {
    expect(planted(['14/10/1998', '10/14/1998']).r.notes.join(' ')).toMatch(/mixes/);
  });
  it('a zero year beside a made-up date drops the date', () => {
    const r = readInventory(table(`id | DBH | Date.Planted | Year.Planted\n1 | 9 | 1/01/2000 | 1900\n2 | 9 | 14/10/1998 | 1998\n3 | 9 | 14/10/1998 | 1985`)); // prettier-ignore
    expect(trees(r).map((t) => t.planted)).toEqual([undefined, dayOf(1998, 10, 14), dayOf(1998, 10, 14)]); // prettier-ignore
    expect(notesOf(r, 4)).toMatch(/the year column 1985/);
  });
  it('"removed" in place of a date is no tree; the far future is noted', () => {
    expect(reason(planted(['Removed', '2020-05-06']).r, 2)).toMatch(/in place of a date/);
    const late = planted(['2031-05-06'], { seasonFrom: dayOf(2027, 4, 1) });
    expect(notesOf(late.r, 2)).toMatch(/more than a year after/);
  });
  it('date cells: planted keeps them, a measure refuses them', () => {
    const cells: Cell[][] = [['id', 'DBH (in)', 'Canopy (ft)', 'Planted'], ['1', 40304, 6, 33055], ['2', 3, 6, 33055]]; // prettier-ignore
    const r = readInventory(cells, { dateCells: new Set(['1,1', '1,3', '2,3']) });
    expect(trees(r)[0]?.caliper).toBeUndefined();
    expect(trees(r)[0]?.planted).toBe(dayOf(1990, 7, 1));
    expect(notesOf(r, 2)).toMatch(/is a date where a measure belongs/);
  });
});

describe('10,000 rows', () => {
  it('are all read', () => {
    const cells: Cell[][] = [['Tree ID', 'Species', 'DBH', 'Planted', 'Address', 'Latitude', 'Longitude', 'Status']]; // prettier-ignore
    for (let i = 0; i < 10_000; i++)
      cells.push([`T${i}`, 'Fabula ficta', String(2 + (i % 50) / 2), `2019-05-${(i % 28) + 1}`, `${i} Fable Way`, `33.${i}1`, `-101.${i}1`, 'Good']); // prettier-ignore
    const r = readInventory(cells);
    expect(trees(r).length).toBe(10_000);
  });
});
