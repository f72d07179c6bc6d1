/** Hours when nothing may run: one row of the rules table that the form shows at its head, and what the rules make of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayFromIso } from '../../src/engine/dates.js';
import { ruleCalendar } from '../../src/engine/rules/rule-calendar.js';
import { allowed, parseRules } from '../../src/engine/rules/rule-table.js';
import type { Cell } from '../../src/tables/cells.js';
import { closedHours, hasHours, noHours, partClosed, withHours } from '../../src/workbook/order-closed.js'; // prettier-ignore
import { endsTyped, linesOf, newLine, ORDER_MEANS, tableOf, troublesOf, type OrderLine } from '../../src/workbook/order-lines.js'; // prettier-ignore
import { changed, changesOf, orderSheet, type OrderSheet } from '../../src/workbook/order-sheet.js';

const sheetOf = (cells: Cell[][]): OrderSheet => {
  const sheet = orderSheet([{ name: 'Rules', cells }], () => true);
  if (sheet === undefined || sheet === 'other') throw new Error('no table of rules');
  return sheet;
};
const rowsOf = (sheet: OrderSheet): Cell[][] => sheet.rules?.rows ?? [];
const plain = (rows: readonly Cell[][]) => rows.map((r) => r.map((c) => (c === '' ? null : c)));
const two = (n: number): string => String(n).padStart(2, '0');
const quarter = fc.integer({ min: 0, max: 95 }).map((q) => `${two(Math.floor(q / 4))}:${two((q % 4) * 15)}`); // prettier-ignore

describe('hours when nothing may run', () => {
  const closing = (from: string, to: string) => withHours(noHours(90), { from, to });
  const lines: OrderLine[] = [
    { ...newLine(0), means: ['soaker', 'drip'], weekdays: 0b1000100 },
    { ...newLine(1), means: ['hand', 'bag', 'tanker'] },
    { ...newLine(2), means: ['bucket'], verdict: 'free', span: 'within', from: '9:00', to: '20:00' },
    { ...newLine(3), means: ['sprinkler'], span: 'within', from: '18:00', to: '10:00' },
  ]; // prettier-ignore
  const spans = fc.tuple(quarter, quarter).filter(([a, b]) => a !== b);
  // 1 June 2027 is a Tuesday
  const from = dayFromIso('2027-06-01');
  const minuteOf = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

  it('close them for every means whatever a line says, also where none names it; all else is as the lines have it', () => {
    fc.assert(
      fc.property(spans, fc.constantFrom(...ORDER_MEANS), fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 1439 }), ([a, b], family, later, minute) => {
        const [begin, end] = [minuteOf(a), minuteOf(b) || 1440];
        const inside = begin < end ? minute >= begin && minute < end : minute >= begin || minute < end;
        const query = { family, address: '7 Hawser Lane' };
        const [without, table] = [lines, [closing(a, b), ...lines]].map((some) => parseRules(tableOf([], some).rows));
        const at = { day: from + later, minute };
        const open = allowed(without!, at, query).open && !inside;
        expect(allowed(table!, at, query).open).toBe(open);
        const day = ruleCalendar(table!, query, from + later, from + later);
        expect(day.windows(from + later).some((w) => w.start <= minute && minute < w.end)).toBe(open);
      }),
    ); // prettier-ignore
  });

  it('are one row, at the head of a new table, and no line needs hours', () => {
    expect(plain(tableOf([], [closing('10 am', '6 pm'), ...lines.slice(0, 2)]).rows)).toEqual([
      ['Means', 'Days', 'Hours', 'Verdict'],
      ['any', null, '10:00-18:00', 'ban'],
      ['soaker, drip', 'Tue Sat', null, 'allow'],
      ['hand, bag, tanker', null, null, 'allow'],
    ]);
    const { problems } = parseRules(tableOf([], [closing('10 am', '6 pm'), ...lines.slice(0, 2)]).rows); // prettier-ignore
    expect(problems).toEqual([]);
  });

  it('come back to their place with the same hours and cells, over midnight too', () => {
    fc.assert(
      fc.property(spans, ([a, b]) => {
        const { rows } = tableOf([], [closing(a, b), ...lines]);
        const back = partClosed(linesOf(rows).lines);
        const hour = ({ from, to }: { from: string; to: string }) => [minuteOf(from), minuteOf(to) || 1440]; // prettier-ignore
        expect(hour(closedHours(back.closed!))).toEqual(hour({ from: a, to: b }));
        expect(back.lines).toHaveLength(lines.length);
        const sheet = sheetOf(rows);
        expect(changesOf(sheet, [back.closed!, ...back.lines], [], false).changes).toEqual([]);
      }),
    );
  });

  it.each<[string, Cell[], [string, string] | undefined]>([
    ['a span', ['any', 'ban', '10:00-18:00'], ['10:00', '18:00']],
    ['blank means', [null, 'Ban', '10 am to 6 pm'], ['10:00', '18:00']],
    ['a night', ['any', 'ban', '18:00-10:00'], ['18:00', '10:00']],
    ['all but the day', ['any', 'ban', 'not 10:00-18:00'], ['18:00', '10:00']],
    ['from midnight on', ['any', 'ban', 'before 9 am'], ['00:00', '09:00']],
    ['one means', ['soaker', 'ban', '10:00-18:00'], undefined],
    ['no ban', ['any', 'allow', '10:00-18:00'], undefined],
    ['no hours', ['any', 'ban', null], undefined],
    ['two spans', ['any', 'ban', '10:00-12:00, 14:00-18:00'], undefined],
    ['some days', ['any', 'ban', '10:00-18:00', 'Sun'], undefined],
    ['odd addresses', ['any', 'ban', '10:00-18:00', null, 'odd'], undefined],
    ['a stage', ['any', 'ban', '10:00-18:00', null, null, '2'], undefined],
    ['one water', ['any', 'ban', '10:00-18:00', null, null, null, 'mains'], undefined],
    ['every water, a note', ['any', 'ban', '10:00-18:00', null, null, null, 'any', 'section 4'], ['10:00', '18:00']],
  ])('are found on a sheet where a row closes everything: %s', (_, cellsOfRow, hours) => {
    const names = ['Means', 'Verdict', 'Hours', 'Days', 'Address', 'Stage', 'Source', 'Note'];
    const { closed } = partClosed(linesOf([names, names.map((_, i) => cellsOfRow[i] ?? null)]).lines);
    expect(closed && [closedHours(closed).from, closedHours(closed).to]).toEqual(hours);
  }); // prettier-ignore

  it('change their cell alone, and go with their row when both are blank', () => {
    const cells: Cell[][] = [['Means', 'Hours', 'Verdict'], ['bag', null, 'allow'], ['any', 'not 10:00-18:00', 'ban']]; // prettier-ignore
    const sheet = sheetOf(cells);
    const { closed, lines: bag } = partClosed(linesOf(rowsOf(sheet)).lines);
    const later = withHours(closed!, { from: '19:00' });
    expect(changesOf(sheet, [later, ...bag], [], false).changes).toEqual([{ row: 2, column: 1, value: '19:00-10:00' }]); // prettier-ignore
    expect(hasHours(withHours(closed!, { from: '', to: '' }))).toBe(false);
    expect(changed(cells, changesOf(sheet, bag, [], false).changes)[2]).toEqual([null, null, null]);
  });

  it.each([
    ['ten', '18', 'from', 'time'],
    ['10', '', 'to', 'half'],
    ['10', '6', 'to', 'ends'],
    ['10', '10', 'to', 'ends'],
  ])('that cannot be used are named: %s to %s', (a, b, field, kind) => {
    expect(troublesOf(closing(a, b))[0]).toMatchObject({ field, kind });
  });
  it('blank or whole they have no trouble', () => {
    for (const [a, b] of [
      ['', ''],
      ['10 am', '6 pm'],
      ['18:00', '10:00'],
      ['6 pm', 'midnight'],
    ] as const)
      // prettier-ignore
      expect(troublesOf(closing(a, b))).toEqual([]);
  });

  it.each([
    ['10 am to 6 pm', '10 am', '6 pm'],
    ['between 10 and 18', '10', '18'],
    ['10:00-18:00', '10:00', '18:00'],
    ['de 10 a 18', '10', '18'],
    ['noon – midnight', 'noon', 'midnight'],
  ])('both ends may be typed at once: %s', (typed, first, last) => {
    expect(endsTyped(typed)).toEqual({ from: first, to: last });
  });
  it('one time is no span', () => {
    for (const typed of ['', '10', '10 am', '9:30 p.m.', 'midnight']) expect(endsTyped(typed)).toBeUndefined(); // prettier-ignore
  });
});
