import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dayFromIso, isoDate } from '../../../src/engine/dates.js';
import {
  allowed,
  describeRow,
  numberNotice,
  parseRules,
  readRules,
  RULE_COLUMNS,
  runAllowed,
} from '../../../src/engine/rules/rule-table.js';
import type { Moment, RuleCell, RuleQuery } from '../../../src/engine/rules/rule-table.js';
import { ruleCalendar } from '../../../src/engine/rules/rule-calendar.js';

type JsonQuery = Omit<RuleQuery, 'planted' | 'rain' | 'watered'> & {
  planted?: string;
  rain?: { day: string; mm: number; minute?: number }[];
  watered?: string[];
};
interface Shape {
  pattern: string;
  source: string;
  rules: RuleCell[][];
  stages?: RuleCell[][];
  moments: { at: string; open: boolean; row: number | null; query: JsonQuery }[];
  next: { case: number | null; at: string; opens: string; query: JsonQuery }[];
  runs?: { case: number | null; at: string; minutes: number; open: boolean; query: JsonQuery }[];
}
interface Broken {
  rules: RuleCell[][];
  row: number;
  column: string;
  read: string;
  accepted: string;
  why: string;
}

const FOLDER = new URL('../../reference/rules/', import.meta.url);
const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8'));
const shapes = readdirSync(FOLDER)
  .filter((name) => /^p\d+.*\.json$/.test(name))
  .map((name) => ({ name, ...(read(name) as Shape) }));
const broken = (read('broken.json') as { cases: Broken[] }).cases;

const moment = (text: string): Moment => {
  const [date = '', time = ''] = text.split('T');
  const [h = '', m = ''] = time.split(':');
  return { day: dayFromIso(date), minute: Number(h) * 60 + Number(m) };
};
const stamp = (m: Moment | undefined): string => {
  if (!m) return 'never';
  const two = (n: number) => String(n).padStart(2, '0');
  return `${isoDate(m.day)}T${two(Math.floor(m.minute / 60))}:${two(m.minute % 60)}`;
};
const query = ({ planted, rain, watered, ...rest }: JsonQuery): RuleQuery => ({
  ...rest,
  planted: planted === undefined ? undefined : dayFromIso(planted),
  watered: watered?.map(dayFromIso),
  rain: rain?.map((r) => ({ ...r, day: dayFromIso(r.day) })),
});

describe('published shapes', () => {
  it('has a table for each of P1 to P19, with six moments or more, open and closed', () => {
    const patterns = new Set(shapes.map((s) => s.pattern));
    expect([...patterns].sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)))).toEqual(
      Array.from({ length: 19 }, (_, i) => `P${i + 1}`),
    );
    for (const shape of shapes) {
      expect(shape.moments.length, shape.name).toBeGreaterThanOrEqual(6);
      expect(new Set(shape.moments.map((m) => m.open)).size, shape.name).toBe(2);
    }
  });

  for (const shape of shapes)
    describe(`${shape.name} (${shape.source})`, () => {
      const table = parseRules(shape.rules, shape.stages);
      it('reads without a broken row', () => {
        expect(table.problems.filter((p) => p.kind === 'broken')).toEqual([]);
        expect(table.rows).toHaveLength(shape.rules.length - 1);
      });
      it.each(shape.moments)('$at $query.family at "$query.address" is $open', (m) => {
        const answer = allowed(table, moment(m.at), query(m.query));
        expect({ open: answer.open, row: answer.row }).toEqual({ open: m.open, row: m.row });
        expect(answer.reason).toContain(m.row === null ? 'no rule found' : `Row ${m.row} `);
      });
      it.each(shape.next)('case $case: closed $at, opens $opens', (n) => {
        const answer = allowed(table, moment(n.at), query(n.query));
        expect(answer.open).toBe(false);
        expect(stamp(answer.until)).toBe(n.opens);
      });
      it.each(shape.runs ?? [])('case $case: $minutes min from $at is $open', (r) => {
        const answer = runAllowed(table, moment(r.at), r.minutes, query(r.query));
        expect(answer.open).toBe(r.open);
      });
    });
});

