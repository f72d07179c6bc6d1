/**
 * "May I water now?" Per agency a ban that holds forbids, else a free row that holds allows, else some
 * allow row must hold, else a means that no row speaks of is unrestricted. Every agency must allow.
 */
import type { Day } from '../dates.js';
import {
  addressMatches,
  budgetHolds,
  dayHolds,
  holdsAt,
  inForce,
  isOddTail,
  stageAt,
  topicMatches,
  unfitted,
  windowsOf,
} from './rule-match.js';
import { DAY_MINUTES } from './rule-types.js';
import type { RuleQuery, RuleRow, RuleTable, RuleWindow } from './rule-types.js';
import { agencies, agencyDay, nextChange, openWindows, widestLimit } from './rule-windows.js';
import { clock, dayText, describeRow, hoursText } from './rule-words.js';
import { clockShift, existing, realMinutes } from './rule-zone.js';

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
  /** rows that open the moment, the deciding one first */
  opening: readonly RuleRow[];
  /** bans that would hold if something were fitted */
  conditional: readonly RuleRow[];
}

function agencyAt(
  table: RuleTable,
  rows: readonly RuleRow[],
  { day, minute }: Moment,
  query: RuleQuery,
): AgencyAnswer {
  const stage = stageAt(table, day);
  const free: RuleRow[] = [];
  const allow: RuleRow[] = [];
  const conditional: RuleRow[] = [];
  let shut: RuleRow | null = null;
  let idle: RuleRow | null = null;
  let elsewhere: RuleRow | null = null;
  const say = (open: boolean, row: RuleRow | null, decision: Decision): AgencyAnswer => ({
    open,
    row,
    decision,
    rows,
    opening: open ? [...free, ...allow] : [],
    conditional,
  });
  for (const row of rows) {
    if (!topicMatches(row, query) || !inForce(row, day, stage, query)) continue;
    if (!addressMatches(row, query)) {
      if (row.verdict !== 'ban') elsewhere ??= row;
      continue;
    }
    const holds = holdsAt(row, day, minute, query);
    if (row.verdict === 'ban') {
      if (holds) return say(false, row, 'banned');
      if (row.needs.length > 0 && query.fitted === undefined) conditional.push(row);
      idle ??= row;
    } else if (!holds) {
      // a row that opens at another hour of this day says more than one of another day
      if (shut === null || (dayHolds(row, day) && !dayHolds(shut, day))) shut = row;
    } else (row.verdict === 'free' ? free : allow).push(row);
  }
  if (free[0]) return say(true, free[0], 'freed');
  if (allow[0]) return say(true, allow[0], 'allowed');
  if (shut) return say(false, shut, 'outside');
  if (elsewhere) return say(false, elsewhere, 'other address');
  if (idle) return say(true, idle, 'no ban now');
  return say(true, null, 'no rule');
}

/** Why a row that speaks of the query does not open, beyond its days and hours; '' if nothing else. */
export function obstacles(row: RuleRow, day: Day, query: RuleQuery): string {
  if (row.verdict === 'ban') return '';
  const said: string[] = [];
  const missing = unfitted(row, query);
  if (missing.length > 0) said.push(`${missing.join(', ')} not fitted`);
  if (!budgetHolds(row, day, query))
    said.push(`the ${row.days.perWeek ?? 0} days of this week (Mon to Sun) are used`);
  if (windowsOf(row, query)?.length === 0)
    said.push(`window ${query.window ?? ''} was chosen, the row has ${row.hours?.length ?? 0}`);
  return said.length === 0 ? '' : ` (${said.join('; ')})`;
}

/**
 * What was assumed for blank settings that bear on the answer, and which windows there are to choose from;
 * '' if nothing was.
 */
export function assumptions(row: RuleRow, day: Day, query?: RuleQuery): string {
  const said: string[] = [];
  const blank = (column: string): boolean => row.assumed.includes(column);
  if (blank('Midnight') && row.hours?.some((w) => w.start > w.end))
    said.push('Midnight is blank: the start date owns the window');
  if (blank('31st') && row.days.parity !== null && isOddTail(day))
    said.push('31st is blank: it goes by parity');
  if (blank('Day one') && row.age) said.push('Day one is blank: planting day counts as 1');
  if (row.oneWindow && row.hours && query?.window === undefined)
    said.push(
      `any of the windows ${hoursText(row.hours)} may be chosen, but only one, and it stays`,
    );
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
  const why = a.decision === 'outside' ? obstacles(a.row, day, query) : '';
  const bans = a.conditional
    .filter((row) => row !== a.row)
    .map((row) => ` Not with ${row.needs.join(', ')} (row ${row.row}).`);
  const text = SENTENCES[a.decision](describeRow(a.row), when) + why;
  return text + assumptions(a.row, day, query) + (a.open ? bans.join('') : '');
}

