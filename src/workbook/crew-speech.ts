/** What the crew reads of days, counts, water and hours, in its language: the same on its sheet and on paper. */
import { shiftOf, type ShiftHours } from '../engine/crew/shift.js';
import { civil, weekday, type Day } from '../engine/dates.js';
import type { CrewStop, CrewTask, Family, Tree, Watering } from '../engine/plan/model.js';
import { DAY_MINUTES } from '../engine/rules/rule-types.js';
import { clock } from '../engine/rules/rule-words.js';
import {
  CREW_CAUTIONS,
  CREW_WORDS,
  FAMILY_NAMES,
  MONTH_WORDS,
  ON_THE_SPOT,
  TO_DO,
  WATERS,
  WEEKDAY_WORDS,
  type CrewWord,
  type Language,
  type Water,
} from './crew-words.js';
import type { RoundMinutes } from './exports/round-minutes.js';
import { about, type LateWork, type RoundClock } from './exports/round-clock.js';
import { hoursToDo, type Round } from './exports/rounds.js';
import { short } from './exports/text.js';

/** Longest name of a tree in a sentence [characters]. */
const LONGEST_ID = 30;

/** `4 h 40 min` */
export function spell(hours: number): string {
  const minutes = Math.round(hours * 60);
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  return h === 0 ? `${min} min` : min === 0 ? `${h} h` : `${h} h ${min} min`;
}

/** A round with more work than hours, and whether it is the open ones that are too short. */
type Overload = Pick<Round, 'overload' | 'overOpen'>;

type HoursOf = (watering: Watering) => string;

export const tasksOf = (stops: readonly CrewStop[]): CrewTask[] => stops.flatMap((s) => s.tasks);

export class CrewSpeech {
  constructor(readonly language: Language) {}

  word = (key: CrewWord): string => CREW_WORDS[key][this.language];

  /** That nobody has measured the tree: whoever waters it may. "" where somebody has */
  assumed = ({ assumed = [] }: Tree): string =>
    assumed.includes('size') ? this.word('sizeAssumed') : '';

  /** What to do at one tree, with the number of bags or hoses where there are several. */
  toDo({ family, joined = 1 }: Watering): string {
    const several = joined < 2 ? undefined : family === 'soaker' ? 'openHoses' : family === 'bag' ? 'fillBags' : undefined; // prettier-ignore
    return several
      ? this.word(several).replace('{n}', String(joined))
      : TO_DO[family][this.language];
  }

  /** How long a hose that a person opens runs: `let run 52 min`, `let run 3 × 17 min, pauses of 20 min`, `shut-off to 52 min`. */
  run({ family, minutes, cycles, pause = 0, runsOn = 0 }: Watering): string {
    if (family !== 'soaker') return '';
    const each = spell(minutes / Math.max(1, cycles) / 60);
    if (runsOn > 0) return `${this.word('shutOff')} ${each}`;
    const turns = cycles > 1 ? `${cycles} × ${each}, ${this.word('pauses')} ${spell(pause / 60)}` : each; // prettier-ignore
    return `${this.word('run')} ${turns}`;
  }

  /** `Fill the tank before stop 1`, and how often where it is more than once. @param when - as `beforeStop`, `beforeTask` */
  fill(loads: number, when = ''): string {
    const often = `${this.count(loads, 'tankLoad', 'tankLoads')}, ${this.word('refill')}`;
    return [`${this.word('fillTank')} ${when}`.trim(), loads > 1 ? often : '']
      .filter(Boolean)
      .join(' · ');
  }

  /** `before stop 2` */
  beforeStop = (number: number): string => this.word('beforeStop').replace('{n}', String(number));

  /** Before a task of the stop with this number: the first is before the stop itself. */
  beforeTask(stop: CrewStop, task: number, number: number): string {
    if (task === 0) return this.beforeStop(number);
    const id = short(stop.tasks[task]?.tree.id ?? '', LONGEST_ID);
    // by a function, for the tree's own dollar signs mean nothing
    return id === '' ? this.word('beforeNext') : this.word('beforeTree').replace('{n}', () => id);
  }

  /** What a round's hours are made of: `At the trees 1 h 29 min · driving 26 min · tank 40 min · in all 2 h 35 min` */
  parts({ trees, driving, tank, total }: RoundMinutes): string {
    const part = (word: CrewWord, minutes: number): string =>
      minutes > 0 ? `${this.word(word)} ${spell(minutes / 60)}` : '';
    return [
      part('atTrees', trees),
      part('driving', driving),
      part('tank', tank),
      part('inAll', total),
    ]
      .filter(Boolean)
      .join(' · ');
  }

  /** `8 Jul` */
  shortDay(day: Day): string {
    const { month, date } = civil(day);
    return `${date} ${MONTH_WORDS[month - 1]![this.language]}`;
  }

