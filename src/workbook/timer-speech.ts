/** What a crew reads of the trees that timers water that day: not its work, and not forgotten. Common practice, no source. */
import { upperFirst } from '../engine/first-letter.js';
import type { Day } from '../engine/dates.js';
import type { Tree } from '../engine/plan/model.js';
import { spell, type CrewSpeech } from './crew-speech.js';
import { clock } from '../engine/rules/rule-words.js';
import {
  hosesIn,
  joinedAddresses,
  startsWithin,
  treesIn,
  type TimerDay,
  type TimerPlace,
  type TimerRun,
} from './exports/timers.js';
import { short } from './exports/text.js';

/**
 * Addresses or trees named on a page, sites named of a day without a crew, and addresses or trees of one site: more is a
 * number.
 */
const MOST_NAMED = 40;
const MOST_APART = 8;
const MOST_NAMES = 5;
/** Longest names [characters]. */
const LONG = { site: 40, name: 40 } as const;

export interface TimerSentences {
  /** `By timer today: 17 trees.` */
  title: string;
  /** to open nothing, and to look when passing */
  tell: string;
  /** hours, with the places that run in them */
  lines: string[];
}

const unlike = (texts: readonly string[]): string[] => [...new Set(texts)].filter((t) => t !== '');

/** Rows by their addresses where these tell them apart, else by their ids; few of many. */
function namesOf(site: string, rows: readonly Tree[], say: CrewSpeech): string {
  const addresses = unlike(rows.map(({ address }) => (address === site ? '' : short(address, LONG.name)))); // prettier-ignore
  const ids = unlike(rows.map(({ id }) => short(id, LONG.name)));
  const byAddress = addresses.length >= rows.length || ids.length === 0;
  const all = byAddress ? addresses : ids;
  const shown = all.slice(0, MOST_NAMES);
  const where = byAddress ? joinedAddresses(shown) : [...addresses.slice(0, 1), ...shown];
  const left = all.length - shown.length;
  return [...where, ...(left > 0 ? [`${left} ${say.word('more')}`] : [])].join(', ');
}

/** `18 min`, `11–18 min`, `44 min–1 h 4 min` */
function runText([least, most]: TimerPlace['minutes']): string {
  const [from, to] = [Math.round(least), Math.round(most)];
  const first = to < 60 ? String(from) : spell(from / 60);
  return `${from === to ? '' : `${first}–`}${spell(to / 60)}`;
}

/** The run, and from its start to its end where it pauses: `18 min`, `18 min over 58 min`. */
function lastingText({ minutes, lasts }: TimerPlace, say: CrewSpeech): string {
  const paused = Math.round(lasts) > Math.round(minutes[1]);
  return `${runText(minutes)}${paused ? ` ${say.word('spread')} ${spell(lasts / 60)}` : ''}`;
}

/** @param named - with the addresses of its rows */
function placeText(place: TimerPlace, named: boolean, say: CrewSpeech): string {
  const { site, rows, trees } = place;
  const called = short(site, LONG.site);
  const names = named || called === '' ? namesOf(site, rows, say) : '';
  const where = [called || (names === '' ? say.word('noSite') : ''), names].filter(Boolean);
  const runs = [say.word('runs'), lastingText(place, say)].join(' ');
  return `${where.join(' · ')} (${say.count(trees, 'tree', 'trees')}, ${named ? runs : lastingText(place, say)})`;
}

const treesOf = (places: readonly TimerPlace[]): number =>
  places.reduce((sum, { trees }) => sum + trees, 0);

/** `start 00:00–08:55 or 18:00–22:55`, so that the longest run of these places ends within its hours. */
function startText(hours: string, places: readonly TimerPlace[], say: CrewSpeech): string {
  const spans = startSpans(hours, Math.max(...places.map(({ lasts }) => lasts)));
  if (spans.length === 0) return inParts(hours, say);
  return `${say.word('timersStart')} ${spans.join(` ${say.word('or')} `)}`;
}

/** That no stretch of the hours is as long as the run. */
const inParts = (hours: string, say: CrewSpeech): string =>
  `${say.word('inParts')} ${dashed(say.hours(hours))}`;

/** `00:00–08:55`, `18:00`: when a run may start; nothing where it fits no stretch of the hours. @param lasts - with its pauses [min] */
const startSpans = (hours: string, lasts: number): string[] =>
  startsWithin(hours, lasts).map(({ start, end }) =>
    start === end ? clock(start) : `${clock(start)}–${clock(end)}`,
  );

/** How many of these places have so many names in all. */
function placesWith(most: number, places: readonly TimerPlace[]): number {
  let names = 0;
  const over = places.findIndex(({ rows }) => (names += Math.min(rows.length, MOST_NAMES)) > most);
  return over < 0 ? places.length : over;
}

/**
 * Whether the sentences of a day leave places out.
 * @param full - on the page of the day itself, with addresses
 */
export const isCut = (places: readonly TimerPlace[], full: boolean): boolean =>
  places.length > (full ? placesWith(MOST_NAMED, places) : MOST_APART);

const dashed = (hours: string): string => hours.replaceAll('-', '–');

/**
 * Places by their hours, each with when its timers may start.
 * @param full - with the hours the rules give, and addresses
 */
