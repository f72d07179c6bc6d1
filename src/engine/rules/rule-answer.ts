/**
 * "May I water now?" Per agency a ban that holds forbids, else a free row that holds allows, else some
 * allow row must hold, else a means that no row speaks of is unrestricted. Every agency must allow.
 */
import type { Day } from '../dates.js';
import {
  addressMatches,
  dayHolds,
  holdsAt,
  inForce,
  isOddTail,
  stageAt,
  topicMatches,
} from './rule-match.js';
import { DAY_MINUTES } from './rule-types.js';
import type { RuleQuery, RuleRow, RuleTable } from './rule-types.js';
import { agencies, agencyDay, nextChange, openWindows } from './rule-windows.js';
import { clock, dayText, describeRow } from './rule-words.js';

/** A local civil moment; minutes past the day roll on to the next. */
export interface Moment {
  day: Day;
  /** [min of the day] */
  minute: number;
}

/** An answer with the row that decides it. */
export interface RuleAnswer {
  readonly open: boolean;
  /** deciding row, or null: no rule found */
  readonly row: number | null;
  /** a sentence for the person on site */
  readonly reason: string;
  /** open: when it closes; closed: when it opens next; undefined: nothing changes within 400 days */
  readonly until: Moment | undefined;
}

type Decision =
  'banned' | 'freed' | 'allowed' | 'outside' | 'other address' | 'no ban now' | 'no rule';

interface AgencyAnswer {
  open: boolean;
  row: RuleRow | null;
  decision: Decision;
  rows: readonly RuleRow[];
}

function agencyAt(
  table: RuleTable,
  rows: readonly RuleRow[],
  { day, minute }: Moment,
  query: RuleQuery,
): AgencyAnswer {
  const stage = stageAt(table, day);
  let free: RuleRow | null = null;
  let allow: RuleRow | null = null;
  let shut: RuleRow | null = null;
  let idle: RuleRow | null = null;
  let elsewhere: RuleRow | null = null;
  for (const row of rows) {
    if (!topicMatches(row, query) || !inForce(row, day, stage, query)) continue;
    if (!addressMatches(row, query)) {
      if (row.verdict !== 'ban') elsewhere ??= row;
      continue;
    }
    const holds = holdsAt(row, day, minute, query);
    if (row.verdict === 'ban') {
      if (holds) return { open: false, row, decision: 'banned', rows };
      idle ??= row;
    } else if (!holds) {
      // a row that opens at another hour of this day says more than one of another day
      if (shut === null || (dayHolds(row, day) && !dayHolds(shut, day))) shut = row;
    } else if (row.verdict === 'free') free ??= row;
    else allow ??= row;
  }
  if (free) return { open: true, row: free, decision: 'freed', rows };
  if (allow) return { open: true, row: allow, decision: 'allowed', rows };
  if (shut) return { open: false, row: shut, decision: 'outside', rows };
  if (elsewhere) return { open: false, row: elsewhere, decision: 'other address', rows };
  if (idle) return { open: true, row: idle, decision: 'no ban now', rows };
  return { open: true, row: null, decision: 'no rule', rows };
}

/** What was assumed for blank settings that bear on the answer; '' if nothing was. */
export function assumptions(row: RuleRow, day: Day): string {
  const said: string[] = [];
  const blank = (column: string): boolean => row.assumed.includes(column);
  if (blank('Midnight') && row.hours?.some((w) => w.start > w.end))
    said.push('Midnight is blank: the start date owns the window');
  if (blank('31st') && row.days.parity !== null && isOddTail(day))
    said.push('31st is blank: it goes by parity');
  if (blank('Day one') && row.age) said.push('Day one is blank: planting day counts as 1');
  return said.length === 0 ? '' : ` (${said.join('; ')})`;
}

/** Why no rule was found: rows of a stage stay silent without a Stages table. */
export function noRuleText(table: RuleTable, query: RuleQuery, day: Day): string {
  const staged = table.rows.filter((r) => r.stage !== null && topicMatches(r, query));
  const base = `no rule found for ${query.family}: unrestricted`;
  if (staged.length === 0) return `${base}.`;
  const list = staged.map((r) => r.row).join(', ');
  const stage = stageAt(table, day);
  const why =
    table.stages.length === 0
      ? 'no Stages table says which stage is in force'
      : `the stage on ${dayText(day)} is ${stage ?? 'none yet'}`;
  return `${base}; rows with a stage (${list}) stay silent, ${why}.`;
}

