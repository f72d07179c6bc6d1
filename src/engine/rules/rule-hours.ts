/** The Hours column: windows of the day on the 24 h clock, or in the 12 h words of an ordinance. */
import { Problem } from '../problems.js';
import { each, list } from './rule-cells.js';
import { DAY_MINUTES } from './rule-types.js';
import type { RuleCell, RuleRow, RuleWindow } from './rule-types.js';
import { clock } from './rule-words.js';

const HALF_DAY = 12;
/** `noon` and `midnight` by themselves, on the 24 h clock. */
const NAMED: Readonly<Record<string, string>> = { midnight: '00:00', noon: '12:00' };

/** A time of the day: `9`, `09:30`, `24:00`, `9 am`, `9:30 p.m.`, `noon`, `midnight`. */
const TIME = String.raw`(?:midnight|noon|\d{1,2}(?::\d{2})?(?: ?[ap]\.?m\b\.?)?)`;
const SPAN = new RegExp(String.raw`^(?:from |between )?(\S.*?) ?(?:-|\bto\b|\buntil\b|\btill\b) ?(\S.*)$`); // prettier-ignore
const BETWEEN = new RegExp(`between (${TIME}) and (${TIME})`, 'g');

/** Minute of a time of the day, `9`, `09:30`, `9 am`, `noon`; midnight is 0. @throws Problem if it is none */
export function minuteOf(text: string): number {
  const named = NAMED[text] ?? text;
  const m = /^(\d{1,2})(?::(\d{2}))?(?: ?([ap])\.?m\.?)?$/.exec(named);
  if (!m) throw new Problem(`"${text}" is not a time`);
  const [hour, past, half] = [Number(m[1]), Number(m[2] ?? 0), m[3]];
  if (half !== undefined && (hour < 1 || hour > HALF_DAY)) throw new Problem(`there is no ${text}`);
  const on24 = half === undefined ? hour : (hour % HALF_DAY) + (half === 'p' ? HALF_DAY : 0);
  const minute = on24 * 60 + past;
  if (past > 59 || minute > DAY_MINUTES) throw new Problem(`there is no ${text}`);
  return minute;
}

/** `6-9 am` may mean six in the morning or in the evening of a 24 h clock: it is not guessed. */
function sameClock(from: string, to: string): void {
  const says12 = (time: string): boolean => /[ap]\.?m/.test(time) || time in NAMED;
  const plain = [from, to].find((time) => !says12(time));
  const am = [from, to].some((time) => /[ap]\.?m/.test(time));
  if (am && plain !== undefined && /^\d{1,2}$/.test(plain))
    throw new Problem(`"${plain}" says neither am nor pm`);
}

function windowOf(text: string): RuleWindow {
  const half = /^(before|until|till|after|from) (\S.*)$/.exec(text);
  const span = SPAN.exec(text);
  const early = half && half[1] !== 'after' && half[1] !== 'from';
  const from = span ? span[1] : half ? (early ? '00:00' : half[2]) : undefined;
  const to = span ? span[2] : half ? (early ? half[2] : '24:00') : undefined;
  if (from === undefined || to === undefined) throw new Problem(`"${text}" is not a window`);
  if (span) sameClock(from, to);
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

/** Windows of a cell; `or`, `and` and commas part them. @throws Problem naming every part that is none */
export function hours(text: string, cell: RuleCell): Partial<RuleRow> {
  if (typeof cell === 'number' && cell >= 0 && cell < 1)
    throw new Problem(`${clock(Math.round(cell * DAY_MINUTES))} is one time, a window needs two`);
  const t = text.toLowerCase().replace(BETWEEN, '$1 to $2');
  if (t === 'any') return { hours: null };
  if (t.startsWith('not ')) return { hours: outside(windowOf(t.slice(4))) };
  const oneWindow = t.startsWith('one of ');
  const parts = list((oneWindow ? t.slice(7) : t).replace(/,? (?:or|and) /g, ','));
  const windows = each(parts, windowOf);
  if (oneWindow && windows.length < 2) throw new Problem('"one of" needs two windows or more');
  return { hours: windows, oneWindow };
}
