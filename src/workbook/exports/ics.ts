/**
 * The crew days as a calendar (RFC 5545): one event for each crew and day, in floating time, as the plan knows
 * no zone: six in the morning is six in the morning where the trees stand. A round starts with the crew's day, or when its
 * hours open.
 *
 * UIDs are made of day, crew and the site's name, so that a later export updates events instead of doubling
 * them. DTSTAMP and SEQUENCE come from the day the plan was made: no clock is read.
 */
import ical, { ICalEventStatus } from 'ical-generator';
import { inShift, shiftOf } from '../../engine/crew/shift.js';
import { civil, dayOf, type Day } from '../../engine/dates.js';
import { Problem } from '../../engine/problems.js';
import type { CrewStop, TankFilling } from '../../engine/plan/model.js';
import type { RuleWindow } from '../../engine/rules/rule-types.js';
import type { Context } from '../sheets/context.js';
import { spell } from '../sheets/crew.js';
import { hoursText } from '../../engine/rules/rule-words.js';
import { CrewSpeech } from '../crew-speech.js';
import { crewRounds, placeOf, spokenHours, treesAt, windowsOf, type Round } from './rounds.js';
import { short } from './text.js';

export interface IcsOptions {
  /** which export of the day this is, 0…99: a later one of the same plan day must be higher [-] */
  revision?: number;
  /** the calendar exported before: its days to come that are no longer planned are marked as cancelled */
  before?: string;
}

/** Shortest event a calendar shows well [min]. */
const SHORTEST = 15;
const MOST_STOPS = 40;
const MOST_REVISION = 99;
const SEQUENCE_FROM: Day = dayOf(2020, 1, 1);

/** 64-bit FNV-1a of a text's UTF-16 units, as 16 hex digits. Source: Fowler, Noll, Vo; constants from memory. */
function hash(text: string): string {
  let h = 0xcbf29ce484222325n;
  for (let i = 0; i < text.length; i++)
    h = BigInt.asUintN(64, (h ^ BigInt(text.charCodeAt(i))) * 0x100000001b3n);
  return h.toString(16).padStart(16, '0');
}

const basic = (day: Day): string => {
  const { year, month, date } = civil(day);
  return `${year}${String(month).padStart(2, '0')}${String(date).padStart(2, '0')}`;
};

const UID = /^UID:((\d{4})(\d\d)(\d\d)-(\d+)-([0-9a-f]{16})@soakbook)\r?$/gm;
const uid = (day: Day, crew: number, site: string): string =>
  `${basic(day)}-${crew}-${hash(site)}@soakbook`;

/** A moment of a day as the calendar library wants floating time: its UTC parts are the ones written. */
const moment = (day: Day, minute: number): Date => {
  const { year, month, date } = civil(day);
  return new Date(Date.UTC(year, month - 1, date, 0, minute));
};

/**
 * Where a round of `length` minutes starts: with the crew's day, later where nothing is open yet. Of several open hours it
 * takes the first that holds it, else those it runs past the least [min of the day].
 */
export function placed(windows: readonly RuleWindow[], length: number, shift: RuleWindow): number {
  const places = inShift(windows, shift).map(({ start, end }) => ({
    start,
    past: Math.max(0, start + length - end),
  }));
  const first = places[0] ?? { start: shift.start, past: 0 };
  return places.reduce((best, place) => (place.past < best.past ? place : best), first).start;
}

const english = new CrewSpeech('en');

const count = (n: number, word: string): string =>
  `${n.toLocaleString('en-US')} ${word}${n === 1 ? '' : 's'}`;