/** Whole minute of its own day; one that the clock skips means the next that exists. */
function normal({ day, minute }: Moment, zone: string | undefined): Moment {
  const whole = Math.floor(minute);
  const days = Math.floor(whole / DAY_MINUTES);
  return existing({ day: day + days, minute: whole - days * DAY_MINUTES }, zone);
}

/** A moment that the clock skips, said; '' for any other. */
function skippedText(asked: Moment, at: Moment): string {
  const gap = (at.day - asked.day) * DAY_MINUTES + at.minute - Math.floor(asked.minute);
  if (gap === 0) return '';
  const days = Math.floor(asked.minute / DAY_MINUTES);
  const minute = Math.floor(asked.minute) - days * DAY_MINUTES;
  return `${clock(minute)} does not exist on ${dayText(asked.day + days)}, the clock is put forward: ${clock(at.minute)} is meant. `;
}

/** The answer that speaks for all agencies: the first refusal, else the first with a row. */
function deciding(answers: AgencyAnswer[]): AgencyAnswer {
  const none: AgencyAnswer = {
    open: true, row: null, decision: 'no rule', rows: [], opening: [], conditional: [],
  }; // prettier-ignore
  return answers.find((a) => !a.open) ?? answers.find((a) => a.row !== null) ?? answers[0] ?? none;
}

/**
 * May this means be used at this moment?
 * @param moment local civil time of the site
 * @returns the answer, the deciding row and a sentence; reason and until are worked out when read
 * @throws Problem if the query's time zone or side of the street cannot be read
 * Source: published ordinances, tests/reference/rules; what they leave open is a setting.
 */
export function allowed(table: RuleTable, moment: Moment, query: RuleQuery): RuleAnswer {
  const at = normal(moment, query.zone);
  const answer = deciding(agencies(table).map((rows) => agencyAt(table, rows, at, query)));
  return {
    open: answer.open,
    row: answer.row?.row ?? null,
    get reason(): string {
      return skippedText(moment, at) + sentence(table, query, at, answer);
    },
    get until(): Moment | undefined {
      return change((d) => openWindows(table, d, query), at, answer.open, query.zone);
    },
  };
}

/** When the answer changes, a minute that exists. */
function change(
  windows: (day: Day) => RuleWindow[],
  at: Moment,
  open: boolean,
  zone: string | undefined,
): Moment | undefined {
  const found = nextChange(windows, at.day, at.minute, open, (d) => clockShift(zone, d));
  return found && existing(found, zone);
}

/** A ban that a run must not go on into. */
const bansRuns = ({ verdict, finish }: RuleRow): boolean =>
  verdict === 'ban' && finish !== 'may run over';

/**
 * May a run start at this moment and take this long?
 * `Finish` inside asks that it ends in the same open stretch, `may run over` only that it starts there and
 * meets no ban on its way, unless the ban may be run into, too;
 * `Drain` inside adds the passive drain of a bag; `Limit` caps the minutes of the run itself, the most
 * generous of the rows that open the moment.
 * @param minutes water runs or a crew fills [min], 0 or more; real minutes where the query names a zone
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
  const at = normal(moment, query.zone);
  for (const rows of agencies(table)) {
    const { row, opening } = agencyAt(table, rows, at, query);
    const refuse = (why: string): RuleAnswer => ({
      open: false,
      row: row?.row ?? null,
      reason: `${why}${row ? ` ${describeRow(row)}.` : ''}`,
      until: start.until,
    });
    const limit = widestLimit(opening);
    if (limit && minutes > limit.minutes)
      return refuse(`A run of ${minutes} min is longer than the ${limit.minutes} min allowed.`);
    const mayRunOver = row?.finish === 'may run over';
    const binding = mayRunOver ? rows.filter(bansRuns) : rows;
    if (binding.length === 0) continue;
    const end = change((d) => agencyDay(table, binding, d, query).open, at, true, query.zone);
    const length = minutes + (!mayRunOver && row?.drain === 'inside' ? drain : 0);
    if (end && realMinutes(at, end, query.zone) < length)
      return refuse(
        `A run of ${length} min does not end before the window closes at ${clock(end.minute)} on ${dayText(end.day)}.`,
      );
  }
  return start;
}
