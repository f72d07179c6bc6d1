/** The ways that are tried where days do not fit: each one thing changed, as inputs that a person could type. No page. */
import { isBlank, plainNumber, quantity, text, type Cell } from '../tables/cells.js';
import type { Draft, PlanSummary, SetupReport, WaysOut } from '../workers/plan-room.js';
import { devicesOf, withDevice } from './kit-table.js';

/** Inputs in the place of those of the draft. */
export interface Change {
  site?: Draft['site'];
  kit?: Cell[][];
}

export type Way =
  | { kind: 'crews'; crews: number; from: number; change: Change }
  | { kind: 'start'; start: string; from: string; change: Change }
  | { kind: 'days'; days: string; from: string; change: Change }
  | { kind: 'hours'; hours: number; change: Change }
  | { kind: 'tank'; volume: string; change: Change }
  | { kind: 'means'; worth: number; change: Change }
  /** trees that are not served when crews have these hours at trees a week [h]; no input says so */
  | { kind: 'fewer'; trees: number; weekHours: number; change?: undefined };

/** What became of a way: what the next one of its kind depends on. */
export interface Came {
  /** that do not fit */
  days: number;
  /** trees by means */
  means: string;
}

/** Crews more than there are, up to which the smallest number is looked for. */
const MOST_CREWS_MORE = 4;
/** Part of the crew hours from which refills are a big part [-]. Our choice. */
const MANY_REFILLS = 0.1;
/** An hour of the crew counts as nearly all that matters; and a milder worth, which costs less [times its wage]. Our choice. */
const WORTHS = { most: 10, mild: 3 };
/** At most: crews, three starts, two sets of days, hours, tank, two worths, and five numbers of trees. */
export const MOST_WAYS = MOST_CREWS_MORE + 3 + 2 + 1 + 1 + 2 + 5;

/** A way is given out; what became of it comes back. */
type InTurn = Generator<Way, void, Came>;

/**
 * Ways in turn, from what costs no money to what does; those that would only be more of what is already enough are left out.
 *
 * @param plan - with days that do not fit
 */
export function* waysInTurn(plan: PlanSummary, draft: Draft, setup: SetupReport | undefined): InTurn {
  if (!plan.over) return;
  const { ways } = plan.over;
  yield* starts(ways);
  yield* crews(ways);
  yield* days(ways);
  if (ways.crewHours !== undefined)
    yield { kind: 'hours', hours: ways.crewHours, change: { site: { crewHours: ways.crewHours } } };
  if (ways.refills >= MANY_REFILLS) yield* largerTank(draft, setup);
  yield* savingMeans(plan);
} // prettier-ignore

/** The earliest start first; a milder one only if that is enough. A later one in any case: it is another kind of day. */
function* starts({ starts: all, start: from }: WaysOut): InTurn {
  const way = (start: string): Way => ({ kind: 'start', start, from, change: { site: { crewStart: start } } });
  const [earliest, ...milder] = all.filter((start) => start < from);
  if (earliest !== undefined) {
    const { days: left } = yield way(earliest);
    for (const start of left === 0 ? milder : []) yield way(start);
  }
  for (const start of all.filter((each) => each > from)) yield way(start);
} // prettier-ignore

/** One more, two more …, until there are enough. */
function* crews({ crews: from }: WaysOut): InTurn {
  for (let more = 1; more <= MOST_CREWS_MORE; more++) {
    const { days: left } = yield { kind: 'crews', crews: from + more, from, change: { site: { crews: from + more } } };
    if (left === 0) return;
  }
} // prettier-ignore

function* days({ moreDays, workDays: from }: WaysOut): InTurn {
  for (const each of moreDays) {
    const { days: left } = yield { kind: 'days', days: each, from, change: { site: { workDays: each } } };
    if (left === 0) return;
  }
} // prettier-ignore

/** Means that take the crew less time; where no tree would get other ones, a milder worth would find none either. */
function* savingMeans(plan: PlanSummary): InTurn {
  const way = (worth: number): Way => ({ kind: 'means', worth, change: { site: { crewTimeWorth: worth } } });
  const now = JSON.stringify(plan.means.map(({ means, trees }) => [means, trees]));
  const { means } = yield way(WORTHS.most);
  if (means !== now) yield way(WORTHS.mild);
} // prettier-ignore

/** Twice a number as it was typed, its unit kept. */
function twice(cell: Cell): Cell {
  const number = plainNumber(cell);
  if (number !== undefined) return 2 * number;
  const read = quantity(cell);
  return read ? `${2 * read.value} ${read.unit}`.trim() : null;
}

/** The tank that crews drive with, twice as large: of the kit's first tanker, else the site's. */
function* largerTank({ units }: Draft, setup: SetupReport | undefined): InTurn {
  if (!setup) return;
  const { rows } = setup.kit;
  const tanker = devicesOf(rows).find(({ family }) => family === 'tanker');
  const field = setup.site.find(({ key }) => key === 'tankVolume');
  if (tanker && !isBlank(tanker.cells.volume ?? null)) {
    const volume = twice(tanker.cells.volume ?? null);
    if (isBlank(volume)) return;
    const kit = withDevice(rows, tanker.at, { ...tanker.cells, volume }, units);
    yield { kind: 'tank', volume: `${text(volume)} ${setup.kit.tank?.unit ?? ''}`.trim(), change: { kit } };
  } else if (typeof field?.value === 'number') {
    const volume = 2 * field.value;
    yield { kind: 'tank', volume: `${volume} ${field.unit}`, change: { site: { tankVolume: volume } } };
  }
} // prettier-ignore