function description(ctx: Context, round: Round): string {
  const amount = (litres: number): string =>
    `${Math.round(ctx.show('volume', litres)).toLocaleString('en-US')} ${ctx.unit('volume')}`;
  const { common } = round;
  const line = (stop: CrewStop, i: number): string => {
    const own = hoursText(windowsOf([stop]).common) !== hoursText(common);
    const hours = own || common.length === 0 ? `, open ${english.hoursByMeans([stop])}` : '';
    const devices = [...new Set(stop.tasks.map((t) => t.watering.device))].join(', ');
    return `${i + 1}. ${short(placeOf(stop).join(', '), 120)}: ${count(treesAt(stop), 'tree')}, ${amount(stop.litres)}, ${spell(stop.minutes / 60)}, ${short(devices, 80)}${hours}`;
  };
  const filled = ({ loads, minutes }: TankFilling, when: string): string =>
    `   ${when}: ${english.fill(loads)}, ${english.word('waterPoint').toLowerCase()}, ${spell(minutes / 60)}`;
  const withFillings = (stop: CrewStop, i: number): string[] => {
    const { fillings = [] } = stop;
    return [
      ...fillings.filter(({ before }) => before === 0).map((each) => filled(each, `before ${i + 1}`)),
      line(stop, i),
      ...fillings.filter(({ before }) => before > 0).map((each) => filled(each, `within ${i + 1}`)),
    ];
  };
  const left = round.stops.length - MOST_STOPS;
  const law = english.lawByMeans(round.stops);
  return [
    `${amount(round.litres)}, ${spell(round.hours)}, ${count(round.tankLoads, 'tank load')}, water: ${round.waters.join(', ')}`,
    common.length > 0 ? `Hours to water: ${spokenHours(common)}` : 'Hours to water differ by stop, none in common.',
    ...(law === '' ? [] : [law]),
    ...(round.overload ? [round.overOpen ? '▲ More work than the open hours hold.' : '▲ More hours than the crew has.'] : []),
    '',
    ...round.stops.slice(0, MOST_STOPS).flatMap(withFillings),
    ...(left > 0 ? [`… and ${count(left, 'stop')} more on the crew sheet`] : []),
    '',
    'A planning aid: local code and licensed practice decide.',
  ].join('\n');
} // prettier-ignore

/** Days from `from` on in an earlier calendar of this site that are no longer in the plan; what is past stays as it was. */
function gone(
  before: string,
  own: ReadonlySet<string>,
  site: string,
  from: Day,
): { id: string; day: Day }[] {
  return [...before.matchAll(UID)]
    .filter(([, id, , , , , of]) => of === hash(site) && !own.has(id!))
    .map(([, id, year, month, date]) => ({
      id: id!,
      day: dayOf(Number(year), Number(month), Number(date)),
    }))
    .filter(({ day }) => day >= from);
}

/**
 * The calendar as text.
 * @throws Problem if the revision is not a whole number from 0 to 99
 */
export function planIcs(ctx: Context, options: IcsOptions = {}): string {
  const revision = options.revision ?? 0;
  if (!Number.isInteger(revision) || revision < 0 || revision > MOST_REVISION)
    throw new Problem(`the revision is ${revision}; accepted is a whole number from 0 to 99`);
  const { plan, madeOn } = ctx;
  const site = short(plan.site.name, 120);
  const common = {
    stamp: moment(madeOn, 0),
    sequence: Math.max(0, madeOn - SEQUENCE_FROM) * (MOST_REVISION + 1) + revision,
  };
  const calendar = ical({
    name: short(ctx.title, 200),
    prodId: { company: 'soakbook', product: 'watering plan', language: 'EN' },
  });
  const own = new Set<string>();
  const shift = shiftOf(plan.site);
  for (const round of crewRounds(plan)) {
    const id = uid(round.day, round.crew, plan.site.name);
    own.add(id);
    const length = Math.max(SHORTEST, Math.ceil(round.hours * 60 - 1e-6));
    const start = placed(round.common.length > 0 ? round.common : round.open, length, shift);
    const [first] = round.stops;
    const more = round.stops.length - 1;
    const [tree] = first?.tasks ?? [];
    const { latitude: lat, longitude: lon } = tree?.tree ?? {};
    const place = short(first ? placeOf(first).join(', ') : site, 200);
    const crew = round.crews > 1 ? `, crew ${round.crew}` : '';
    const event = calendar.createEvent({
      ...common,
      id,
      floating: true,
      start: moment(round.day, start),
      end: moment(round.day, start + length),
      summary: `Water ${site}${crew}: ${count(round.stops.length, 'stop')}, ${Math.round(ctx.show('volume', round.litres)).toLocaleString('en-US')} ${ctx.unit('volume')}`,
      description: description(ctx, round),
    });
    const title = `${place}${more > 0 ? ` (and ${count(more, 'stop')} more)` : ''}`;
    event.location(
      lat !== undefined && lon !== undefined ? { title, geo: { lat, lon } } : { title },
    );
  }
  for (const { id, day } of gone(options.before ?? '', own, plan.site.name, madeOn))
    calendar.createEvent({
      ...common,
      id,
      floating: true,
      start: moment(day, shift.start),
      end: moment(day, shift.start + SHORTEST),
      summary: `Water ${site}: no longer planned`,
      status: ICalEventStatus.CANCELLED,
    });
  const text = calendar.toString();
  return text.endsWith('\r\n') ? text : `${text}\r\n`;
}
