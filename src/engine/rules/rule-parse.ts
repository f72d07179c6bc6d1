/**
 * Reads the rules table and the Stages table. Nothing throws and nothing is silently ignored: a cell
 * that cannot be read leaves its row out and is reported with row, column, what was read and the
 * accepted forms.
 */
import { dayFromIso, isDay, isoDate, WEEKDAYS } from '../dates.js';
import type { Day } from '../dates.js';
import { Problem } from '../problems.js';
import {
  ALL_WEEKDAYS,
  DAY_MINUTES,
  MEANS_WORDS,
  NEED_WORDS,
  SOURCE_WORDS,
  TARGET_WORDS,
  VERDICT_WORDS,
} from './rule-types.js';
import type {
  AddressRule,
  DayRule,
  RuleCell,
  RuleProblem,
  RuleRow,
  RuleTable,
  RuleWindow,
} from './rule-types.js';
import { clock } from './rule-words.js';

/** A row before its verdict and number are known to be good. */
const blankRow = (row: number): RuleRow => ({
  row,
  stage: null,
  from: null,
  to: null,
  means: null,
  target: null,
  source: null,
  address: null,
  days: { weekdays: ALL_WEEKDAYS, parity: null, every: null, perWeek: null },
  hours: null,
  oneWindow: false,
  limit: null,
  age: null,
  rain: null,
  verdict: 'allow',
  needs: [],
  note: '',
  agency: '',
  day31: 'by parity',
  midnight: 'start',
  finish: 'inside',
  drain: 'free',
  filling: 'own means',
  dayOne: 1,
  assumed: [],
});

const tidy = (cell: RuleCell | undefined): string =>
  cell === null || cell === undefined
    ? ''
    : String(cell)
        .replace(/[\u2010-\u2015\u2212]/g, '-')
        .replace(/\s+/g, ' ')
        .trim();

/** `Stage 2` and `2` are one stage. */
const stageName = (text: string): string => text.toLowerCase().replace(/^stage /, '');

const list = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[,;]/)
    .map((part) => part.trim());

/** One of a list of words. */
function word<T extends string>(text: string, words: readonly T[]): T {
  const found = words.find((w) => w === text.toLowerCase());
  if (found === undefined) throw new Problem(`"${text}" is not one of the words`);
  return found;
}

/** Several of a list of words; null for `any`. */
function wordList(text: string, words: readonly string[]): string[] | null {
  if (text.toLowerCase() === 'any') return null;
  return [...new Set(list(text).map((part) => word(part, words)))];
}

function date(text: string, cell: RuleCell): Day {
  const day = typeof cell === 'number' ? Math.floor(cell) : dayFromIso(text);
  if (!isDay(day)) throw new Problem(`"${text}" is not a date`);
  return day;
}

/** Minute of `7`, `07:30` or `24:00`. */
function minuteOf(text: string): number {
  const m = /^(\d{1,2})(?::(\d{2}))?$/.exec(text);
  if (!m) throw new Problem(`"${text}" is not a time`);
  const minute = Number(m[1]) * 60 + Number(m[2] ?? 0);
  if (Number(m[2] ?? 0) > 59 || minute > DAY_MINUTES) throw new Problem(`there is no ${text}`);
  return minute;
}

function windowOf(text: string): RuleWindow {
  const half = /^(before|after) (\S+)$/.exec(text);
  const span = /^(\S+?) ?(?:-|to) ?(\S+)$/.exec(text);
  const from = half ? (half[1] === 'before' ? '00:00' : half[2]) : span?.[1];
  const to = half ? (half[1] === 'before' ? half[2] : '24:00') : span?.[2];
  if (from === undefined || to === undefined) throw new Problem(`"${text}" is not a window`);
  const start = minuteOf(from);
  const end = minuteOf(to) || DAY_MINUTES;
  if (start === DAY_MINUTES) throw new Problem('a window starts before 24:00');
  if (start === end) throw new Problem(`the window ${text} has no length`);
  return { start, end };
}

/** What a window leaves of the day. */
function outside({ start, end }: RuleWindow): RuleWindow[] {
  if (end < start) return [{ start: end, end: start }];
  const parts = [
    { start: 0, end: start },
    { start: end, end: DAY_MINUTES },
  ].filter((w) => w.end > w.start);
  if (parts.length === 0) throw new Problem('that leaves no hour of the day');
  return parts;
}

