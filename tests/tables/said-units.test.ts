/** Limits and measures in sentences: in the units of the person, and never wider than what is accepted. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { convert, type Cell } from '../../src/tables/cells.js';
import { readInventory } from '../../src/tables/inventory/index.js';
import { KIT_COLUMNS, readKit } from '../../src/tables/kit.js';
import { measureWords, rangeIn, rangeWords, unitsOf } from '../../src/tables/said-units.js';
import { readSite } from '../../src/tables/site.js';
import { SITE_INPUTS } from '../../src/tables/site-inputs.js';

const ACROSS = { unitUS: 'in', unitSI: 'cm' };

describe('a range', () => {
  it('is said in the units asked for, in both where nobody asked', () => {
    expect(rangeWords([5, 5000], 'mm', ACROSS, 'US')).toBe('0.2 to 196 in');
    expect(rangeWords([5, 5000], 'mm', ACROSS, 'SI')).toBe('0.5 to 500 cm');
    expect(rangeWords([5, 5000], 'mm', ACROSS, undefined)).toBe('0.2 to 196 in or 0.5 to 500 cm');
  });
  it('has no unit for a share, and no end where there is none', () => {
    expect(rangeWords([0, 1], 'share', { unitUS: 'share', unitSI: 'share' }, 'US')).toBe('0 to 1');
    expect(rangeIn([0, Number.MAX_VALUE], 'm³', 'gal')).toBe('0 up gal');
  });
  it('is rounded inward, so that both ends it names are accepted', () => {
    const pairs = [...SITE_INPUTS, ...KIT_COLUMNS].filter(
      ({ range, unitUS, unitSI }) => range && unitUS !== unitSI,
    );
    expect(pairs.length).toBeGreaterThan(12);
    for (const { name, range, unitUS, unitSI } of pairs) {
      const [, low, high] = /^(\S+)(?: to (\S+)| up)/.exec(rangeIn(range!, unitSI, unitUS))!;
      expect(convert(Number(low), unitUS, unitSI), name).toBeGreaterThanOrEqual(range![0]);
      if (high !== undefined)
        expect(convert(Number(high), unitUS, unitSI), name).toBeLessThanOrEqual(range![1]);
    }
  });
});

describe('a measure', () => {
  it('is said with three digits, in both units where nobody asked', () => {
    expect(measureWords(340, 'mm', ACROSS, 'US')).toBe('13.4 in');
    expect(measureWords(340, 'mm', ACROSS, undefined)).toBe('13.4 in (34 cm)');
  });
  it('knows the system of a unit word, and of none that both have or neither', () => {
    expect(['inches', 'cm', 'ft'].map((unit) => unitsOf(unit, { unitUS: 'in', unitSI: 'cm' }))).toEqual([undefined, 'SI', undefined]); // prettier-ignore
    expect(unitsOf('in', ACROSS)).toBe('US');
    expect(unitsOf('h', { unitUS: 'h', unitSI: 'h' })).toBe(undefined);
  });
});

describe('what readers say of units', () => {
  const site = (unit: string): string => readSite([['Elevation', 'high', unit]]).problems[0] ?? '';
  it('follows the unit beside an input of the site', () => {
    expect(site('ft')).toBe('Site sheet, row 1: Elevation is "high", which is not a number; accepted is a number from -1410 to 16400 ft. The default 984 ft is used.'); // prettier-ignore
    expect(site('m')).toContain('from -430 to 5000 m. The default 300 m is used.');
    expect(site('')).toContain('from -1410 to 16400 ft or -430 to 5000 m. The default 984 ft (300 m)'); // prettier-ignore
  });
  it('names blocks of water in the units of the person', () => {
    const blocks: Cell[][] = [
      ['Water block 1, up to', 500, 'gal'],
      ['Water block 2, up to', 400, 'gal'],
    ];
    expect(readSite(blocks, 'US').problems).toEqual(['Water block 2 ends at 400 gal, not above block 1, which ends at 500 gal; block 2 is taken without an end.']); // prettier-ignore
    expect(readSite(blocks, 'SI').problems[0]).toContain('ends at 1.51 m³');
  });
  it('follows the header of a kit', () => {
    const kit = (header: string): string =>
      readKit([['Device', 'Family', header], ['Bag', 'bag', 99999999]]).problems.join(' '); // prettier-ignore
    expect(kit('Volume (gal)')).toContain('accepted is a number from 0.027 to 13200 gal.');
    expect(kit('Volume (L)')).toContain('accepted is a number from 0.1 to 50000 L.');
    expect(kit('Volume')).toContain('from 0.027 to 13200 gal or 0.1 to 50000 L.');
  });
  it('follows the column of an inventory for a value, and the person for what lacks', () => {
    const rows = (header: string, units?: 'US' | 'SI') =>
      readInventory([['Tree id', header], ['1', 4000], ['2', 5], ['3', 6]], units && { sayIn: units }).rows[0]?.unusable; // prettier-ignore
    expect(rows('Caliper (in)', 'US')).toMatch(/would be 4000 in, outside 0\.2 to 196 in.*trunk diameter \(0\.2 to 196 in\)/); // prettier-ignore
    expect(rows('Caliper (cm)', 'SI')).toMatch(/would be 4000 cm, outside 0\.5 to 500 cm.*trunk diameter \(0\.5 to 500 cm\)/); // prettier-ignore
    expect(rows('Caliper (in)')).toContain('trunk diameter (0.2 to 196 in or 0.5 to 500 cm)');
  });
});
