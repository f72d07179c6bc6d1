/** Cells written in an ordinance's own words. Forms as ordinances print them; common practice, no source. */
import { describe, expect, it } from 'vitest';
import { readRules, RULE_COLUMNS, type RuleCell } from '../../../src/engine/rules/rule-table.js';
import { hoursText } from '../../../src/engine/rules/rule-words.js';

const read = (column: string, cell: RuleCell) =>
  readRules([
    [column, ...(column === 'Verdict' ? [] : ['Verdict'])],
    [cell, ...(column === 'Verdict' ? [] : ['allow'])],
  ]);
const rowOf = (column: string, cell: RuleCell) => {
  const { rows, problems } = read(column, cell);
  expect(problems.map((p) => p.sentence)).toEqual([]);
  return rows[0]!;
};
const whyNot = (column: string, cell: RuleCell): string => {
  const { rows, problems } = read(column, cell);
  expect(rows).toEqual([]);
  return problems.map((p) => p.sentence).join();
};

describe('hours', () => {
  it.each([
    ['before 9 am', '00:00-09:00'],
    ['after 7 pm', '19:00-24:00'],
    ['before 9 am or after 7 pm', '00:00-09:00, 19:00-24:00'],
    ['Before 9:00 a.m. and after 7:00 p.m.', '00:00-09:00, 19:00-24:00'],
    ['before 9am, or after 7pm', '00:00-09:00, 19:00-24:00'],
    ['6 am - 9 am', '06:00-09:00'],
    ['6 am–9 am', '06:00-09:00'],
    ['9:30 pm to 6 am', '21:30-06:00'],
    ['from 6 am until 9 am', '06:00-09:00'],
    ['between 6 am and 9 am', '06:00-09:00'],
    ['between midnight and 10 am, between 7 pm and midnight', '00:00-10:00, 19:00-24:00'],
    ['midnight to noon', '00:00-12:00'],
    ['noon-5 pm', '12:00-17:00'],
    ['12 am to 12 pm', '00:00-12:00'],
    ['12:30 pm - 1 pm', '12:30-13:00'],
    ['before noon', '00:00-12:00'],
    ['not between 10 am and 6 pm', '00:00-10:00, 18:00-24:00'],
    ['one of 4 am-8 am or 6 pm-10 pm', '04:00-08:00, 18:00-22:00'],
    ['00:00-09:00', '00:00-09:00'],
    ['before 9', '00:00-09:00'],
  ])('"%s" are %s', (cell, windows) => {
    expect(hoursText(rowOf('Hours', cell).hours!)).toBe(windows);
  });

  it.each([
    ['6-9 am', '"6" says neither am nor pm'],
    ['13 pm to 14 pm', 'there is no 13 pm'],
    ['0 am to 3 am', 'there is no 0 am'],
    ['noon', '"noon" is not a window'],
    ['sunrise to 9 am', '"sunrise" is not a time'],
  ])('"%s" are refused: %s', (cell, why) => expect(whyNot('Hours', cell)).toContain(why));
});

describe('means', () => {
  it.each([
    ['hose', ['soaker', 'hand']],
    ['Hoses, bags, trucks', ['soaker', 'hand', 'bag', 'tanker']],
    ['soaker hoses', ['soaker']],
    ['hand-held hoses', ['hand']],
    ['watering bags and water trucks', ['bag', 'tanker']],
    ['drip & sprinklers', ['drip', 'sprinkler']],
    ['bucket or watering can', ['bucket']],
    ['drip irrigation/soakers', ['drip', 'soaker']],
  ])('"%s" are %s', (cell, means) => expect(rowOf('Means', cell).means).toEqual(means));
  it('"all" is any', () => expect(rowOf('Means', 'all').means).toBe(null));
});

describe('days', () => {
  const [SUN, MON, , WED, THU, FRI, SAT] = [1, 2, 4, 8, 16, 32, 64];
  it.each([
    ['Mon & Thu', MON | THU],
    ['Mondays and Thursdays', MON | THU],
    ['on Mondays, Thursdays', MON | THU],
    ['every Monday', MON],
    ['Mon. / Thurs.', MON | THU],
    ['Wed - Fri', WED | THU | FRI],
    ['Wednesday through Friday', WED | THU | FRI],
    ['weekends', SAT | SUN],
    ['daily', 127],
  ])('"%s" are read', (cell, mask) => expect(rowOf('Days', cell).days.weekdays).toBe(mask));
});

describe('a refusal', () => {
  it.each([
    ['Means', 'tubes, bag, balloons', ['"tubes"', '"balloons"']],
    ['Days', 'Mon Foo Bar', ['"foo"', '"bar"']],
    ['Days', 'Foo, Bar', ['"foo"', '"bar"']],
    ['Hours', 'dawn or dusk', ['"dawn"', '"dusk"']],
    ['Address', 'odd and blue or green', ['"blue"', '"green"']],
    ['Needs', 'luck, timer, patience', ['"luck"', '"patience"']],
  ])('of %s "%s" names all words that cannot be read: %j', (column, cell, words) => {
    const [problem] = read(column, cell).problems;
    const why = problem!.sentence.slice(0, problem!.sentence.indexOf('Read "'));
    for (const word of words) expect(why).toContain(word);
    expect(why).not.toMatch(/"(bag|mon|odd|timer)"/);
    expect(problem!.accepted).toBe(RULE_COLUMNS.find(({ name }) => name === column)!.accepted);
  });
});

describe('the table of what can stand in each column', () => {
  it.each(RULE_COLUMNS.map(({ name, example }) => [name, example]))('the example of %s, "%s", is read', (name, example) => {
    expect(example).not.toBe('');
    rowOf(name, example);
  }); // prettier-ignore
  it.each(['Hours', 'Days', 'Rain'])('every form it names for %s is read', (name) => {
    const { accepted } = RULE_COLUMNS.find((c) => c.name === name)!;
    const forms = accepted.replace('; several joined by commas', '').replace('one of 04:00-08:00, 18:00-22:00', 'one of 04:00-08:00 or 18:00-22:00').replace(', noon, midnight', '').split(/[,;] /); // prettier-ignore
    expect(forms.length).toBeGreaterThan(2);
    for (const form of forms) expect(read(name, form).problems.map((p) => p.sentence)).toEqual([]);
  });
});
