/** The form of an order and the rules table: what it can say comes back cell for cell, what it cannot is left. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRules } from '../../src/engine/rules/rule-parse.js';
import { allowed, parseRules } from '../../src/engine/rules/rule-table.js';
import { STARTER_TABLES } from '../../src/engine/rules/starter-tables.js';
import type { Cell } from '../../src/tables/cells.js';
import {
  cellsOf,
  isUntouched,
  linesOf,
  newLine,
  ORDER_MEANS,
  tableOf,
  theOthers,
  troublesOf,
  unnamedMeans,
  type OrderLine,
} from '../../src/workbook/order-lines.js';
import { changed, changesOf, orderSheet, type OrderSheet } from '../../src/workbook/order-sheet.js';

const isRules = (name: string): boolean => name === 'Rules';
const sheetOf = (cells: Cell[][], name = 'Rules'): OrderSheet => {
  const sheet = orderSheet([{ name, cells }], isRules);
  if (sheet === undefined || sheet === 'other') throw new Error('no table of rules');
  return sheet;
};
const rowsOf = (sheet: OrderSheet): Cell[][] => sheet.rules?.rows ?? [];

const two = (n: number): string => String(n).padStart(2, '0');
const quarter = fc.integer({ min: 0, max: 95 }).map((q) => `${two(Math.floor(q / 4))}:${two((q % 4) * 15)}`); // prettier-ignore
const HOURS = fc.oneof(
  fc.constantFrom(
    '', 'any', 'before 9 am or after 7 pm', 'not 10:00-18:00', '18:00-09:00', '00:00-10:00, 19:00-24:00',
    'one of 04:00-08:00, 18:00-22:00', '06:00-07:00, 08:00-09:00, 20:00-21:00', '9:30 pm to 6 am', 'not 00:00-18:00',
  ),
  fc.tuple(quarter, quarter).filter(([a, b]) => a !== b).map(([a, b]) => `${a}-${b}`),
); // prettier-ignore
const DAYS = fc.constantFrom('', 'any', 'Tue Sat', 'Mondays and Thursdays', 'Mon-Fri', 'not Sun', 'odd dates', 'even dates, Mon Wed', 'every 2nd day', 'every 3 days', 'Tue Sat, odd dates, every 5th day'); // prettier-ignore
const cells = {
  Means: fc.constantFrom<Cell>('any', '', 'hose, bag', 'soaker hoses and drip lines', 'tanker', 'drip, soaker'),
  Address: fc.constantFrom<Cell>('', 'any', 'odd', 'even or none', 'ends 0-1', 'group C', 'odd and not class commercial'),
  Days: DAYS as fc.Arbitrary<Cell>,
  Hours: HOURS as fc.Arbitrary<Cell>,
  Verdict: fc.constantFrom<Cell>('allow', 'free', 'Allow'),
  From: fc.constantFrom<Cell>('', '2027-05-01', 46_000, null),
  To: fc.constantFrom<Cell>('', '2027-09-30', 46_900),
  Stage: fc.constantFrom<Cell>('', 'Stage 2', 3),
  Limit: fc.constantFrom<Cell>('', 15, '60 property'),
  'New planting': fc.constantFrom<Cell>('', '1-30', '61+'),
  Rain: fc.constantFrom<Cell>('', '48 h after 0.5 in'),
  Needs: fc.constantFrom<Cell>('', 'nozzle', 'timer, nozzle'),
  Note: fc.constantFrom<Cell>('', 'section 4', 'example: replace'),
  Midnight: fc.constantFrom<Cell>('', 'end'),
}; // prettier-ignore
const header = Object.keys(cells);
const row = fc.tuple(...Object.values(cells)).map((all): Cell[] => all);
const table = fc.array(row, { minLength: 1, maxLength: 5 }).map((rows): Cell[][] => [header, ...rows]); // prettier-ignore

const plain = (rows: readonly Cell[][]) => rows.map((r) => r.map((c) => (c === '' ? null : c)));

const span = fc.oneof(
  fc.constant({ span: 'outside' as const, from: '', to: '' }),
  fc.tuple(fc.integer({ min: 0, max: 11 }), fc.integer({ min: 12, max: 23 })).map(([a, b]) => ({ span: 'outside' as const, from: `${two(a)}:00`, to: `${b}:30` })),
  fc.tuple(quarter, quarter).filter(([a, b]) => a !== b).map(([from, to]) => ({ span: 'within' as const, from, to })),
); // prettier-ignore
const line: fc.Arbitrary<OrderLine> = fc
  .record({
    means: fc.option(fc.subarray([...ORDER_MEANS], { minLength: 1 })),
    verdict: fc.constantFrom('allow' as const, 'ban' as const, 'free' as const),
    address: fc.constantFrom('', 'odd', 'even or none', 'ends 4,5'),
    weekdays: fc.integer({ min: 0, max: 126 }),
    dates: fc.constantFrom('any' as const, 'odd' as const, 'even' as const),
    every: fc.constantFrom('', '2', '21', '7'),
    hours: span,
  })
  .map(({ hours, ...rest }) => ({ ...newLine(0), ...rest, ...hours }));

describe('an order as lines', () => {
  it('any table the form can say comes back cell for cell, on a new sheet and on the one it stands on', () => {
    fc.assert(
      fc.property(table, (rows) => {
        const { lines, kept } = linesOf(rows);
        expect(lines.length + kept.length).toBe(rows.length - 1);
        expect(plain(tableOf(header, lines, kept).rows)).toEqual(plain(rows));
        const sheet = sheetOf([['Our order'], [], ...rows]);
        const again = linesOf(rowsOf(sheet));
        expect(changesOf(sheet, again.lines, again.kept, false).changes).toEqual([]);
      }),
    );
  });

  it('what lines say is what the reader reads, and it comes back as the same lines’ cells', () => {
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 4 }), (some) => {
        const lines = some.map((l, key) => ({ ...l, key }));
        expect(lines.flatMap(troublesOf)).toEqual([]);
        const { rows, at } = tableOf([], lines);
        const read = readRules(rows);
        expect(read.problems).toEqual([]);
        lines.forEach((l) => {
          const mine = read.rows.find((r) => r.row === at.get(l.key))!;
          expect(mine.means).toEqual(l.means);
          expect(mine.verdict).toBe(l.verdict);
          expect(mine.days.parity ?? 'any').toBe(l.dates);
          expect(mine.days.weekdays).toBe(l.weekdays === 0 ? 127 : l.weekdays);
        });
        expect(plain(tableOf([], linesOf(rows).lines).rows)).toEqual(plain(rows));
      }),
    );
  });

  it('every starter table is shown in full and comes back as it is', () => {
    for (const { rows } of STARTER_TABLES) {
      const { lines, kept } = linesOf(rows);
      expect(kept).toEqual([]);
      expect(plain(tableOf(rows[0]!, lines).rows)).toEqual(plain(rows));
    }
  });

  it('a changed line is no example any more; one that was left still is', () => {
    const { lines } = linesOf(STARTER_TABLES[0]!.rows);
    const [first, second] = lines as [OrderLine, OrderLine];
    expect(cellsOf({ ...first, weekdays: 0b100 })['Note']).toBeNull();
    expect(cellsOf(second)['Note']).toMatch(/^example/);
  });

  it('the hours closed in the heat of the day are one span', () => {
    const closed = { ...newLine(0), means: null, from: '10 am', to: '6 pm' };
    expect(cellsOf(closed)['Hours']).toBe('not 10:00-18:00');
    const [back] = linesOf([['Means', 'Hours', 'Verdict'], ['any', '00:00-10:00, 18:00-24:00', 'allow']]).lines; // prettier-ignore
    expect([back!.span, back!.from, back!.to]).toEqual(['outside', '10:00', '18:00']);
  });

  it('“the others” are the means no other line names', () => {
    const one = { ...newLine(0), means: ['soaker', 'drip'] };
    const other = newLine(1);
    expect(theOthers([one, other], other)).toEqual(['sprinkler', 'hand', 'bucket', 'bag', 'tanker', 'pad']); // prettier-ignore
  });
});

describe('means no line names', () => {
  const soaker = { ...newLine(0), means: ['soaker', 'drip'] };
  it('are those of no line, allowed or banned; a line of all means that opens names every one', () => {
    expect(unnamedMeans([soaker])).toEqual(['sprinkler', 'hand', 'bucket', 'bag', 'tanker', 'pad']);
    const banned = { ...newLine(1), means: ['sprinkler'], verdict: 'ban' as const };
    expect(unnamedMeans([soaker, banned])).not.toContain('sprinkler');
    expect(unnamedMeans([soaker, { ...newLine(1), means: null }])).toEqual([]);
    expect(unnamedMeans([soaker, { ...newLine(1), means: null, verdict: 'ban' }])).toHaveLength(6);
  });
  it('are open to the rules, and no other means is but by its lines', () => {
    const table = parseRules(tableOf([], [{ ...soaker, dates: 'none' }]).rows);
    const open = ORDER_MEANS.filter((family) => allowed(table, { day: 46_000, minute: 600 }, { family, address: '' }).open); // prettier-ignore
    expect(open).toEqual(unnamedMeans([soaker]));
  });
  it('by hand counts for bags and trucks where filling counts as watering by hand', () => {
    const hand = { ...newLine(0), means: ['hand'], more: { Filling: 'hand' } };
    expect(unnamedMeans([hand])).toEqual(['soaker', 'drip', 'sprinkler', 'bucket', 'pad']);
  });
  it('a line nothing was entered in is known', () => {
    expect(isUntouched(newLine(4))).toBe(true);
    expect(isUntouched({ ...newLine(4), from: '9' })).toBe(false);
  });
});

describe('a field that cannot be used', () => {
  const bag = { ...newLine(0), means: ['bag'] };
  it.each<[string, Partial<OrderLine>, string, string]>([
    ['no means', { means: [] }, 'means', 'noMeans'],
    ['no time', { from: 'ten', to: '18' }, 'from', 'time'],
    ['one end', { from: '10' }, 'to', 'half'],
    ['an end before its beginning', { from: '10', to: '6' }, 'to', 'ends'],
    ['eight to six without a morning', { span: 'within', from: '8', to: '6' }, 'to', 'ends'],
    ['an eighth day of the week', { perWeek: '8' }, 'perWeek', 'perWeek'],
    ['a ban of so many days a week', { verdict: 'ban', perWeek: '2' }, 'perWeek', 'reader'],
    ['a date that is none', { more: { From: 'someday' } }, 'From', 'reader'],
    ['a To before its From', { more: { From: '2027-05-01', To: '2027-04-01' } }, 'To', 'reader'],
    ['addresses nobody has', { address: 'blue doors' }, 'address', 'reader'],
  ])('is named: %s', (_, part, field, kind) => {
    expect(troublesOf({ ...bag, ...part })[0]).toMatchObject({ field, kind });
  });
  it('hours over midnight are taken where they are written with minutes', () => {
    expect(troublesOf({ ...bag, span: 'within', from: '18:00', to: '06:00' })).toEqual([]);
  });
});

describe('on a sheet that is there', () => {
  const own: Cell[][] = [
    ['Rules of the district', null, null, null, null, null],
    ['Means', 'Days', 'Hours', 'Verdict', 'Clerk', 'Understood (text made with this file)'],
    ['hose', 'Mondays', 'before 9 am', 'allow', 'A.', 'Row 2: …'],
    ['bagg', 'Tue', '', 'allow', 'B.', '▲ Left out.'],
    ['truck', '', '', 'free', 'C.', 'Row 4: …'],
  ];
  const filled = () => {
    const sheet = sheetOf(own);
    return { sheet, ...linesOf(rowsOf(sheet)) };
  };

  it('a row the form cannot show is named and left, other columns too', () => {
    const { sheet, lines, kept } = filled();
    expect(kept.map((k) => k.row)).toEqual([2]);
    expect(kept[0]!.sentences[0]).toMatch(/^the field Means: "bagg" is not one of the words/);
    const [first, truck] = lines as [OrderLine, OrderLine];
    const { changes } = changesOf(sheet, [{ ...first, weekdays: 0b100 }, truck], kept, false);
    expect(changes).toEqual([
      { row: 2, column: 1, value: 'Tue' },
      { row: 2, column: 5, value: 'Row 2: All addresses may water by soaker or hand on Tuesday, before 09:00.' },
    ]); // prettier-ignore
  });

  it('a line that is taken out leaves a blank row, which the next new line takes', () => {
    const { sheet, lines, kept } = filled();
    const bag = { ...newLine(9), means: ['bag'] };
    const after = changesOf(sheet, [lines[1]!, bag], kept, false);
    expect(after.at.get(9)).toBe(3);
    const now = changed(own, after.changes);
    expect(now[2]!.slice(0, 5)).toEqual(['bag', null, null, 'allow', null]);
    expect(now.slice(3)).toEqual(own.slice(3));
  });

  it('a column that is needed goes beside the table, or is asked for where something stands there', () => {
    const { sheet, lines, kept } = filled();
    const limited = [{ ...lines[0]!, more: { Limit: '15' } }, lines[1]!];
    const now = changed(own, changesOf(sheet, limited, kept, false).changes);
    expect([now[1]![6], now[2]![6]]).toEqual(['Limit', '15']);
    const tight = sheetOf(own.map((r, i) => (i === 2 ? [...r, 'by phone'] : [...r])));
    expect(changesOf(tight, linesOf(rowsOf(tight)).lines.map((l) => ({ ...l, more: { Limit: '15' } })), [], false).refused).toEqual({ kind: 'column', column: 'Limit' }); // prettier-ignore
  });

  it('rows are not written over a Stages table below', () => {
    const cells: Cell[][] = [['Means', 'Verdict'], ['bag', 'allow'], [], ['Stages'], ['From', 'Stage'], ['2027-05-01', '2']]; // prettier-ignore
    const sheet = sheetOf(cells);
    const lines = linesOf(rowsOf(sheet)).lines;
    const more = [1, 2, 3].map((n) => ({ ...newLine(10 + n), means: ['hand'] }));
    expect(changesOf(sheet, [...lines, ...more], [], false).refused).toEqual({ kind: 'rows' });
  });

  it('a sheet of that name without a rules table is somebody’s own', () => {
    expect(orderSheet([{ name: 'Rules', cells: [['House rules'], ['No dogs']] }], isRules)).toBe('other'); // prettier-ignore
    expect(orderSheet([{ name: 'Trees', cells: [['Id']] }], isRules)).toBeUndefined();
  });

  it('a starter table chosen over a sheet takes the place of all its rows', () => {
    const { sheet } = filled();
    const starter = STARTER_TABLES[0]!.rows;
    const { changes } = changesOf(sheet, linesOf(starter).lines, [], true);
    const read = readRules(rowsOf(sheetOf(changed(own, changes))));
    expect(read.rows.map(({ row: _, ...r }) => r)).toEqual(readRules(starter).rows.map(({ row: _, ...r }) => r)); // prettier-ignore
  });
});
