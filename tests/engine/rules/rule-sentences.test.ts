import { describe, expect, it } from 'vitest';
import { describeTable, parseRules } from '../../../src/engine/rules/rule-table.js';
import type { RuleCell } from '../../../src/engine/rules/rule-table.js';

const said = (cells: Record<string, RuleCell>): string => {
  const table = parseRules([
    ['Verdict', ...Object.keys(cells)],
    [cells.Verdict ?? 'allow', ...Object.values(cells)],
  ]);
  const [first] = describeTable(table);
  return first?.sentence ?? table.problems.map((p) => p.sentence).join(' ');
};

describe('a row as a sentence', () => {
  it.each([
    [
      { Means: 'soaker', Address: 'even', Days: 'Tue Sat', Hours: 'before 10:00, after 19:00', From: '2027-05-01' },
      'Even addresses may water by soaker on Tuesday and Saturday, before 10:00 or after 19:00, from 1 May 2027.',
    ],
    [{}, 'All addresses may water by any means.'],
    [{ Hours: '00:00-24:00' }, 'All addresses may water by any means at any hour.'],
    [{ Days: 'none', Means: 'hand' }, 'Nobody may water by hand on any day, unless another row opens it.'],
    [
      { Address: 'odd and not class shop or none', Days: 'odd dates, not Sun, 3 per week', '31st': 'none' },
      'Odd addresses not of class shop or addresses without a number may water by any means on any day but Sunday, on odd dates, on at most 3 days a week, but not on the 31st and on 29 February.',
    ],
    [
      { Address: 'ends 0-2 and side N/W', Days: 'every 3rd day', Source: 'well, rain' },
      'Addresses ending in 0, 1 or 2 and on the north or west side of the street may water by any means with well or rain water every 3rd day counted from 1 January.',
    ],
    [
      { Address: 'group c', From: 'Nov', To: 'Feb', Days: 'Mon', Hours: '18:00-09:00', Midnight: 'end' },
      'Addresses in group C may water by any means on Monday, from 18:00 to 09:00 the next day (the day on which the window ends counts), from 1 November to the end of February of every year.',
    ],
    [
      { From: 'first Sun Oct', To: 'before last Sun Mar', Days: 'every 2nd day' },
      'All addresses may water by any means every 2nd day counted from that date, from the first Sunday of October to the day before the last Sunday of March of every year.',
    ],
    [
      { Target: 'tree', Limit: '15 zone', Rain: '48 h after 0.5 in', Needs: 'nozzle, one tap, permit', Note: 'sec. 3' },
      'All addresses may water trees by any means for at most 15 min a day per zone, but not for 48 h after 12.7 mm (0.5 in) of rain or more, with a nozzle that shuts off, one tap at a time and a permit (sec. 3).',
    ],
    [
      { 'New planting': '31-60', 'Day one': 0, Hours: 'one of 04:00-08:00, 18:00-22:00', Limit: 30 },
      'All addresses may water new plantings by any means on days 31 to 60 after planting (planting day is day 0), from 04:00 to 08:00 or from 18:00 to 22:00, in one of these windows only, chosen once, for at most 30 min a day.',
    ],
    [
      { 'New planting': '61+', Finish: 'may run over', Drain: 'inside', Filling: 'hand', Means: 'hand' },
      'All addresses may water new plantings by hand from day 61 on after planting (planting day is day 1); a run may end outside the hours; a bag must have drained inside the hours; filling a bag or a tank counts as watering by hand.',
    ],
    [
      { Verdict: 'ban', Agency: 'District', Stage: 'Stage 2', Needs: 'timer', Hours: '11:00-19:00', To: '2027-09-30' },
      'District, stage 2: nobody may water by any means from 11:00 to 19:00, until 30 September 2027, with a timer.',
    ],
    [{ Verdict: 'ban', Address: 'odd', Rain: '24 h after rain' }, 'Odd addresses may not water by any means for 24 h after any rain.'],
    [{ Verdict: 'free', Means: 'hand, drip' }, 'All addresses may water by hand or drip at any time.'],
  ] as [Record<string, RuleCell>, string][])('%j', (cells, expected) =>
    expect(said(cells)).toBe(expected),
  ); // prettier-ignore

  it('a change of any one cell changes the sentence', () => {
    const base: Record<string, RuleCell> = {
      Stage: '1', From: '2027-05-01', To: '2027-09-30', Means: 'hand', Target: 'tree', Source: 'well',
      Address: 'odd', Days: 'odd dates', Hours: '18:00-09:00', Limit: '30', 'New planting': '1-30',
      Rain: '48 h after 10 mm', Verdict: 'allow', Needs: 'nozzle', Note: 'a', Agency: 'town',
      '31st': 'all', Midnight: 'start', Finish: 'inside', Drain: 'free', Filling: 'own means', 'Day one': 1,
    }; // prettier-ignore
    const other: Record<string, RuleCell> = {
      Stage: '2', From: '2027-05-02', To: '2027-09-29', Means: 'drip', Source: 'rain',
      Address: 'even', Days: 'even dates', Hours: '18:00-08:00', Limit: '30 property', 'New planting': '1-31',
      Rain: '47 h after 10 mm', Verdict: 'ban', Needs: 'timer', Note: 'b', Agency: 'district',
      '31st': 'none', Midnight: 'end', Finish: 'may run over', Drain: 'inside', Filling: 'hand', 'Day one': 0,
    }; // prettier-ignore
    const first = said(base);
    for (const [column, cell] of Object.entries(other))
      expect(said({ ...base, [column]: cell }), column).not.toBe(first);
    // a target is said where no age speaks of new plantings already
    const { 'New planting': _, ...grown } = base;
    expect(said({ ...grown, Target: 'new planting' })).not.toBe(said(grown));
  });
});