function placesText(places: readonly TimerPlace[], full: boolean, say: CrewSpeech): string[] {
  const byHours = new Map<string, TimerPlace[]>();
  const most = full ? placesWith(MOST_NAMED, places) : MOST_APART;
  for (const place of places.slice(0, most))
    byHours.set(place.hours, [...(byHours.get(place.hours) ?? []), place]);
  const rest = places.slice(most);
  const allowed = (hours: string): string =>
    full ? ` (${dashed(say.hours(hours))})` : '';
  return [
    ...[...byHours].map(([hours, own]) => `${startText(hours, own, say)}${allowed(hours)}: ${own.map((place) => placeText(place, full, say)).join('; ')}`),
    ...(rest.length > 0 ? [`+ ${say.count(rest.length, 'site', 'sites')} (${say.count(treesOf(rest), 'tree', 'trees')})`] : []),
  ];
} // prettier-ignore

/** What a page says of the timers of its day; undefined where none runs. */
export function timerSentences(
  places: readonly TimerPlace[] | undefined,
  say: CrewSpeech,
): TimerSentences | undefined {
  if (!places || places.length === 0) return undefined;
  return {
    title: `${say.word('byTimer')}: ${say.count(treesOf(places), 'tree', 'trees')}`,
    tell: say.word('byTimerTell'),
    lines: placesText(places, true, say).map(upperFirst),
  };
}

/** Days without a crew, those that read alike together: `Sat 5 Jun, start 00:00–09:35: Old Weighhouse (3 trees, 18 min)`. */
export function apartSentences(days: readonly TimerDay[] | undefined, say: CrewSpeech): string[] {
  const alike = new Map<string, string[]>();
  for (const { day, places } of days ?? []) {
    const said = placesText(places, false, say).join('; ');
    alike.set(said, [...(alike.get(said) ?? []), say.weekDay(day)]);
  }
  return [...alike].map(([said, on]) => `${on.join(', ')}, ${said}`);
}

/** What is set on one timer, in the columns of a sheet of its own. */
export interface RunSentences {
  /** where, "" where the list does not say */
  site: string;
  /** "" where it is the site's, or not known */
  address: string;
  /** ids of the rows where the address does not tell them, else "" */
  ids: string;
  /** `3 trees`, `6 hoses`, where there are several */
  counts: string[];
  /** what the list says of them, else "" */
  note: string;
  /** when it may start */
  start: string;
  /** how long it runs: `44 min`, `18 min over 58 min` */
  runs: string;
  /** its turns where it pauses: `3 × 6 min, pauses of 20 min` */
  turns: string;
}

/** Longest texts of a line of that sheet [characters]. */
const LONG_LINE = { site: 90, address: 90, note: 110 } as const;

/** Ids of rows; a row without one by its place in the list. */
const idsOf = (rows: readonly Tree[], say: CrewSpeech): string =>
  rows.map(({ id, row }) => short(id, LONG.name) || `${say.word('row')} ${row}`).join(', ');

/** A line of the timers' own sheet: nothing of it is left out. */
export function runSentences(run: TimerRun, say: CrewSpeech): RunSentences {
  const { site, address, told, note, hours, rows, joined, minutes, cycles, pause, lasts } = run;
  const ids = told ? '' : idsOf(rows, say);
  const trees = treesIn([run]);
  const counts = [
    trees > 1 ? say.count(trees, 'tree', 'trees') : '',
    joined > 1 ? say.count(hosesIn([run]), 'hose', 'hoses') : '',
  ];
  const each = spell(minutes / cycles / 60);
  const over = minutes + (cycles - 1) * pause;
  const spans = startSpans(hours, lasts);
  return {
    site: short(site, LONG_LINE.site) || (address === '' ? say.word('noSite') : ''),
    address: short(address, LONG_LINE.address),
    ids,
    // a number stays beside what it counts
    counts: counts.filter(Boolean).map((text) => text.replaceAll(' ', '\u00a0')),
    note: note === '' ? '' : `${say.word('note')}: ${short(note, LONG_LINE.note)}`,
    start: spans.length > 0 ? spans.join(` ${say.word('or')} `) : inParts(hours, say),
    runs: [spell(minutes / 60), over > minutes ? `${say.word('spread')} ${spell(over / 60)}` : ''].filter(Boolean).join(' '),
    turns: cycles > 1 ? `${cycles} × ${each}, ${say.word('pauses')} ${spell(pause / 60)}` : '',
  };
} // prettier-ignore

/** Days one after the other as one stretch, from so many on. */
const STRETCH = 3;

/** `Tue 8 Jun, Sat 12 Jun`, `Tue 8 Jun – Sat 12 Jun` where all between are meant, too. @param days - in their order */
export function daySpans(days: readonly Day[], say: CrewSpeech): string[] {
  const stretches: Day[][] = [];
  for (const day of days) {
    const last = stretches.at(-1);
    if (last?.at(-1) === day - 1) last.push(day);
    else stretches.push([day]);
  }
  return stretches.flatMap((all) =>
    all.length < STRETCH
      ? all.map((day) => say.weekDay(day))
      : [`${say.weekDay(all[0]!)} – ${say.weekDay(all.at(-1)!)}`],
  );
}

/** What is said at the head of runs with the same hours: the hours, and how many trees and hoses. */
export function runsFacts(runs: readonly TimerRun[], say: CrewSpeech): string {
  const hoses = hosesIn(runs);
  return [
    upperFirst(`${say.word('allowed')} ${dashed(say.hours(runs[0]?.hours ?? ''))}`),
    say.count(treesIn(runs), 'tree', 'trees'),
    hoses > 0 ? say.count(hoses, 'hose', 'hoses') : '',
  ]
    .filter(Boolean)
    .join(' · ');
}
