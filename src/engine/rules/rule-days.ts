/** The Days column: weekdays, date parity, turns and weekly budgets. */
import { WEEKDAYS } from '../dates.js';
import { Problem } from '../problems.js';
import { each, list } from './rule-cells.js';
import { ALL_WEEKDAYS } from './rule-types.js';
import type { DayRule } from './rule-types.js';

/** 0 Sunday … 6 Saturday of `sat`, `sat.`, `saturday` or `saturdays`. @throws Problem if it is no day */
export function weekdayOf(text: string): number {
  const plain = text
    .replace(/\.$/, '')
    .replace(/days$/, 'day')
    .replace(/^weds$/, 'wed');
  const found = WEEKDAYS.findIndex((w) => {
    const short = w.toLowerCase();
    return plain.startsWith(short) && `${LONG[short] ?? ''}`.startsWith(plain);
  });
  if (found < 0) throw new Problem(`"${text}" is not a day`);
  return found;
}

const LONG: Record<string, string> = {
  sun: 'sunday',
  mon: 'monday',
  tue: 'tuesday',
  wed: 'wednesday',
  thu: 'thursday',
  fri: 'friday',
  sat: 'saturday',
};

/** Spans and sets of days in words. */
const SETS: Readonly<Record<string, string>> = { weekdays: 'mon-fri', weekends: 'sat-sun' };

/** Bit mask of a day or a span of them: `mon`, `mon-fri`. */
function maskOf(part: string): number {
  const ends = part.split('-').map(weekdayOf);
  const first = ends[0] ?? 0;
  const last = ends[1] ?? first;
  if (ends.length > 2) throw new Problem(`"${part}" is not a span of days`);
  let mask = 0;
  for (let d = first; ; d = (d + 1) % 7) {
    mask |= 1 << d;
    if (d === last) return mask;
  }
}

/** Bit mask of `Mon Thu`, `Mon/Thu`, `Mondays and Thursdays`, `Mon-Fri` or `Monday through Friday`. */
function weekdaysOf(text: string): number {
  const parts = text
    .replace(/ ?- ?| (?:to|through|thru) /g, '-')
    .split(/[ /&+]+/)
    .filter((part) => !['', 'and', 'or', 'on'].includes(part))
    .map((part) => SETS[part] ?? part);
  return each(parts, maskOf).reduce((mask, one) => mask | one, 0);
}

const EVERY: Record<string, number> = { second: 2, other: 2, third: 3 };

type DayForm = [RegExp, (rule: DayRule, m: RegExpExecArray) => void];

/** The ways a part of a Days cell may be written, tried in order; the last takes weekdays. */
const DAY_FORMS: DayForm[] = [
  [/^(?:any|daily|every day)$/, () => undefined],
  [/^none$/, (rule) => void (rule.weekdays = 0)],
  [
    /^(odd|even) (?:dates|days)$/,
    (rule, m) => void (rule.parity = m[1] === 'odd' ? 'odd' : 'even'),
  ],
  [
    /^every (\d+)(?:st|nd|rd|th)? days?$|^every (second|other|third) day$/,
    (rule, m) => {
      const n = m[1] === undefined ? (EVERY[m[2] ?? ''] ?? 0) : Number(m[1]);
      if (n < 2 || n > 31) throw new Problem('"every nth day" takes 2 to 31');
      rule.every = n;
    },
  ],
  [
    /^(\d+)(?: days?)? (?:per|a) week$/,
    (rule, m) => {
      const n = Number(m[1]);
      if (n < 1 || n > 7) throw new Problem('a week has 1 to 7 days');
      rule.perWeek = n;
    },
  ],
  [/^not (.+)$/, (rule, m) => void (rule.weekdays &= ~weekdaysOf(m[1] ?? ''))],
];

/**
 * Weekdays, parity, turns or a weekly budget in the words of the Days column. Weekdays listed with commas
 * belong together: `Mon, Thu` is Monday or Thursday. @throws Problem on an unknown word
 */
export function parseDays(text: string): DayRule {
  const rule: DayRule = { weekdays: ALL_WEEKDAYS, parity: null, every: null, perWeek: null };
  let named = 0;
  const none = text.toLowerCase() === 'none';
  each(list(text), (part) => {
    const form = DAY_FORMS.map(([re, set]) => ({ m: re.exec(part), set })).find((f) => f.m);
    if (form?.m) form.set(rule, form.m);
    else named |= weekdaysOf(part.replace(/^every (?=[a-z]+day)/, ''));
  });
  if (named !== 0) rule.weekdays &= named;
  if (rule.weekdays === 0 && !none) throw new Problem('no day of the week is left');
  return rule;
}
