/**
 * The words of a watering rule after reading, and the word lists the rules table accepts.
 * Minutes are minutes of the local civil day, 0…1440; days are serial numbers.
 */
import type { Day } from '../dates.js';

/** A cell as a spreadsheet hands it over; null and '' are blank. */
export type RuleCell = string | number | boolean | null;

/**
 * Means a row may name. They are kept apart: a row for `drip` does not speak of `soaker`, because some
 * ordinances exempt the one and ban the other (tests/reference/rules, P12 and P14). List both to mean both.
 */
export const MEANS_WORDS = [
  'bag',
  'pad',
  'soaker',
  'hand',
  'tanker',
  'bucket',
  'drip',
  'sprinkler',
] as const;
export const TARGET_WORDS = ['tree', 'new planting'] as const;
export const SOURCE_WORDS = [
  'mains',
  'reclaimed',
  'well',
  'grey',
  'rain',
  'tanker',
  'condensate',
] as const;
export const VERDICT_WORDS = ['allow', 'ban', 'free'] as const;
export const NEED_WORDS = [
  'nozzle',
  'timer',
  'pressure reducer',
  'moisture sensor',
  'rain sensor',
  'one device',
  'one tap',
  'attended',
  'half new',
  'permit',
  'signage',
  'receipt',
] as const;

export type RuleTarget = (typeof TARGET_WORDS)[number];
export type Verdict = (typeof VERDICT_WORDS)[number];

/**
 * Who a row speaks of. `digits` holds the last digits as a bit mask, bit 0 for digit 0; `sides` the sides
 * of the street as letters of `nesw`; `not` turns the rule round.
 */
export type AddressRule = (
  | { kind: 'odd' | 'even' | 'none' }
  | { kind: 'digits'; digits: number }
  | { kind: 'group' | 'class'; name: string }
  | { kind: 'side'; sides: string }
) & { not: boolean };

/**
 * A date that returns every year: a day of a month, or the nth weekday of one. `before`: the day before it.
 */
export interface YearDay {
  /** 1…12 */
  month: number;
  /** day of the month, cut to its length, so that 31 is its last day; null for the nth weekday */
  date: number | null;
  /** 1…4, or -1 for the last */
  nth: number;
  /** 0 Sunday … 6 Saturday */
  weekday: number;
  before: boolean;
}

/** On which days a row opens. All parts must hold. */
export interface DayRule {
  /** bit mask of weekdays, bit 0 Sunday; 127 any, 0 none */
  weekdays: number;
  /** date parity asked for, or null; see the setting 31st */
  parity: 'odd' | 'even' | null;
  /** every nth day, or null; counted from the row's From date, else from 1 January of each year */
  every: number | null;
  /** days a Mon–Sun week that may be used, or null */
  perWeek: number | null;
}

/** Minutes of the day [start, end); end < start: the window crosses midnight. */
export interface RuleWindow {
  start: number;
  end: number;
}

/** Settings the ordinance leaves open: asked for in columns, never guessed. */
export interface RuleSettings {
  day31: 'by parity' | 'all' | 'none';
  midnight: 'start' | 'end';
  finish: 'inside' | 'may run over';
  drain: 'free' | 'inside';
  filling: 'own means' | 'hand';
  dayOne: 1 | 0;
}

/** One row of the rules table; null says "no condition". */
export interface RuleRow extends RuleSettings {
  /** row in the range, the header being row 1 */
  row: number;
  stage: string | null;
  from: Day | null;
  to: Day | null;
  /** From and To of a season that returns every year; both or neither, it may cross New Year */
  yearlyFrom: YearDay | null;
  yearlyTo: YearDay | null;
  means: string[] | null;
  target: RuleTarget | null;
  source: string[] | null;
  /** alternatives, one of which must fit in all its parts */
  address: AddressRule[][] | null;
  days: DayRule;
  hours: RuleWindow[] | null;
  /** the property chooses one of the windows and keeps to it */
  oneWindow: boolean;
  /** most minutes water may run [min] */
  limit: { minutes: number; per: 'day' | 'property' | 'zone' } | null;
  /** days since planting, inclusive; last Infinity: from then on */
  age: { first: number; last: number } | null;
  /** closed for `hours` after a day with at least `mm` of rain; mm 0: after any rain */
  rain: { hours: number; mm: number } | null;
  verdict: Verdict;
  /** what must be fitted or held; on a ban: what the ban forbids to use */
  needs: string[];
  note: string;
  agency: string;
  /** settings columns left blank, so that an answer can say what was assumed */
  assumed: string[];
}

/**
 * Something a person should look at. `broken`: the row is left out; `notice`: the row counts, but it
 * cannot do what its author seems to expect.
 */
export interface RuleProblem {
  kind: 'broken' | 'notice';
  table: 'Rules' | 'Stages';
  /** row in the range, the header being row 1 */
  row: number;
  column: string;
  read: string;
  accepted: string;
  sentence: string;
}

export interface RuleTable {
  rows: RuleRow[];
  /** ascending by day; a stage holds until the next one begins */
  stages: { from: Day; stage: string }[];
  problems: RuleProblem[];
}

/** A day with rain. `minute`: when it ended [min of the day]; without it the whole day counts as rain. */
export interface RainDay {
  day: Day;
  mm: number;
  minute?: number | undefined;
}

/** What is asked of a rules table. */
export interface RuleQuery {
  family: string;
  /** the first whole number in it is the house number; none: the address has no number */
  address: string;
  /** default `mains`, the source restrictions are written for */
  source?: string | undefined;
  /** `new planting` meets rows of that target that name no age; rows with an age go by `planted` */
  target?: RuleTarget | undefined;
  planted?: Day | undefined;
  /** side of the street: north, N/W … */
  side?: string | undefined;
  group?: string | undefined;
  customerClass?: string | undefined;
  rain?: readonly RainDay[] | undefined;
  /**
   * What is fitted or held, in the words of Needs. Given: a row that needs something else does not open.
   * Left out: answers say what is needed.
   */
  fitted?: readonly string[] | undefined;
  /** Window the property has chosen where a row says "one of": 1 for the first. Left out: any one of them. */
  window?: number | undefined;
  /** days already watered; uses up budgets of n days a week */
  watered?: readonly Day[] | undefined;
  /** IANA name of the site's time zone, for days of 23 and 25 hours; left out: every day has 24 */
  zone?: string | undefined;
}

export const ALL_WEEKDAYS = 127;
export const DAY_MINUTES = 1440;
