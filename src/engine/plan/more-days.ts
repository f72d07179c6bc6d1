/** Rules with more allowed days, for asking what they would change. Bans and hours stay as they are. */
import { WEEKDAYS } from '../dates.js';
import type { RuleTable } from '../rules/rule-table.js';
import { ALL_WEEKDAYS, type DayRule, type RuleRow } from '../rules/rule-types.js';

const ANY_DAY: DayRule = { weekdays: ALL_WEEKDAYS, parity: null, every: null, perWeek: null };

/**
 * The rules with a weekday more: every row that allows certain days allows this one, too, in the same hours, and a
 * limit of n days a week becomes n + 1. What a ban closes stays closed.
 *
 * @param weekday - 0 Sunday … 6 Saturday
 */
export const withWeekday = (rules: RuleTable, weekday: number): RuleTable => ({
  ...rules,
  rows: rules.rows.flatMap((row) => {
    if (!limitsDays(row)) return [row];
    const perWeek = row.days.perWeek === null ? null : row.days.perWeek + 1;
    const more: DayRule = { weekdays: 1 << weekday, parity: null, every: null, perWeek };
    return [
      { ...row, days: { ...row.days, perWeek } },
      { ...row, days: more },
    ];
  }),
});

/** The rules with every day allowed in the hours they give. What a ban closes stays closed. */
export const withAnyDay = (rules: RuleTable): RuleTable => ({
  ...rules,
  rows: rules.rows.map((row) => (limitsDays(row) ? { ...row, days: ANY_DAY } : row)),
});

export const weekdayName = (weekday: number): string => WEEKDAYS[weekday]!;

function limitsDays({ verdict, days }: RuleRow): boolean {
  const { weekdays, parity, every, perWeek } = days;
  const all = weekdays === ALL_WEEKDAYS && parity === null && every === null && perWeek === null;
  return verdict !== 'ban' && !all;
}