const SENTENCES: Record<Exclude<Decision, 'no rule'>, (row: string, when: string) => string> = {
  banned: (row, when) => `Closed ${when}: ${row}.`,
  freed: (row, when) => `Open ${when}: ${row}.`,
  allowed: (row, when) => `Open ${when}: ${row}.`,
  outside: (row, when) => `Closed ${when}: outside what is open. ${row}.`,
  'other address': (row, when) =>
    `Closed ${when}: no row speaks of this address, group or class, though others have one. ${row}.`,
  'no ban now': (row, when) => `Open ${when}: the ban does not hold now. ${row}.`,
};

function sentence(
  table: RuleTable,
  query: RuleQuery,
  { day, minute }: Moment,
  a: AgencyAnswer,
): string {
  if (a.row === null || a.decision === 'no rule') return `Open: ${noRuleText(table, query, day)}`;
  const when = `on ${dayText(day)} at ${clock(minute)}`;
  return SENTENCES[a.decision](describeRow(a.row), when) + assumptions(a.row, day);
}

function normal({ day, minute }: Moment): Moment {
  const whole = Math.floor(minute);
  const days = Math.floor(whole / DAY_MINUTES);
  return { day: day + days, minute: whole - days * DAY_MINUTES };
}

/** The answer that speaks for all agencies: the first refusal, else the first with a row. */
function deciding(answers: AgencyAnswer[]): AgencyAnswer {
  const none: AgencyAnswer = { open: true, row: null, decision: 'no rule', rows: [] };
  return answers.find((a) => !a.open) ?? answers.find((a) => a.row !== null) ?? answers[0] ?? none;
}

/**
 * May this means be used at this moment?
 * @param moment local civil time of the site
 * @returns the answer, the deciding row and a sentence; reason and until are worked out when read
 * Source: reference/domain.md §7.2, §7.3. Never throws.
 */
export function allowed(table: RuleTable, moment: Moment, query: RuleQuery): RuleAnswer {
  const at = normal(moment);
  const answer = deciding(agencies(table).map((rows) => agencyAt(table, rows, at, query)));
  return {
    open: answer.open,
    row: answer.row?.row ?? null,
    get reason(): string {
      return sentence(table, query, at, answer);
    },
    get until(): Moment | undefined {
      return nextChange((d) => openWindows(table, d, query), at.day, at.minute, answer.open);
    },
  };
}

/** Minutes from a to b. */
const between = (a: Moment, b: Moment): number =>
  (b.day - a.day) * DAY_MINUTES + b.minute - a.minute;

/**
 * May a run start at this moment and take this long?
 * `Finish` inside asks that it ends in the same open stretch, `may run over` only that it starts there;
 * `Drain` inside adds the passive drain of a bag; `Limit` caps the minutes of the run itself.
 * @param minutes water runs or a crew fills [min], 0 or more
 * @param drain passive drain after it [min]
 */
export function runAllowed(
  table: RuleTable,
  moment: Moment,
  minutes: number,
  query: RuleQuery,
  drain = 0,
): RuleAnswer {
  const start = allowed(table, moment, query);
  if (!start.open) return start;
  const at = normal(moment);
  for (const rows of agencies(table)) {
    const { row } = agencyAt(table, rows, at, query);
    const refuse = (why: string): RuleAnswer => ({
      open: false,
      row: row?.row ?? null,
      reason: `${why}${row ? ` ${describeRow(row)}.` : ''}`,
      until: start.until,
    });
    if (row?.limit && row.verdict !== 'ban' && minutes > row.limit.minutes)
      return refuse(`A run of ${minutes} min is longer than the ${row.limit.minutes} min allowed.`);
    if (row?.finish === 'may run over') continue;
    const end = nextChange((d) => agencyDay(table, rows, d, query).open, at.day, at.minute, true);
    const length = minutes + (row?.drain === 'inside' ? drain : 0);
    if (end && between(at, end) < length)
      return refuse(
        `A run of ${length} min does not end before the window closes at ${clock(end.minute)} on ${dayText(end.day)}.`,
      );
  }
  return start;
}
