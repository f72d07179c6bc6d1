/**
 * The rhythm of a row, or of the rows of a site that are visited together: a watering put forward takes those after it
 * along, walked by the season's own kernel from that day on.
 */
import type { RuleWindow } from '../rules/rule-types.js';
import { windowsIn } from '../rules/rule-words.js';
import { workAt } from '../crew/tasks.js';
import type { Piece } from '../crew/day-loads.js';
import { walkTogether } from './joint-visits.js';
import { SOAK, GIVEN_SOAK } from './events.js';
import { runsOf, runsOn } from './hose-run.js';
import type { Device, TreePlan } from './model.js';
import { walkAlone, type EarlyDays, type Path, type Walked } from './path.js';
import { lastsMinutes, runMinutes, type Option } from './option.js';
import type { TreePlanner } from './plan-trees.js';
import type { TreeSeason } from './tree-season.js';

/** One row as it is watered now. */
export interface RowRhythm {
  plan: TreePlan;
  /** days with a watering by the main means, ascending */
  watered: readonly number[];
  /** days on which it is watered early, each with the day planned; empty as planned at first */
  early: EarlyDays;
  work: readonly Piece[];
}

/** Rows that come forward together. */
export interface Rhythm {
  /** index of the site, and of the rows among the season's plans */
  site: number;
  rows: readonly number[];
  now: readonly RowRhythm[];
}

/** A row's season walked with some waterings put forward. */
export interface Shift {
  walked: Walked[];
  now: RowRhythm[];
}

export class RhythmWalker {
  /** trees walked so far */
  walks = 0;
  private readonly device: ReadonlyMap<string, Device>;
  private readonly truck: Device | undefined;
  private readonly windows = new Map<string, RuleWindow[]>();

  constructor(
    private readonly planner: TreePlanner,
    private readonly topUp: number,
  ) {
    const { kit } = planner.setting;
    this.device = new Map(kit.map((each) => [each.name, each]));
    this.truck = kit.find((each) => each.family === 'tanker');
  }

  private windowsOf(hours: string): RuleWindow[] {
    const known = this.windows.get(hours) ?? windowsIn(hours);
    this.windows.set(hours, known);
    return known;
  }

  /** Whether the row's main means needs a person, so that an earlier watering is earlier work. */
  movable({ chosen }: TreePlan): boolean {
    const main = this.device.get(chosen.devices[0] ?? '');
    return main !== undefined && main.family !== 'pad' && !main.automatic;
  }

  /** Rows of a rhythm with these days early. */
  walk(rhythm: Rhythm, paths: readonly Path[], early: readonly EarlyDays[]): Shift {
    const forced = paths.map((path, k) => withForce(path, early[k]!));
    this.walks += paths.length;
    const walked =
      forced.length === 1
        ? [walkAlone(forced[0]!, this.planner)]
        : walkTogether(forced, this.planner, this.topUp);
    return {
      walked,
      now: walked.map((w, k) => this.rowOf(rhythm.now[k]!.plan, w, early[k]!)),
    };
  }

  private rowOf(
    plan: TreePlan,
    { events, path: { option, season } }: Walked,
    early: EarlyDays,
  ): RowRhythm {
    const watered: number[] = [];
    const work: Piece[] = [];
    events.day.forEach((day, e) => {
      const kind = events.kind[e]!;
      const soaked = kind === SOAK || kind === GIVEN_SOAK;
      if (!soaked) watered.push(day);
      const by = soaked ? { ...option.pad!, joined: 1 } : option.main!;
      if (by.device.automatic) return;
      const litres = events.litres[e]!;
      work.push(this.pieceOf(plan, by, season, day, litres, kind === GIVEN_SOAK));
    });
    return { plan, watered, early, work };
  }

  /** The crew's work for a watering by this device. */
  pieceOf(
    { tree }: TreePlan,
    { device, allowed, joined }: Pick<NonNullable<Option['main']>, 'device' | 'allowed' | 'joined'>,
    season: TreeSeason,
    day: number,
    litres: number,
    given = false,
  ): Piece {
    const minutes = runMinutes(device, litres, joined);
    const watering = { litres, minutes, ...runsOf(season, device, joined, litres, day) };
    const left = runsOn(device, lastsMinutes(watering));
    const within = given ? undefined : allowed.within?.(day, left);
    const windows = within === undefined ? undefined : this.windowsOf(within);
    return { day, ...workAt(tree, device, watering, this.truck), windows };
  }
}

function withForce(path: Path, early: EarlyDays): Path {
  const force = new Uint8Array(path.season.days);
  for (const day of early.keys()) force[day] = 1;
  return { ...path, replay: { ...path.replay, force } };
}

export const piecesOf = (now: readonly RowRhythm[]): Piece[] =>
  now.flatMap(({ work }) => [...work]);

/** Crew minutes of a rhythm on a day [min]. */
export function minutesOn({ now }: Pick<Rhythm, 'now'>, day: number): number {
  let minutes = 0;
  for (const { work } of now)
    for (const piece of work) if (piece.day === day) minutes += piece.minutes;
  return minutes;
}

/** The last of these days before a day, -1 if there is none. */
export function lastBefore(days: readonly number[], day: number): number {
  let last = -1;
  for (const each of days) if (each < day) last = each;
  return last;
}

/** Days put forward before this one stay; what was put forward later is decided again by the walk. */
export function until({ early }: RowRhythm, day: number): Map<number, number> {
  return new Map([...early].filter(([each]) => each < day));
}
