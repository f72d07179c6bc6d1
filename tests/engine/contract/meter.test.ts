/** Meters: rollover, other units, missing readings, and the ledger beside the log. */
import { describe, expect, it } from 'vitest';
import { ledger, type MeterRow } from '../../../src/engine/contract/ledger.js';
import { METER_LITRES, meterLitres, unitsUsed } from '../../../src/engine/contract/meter.js';
import type { LogRow } from '../../../src/engine/contract/visit-log.js';
import { dayFromIso } from '../../../src/engine/dates.js';
import { L_PER_GALLON } from '../../../src/engine/units.js';
import { readMeters } from '../../../src/tables/meters.js';

const JUNE = dayFromIso('2027-06-01');
const logged = (day: number, gallons: number, source = 'H-7', row = 2): LogRow => ({
  row, tree: 'T1', day, crew: '1', truck: '', applied: gallons * L_PER_GALLON, source, leaves: '', bag: '', condition: '',
  photo: '', skipped: '', approved: '',
}); // prettier-ignore
const meter = (more: Partial<MeterRow> = {}): MeterRow => ({
  row: 2, meter: 'H-7', from: JUNE, to: JUNE + 29, begin: 1000, end: 2000, unit: 'gal', ...more,
}); // prettier-ignore

describe('readings of a meter', () => {
  it('differ by what was used', () => {
    expect(unitsUsed(1200, 1950)).toEqual({ used: 750, rolled: false });
    expect(unitsUsed(0, 0)).toEqual({ used: 0, rolled: false });
  });

  it('begin again after the highest number of so many digits', () => {
    expect(unitsUsed(99_990, 110)).toEqual({ used: 120, rolled: true });
    expect(unitsUsed(9990, 10, 4).used).toBe(20);
    expect(() => unitsUsed(990, 10, 6)).toThrow('a reading is more likely wrong');
  });

  it('are questioned where half the range or more would have been used', () => {
    expect(() => unitsUsed(1234, 1230)).toThrow(/end 1230 is below begin 1234.*9996 of its 10000/);
    expect(() => unitsUsed(-1, 5)).toThrow('begin must be from 0');
  });

  it('of 100 cubic feet are 748.05 gallons, of a cubic metre a thousand litres', () => {
    expect(METER_LITRES['100 ft3'] / L_PER_GALLON).toBeCloseTo((100 * 1728) / 231, 9);
    expect(meterLitres(10, 12, 'm3')).toBe(2000);
  });
});

describe('the ledger', () => {
  it('agrees with a log within a tenth, and says by how much not', () => {
    const close = ledger([meter()], [logged(JUNE + 3, 500), logged(JUNE + 9, 430)]);
    expect(close.rows[0]).toMatchObject({ agrees: true, rows: 2, questions: [] });
    const far = ledger([meter()], [logged(JUNE + 3, 700)]).rows[0]!;
    expect(far.agrees).toBe(false);
    expect(far.difference! / L_PER_GALLON).toBeCloseTo(300, 9);
    expect(far.questions).toEqual([
      "The log has 300 gal less than the meter's 1000 gal, beyond 10 %.",
    ]);
    expect(ledger([meter()], [logged(JUNE + 3, 700)], 0.35).rows[0]!.agrees).toBe(true);
  });

  it('keeps what came through no meter apart, with its rows', () => {
    const { unmetered } = ledger(
      [meter()],
      [logged(JUNE, 50, '', 5), logged(JUNE + 40, 20, 'H-7', 6)],
    );
    expect(unmetered.rows).toEqual([5, 6]);
    expect(unmetered.litres / L_PER_GALLON).toBeCloseTo(70, 9);
  });

  it('prices what lies above the water included: 18,000 gal with 5,000 in $50, 10 above', () => {
    const perM3 = (per1000: number): number => per1000 / L_PER_GALLON;
    const row = ledger(
      [
        meter({
          begin: 0,
          end: 18_000,
          fixed: 50,
          allowance: 5000 * L_PER_GALLON,
          price: perM3(10),
        }),
      ],
      [logged(JUNE, 18_000)],
    ).rows[0]!;
    expect(row.over / L_PER_GALLON).toBeCloseTo(13_000, 6);
    expect(row.cost).toBeCloseTo(50 + 130, 9);
  });

  it('gives $5.49 for 1,000 gallons at $4.11 for 100 cubic feet', () => {
    const price = 4.11 / (METER_LITRES['100 ft3'] / 1000);
    const end = 1000 / ((100 * 1728) / 231);
    const { cost } = ledger([meter({ begin: 0, end, unit: '100 ft3', price })], []);
    expect(cost).toBeCloseTo(5.49, 2);
  });

  it('asks about a missing reading, another unit, a gap, days read twice, and a permit that is over', () => {
    const rows = ledger(
      [
        meter({ end: undefined }),
        meter({ row: 3, from: JUNE + 30, to: JUNE + 59, begin: 3, end: 5, unit: '100 ft3' }),
        meter({ row: 4, from: JUNE + 50, to: JUNE + 80, begin: 6, end: 7, unit: '100 ft3', permitTo: JUNE + 60 }),
      ],
      [logged(JUNE + 70, 700)],
    ).rows; // prettier-ignore
    expect(rows[0]).toMatchObject({ used: undefined, agrees: undefined });
    expect(rows[0]!.questions[0]).toBe(
      'The end reading is missing, so nothing is known of this period.',
    );
    expect(rows[1]!.questions.join(' ')).toContain(
      'The unit was gal in row 2 and is 100 ft3 here.',
    );
    expect(rows[2]!.questions.join(' ')).toContain('It begins at 6, and row 3 ended at 5.');
    expect(rows[2]!.questions.join(' ')).toContain('Its days overlap those of row 3.');
    expect(rows[2]!.questions.join(' ')).toContain("outside the permit's days, to 2027-07-31");
  });

  it('says that a meter has begun again', () => {
    const row = ledger([meter({ begin: 99_900, end: 400 })], [logged(JUNE, 500)]).rows[0]!;
    expect(row).toMatchObject({ rolled: true, agrees: true });
    expect(row.questions).toEqual(['The meter has passed its highest number and begun again.']);
  });
});

describe('the Meters sheet', () => {
  const head = ['Meter number', 'From', 'To', 'Beginning read', 'Ending read', 'Unit', 'Price (per 1000 gal)'];
  it('reads the fields of a hydrant permit', () => {
    const { meters, problems } = readMeters([head, ['H-7', '2027-06-01', '2027-06-30', 12, 15, 'CCF', 5.5]]);
    expect(problems).toEqual([]);
    expect(meters[0]).toMatchObject({ meter: 'H-7', unit: '100 ft3', begin: 12, end: 15 });
    expect(meters[0]!.price).toBeCloseTo(5.5 / L_PER_GALLON, 9);
  });
  it.each([
    [['', '2027-06-01', '2027-06-30', 1, 2, 'gal'], /^row 2: Meter number is blank/],
    [['H', 'soon', '2027-06-30', 1, 2, 'gal'], /From is "soon"; accepted is a date cell/],
    [['H', '2027-06-30', '2027-06-01', 1, 2, 'gal'], /To lies before From/],
    [['H', '2027-06-01', '2027-06-30', 1, 2, 'barrels'], /Unit is "barrels"; accepted is gal, 100 ft3, m3/],
    [['H', '2027-06-01', '2027-06-30', -1, 2, 'gal'], /Beginning read is "-1"; accepted is a number from 0/],
  ])('%j is refused with a sentence', (row, sentence) => {
    expect(readMeters([head, row]).problems[0]).toMatch(sentence);
  });
}); // prettier-ignore