describe('broken rows', () => {
  it.each(broken)('$column "$read"', (b) => {
    const table = parseRules(b.rules);
    const problems = table.problems.filter((p) => p.kind === 'broken');
    expect(problems).toHaveLength(1);
    const [problem] = problems;
    expect(problem).toMatchObject({ row: b.row, column: b.column, read: b.read, table: 'Rules' });
    expect(problem?.accepted).toContain(b.accepted);
    expect(problem?.sentence).toContain(b.why);
    expect(problem?.sentence).toContain(`Rules row ${b.row}, ${b.column}: `);
    expect(table.rows).toEqual([]);
  });

  it('leaves out only the broken row and keeps row numbers over blank rows', () => {
    const table = parseRules([
      ['Means', 'Verdict'],
      ['tube', 'ban'],
      [null, ''],
      ['hand', 'allow'],
    ]);
    expect(table.rows.map((r) => r.row)).toEqual([4]);
    expect(table.problems.map((p) => p.row)).toEqual([2]);
  });

  it('reports every broken cell of a row', () =>
    expect(
      parseRules([
        ['Means', 'Hours', 'Verdict'],
        ['tube', '9', 'perhaps'],
      ]).problems.map((p) => p.column),
    ).toEqual(['Means', 'Hours', 'Verdict']));

  it('reports unknown, doubled and missing columns', () => {
    const odd = parseRules([['Verdict', 'Colour', 'verdict'], ['ban']]);
    expect(odd.problems.map((p) => [p.row, p.column])).toEqual([
      [1, 'Colour'],
      [1, 'Verdict'],
    ]);
    expect(odd.rows).toHaveLength(1);
    const none = parseRules([['Means'], ['bag']]);
    expect(none.problems.map((p) => p.column)).toEqual(['Verdict']);
    expect(none.rows).toEqual([]);
  });

  it('reports a Stages table that cannot be read', () => {
    const stages: RuleCell[][] = [
      ['From', 'Stage'],
      ['2027-13-01', '1'],
      ['2027-05-01', ''],
      ['2027-05-01', 'Stage 1'],
      ['2027-05-01', '2'],
    ];
    const table = parseRules([['Verdict'], ['ban']], stages);
    expect(table.problems.map((p) => [p.table, p.row, p.column])).toEqual([
      ['Stages', 2, 'From'],
      ['Stages', 3, 'Stage'],
      ['Stages', 5, 'From'],
    ]);
    expect(table.stages).toEqual([{ from: dayFromIso('2027-05-01'), stage: '1' }]);
  });

  it('notices a contradiction, a stage never in force and a missing none row', () => {
    const table = parseRules([
      ['Stage', 'Means', 'Address', 'Verdict'],
      ['', 'bag, hand', '', 'ban'],
      ['', 'hand', 'odd', 'allow'],
      ['3', 'drip', '', 'allow'],
    ]);
    expect(table.rows).toHaveLength(3);
    expect(table.problems.map((p) => [p.kind, p.row, p.column])).toEqual([
      ['notice', 3, 'Verdict'],
      ['notice', 4, 'Stage'],
    ]);
    expect(table.problems[0]?.sentence).toContain('row 2');
  });

  it('has forty or more, of every column that can be misread', () => {
    expect(broken.length).toBeGreaterThanOrEqual(40);
    const free = ['Stage', 'Note', 'Agency'];
    const columns = RULE_COLUMNS.map((c) => c.name).filter((name) => !free.includes(name));
    expect([...new Set(broken.map((b) => b.column))].sort()).toEqual(columns.sort());
  });

  it('reports each of 10,000 broken rows and reads the good one behind them', () => {
    const rows = Array.from({ length: 10_000 }, (): RuleCell[] => ['hand', '25:00-26:00', 'ban']);
    const table = parseRules([['Means', 'Hours', 'Verdict'], ...rows, ['hand', '', 'ban']]);
    expect(table.problems).toHaveLength(10_000);
    expect(table.problems.at(-1)).toMatchObject({ row: 10_001, column: 'Hours', kind: 'broken' });
    expect(table.rows.map((r) => r.row)).toEqual([10_002]);
  });

  it('says when 10,000 contradictory rows are too many to be listed', () => {
    const rows = Array.from({ length: 10_000 }, (_, i): RuleCell[] => [
      i % 2 ? 'hand' : 'drip, hand',
      i % 2 ? 'ban' : 'allow',
    ]);
    const table = parseRules([['Means', 'Verdict'], ...rows]);
    expect(table.rows).toHaveLength(10_000);
    expect(table.problems).toHaveLength(201);
    expect(table.problems.at(-1)?.sentence).toContain('not all pairs of rows were compared');
  });

  it.each([
    // [ban, row, column of the notice or '' for none]
    [{ Means: 'bag, hand' }, { Means: 'hand, soaker' }, 'Means'],
    [{ Means: 'bag' }, { Means: 'soaker' }, ''],
    [{ Means: 'hand', Filling: 'hand' }, { Means: 'bag' }, 'Verdict'],
    [{ Source: 'mains' }, { Source: 'mains, well' }, 'Source'],
    [{ Address: 'odd' }, { Address: 'ends 0-4' }, 'Address'],
    [{ Address: 'odd' }, { Address: 'ends 0,4,8' }, ''],
    [{ Address: 'odd' }, { Address: 'ends 1,3' }, 'Verdict'],
    [{ Address: 'odd' }, { Address: '' }, ''],
    [{ Address: 'class shop' }, { Address: 'odd and not class shop' }, ''],
    [{ Days: 'Mon-Wed' }, { Days: 'Wed Sat' }, 'Days'],
    [{ Days: 'odd dates' }, { Days: 'even dates' }, ''],
    [{ Days: 'Sun' }, { Days: '' }, ''],
    [{ Hours: '11:00-19:00' }, { Hours: '06:00-12:00' }, 'Hours'],
    [{ Hours: '11:00-19:00' }, { Hours: '20:00-04:00' }, ''],
    [{ Hours: '22:00-06:00' }, { Hours: '23:00-01:00' }, 'Verdict'],
    [{ Hours: '11:00-19:00', Means: 'drip' }, { Hours: '', Means: 'drip, hand' }, ''],
    [{ From: '2027-05-01', To: '2027-05-31' }, { From: '2027-05-15', To: '2027-06-15' }, 'From'],
    [{ From: 'Nov', To: 'Feb' }, { From: '2027-02-01', To: '2027-03-01' }, 'From'],
    [{ From: 'Nov', To: 'Feb' }, { From: 'Dec', To: 'Jan' }, 'Verdict'],
    [{ From: 'Nov', To: 'Feb' }, { From: 'Mar', To: 'Apr' }, ''],
    [{ 'New planting': '1-30' }, { 'New planting': '20-40' }, 'New planting'],
    [{ Stage: '1' }, { Stage: '2' }, ''],
    [{ Agency: 'town' }, { Agency: 'district' }, ''],
    [{ Rain: '48 h after rain' }, { Days: 'Mon' }, ''],
    [{ Needs: 'timer' }, { Days: 'Mon' }, ''],
  ] as [Record<string, RuleCell>, Record<string, RuleCell>, string][])(
    'a ban of %j and a row of %j: notice "%s"',
    (ban, row, column) => {
      const names = [...new Set([...Object.keys(ban), ...Object.keys(row)])];
      const cells = (of: Record<string, RuleCell>) => names.map((name) => of[name] ?? '');
      const stages: RuleCell[][] = [
        ['From', 'Stage'],
        ['2027-01-01', '1'],
        ['2027-02-01', '2'],
      ];
      const table = parseRules(
        [
          [...names, 'Verdict'],
          [...cells(ban), 'ban'],
          [...cells(row), 'allow'],
        ],
        stages,
      );
      const found = table.problems.filter((p) => p.sentence.includes('contradicts'));
      expect(found.map((p) => p.column)).toEqual(column === '' ? [] : [column]);
      if (column === '') return;
      expect(found[0]).toMatchObject({ kind: 'notice', row: 3 });
      expect(found[0]?.sentence).toContain('row 2');
      expect(found[0]?.sentence.includes('in part')).toBe(column !== 'Verdict');
    },
  );

  it.each([
    [{ Address: 'odd and even' }, 'Address'],
    [{ Address: 'none and ends 4' }, 'Address'],
    [{ Address: 'group a and group b' }, 'Address'],
    [{ Days: 'Mon', From: '2027-05-01', To: '2027-05-02' }, 'Days'],
    [{ Days: 'odd dates', '31st': 'none', From: '2027-05-31', To: '2027-05-31' }, 'Days'],
    [{ Days: 'even dates', From: '05-01', To: '05-01' }, 'Days'],
    [{ Stage: '2', From: '2027-05-01', To: '2027-05-31' }, 'From'],
    [{ Days: 'Mon', From: '05-01', To: '05-01' }, ''],
    [{ Address: 'odd or even' }, ''],
    [{ Stage: '2', From: '2027-05-01' }, ''],
  ] as [Record<string, RuleCell>, string][])(
    'a row of %j can never match: notice "%s"',
    (cells, column) => {
      const stages: RuleCell[][] = [
        ['From', 'Stage'],
        ['2027-01-01', '1'],
        ['2027-06-01', '2'],
      ];
      const table = one({ ...cells, Verdict: 'allow' }, stages);
      const found = table.problems.filter((p) => p.sentence.includes('never match'));
      expect(found.map((p) => [p.kind, p.row, p.column])).toEqual(
        column === '' ? [] : [['notice', 2, column]],
      );
    },
  );

  it.each([
    [
      [
        ['bag', 'odd'],
        ['bag', 'even'],
      ],
      'bag',
    ],
    [
      [
        ['bag', 'odd'],
        ['bag', 'even or none'],
        ['hand', 'ends 4'],
      ],
      'hand',
    ],
    [
      [
        ['bag', 'odd'],
        ['bag', ''],
      ],
      '',
    ],
    [
      [
        ['bag', 'odd'],
        ['bag', 'not odd'],
      ],
      '',
    ],
    [
      [
        ['bag', 'group a'],
        ['bag', 'group b'],
      ],
      '',
    ],
    [
      [
        ['bag', 'odd and not class shop'],
        ['bag', 'even or class shop'],
      ],
      'bag',
    ],
  ] as [RuleCell[][], string][])(
    'rows %j leave an address without a number closed: %s',
    (rows, means) => {
      const table = parseRules([
        ['Means', 'Address', 'Verdict'],
        ...rows.map((r) => [...r, 'allow']),
      ]);
      const trees = [
        { address: '12 Fable Way', count: 3 },
        { address: 'Fable Way', count: 2 },
      ];
      expect(table.problems.filter((p) => p.column === 'Address')).toEqual([]);
      const notice = numberNotice(table, trees, 8);
      expect(notice?.slice(0, notice.indexOf(' by house'))).toBe(
        means === '' ? undefined : `2 trees have no house number; the rules open ${means}`,
      );
      // only where such trees exist
      expect(numberNotice(table, trees.slice(0, 1))).toBe(undefined);
    },
  );

  it('names the rows that open by house number as they stand on the sheet, and says what to do', () => {
    const table = parseRules([
      ['Address', 'Verdict'],
      ['odd', 'allow'],
      ['even', 'allow'],
    ]);
    expect(numberNotice(table, [{ address: '', count: 1 }], 8)).toBe(
      '1 tree has no house number; the rules open any means by house number only (rows 9, 10), so never for it. Add a row with Address = none, or write house numbers.',
    );
  });

  it('reads the same rows without looking for notices', () => {
    for (const { rules, stages } of shapes) {
      const plain = readRules(rules, stages);
      const looked = parseRules(rules, stages);
      expect(plain.rows).toEqual(looked.rows);
      expect(plain.stages).toEqual(looked.stages);
      expect(plain.problems).toEqual([]);
    }
  });

  it('takes anything without throwing', () => {
    expect(parseRules([])).toEqual({ rows: [], stages: [], problems: [] });
    expect(parseRules([[null]], [[null]])).toEqual({ rows: [], stages: [], problems: [] });
    expect(
      parseRules([
        [true, 3, 'Verdict'],
        [false, NaN, 'ban'],
      ]).rows,
    ).toHaveLength(1);
  });
});