function hours(text: string, cell: RuleCell): Partial<RuleRow> {
  if (typeof cell === 'number' && cell >= 0 && cell < 1)
    throw new Problem(`${clock(Math.round(cell * DAY_MINUTES))} is one time, a window needs two`);
  const t = text.toLowerCase();
  if (t === 'any') return { hours: null };
  if (t.startsWith('not ')) return { hours: outside(windowOf(t.slice(4))) };
  const oneWindow = t.startsWith('one of ');
  const windows = list(oneWindow ? t.slice(7) : t).map(windowOf);
  if (oneWindow && windows.length < 2) throw new Problem('"one of" needs two windows or more');
  return { hours: windows, oneWindow };
}

function weekdayOf(text: string): number {
  const found = WEEKDAYS.findIndex((w) => {
    const short = w.toLowerCase();
    return text.startsWith(short) && `${LONG[short] ?? ''}`.startsWith(text);
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

/** Bit mask of `Mon Thu`, `Mon/Thu` or `Mon-Fri`. */
function weekdaysOf(text: string): number {
  let mask = 0;
  for (const part of text.split(/[ /&+]+/).filter((p) => p !== '' && p !== 'and')) {
    const ends = part.split('-').map(weekdayOf);
    const first = ends[0] ?? 0;
    const last = ends[1] ?? first;
    if (ends.length > 2) throw new Problem(`"${part}" is not a span of days`);
    for (let d = first; ; d = (d + 1) % 7) {
      mask |= 1 << d;
      if (d === last) break;
    }
  }
  return mask;
}

const EVERY: Record<string, number> = { second: 2, other: 2, third: 3 };

type DayForm = [RegExp, (rule: DayRule, m: RegExpExecArray) => void];

/** The ways a part of a Days cell may be written, tried in order; the last takes weekdays. */
const DAY_FORMS: DayForm[] = [
  [/^any$/, () => undefined],
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

/** Weekdays listed with commas belong together: `Mon, Thu` is Monday or Thursday. */
/** Weekdays, parity, turns or a weekly budget in the words of the Days column. @throws Problem on an unknown word */
export function parseDays(text: string): DayRule {
  const rule: DayRule = { weekdays: ALL_WEEKDAYS, parity: null, every: null, perWeek: null };
  let named = 0;
  const none = text.toLowerCase() === 'none';
  for (const part of list(text)) {
    const form = DAY_FORMS.map(([re, set]) => ({ m: re.exec(part), set })).find((f) => f.m);
    if (form?.m) form.set(rule, form.m);
    else named |= weekdaysOf(part);
  }
  if (named !== 0) rule.weekdays &= named;
  if (rule.weekdays === 0 && !none) throw new Problem('no day of the week is left');
  return rule;
}

function digits(text: string): number {
  let mask = 0;
  for (const part of text.split(/[, ]+/)) {
    const m = /^(\d)(?:-(\d))?$/.exec(part);
    const first = Number(m?.[1] ?? NaN);
    const last = Number(m?.[2] ?? first);
    if (!m || last < first) throw new Problem(`"${part}" is not a last digit or a span of them`);
    for (let d = first; d <= last; d++) mask |= 1 << d;
  }
  return mask;
}

function oneAddress(text: string): AddressRule {
  const not = text.startsWith('not ');
  const plain = not ? text.slice(4).trim() : text;
  if (plain === 'odd' || plain === 'even' || plain === 'none') return { kind: plain, not };
  const ends = /^ends (.+)$/.exec(plain);
  if (ends) return { kind: 'digits', digits: digits((ends[1] ?? '').replace(/ ?- ?/g, '-')), not };
  const named = /^(group|class) (.+)$/.exec(plain);
  if (named) return { kind: named[1] === 'group' ? 'group' : 'class', name: named[2] ?? '', not };
  throw new Problem(`"${text}" is not an address rule`);
}

/** `odd and not class commercial or none`: alternatives of parts that must all fit. */
const address = (text: string): AddressRule[][] | null =>
  text.toLowerCase() === 'any'
    ? null
    : text
        .toLowerCase()
        .split(/;| or /)
        .map((one) => one.split(' and ').map((part) => oneAddress(part.trim())));

function limit(text: string): RuleRow['limit'] {
  const m = /^(\d+)(?: ?min)?(?: (?:per )?(day|property|zone))?$/.exec(text.toLowerCase());
  const minutes = Number(m?.[1] ?? NaN);
  if (!m || minutes < 1 || minutes > DAY_MINUTES)
    throw new Problem(`"${text}" is not 1 to ${DAY_MINUTES} minutes`);
  const per = m[2];
  return { minutes, per: per === 'property' || per === 'zone' ? per : 'day' };
}

function age(text: string, cell: RuleCell): RuleRow['age'] {
  if (typeof cell === 'number' && cell > 366)
    throw new Problem('the sheet turned it into a date, write it as text');
  const m = /^(\d+)(?: ?(?:-|to) ?(\d+))?$/.exec(text);
  if (!m) throw new Problem(`"${text}" is not a span of days`);
  const first = Number(m[1]);
  const last = Number(m[2] ?? first);
  if (last < first) throw new Problem(`day ${last} comes before day ${first}`);
  return { first, last };
}

/** [mm] in one unit of depth. */
const DEPTH: Record<string, number> = { in: 25.4, mm: 1 };

function rain(text: string): RuleRow['rain'] {
  const m = /^(\d+(?:[.,]\d+)?) ?h(?:ours?)? after (?:rain|(\d+(?:[.,]\d+)?) ?(in|mm))$/.exec(
    text.toLowerCase(),
  );
  if (!m) throw new Problem(`"${text}" is not a rain lock-out`);
  const number = (s: string | undefined): number => Number((s ?? '0').replace(',', '.'));
  const hoursLocked = number(m[1]);
  if (hoursLocked <= 0 || hoursLocked > 720) throw new Problem('a lock-out lasts up to 720 h');
  return { hours: hoursLocked, mm: number(m[2]) * (DEPTH[m[3] ?? 'mm'] ?? 1) };
}

interface Column {
  name: string;
  accepted: string;
  read: (text: string, cell: RuleCell) => Partial<RuleRow>;
  /** a setting: blank takes a default, and answers say so */
  setting?: true;
}

const setting = (
  name: string,
  words: readonly string[],
  read: (w: string) => Partial<RuleRow>,
): Column => ({
  name,
  accepted: words.join(', '),
  read: (text) => read(word(text, words)),
  setting: true,
});

const DATE_FORMS = 'yyyy-mm-dd or a date cell';

const COLUMNS: Column[] = [
  { name: 'Stage', accepted: 'a name, e.g. 2', read: (t) => ({ stage: stageName(t) }) },
  { name: 'From', accepted: DATE_FORMS, read: (t, c) => ({ from: date(t, c) }) },
  { name: 'To', accepted: DATE_FORMS, read: (t, c) => ({ to: date(t, c) }) },
  {
    name: 'Means',
    accepted: `any, or of ${MEANS_WORDS.join(', ')}`,
    read: (t) => ({ means: wordList(t, MEANS_WORDS) }),
  },
  {
    name: 'Target',
    accepted: `any, ${TARGET_WORDS.join(', ')}`,
    read: (t) => ({ target: t.toLowerCase() === 'any' ? null : word(t, TARGET_WORDS) }),
  },
  {
    name: 'Source',
    accepted: `any, or of ${SOURCE_WORDS.join(', ')}`,
    read: (t) => ({ source: wordList(t, SOURCE_WORDS) }),
  },
  {
    name: 'Address',
    accepted:
      'any, odd, even, ends 0-1, ends 4,5, group C, class commercial, none, not class commercial; joined by "and", "or"',
    read: (t) => ({ address: address(t) }),
  },
  {
    name: 'Days',
    accepted:
      'any, none, Mon Thu, Mon-Fri, not Sun, odd dates, even dates, every 2nd day, 2 per week',
    read: (t) => ({ days: parseDays(t) }),
  },
  {
    name: 'Hours',
    accepted:
      'any, 00:00-10:00, 19:00-24:00, 18:00-09:00, before 09:00, not 10:00-18:00, one of 04:00-08:00, 18:00-22:00',
    read: hours,
  },
  {
    name: 'Limit',
    accepted: 'minutes: 15, 15 zone, 60 property',
    read: (t) => ({ limit: limit(t) }),
  },
  {
    name: 'New planting',
    accepted: 'days since planting, e.g. 1-30, as text',
    read: (t, c) => ({ age: age(t, c) }),
  },
  {
    name: 'Rain',
    accepted: '48 h after 0.5 in, 24 h after 10 mm, 24 h after rain',
    read: (t) => ({ rain: rain(t) }),
  },
  {
    name: 'Verdict',
    accepted: VERDICT_WORDS.join(', '),
    read: (t) => ({ verdict: word(t, VERDICT_WORDS) }),
  },
  {
    name: 'Needs',
    accepted: NEED_WORDS.join(', '),
    read: (t) => ({ needs: wordList(t, NEED_WORDS) ?? [] }),
  },
  { name: 'Note', accepted: 'text', read: (t) => ({ note: t }) },
  { name: 'Agency', accepted: 'a name', read: (t) => ({ agency: t }) },
  setting('31st', ['by parity', 'all', 'none'], (w) => ({ day31: w as RuleRow['day31'] })),
  setting('Midnight', ['start', 'end'], (w) => ({ midnight: w as RuleRow['midnight'] })),
  setting('Finish', ['inside', 'may run over'], (w) => ({ finish: w as RuleRow['finish'] })),
  setting('Drain', ['free', 'inside'], (w) => ({ drain: w as RuleRow['drain'] })),
  setting('Filling', ['own means', 'hand'], (w) => ({ filling: w as RuleRow['filling'] })),
  setting('Day one', ['1', '0'], (w) => ({ dayOne: w === '0' ? 0 : 1 })),
];

/** Header names of the rules table with the forms each takes, for help texts and cell checks. */
export const RULE_COLUMNS: readonly { name: string; accepted: string }[] = COLUMNS.map(
  ({ name, accepted }) => ({ name, accepted }),
);

type Report = (
  row: number,
  column: string,
  read: string,
  accepted: string,
  why: string,
  kind?: RuleProblem['kind'],
) => void;

function reporter(table: RuleProblem['table'], problems: RuleProblem[]): Report {
  return (row, column, read, accepted, why, kind = 'broken') => {
    const outcome = kind === 'broken' && row > 1 ? ' The row is left out.' : '';
    const sentence = `${table} row ${row}, ${column}: ${why}. Read "${read}"; accepted: ${accepted}.${outcome}`;
    problems.push({ kind, table, row, column, read, accepted, sentence });
  };
}

/** Position of each header name; unknown and doubled names are reported. */
function header(
  cells: readonly RuleCell[],
  names: readonly string[],
  required: readonly string[],
  report: Report,
): Map<string, number> | null {
  const at = new Map<string, number>();
  const accepted = names.join(', ');
  cells.forEach((cell, i) => {
    const text = tidy(cell);
    if (text === '') return;
    const name = names.find((n) => n.toLowerCase() === text.toLowerCase());
    if (name === undefined)
      report(1, text, text, accepted, 'no such column, and its cells are not read');
    else if (at.has(name)) report(1, name, text, 'each column once', 'the column is there twice');
    else at.set(name, i);
  });
  const missing = required.filter((name) => !at.has(name));
  for (const name of missing)
    report(1, name, tidy(cells[0]), accepted, `the column ${name} is missing, no row can be read`);
  return missing.length === 0 ? at : null;
}

/** Something that makes a well-spelt row useless: column, read, accepted, why. */
type Flaw = [column: string, read: string, accepted: string, why: string];

function flaws(row: RuleRow): Flaw[] {
  const out: Flaw[] = [];
  if (row.from !== null && row.to !== null && row.to < row.from)
    out.push(['To', isoDate(row.to), `${isoDate(row.from)} or later`, 'To comes before From']);
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

function readRow(
  cells: readonly RuleCell[],
  at: Map<string, number>,
  rowNumber: number,
  report: Report,
): RuleRow | null {
  const row = blankRow(rowNumber);
  let good = true;
  for (const column of COLUMNS) {
    const i = at.get(column.name);
    const cell = (i === undefined ? null : cells[i]) ?? null;
    const text = tidy(cell);
    if (text === '') {
      if (column.setting) row.assumed.push(column.name);
      if (column.name !== 'Verdict') continue;
    }
    try {
      Object.assign(row, column.read(text, cell));
    } catch (error) {
      good = false;
      const why = error instanceof Problem ? error.message : 'it cannot be read';
      report(
        rowNumber,
        column.name,
        text,
        column.accepted,
        text === '' ? 'the cell is blank' : why,
      );
    }
  }
  if (!good) return null;
  const found = flaws(row);
  for (const [column, read, accepted, why] of found) report(rowNumber, column, read, accepted, why);
  return found.length === 0 ? row : null;
}

const isBlank = (cells: readonly RuleCell[]): boolean => cells.every((cell) => tidy(cell) === '');

function readStages(cells: RuleCell[][], problems: RuleProblem[]): RuleTable['stages'] {
  const report = reporter('Stages', problems);
  const at = header(cells[0] ?? [], ['From', 'Stage'], ['From', 'Stage'], report);
  if (!at) return [];
  const stages: RuleTable['stages'] = [];
  cells.slice(1).forEach((row, i) => {
    if (isBlank(row)) return;
    const rowNumber = i + 2;
    const cell = row[at.get('From') ?? 0] ?? null;
    const stage = tidy(row[at.get('Stage') ?? 0]);
    if (stage === '') {
      report(rowNumber, 'Stage', stage, 'a name, e.g. 2', 'the cell is blank');
      return;
    }
    try {
      const from = date(tidy(cell), cell);
      if (stages.some((s) => s.from === from))
        report(rowNumber, 'From', isoDate(from), 'each day once', 'two stages start on one day');
      else stages.push({ from, stage: stageName(stage) });
    } catch (error) {
      const why = error instanceof Problem ? error.message : 'it cannot be read';
      report(rowNumber, 'From', tidy(cell), DATE_FORMS, why);
    }
  });
  return stages.sort((a, b) => a.from - b.from);
}

/** Every value of b is within a; null is everything. */
const within = (a: readonly string[] | null, b: readonly string[] | null): boolean =>
  a === null || (b !== null && b.every((w) => a.includes(w)));

/** The ban holds whenever the other row could open. */
function covers(ban: RuleRow, row: RuleRow): boolean {
  const whole =
    ban.hours === null && ban.rain === null && ban.days.weekdays === ALL_WEEKDAYS &&
    ban.days.parity === null && ban.days.every === null; // prettier-ignore
  const same = (a: unknown, b: unknown): boolean =>
    a === null || JSON.stringify(a) === JSON.stringify(b);
  return (
    whole &&
    ban.agency.toLowerCase() === row.agency.toLowerCase() &&
    within(ban.means, row.means) &&
    within(ban.source, row.source) &&
    same(ban.stage, row.stage) &&
    same(ban.target, row.target) &&
    same(ban.address, row.address) &&
    same(ban.age, row.age) &&
    (ban.from === null || (row.from !== null && row.from >= ban.from)) &&
    (ban.to === null || (row.to !== null && row.to <= ban.to))
  );
}

/** Rows that count but cannot do what they say, and gaps of the table as a whole. */
function notices(table: RuleTable, report: Report): void {
  const bans = table.rows.filter((row) => row.verdict === 'ban');
  for (const row of table.rows) {
    if (row.stage !== null && !table.stages.some((s) => s.stage === row.stage)) {
      const known = table.stages.map((s) => s.stage).join(', ') || 'a Stages table';
      report(
        row.row,
        'Stage',
        row.stage,
        known,
        'the Stages table never puts it in force',
        'notice',
      );
    }
    const ban = row.verdict === 'ban' ? undefined : bans.find((b) => covers(b, row));
    if (ban)
      report(row.row, 'Verdict', row.verdict, 'ban, or a narrower ban', `contradicts row ${ban.row}: its ban always wins`, 'notice'); // prettier-ignore
  }
  const kinds = new Set(table.rows.flatMap((row) => row.address?.flat().map((a) => a.kind) ?? []));
  if (['odd', 'even', 'digits'].some((k) => kinds.has(k as AddressRule['kind'])) && !kinds.has('none'))
    report(1, 'Address', 'no row with none', 'a row with none', 'an address without a number is closed where only numbered addresses are allowed', 'notice'); // prettier-ignore
}

/**
 * Reads a rules range (header in row 1) and, if given, a Stages range with the columns From and Stage.
 * Blank rows are skipped, a broken row is left out and reported. Never throws.
 * @param rows cells of the rules table; header names as in RULE_COLUMNS, in any order and case
 * @param stages cells of the Stages table
 */
export function parseRules(rows: RuleCell[][], stages?: RuleCell[][]): RuleTable {
  const table: RuleTable = { rows: [], stages: [], problems: [] };
  const report = reporter('Rules', table.problems);
  if (stages && !stages.every(isBlank)) table.stages = readStages(stages, table.problems);
  if (rows.every(isBlank)) return table;
  const names = COLUMNS.map((column) => column.name);
  const at = header(rows[0] ?? [], names, ['Verdict'], report);
  if (!at) return table;
  rows.slice(1).forEach((cells, i) => {
    if (isBlank(cells)) return;
    const row = readRow(cells, at, i + 2, report);
    if (row) table.rows.push(row);
  });
  notices(table, report);
  return table;
}
