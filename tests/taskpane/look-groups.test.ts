/** Rows to look at by what is said of them, and every row still to be reached. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import {
  isWhole,
  lookGroups,
  spansOf,
  within,
  type SaidRow,
  type Span,
} from '../../src/taskpane/look-groups.js';
import { freshRoom } from './said/room.js';
import { emptyDraft } from '../../src/taskpane/draft.js';
import type { LookRow } from '../../src/workers/plan-room.js';

const look = (row: number, sentence: string, unusable = false): LookRow => ({
  row,
  id: `T${row}`,
  unusable,
  reasons: [{ sentence, column: 2 }],
});
const saidRows = (rows: readonly number[]): SaidRow[] =>
  rows.map((row) => ({ row, column: 0, id: '' }));
const upTo = (n: number, row: (i: number) => number): number[] =>
  Array.from({ length: n }, (_, i) => row(i));
const named = ({ from, to, rows }: Span): string =>
  rows.length === 1 ? `${from}` : `${from}–${to}`;

describe('rows that say the same', () => {
  it('stand under one sentence, in the order of the sheet', () => {
    const groups = lookGroups([look(4, 'a'), look(5, 'b'), look(9, 'a')], false);
    expect(groups.map(({ sentence, rows }) => [sentence, rows.map(({ row }) => row)])).toEqual([
      ['a', [4, 9]],
      ['b', [5]],
    ]);
  });
  it('come first where they cannot be planned, then where they are most, then as the sheet has them', () => {
    const rows = [
      ...[2, 3, 4].map((row) => look(row, 'many')),
      look(5, 'late'),
      look(6, 'later'),
      look(7, 'lost', true),
    ];
    const sentences = lookGroups(rows, false).map(({ sentence }) => sentence);
    expect(sentences).toEqual(['lost', 'many', 'late', 'later']);
  });
  it('may differ in what is quoted from their cells, which is then said', () => {
    const rows = [look(2, '"x" is no date; accepted is 2027'), look(3, '"y 7" is no date; accepted is 2027')]; // prettier-ignore
    expect(lookGroups(rows, true)).toMatchObject([
      { sentence: '"x" is no date; accepted is 2027', differ: true },
    ]);
    expect(lookGroups(rows, false).map(({ differ }) => differ)).toEqual([false, false]);
  });
  it('are kept apart by the column they speak of', () => {
    const other: LookRow = { ...look(3, '"x"'), reasons: [{ sentence: '"x"', column: 5 }] };
    expect(lookGroups([look(2, '"x"'), other], true)).toHaveLength(2);
  });
  it('name a row once, though it says the same of two words', () => {
    const twice: LookRow = {
      ...look(2, ''),
      reasons: [{ sentence: '"a" is not known' }, { sentence: '"b" is not known' }],
    };
    expect(lookGroups([twice], true).map(({ rows }) => rows.length)).toEqual([1]);
  });
  it('are found from a sheet with a reason each, a row with two faults under both', async () => {
    const cells = [
      ['Tree id', 'Species', 'Caliper (in)', 'Planted', 'Soil texture'],
      ['1', 'live oak', 2, 'soon', 'mud'],
      ['2', 'live oak', 2, 'later', 'loam'],
      ['3', 'live oak', 2, '2020-05-01', 'mud'],
    ];
    const { look: found } = await freshRoom().read({ cells }, emptyDraft());
    const groups = lookGroups(found, true);
    expect(groups.map(({ rows }) => rows.map(({ row, column }) => [row, column]))).toEqual([
      [[2, 3], [3, 3]],
      [[2, 4], [4, 4]],
    ]); // prettier-ignore
  });
});

describe('the rows of a sentence', () => {
  it('are shown as single rows and runs', () => {
    const rows = saidRows([12, 15, 16, ...upTo(10, (i) => 31 + i)]);
    expect(spansOf(rows).map(named)).toEqual(['12', '15', '16', '31–40']);
  });
  it('are shown singly where they are few', () => {
    expect(spansOf(saidRows([7, 8, 9, 10])).map(named)).toEqual(['7', '8', '9', '10']);
  });
  it.each([
    ['one below the other', upTo(5000, (i) => i + 2)],
    ['every second one', upTo(5000, (i) => 2 * i + 2)],
    ['every second one of a very long sheet', upTo(100_000, (i) => 2 * i + 2)],
    ['in pairs', upTo(4000, (i) => i + 2 + Math.floor(i / 2))],
  ])('are all reached, and never more than a hundred buttons open at once: %s', (_, numbers) => {
    const reached: number[] = [];
    const open = (spans: Span[], depth: number): void => {
      expect(spans.length).toBeLessThanOrEqual(100);
      expect(depth).toBeLessThan(5);
      for (const span of spans)
        if (span.rows.length === 1) reached.push(span.from);
        else open(within(span), depth + 1);
    };
    open(spansOf(saidRows(numbers)), 0);
    expect(reached).toEqual(numbers);
  });
  it('say whether rows between them are missing', () => {
    const [run] = spansOf(saidRows(upTo(200, (i) => i + 2)));
    const [stretch] = spansOf(saidRows(upTo(200, (i) => 2 * i + 2)));
    expect([isWhole(run!), isWhole(stretch!)]).toEqual([true, false]);
  });
});
