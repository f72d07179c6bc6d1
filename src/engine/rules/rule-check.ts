/** Rows whose words are all known, but do not go together. */
import { isoDate } from '../dates.js';
import type { RuleProblem, RuleRow } from './rule-types.js';

export type Report = (
  row: number,
  column: string,
  read: string,
  accepted: string,
  why: string,
  kind?: RuleProblem['kind'],
) => void;

/** Something that makes a well-spelt row useless: column, read, accepted, why. */
type Flaw = [column: string, read: string, accepted: string, why: string];

/** Why a well-spelt row cannot be used: parts of it that do not go together. */
export function flaws(row: RuleRow): Flaw[] {
  const out: Flaw[] = [];
  if (row.from !== null && row.to !== null && row.to < row.from)
    out.push(['To', isoDate(row.to), `${isoDate(row.from)} or later`, 'To comes before From']);
  const ends: ['From' | 'To', boolean, boolean][] = [
    ['From', row.yearlyTo !== null, row.yearlyFrom !== null],
    ['To', row.yearlyFrom !== null, row.yearlyTo !== null],
  ];
  for (const [column, other, own] of ends)
    if (other && !own)
      out.push([
        column,
        'no yearly date',
        'From and To both without a year, e.g. Nov 1 and Feb 28',
        'a season that returns every year needs both its ends',
      ]);
  if (row.verdict !== 'allow' && row.days.perWeek !== null)
    out.push([
      'Days',
      `${row.days.perWeek} per week`,
      'days',
      `a ${row.verdict} has no budget of days`,
    ]);
  if (row.verdict !== 'allow' && row.days.weekdays === 0)
    out.push(['Days', 'none', 'any or days', `a ${row.verdict} on no day can never match`]);
  if (row.verdict === 'ban' && row.oneWindow)
    out.push(['Hours', 'one of', 'any or windows', 'a ban cannot leave the window to choose']);
  if (row.age !== null && row.age.last < row.dayOne)
    out.push([
      'New planting',
      `${row.age.first}-${row.age.last}`,
      '1 or later',
      'no day has that count',
    ]);
  return out;
}