  /** `Tue 7 Jul 2027` */
  fullDay(day: Day): string {
    return `${this.weekDay(day)} ${civil(day).year}`;
  }

  /** `Tue 7 Jul` */
  weekDay(day: Day): string {
    return `${WEEKDAY_WORDS[weekday(day)]![this.language]} ${this.shortDay(day)}`;
  }

  /** `crew 1 of 2`; nothing where there is one */
  whichCrew(crew: number, crews: number): string {
    return crews > 1 ? `${this.word('crew')} ${crew} ${this.word('of')} ${crews}` : '';
  }

  /** That a round is more than its crew can do, and what then; nothing where it is not. */
  tooMuch({ overload, overOpen }: Overload): string {
    return overload ? `▲ ${this.word(overOpen ? 'overOpenTell' : 'overloadTell')}` : '';
  }

  /** `06:35`; from midnight on, that it is later. @param minute - from the start of the day [min] */
  at = (minute: number): string => about(minute) ?? this.word('pastMidnight');

  /** `about 06:35` */
  about(minute: number): string {
    const time = about(minute);
    return time === undefined ? this.word('pastMidnight') : this.timed('about', time);
  }

  /** The line above the first work that no longer falls into its hours. */
  lateFrom({ trees, fromHere, until }: LateWork): string {
    const next = trees === 1 ? this.word('treeDoes') : this.count(trees, 'treesDo', 'treesDo');
    const text =
      until === undefined
        ? this.word(fromHere ? 'nothingMoreOwn' : 'nextUnfitOwn')
        : this.timed(fromHere ? 'nothingMore' : 'nextUnfit', clock(until));
    return `▲ ${text.replace('{n}', next)}`;
  }

  /** That only the way back is too late; nothing where it is not. */
  backLate({ backAfter }: RoundClock): string {
    return backAfter === undefined ? '' : `▲ ${this.timed('backLate', clock(Math.min(backAfter, DAY_MINUTES)))}`; // prettier-ignore
  }

  private timed = (key: CrewWord, time: string): string => this.word(key).replace('{t}', time);

  /** `start 06:00` */
  start(site: ShiftHours): string {
    return `${this.word('startsAt')} ${clock(shiftOf(site).start)}`;
  }

  count(n: number, single: CrewWord, several: CrewWord): string {
    return `${n.toLocaleString('en-US')} ${this.word(n === 1 ? single : several)}`;
  }

  waters = (all: readonly Water[]): string =>
    all.map((water) => WATERS[water][this.language]).join(', ');

  /** Hours as the engine writes them, `any` and none in words. */
  hours(hours: string): string {
    return hours === 'any' ? this.word('anyHour') : hours === '' ? this.word('noHour') : hours;
  }

  /** Hours of every means among the stops; once where all have the same. @param which - those to water in, or the rules' own */
  hoursByMeans(stops: readonly CrewStop[], which: HoursOf = hoursToDo): string {
    const families = new Map<string, Set<Family>>();
    for (const { watering } of tasksOf(stops)) {
      const hours = this.hours(which(watering));
      families.set(hours, (families.get(hours) ?? new Set()).add(watering.family));
    }
    const named = ([hours, which]: [string, Set<Family>]): string =>
      `${[...which].map((family) => FAMILY_NAMES[family][this.language]).join(', ')} ${hours}`;
    const all = [...families];
    return all.length === 1 ? all[0]![0] : all.map(named).join('; ');
  }

  /** The rules' own hours, by means; "" where the crew's day leaves all of them. */
  lawByMeans(stops: readonly CrewStop[]): string {
    const cut = tasksOf(stops).some(({ watering }) => hoursToDo(watering) !== watering.hours);
    return cut ? `${this.word('lawHours')}: ${this.hoursByMeans(stops, ({ hours }) => hours)}` : '';
  }

  /** What is always said, and of bags where there are bags. */
  cautions(stops: readonly CrewStop[]): string[] {
    const bags = tasksOf(stops).some(({ watering }) => watering.family === 'bag');
    return CREW_CAUTIONS.filter(({ bag }) => bags || !bag).map((each) => each[this.language]);
  }

  /** What to do on the spot with the means among the stops. */
  onTheSpot(stops: readonly CrewStop[]): string[] {
    const used = new Set(tasksOf(stops).map((task) => task.watering.family));
    const hoses = tasksOf(stops).filter(({ watering }) => watering.family === 'soaker');
    const left = hoses.filter(({ watering }) => (watering.runsOn ?? 0) > 0).length;
    return [
      ...ON_THE_SPOT.flatMap(([families, key]) =>
        families.some((family) => used.has(family)) ? [this.word(key)] : [],
      ),
      ...(left > 0 ? [this.word('hoseShut')] : []),
      ...(left < hoses.length ? [this.word('hoseStay')] : []),
    ];
  }
}