const HAND: RuleQuery = { family: 'hand', address: '14' };
const one = (cells: Record<string, RuleCell>, stages?: RuleCell[][]) =>
  parseRules([Object.keys(cells), Object.values(cells)], stages);
const openDays = (table: ReturnType<typeof parseRules>, from: string, n: number, q = HAND) => {
  const start = dayFromIso(from);
  const { open } = ruleCalendar(table, q, start, start + n - 1);
  return [...open].flatMap((o, i) => (o ? [isoDate(start + i).slice(5)] : []));
};

describe('forms of cells', () => {
  it('gives the accepted forms of every column of the design', () =>
    expect(RULE_COLUMNS.map((c) => c.name)).toEqual(
      'Stage,From,To,Means,Target,Source,Address,Days,Hours,Limit,New planting,Rain,Verdict,Needs,Note,Agency,31st,Midnight,Finish,Drain,Filling,Day one'.split(
        ',',
      ),
    ));

  // 2027-05-01 is a Saturday
  it.each([
    ['Mon Thu', ['05-03', '05-06']],
    ['Monday, thursday', ['05-03', '05-06']],
    ['Sat-Mon', ['05-01', '05-02', '05-03', '05-08']],
    ['not Sun', ['05-01', '05-03', '05-04', '05-05', '05-06', '05-07', '05-08']],
    ['odd dates', ['05-01', '05-03', '05-05', '05-07']],
    ['even dates, not Sun', ['05-04', '05-06', '05-08']],
    ['every 3rd day', ['05-01', '05-04', '05-07']],
    ['every other day', ['05-01', '05-03', '05-05', '05-07']],
    ['none', []],
  ])('Days %s', (days, expected) =>
    expect(openDays(one({ Days: days, Verdict: 'allow' }), '2027-05-01', 8)).toEqual(expected),
  );

  it('counts every nth day from From, also when From is a serial number', () => {
    const from = dayFromIso('2027-05-02');
    const table = one({ From: from, Days: 'every 3rd day', Verdict: 'allow' });
    // on 1 May no rule speaks yet
    expect(openDays(table, '2027-05-01', 8)).toEqual(['05-01', '05-02', '05-05', '05-08']);
  });

  it.each([
    ['by parity', ['07-30', '08-02']],
    ['', ['07-30', '08-02']],
    ['all', ['07-30', '07-31', '08-02']],
    ['none', ['07-30', '08-02']],
  ])('31st "%s" for even dates', (word, expected) =>
    expect(
      openDays(one({ Days: 'even dates', '31st': word, Verdict: 'allow' }), '2027-07-30', 4),
    ).toEqual(expected),
  );

  it.each([
    ['by parity', ['07-31', '08-01']],
    ['none', ['08-01']],
  ])('31st "%s" for odd dates', (word, expected) =>
    expect(
      openDays(one({ Days: 'odd dates', '31st': word, Verdict: 'allow' }), '2027-07-30', 3),
    ).toEqual(expected),
  );

  it('treats 29 February like the 31st', () => {
    const even = one({ Days: 'even dates', '31st': 'all', Verdict: 'allow' });
    expect(openDays(even, '2028-02-28', 4)).toEqual(['02-28', '02-29', '03-02']);
  });

  it.each([
    ['any', 'any'],
    ['00:00-10:00, 19:00-24:00', '00:00-10:00, 19:00-24:00'],
    ['19-0, 0-10', '00:00-10:00, 19:00-24:00'],
    ['6:30 to 9:00', '06:30-09:00'],
    ['08:00–09:00', '08:00-09:00'],
    ['before 09:00, after 16:00', '00:00-09:00, 16:00-24:00'],
    ['not 11:00-19:00', '00:00-11:00, 19:00-24:00'],
    ['not 18:00-10:00', '10:00-18:00'],
    ['18:00-09:00', '00:00-09:00, 18:00-24:00'],
    ['06:00-09:00, 08:00-10:00', '06:00-10:00'],
  ])('Hours %s', (hours, expected) => {
    const day = dayFromIso('2027-05-01');
    const calendar = ruleCalendar(one({ Hours: hours, Verdict: 'allow' }), HAND, day, day);
    expect(calendar.hours).toEqual([expected]);
  });

  it('reads lock-outs in inches and millimetres, limits and ages', () => {
    const row = (cells: Record<string, RuleCell>) => one({ Verdict: 'allow', ...cells }).rows[0];
    expect(row({ Rain: '48 h after 0.5 in' })?.rain).toEqual({ hours: 48, mm: 12.7 });
    expect(row({ Rain: '24 hours after 10 mm' })?.rain).toEqual({ hours: 24, mm: 10 });
    expect(row({ Rain: '24 h after rain' })?.rain).toEqual({ hours: 24, mm: 0 });
    expect(row({ Limit: 15 })?.limit).toEqual({ minutes: 15, per: 'day' });
    expect(row({ Limit: '60 property' })?.limit).toEqual({ minutes: 60, per: 'property' });
    expect(row({ 'New planting': '1-30' })?.age).toEqual({ first: 1, last: 30 });
    expect(row({ Needs: 'Nozzle, timer' })?.needs).toEqual(['nozzle', 'timer']);
  });

  it.each([
    // [From, To, first day looked at, number of days, open ones]
    ['Nov 1', 'Feb 28', '2027-10-30', 4, ['11-01', '11-02']],
    ['1 nov.', 'february', '2027-10-31', 2, ['11-01']],
    ['11-01', '02-29', '2027-02-27', 3, ['02-27', '02-28']],
    ['Nov', 'Feb', '2028-02-28', 4, ['02-28', '02-29']],
    ['first Sun Oct', 'before first Sunday of April', '2027-10-01', 4, ['10-03', '10-04']],
    ['1st Sun in Oct', 'before first Sun Apr', '2027-04-02', 4, ['04-02', '04-03']],
    ['last Sun Mar', 'second Tue Apr', '2027-04-12', 4, ['04-12', '04-13']],
    ['last Sun Mar', 'second Tue Apr', '2027-03-26', 4, ['03-28', '03-29']],
    ['2027-12-30', '2028-01-01', '2027-12-29', 5, ['12-30', '12-31', '01-01']],
    ['May 1', 'May 1', '2027-04-29', 4, ['05-01']],
  ])('From %s To %s, %s and on', (From, To, from, days, expected) => {
    const table = parseRules([
      ['From', 'To', 'Days', 'Verdict'],
      [From, To, '', 'allow'],
      ['', '', 'none', 'allow'],
    ]);
    expect(table.problems).toEqual([]);
    expect(openDays(table, from, days)).toEqual(expected);
  });

  it('counts every nth day from the start of a season that crosses New Year', () => {
    const table = one({ From: 'Dec 30', To: 'Jan 10', Days: 'every 3rd day', Verdict: 'allow' });
    expect(openDays(table, '2027-12-30', 9)).toEqual(['12-30', '01-02', '01-05']);
  });

  it('says a row in words', () => {
    const table = one({
      Stage: 'Stage 2', Means: 'bag', Address: 'ends 4-5 or none', Days: 'Wed, Sat, 2 per week',
      Hours: '19:00-24:00', Limit: '60 property', Needs: 'permit', Verdict: 'allow', Note: 'sec 3',
    }); // prettier-ignore
    expect(table.rows.map(describeRow)).toEqual([
      'Row 2 (stage 2) allows bag for addresses ending in 4, 5 or addresses without a number: Wed Sat, 2 days a week; 19:00-24:00; at most 60 min per property; needs permit (sec 3)',
    ]);
  });
});

