import { describe, expect, it } from 'vitest';
import { dayFromIso } from '../../../src/engine/dates.js';
import { ruleCalendar } from '../../../src/engine/rules/rule-calendar.js';
import { describeTable, parseRules } from '../../../src/engine/rules/rule-table.js';
import { STARTER_TABLES } from '../../../src/engine/rules/starter-tables.js';

const NOTE = 'example: replace by your ordinance';

describe('starter tables', () => {
  it('are the nine of the design, each with a name of its own', () => {
    expect(STARTER_TABLES).toHaveLength(9);
    expect(new Set(STARTER_TABLES.map((t) => t.name)).size).toBe(9);
  });

  it.each(STARTER_TABLES)('$name: reads without a problem and says it is an example', (t) => {
    const table = parseRules(t.rows);
    expect(table.problems).toEqual([]);
    expect(table.rows).toHaveLength(t.rows.length - 1);
    expect(t.note).toBe(NOTE);
    for (const { sentence } of describeTable(table)) expect(sentence).toContain(NOTE);
    expect(new Set(t.rows.map((row) => row.length))).toEqual(new Set([t.rows[0]?.length]));
  });

  // worked out by hand from the words of each table; 2027-07-05 is a Monday
  const week = (name: string, family: string, address: string, group?: string) => {
    const found = STARTER_TABLES.find((t) => t.name.startsWith(name));
    if (!found) throw new Error(`no starter table ${name}`);
    const from = dayFromIso('2027-07-05');
    const { open } = ruleCalendar(
      parseRules(found.rows),
      { family, address, group },
      from,
      from + 6,
    );
    return [...open].map((o, i) => (o ? 'MTWTFSS'[i] : '-')).join('');
  };
  it.each([
    ['Two days', 'soaker', '11', '--W--S-'],
    ['Two days', 'soaker', '12', '---T--S'],
    ['One day', 'drip', '46', '---T---'],
    ['One day', 'drip', 'gate', '--W----'],
    ['Hand and drip', 'soaker', '11', '-------'],
    ['Hand only', 'hand', '11', 'MTWTFSS'],
    ['Bucket', 'bucket', '11', '-T---S-'],
    ['Bucket', 'hand', '11', '-------'],
    ['Total ban', 'sprinkler', '11', '-------'],
    ['Total ban', 'drip', '11', 'MTWTFSS'],
    ['Grace', 'drip', '11', '--W--S-'],
  ])('%s: %s at %s in a week of July: %s', (name, family, address, expected) =>
    expect(week(name, family, address)).toBe(expected),
  );
  it('a group follows its season', () =>
    expect(week('Assigned', 'drip', '11', 'A')).toBe('MTWTFS-'));
});
