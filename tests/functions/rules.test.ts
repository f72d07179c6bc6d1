/**
 * The functions that ask a rules table, with rows as published (sources in tests/reference/rules) and dates worked by
 * hand. More of the same as data in tests/reference/rule-functions.json.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import { Problem } from '../../src/engine/problems.js';
import { FUNCTIONS } from '../../src/functions/index.js';

type Cells = (string | number | null)[][];
const tableOf = (pattern: string): Cells =>
  (
    JSON.parse(
      readFileSync(new URL(`../reference/rules/${pattern}.json`, import.meta.url), 'utf8'),
    ) as { rules: Cells }
  ).rules;
const [p1, p2, p4, p6, p13, p19] = ['p1', 'p2', 'p4', 'p6', 'p13', 'p19'].map(tableOf) as [
  Cells, Cells, Cells, Cells, Cells, Cells,
]; // prettier-ignore

const call = (id: string, ...inputs: unknown[]): unknown => {
  const target = FUNCTIONS[id];
  if (!target) throw new Error(`no ${id}`);
  return target(...inputs);
};
const open = (...inputs: unknown[]) => call('RULE_OPEN', ...inputs);
const why = (...inputs: unknown[]) => call('RULE_WHY', ...inputs) as string;
const next = (...inputs: unknown[]) => call('RULE_NEXT', ...inputs) as number;
const dates = (...inputs: unknown[]) =>
  (call('RULE_DATES', ...inputs) as number[][]).map((row) => {
    expect(row).toHaveLength(1);
    return row[0]!;
  });
function problem(run: () => unknown): Problem {
  try {
    throw new Error(`no error but ${JSON.stringify(run())}`);
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
}
const july = (date: number, hours = 0): number => dayOf(2026, 7, date) + hours / 24;
const rainOn = (when: string | number, inches: number): Cells => [
  ['Date', 'Rain'],
  [when, inches],
];

describe('published cases', () => {
  it('37: an odd number on a Monday waits for Wednesday (P1)', () => {
    expect(next('2026-07-06', 'sprinkler', '1427', p1)).toBe(july(8));
    expect(why('2026-07-06 12:00', 'sprinkler', '1427', p1)).toMatch(/^Closed .*Row 2 /);
    expect(why('2026-07-08 05:00', 'sprinkler', '1427', p1)).toMatch(/^Open .*Row 2 /);
    expect(why('2026-07-09 05:00', 'sprinkler', '1428', p1)).toMatch(/^Open .*Row 3 /);
  });

  it('38: the last digit decides, without a number Wednesday (P2)', () => {
    expect(next(july(6, 12), 'sprinkler', '2387', p2)).toBe(july(9));
    for (const blank of [null, undefined, '', ' ', 0, [[null]], 'the yard'])
      expect(next(july(6, 12), 'sprinkler', blank, p2)).toBe(july(8));
    expect(next(july(6, 12), 'sprinkler', 2387, p2)).toBe(july(9));
  });

  it('39: 48 hours from the end of the rain, then Thursday before 09:00 (P19)', () => {
    const rain = rainOn('2026-07-06 20:00', 1);
    expect(next('2026-07-07', 'bucket', '5', p19, null, rain)).toBe(july(9));
    expect(open('2026-07-09 08:59', 'bucket', '5', p19, null, rain)).toBe(true);
    expect(open('2026-07-09 09:00', 'bucket', '5', p19, null, rain)).toBe(false);
    expect(why('2026-07-07 08:00', 'bucket', '5', p19, null, rain)).toMatch(/^Closed .*Row 3 /);
  });

  it('40: any day to day 30 after planting, then Tuesday, Thursday, Sunday (P4)', () => {
    const asked = ['sprinkler', '240', p4, '2026-05-18'] as const;
    const first = dayOf(2026, 5, 18);
    const grace = dates('2026-05-18', '2026-06-16', ...asked);
    expect(grace).toEqual(Array.from({ length: 30 }, (_, i) => first + i));
    expect(dates('2026-06-17', '2026-06-18', ...asked)).toEqual([dayOf(2026, 6, 18)]);
    expect(next('2026-06-17', ...asked)).toBe(dayOf(2026, 6, 18));
    // day 61 is 17 July; from then on the days of every even number, Thursday and Sunday
    expect(dates('2026-07-13', '2026-07-26', ...asked)).toEqual([14, 16, 19, 23, 26].map((d) => july(d))); // prettier-ignore
  });

  it('42: 12 hours from 22:00 lie inside 17:00 to 10:00, the 13th does not (P13)', () => {
    const hours = Array.from({ length: 13 }, (_, h) => open(july(6, 22 + h), 'hand', '3', p13));
    expect(hours).toEqual([...Array<boolean>(12).fill(true), false]);
    expect(next(july(7, 10), 'hand', '3', p13)).toBeCloseTo(july(7, 17), 9);
  });

  it('a window across midnight opens both of its days (P6)', () => {
    expect(dates('2026-07-07', '2026-07-08', 'hand', '1427', p6)).toEqual([july(7), july(8)]);
    expect(open(july(8, 9), 'hand', '1427', p6)).toBe(true);
    expect(open(july(8, 21.5), 'hand', '1427', p6)).toBe(false);
  });
});

describe('RULE_NEXT and RULE_DATES agree with RULE_OPEN', () => {
  it('minute by minute over two weeks', () => {
    const asked = ['sprinkler', '1427', p1] as const;
    const minutes = Array.from({ length: 14 * 96 }, (_, i) => july(6) + i / 96);
    const openAt = minutes.map((at) => open(at, ...asked));
    const days = new Set(minutes.filter((_, i) => openAt[i]).map(Math.floor));
    expect(dates(july(6), july(19), ...asked)).toEqual([...days]);
    minutes.slice(0, 12 * 96).forEach((at, i) => {
      // windows begin on quarter hours
      expect(next(at, ...asked)).toBeCloseTo(minutes[openAt.indexOf(true, i)]!, 9);
    });
  });
});

describe('one cell after another', () => {
  it('asks the table it is given, though the last one is remembered', () => {
    const rule = (days: string): Cells => [
      ['Means', 'Days', 'Verdict'],
      ['bag', days, 'allow'],
    ];
    const table = rule('Mon');
    expect(open(july(6), 'bag', '5', table)).toBe(true);
    expect(open(july(6), 'bag', '5', rule('Tue'))).toBe(false);
    table[1]![1] = 'Wed';
    expect(open(july(6), 'bag', '5', table)).toBe(false);
    expect(open(july(8), 'bag', '5', table)).toBe(true);
    const stages = [['From', 'Stage'], [july(1), '2']]; // prettier-ignore
    const staged = [['Stage', 'Means', 'Verdict'], ['2', 'bag', 'ban']]; // prettier-ignore
    expect(open(july(8), 'bag', '5', staged)).toBe(true);
    expect(open(july(8), 'bag', '5', staged, null, null, stages)).toBe(false);
    expect(open(july(8), 'bag', '5', staged)).toBe(true);
  });
});

describe('arguments', () => {
  const base = ['bucket', '5', p19] as const;

  it('rain: inches or, by its header, millimetres; with or without a header; a whole date to its end', () => {
    const shut = (rain: unknown, at = '2026-07-07 08:00') => !open(at, ...base, undefined, rain);
    expect(shut([['2026-07-06 20:00', 0.5]])).toBe(true);
    expect(shut([['2026-07-06 20:00', 0.49]])).toBe(false);
    expect(shut([['Date', 'Rain (mm)'], ['2026-07-06 20:00', 12.6]])).toBe(false); // prettier-ignore
    expect(shut([['Date', 'Rain (mm)'], [july(6, 20), 12.8]])).toBe(true); // prettier-ignore
    expect(shut([['Date', 'Rain (in)'], [null, null], [july(6, 20), 1]])).toBe(true); // prettier-ignore
    // rain at some time of Monday: 48 hours from its end reach past Wednesday
    expect(next('2026-07-07', ...base, null, rainOn('2026-07-05', 1))).toBeCloseTo(july(9), 9);
    expect(next('2026-07-07', ...base, null, rainOn('2026-07-05 07:00', 1))).toBeCloseTo(
      july(7, 7),
      9,
    );
  });

  it.each([
    [rainOn('soon', 1), /^rain, row 2, must be a date .*"soon"/],
    [rainOn('2026-07-06', -1), /^rain, row 2, must be .* in; got -1/],
    [[['2026-07-06']], /^rain, row 1, must be .* blank/],
    [
      [
        ['Date', 'Rain (cm)'],
        ['2026-07-06', 1],
      ],
      /^rain is read in inches or mm; .*\(cm\)/,
    ],
    ['yesterday', /^rain must be a range/],
  ])('rain %j is refused', (rain, sentence) => {
    expect(problem(() => open(july(7), ...base, null, rain)).message).toMatch(sentence);
  });

  it('planted, rain and stages may be blank as hosts give it', () => {
    const usual = why('2026-07-07 08:00', ...base);
    for (const blank of [undefined, null, '', 0, [['']], [[null]]])
      expect(why('2026-07-07 08:00', ...base, blank, blank, blank)).toBe(usual);
  });

  it('a means no row speaks of is unrestricted, and the answer says so', () => {
    expect(why('2026-07-07 08:00', 'bag', '5', p6.slice(0, 3))).toMatch(/^Open: no rule found/);
  });

  it('water a tanker brings is its own source', () => {
    const mains: Cells = [
      ['Means', 'Source', 'Verdict'],
      ['any', 'mains', 'ban'],
    ];
    expect(open(july(7), 'tanker', '5', mains)).toBe(true);
    expect(open(july(7), 'hand', '5', mains)).toBe(false);
  });

  it.each([
    [() => open(0, ...base), 'value', /^when must be/],
    [() => open('noon', ...base), 'value', /^when must be a date with a time.*"noon"/],
    [() => open(july(7), 'mist', '5', p19), 'value', /^means must be one of .*"mist"/],
    [() => open(july(7), 'bag', '5', [[null]]), 'value', /^rules is blank/],
    [() => open(july(7), ...base, 'then'), 'value', /^planted must be a date/],
    [() => dates(july(7), july(6), ...base), 'value', /^to must not be before from/],
    [() => dates(july(7), july(7) + 1100, ...base), 'value', /^to must be within 1,100 days/],
    [() => dates(july(6), july(6), ...base), 'none', /no date is open\. Closed .*Row 2/],
    [() => next(july(6), 'soaker', '5', p19), 'none', /^after 2026-07-06 nothing opens within 400 days\. Closed .*Row 4/],
  ] as const)('%s is an error of kind %s', (run, kind, sentence) => {
    const found = problem(run);
    expect(found.kind).toBe(kind);
    expect(found.message).toMatch(sentence);
  }); // prettier-ignore

  it('1,100 days are enough for RULE_DATES, one after the other', () => {
    const all = dates(july(1), july(1) + 1099, 'bag', '5', [
      ['Means', 'Days', 'Verdict'],
      ['bag', 'any', 'allow'],
    ]);
    expect(all).toHaveLength(1100);
    expect(all.at(-1)).toBe(july(1) + 1099);
  });

  it('names the row and the words of a table that cannot be read', () => {
    const broken: Cells = [
      ['Means', 'Days', 'Verdict'],
      ['bag', 'any', 'allow'],
      ['bag', 'Blursday', 'ban'],
    ];
    for (const run of [open, why, next, dates.bind(null, july(1))]) {
      const found = problem(() => run(july(7), 'bag', '5', broken));
      expect(found.kind).toBe('value');
      expect(found.message).toMatch(/^rules: .*row 3.*Blursday/);
    }
    const stages: Cells = [
      ['From', 'Stage'],
      ['some day', '2'],
    ];
    const bad = problem(() => open(july(7), 'bag', '5', broken.slice(0, 2), null, null, stages));
    expect(bad.message).toMatch(/^stages: .*some day/);
  });
});

describe('rows of a stage', () => {
  const rules: Cells = [
    ['Stage', 'Means', 'Days', 'Verdict'],
    ['', 'any', 'Mon', 'allow'],
    ['2', 'any', 'any', 'ban'],
  ];
  const stages: Cells = [
    ['From', 'Stage'],
    [july(7), '2'],
    [july(20), '1'],
  ];

  it('speak only while their stage is in force', () => {
    expect(open(july(6, 12), 'bag', '5', rules, null, null, stages)).toBe(true);
    expect(open(july(13, 12), 'bag', '5', rules, null, null, stages)).toBe(false);
    expect(dates(july(1), july(31), 'bag', '5', rules, null, null, stages)).toEqual([6, 20, 27].map((d) => july(d))); // prettier-ignore
  });

  it('stay silent without a Stages table, and RULE_WHY says so', () => {
    expect(dates(july(1), july(31), 'bag', '5', rules)).toEqual([6, 13, 20, 27].map((d) => july(d))); // prettier-ignore
    expect(why(july(6), 'bag', '5', rules)).toMatch(/^Open .*Row 2 .*stage \(3\) stay silent/);
    expect(why(july(7), 'bag', '5', rules)).toMatch(/^Closed .*Row 2 .*stage \(3\) stay silent/);
    expect(why(july(6), 'bag', '5', rules, null, null, stages)).not.toMatch(/silent/);
    const onlyStaged = [rules[0]!, rules[2]!];
    const said = why(july(6), 'bag', '5', onlyStaged);
    expect(said).toMatch(/^Open: no rule found .*stay silent/);
    expect(said.match(/stay silent/g)).toHaveLength(1);
    const elsewhere = [...rules.slice(0, 2), ['2', 'drip', 'any', 'ban']];
    expect(why(july(6), 'bag', '5', elsewhere)).not.toMatch(/silent/);
  });
});