describe('how rows combine', () => {
  const noon = { day: dayFromIso('2027-05-03'), minute: 720 }; // a Monday
  const rules = (...rows: RuleCell[][]) =>
    parseRules([['Means', 'Days', 'Agency', 'Verdict'], ...rows]);

  it('a ban wins over free and allow, free over allow', () => {
    const all = rules(['', '', '', 'allow'], ['', '', '', 'free'], ['', '', '', 'ban']);
    expect(allowed(all, noon, HAND)).toMatchObject({ open: false, row: 4 });
    const two = rules(['', '', '', 'allow'], ['', '', '', 'free']);
    expect(allowed(two, noon, HAND)).toMatchObject({ open: true, row: 3 });
    const free = rules(['', 'Tue', '', 'allow'], ['hand', '', '', 'free']);
    expect(allowed(free, noon, HAND)).toMatchObject({ open: true, row: 3 });
  });

  it('a means no row speaks of is open and the answer says so', () => {
    const answer = allowed(rules(['drip', '', '', 'ban']), noon, { ...HAND, family: 'soaker' });
    expect(answer).toMatchObject({ open: true, row: null });
    expect(answer.reason).toContain('no rule found for soaker');
    expect(answer.until).toBeUndefined();
  });

  it('every agency must allow', () => {
    const both = rules(['', 'Mon Tue', 'town', 'allow'], ['', 'Tue Wed', 'district', 'allow']);
    expect(openDays(both, '2027-05-03', 7)).toEqual(['05-04']);
    expect(allowed(both, noon, HAND)).toMatchObject({ open: false, row: 3 });
    const hours = parseRules([
      ['Hours', 'Agency', 'Verdict'],
      ['00:00-09:00', 'town', 'allow'],
      ['09:00-24:00', 'district', 'allow'],
    ]);
    const calendar = ruleCalendar(hours, HAND, noon.day, noon.day);
    expect([...calendar.open, ...calendar.row]).toEqual([0, 0]);
    expect(calendar.reasons[0]).toContain('do not overlap');
  });

  it('reads a missing source as mains', () => {
    const table = one({ Source: 'mains', Verdict: 'ban' });
    expect(allowed(table, noon, HAND).open).toBe(false);
    expect(allowed(table, noon, { ...HAND, source: 'rain' }).open).toBe(true);
  });

  it('keeps filling apart from hand watering unless the row says otherwise', () => {
    const bag = { ...HAND, family: 'bag' };
    expect(allowed(one({ Means: 'hand', Verdict: 'ban' }), noon, bag).open).toBe(true);
    const hand = one({ Means: 'hand', Filling: 'hand', Verdict: 'ban' });
    expect(allowed(hand, noon, bag).open).toBe(false);
    expect(allowed(hand, noon, { ...HAND, family: 'soaker' }).open).toBe(true);
  });

  it('knows groups and classes', () => {
    const table = one({ Address: 'group C', Verdict: 'allow' });
    expect(allowed(table, noon, { ...HAND, group: 'c' }).open).toBe(true);
    expect(allowed(table, noon, { ...HAND, group: 'd' }).open).toBe(false);
  });

  it('counts planting day as 1 or 0', () => {
    const q = { ...HAND, planted: noon.day - 30 };
    const table = (one_: string) =>
      one({ 'New planting': '1-30', 'Day one': one_, Verdict: 'ban' });
    expect(allowed(table('1'), noon, q).open).toBe(true); // day 31
    expect(allowed(table('0'), noon, q).open).toBe(false); // day 30
    expect(allowed(table(''), noon, { ...q, planted: noon.day }).reason).toContain(
      'Day one is blank',
    );
  });

  it('asks Finish and Drain of a run', () => {
    const table = (more: Record<string, RuleCell>) =>
      one({ Hours: '06:00-08:00', Verdict: 'allow', ...more });
    const start = { day: noon.day, minute: 450 };
    const run = (more: Record<string, RuleCell>, minutes: number, drain: number) =>
      runAllowed(table(more), start, minutes, HAND, drain).open;
    expect(run({}, 30, 300)).toBe(true);
    expect(run({}, 31, 0)).toBe(false);
    expect(run({ Finish: 'may run over' }, 31, 0)).toBe(true);
    expect(run({ Drain: 'inside' }, 10, 20)).toBe(true);
    expect(run({ Drain: 'inside' }, 10, 21)).toBe(false);
  });

  it('a run that may outlast its hours still goes into no ban', () => {
    const table = (finish: string) =>
      parseRules([
        ['Hours', 'Finish', 'Verdict'],
        ['06:00-08:00', 'may run over', 'allow'],
        ['10:00-18:00', finish, 'ban'],
      ]);
    const run = (finish: string, minutes: number) =>
      runAllowed(table(finish), { day: noon.day, minute: 450 }, minutes, HAND);
    expect(run('', 150).open).toBe(true);
    expect(run('', 151).open).toBe(false);
    expect(run('', 151).reason).toContain('before the window closes at 10:00');
    expect(run('may run over', 151).open).toBe(true);
  });

  it('rolls minutes past the day on', () => {
    const table = one({ Days: 'Tue', Verdict: 'allow' });
    expect(allowed(table, { day: noon.day, minute: 1440 }, HAND).open).toBe(true);
    expect(allowed(table, { day: noon.day, minute: 1439 }, HAND).open).toBe(false);
  });

  it('changes with the stage in mid-season', () => {
    const rows: RuleCell[][] = [
      ['Stage', 'Days', 'Verdict'],
      ['1', 'Mon Wed Fri', 'allow'],
      ['Stage 2', 'Mon', 'allow'],
      ['4', '', 'ban'],
    ];
    const stages: RuleCell[][] = [
      ['Stage', 'From'],
      [4, '2027-05-12'],
      ['stage 1', '2027-05-03'],
      ['2', dayFromIso('2027-05-06')],
    ];
    const table = parseRules(rows, stages);
    expect(table.problems).toEqual([]);
    // 1 and 2 May: no stage yet; 3 and 5 May stage 1; from 6 May Mondays; from 12 May none
    expect(openDays(table, '2027-05-01', 20)).toEqual([
      '05-01',
      '05-02',
      '05-03',
      '05-05',
      '05-10',
    ]);
    const without = allowed(parseRules(rows), noon, HAND);
    expect(without).toMatchObject({ open: true, row: null });
    expect(without.reason).toContain('no Stages table');
  });
});
