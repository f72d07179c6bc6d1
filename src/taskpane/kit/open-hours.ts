/** What the rules leave of the crew's hours, a line an answer: said beside the hours, before anything is planned. */
import { upperFirst } from '../../engine/first-letter.js';
import type { CrewOpen, CrewOpenLine, OpenPart, OpenSpell } from '../../engine/plan/crew-open.js';
import { windowsIn } from '../../engine/rules/rule-words.js';
import { hourText } from '../../tables/hours.js';
import type { Formats } from '../parts/format.js';
import type { Words } from '../words/index.js';
import type { KitWords } from '../words/kit.js';
import { FROM_MONDAY } from './work-days.js';

const MINUTES = 60;
/** Days in a row from which on a span is shorter than the days. */
const SPAN = 3;

export interface Speech {
  k: KitWords;
  w: Words;
  f: Formats;
}

/** `06:00-10:00, 12:00-14:00` as "06:00 to 10:00 and 12:00 to 14:00". */
export function hoursSaid(hours: string, { k }: Pick<Speech, 'k'>, oneOf = false): string {
  const { fromTo, and, or, wholeDay } = k.open;
  if (hours === 'any') return wholeDay;
  const spans = windowsIn(hours).map(({ start, end }) =>
    fromTo(hourText(start / MINUTES), hourText(end / MINUTES)),
  );
  return spans.join(` ${oneOf ? or : and} `);
}

/** Days of the week in order from Monday: "Mon to Fri", "Tue and Sat". */
export function weekdaysSaid(weekdays: readonly number[], { k }: Pick<Speech, 'k'>): string {
  const runs: number[][] = [];
  FROM_MONDAY.forEach((day, i) => {
    if (!weekdays.includes(day)) return;
    if (i > 0 && weekdays.includes(FROM_MONDAY[i - 1]!)) runs.at(-1)!.push(i);
    else runs.push([i]);
  });
  const name = (i: number): string => k.days[i]![0];
  const said = runs.flatMap((run) =>
    run.length >= SPAN ? [k.open.fromTo(name(run[0]!), name(run.at(-1)!))] : run.map(name),
  );
  const last = said.pop() ?? '';
  return said.length === 0 ? last : `${said.join(', ')} ${k.open.and} ${last}`;
}

function partSaid(
  part: OpenPart,
  crew: CrewOpen,
  workDays: number,
  first: boolean,
  s: Speech,
): string {
  const { k, f } = s;
  const { weekdays, days, minutes, hours, oneOf, outside } = part;
  const when = weekdays ? weekdaysSaid(weekdays, s) : k.open.onDays(f, days, workDays);
  const all = f.amount(crew.minutes / MINUTES);
  const of = first ? k.open.ofCrew(all, crew.pastMidnight) : '';
  if (minutes === 0)
    return k.open.none(when, of) + (outside === '' ? '' : ` (${k.open.outside(hoursSaid(outside, s))})`); // prettier-ignore
  if (minutes === crew.minutes) return k.open.all(when, of);
  return `${k.open.some(when, f.amount(minutes / MINUTES), of)} (${hoursSaid(hours, s, oneOf)})`;
}

function spellSaid({ from, parts }: OpenSpell, alone: boolean, crew: CrewOpen, s: Speech): string {
  const workDays = parts.reduce((sum, { days }) => sum + days, 0);
  const said = parts.map((part, i) => partSaid(part, crew, workDays, i === 0, s)).join('; ');
  return alone ? said : `${s.k.open.from(s.f.day(from))}: ${said}`;
}

/** "By hand, tanker: Mon to Fri 4 of the crew's 8 hours are open (06:00 to 10:00)". */
export function openLine({ means, some, spells }: CrewOpenLine, crew: CrewOpen, s: Speech): string {
  const names = upperFirst(means.map((family) => s.w.families[family]).join(', '));
  const whose = some ? `, ${s.k.open.trees(s.f, some.trees, some.example)}` : '';
  const said = spells.map((spell) => spellSaid(spell, spells.length === 1, crew, s));
  return `${names}${whose}${said.length === 1 ? ':' : '.'} ${said.join('. ')}.`;
}
