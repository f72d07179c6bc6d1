/** The ways that are tried where days do not fit: each one thing changed, as inputs that a person could type. No page. */
import type { Units } from '../engine/units.js';
import { isBlank, plainNumber, quantity, text, yesNo, type Cell } from '../tables/cells.js';
import type { Draft, PlanSummary, SetupReport, WaysOut } from '../workers/plan-room.js';
import { asksToBuy, devicesOf, withDevice, type KitRow } from './kit-table.js';

/** Inputs in the place of those of the draft. */
export interface Change {
  site?: Draft['site'];
  /** the kit's table otherwise: several changes of it follow each other */
  kit?: (rows: readonly Cell[][], units: Units) => Cell[][];
}

/** One thing changed, all trees served. */
export type Single =
  | { kind: 'crews'; crews: number; from: number; change: Change }
  | { kind: 'start'; start: string; from: string; change: Change }
  | { kind: 'days'; days: string; from: string; change: Change }
  | { kind: 'hours'; hours: number; change: Change }
  | { kind: 'tank'; volume: string; change: Change }
  /** hoses that a person opens now */
  | { kind: 'timers'; devices: string[]; change: Change }
  /** what the stock does not have */
  | { kind: 'buying'; change: Change }
  | { kind: 'means'; worth: number; change: Change };

/** Several things changed, all trees served. */
export interface Together {
  kind: 'together';
  ways: readonly Single[];
  change: Change;
}

/** Trees that are not served when crews have these hours at trees a week [h], and their rows as the sheet counts them. */
export interface Fewer {
  kind: 'fewer';
  trees: number;
  weekHours: number;
  rows: number[];
  /** what is changed beside that */
  under?: Single | Together;
}

export type Way = Single | Together | Fewer;

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
/** Three starts, two sets of days, hours, tank, timers, buying, two worths, and crews. */
const MOST_SINGLES = 3 + 2 + 1 + 1 + 1 + 1 + 2 + MOST_CREWS_MORE;
/** Three together, and five numbers of trees, of the plan and of the best way, which is planned once more for them. */
const MOST_OTHERS = 3 + 5 + 1 + 5;
export const MOST_WAYS = MOST_SINGLES + MOST_OTHERS;

/** A way is given out; what became of it comes back. */
type InTurn = Generator<Single, void, Came>;

/**
 * Ways in turn, from what costs no money to what does; those that would only be more of what is already enough are left out.
 *
 * @param plan - with days that do not fit
 */
export function* waysInTurn(plan: PlanSummary, setup: SetupReport | undefined): InTurn {
  if (!plan.over) return;
  const { ways } = plan.over;
  yield* starts(ways);
  yield* timers(setup);
  yield* buying(setup);
  yield* days(ways);
  if (ways.crewHours !== undefined)
    yield { kind: 'hours', hours: ways.crewHours, change: { site: { crewHours: ways.crewHours } } };
  if (ways.refills >= MANY_REFILLS) yield* largerTank(setup);
  yield* savingMeans(plan);
  yield* crews(ways);
} // prettier-ignore

/** The draft with a change in it. */
export function underChange(draft: Draft, setup: SetupReport | undefined, { site, kit }: Change): Draft {
  return {
    ...draft,
    site: { ...draft.site, ...site },
    ...(kit && setup && { kit: kit(setup.kit.rows, draft.units) }),
  };
} // prettier-ignore

/** Several ways as one. */
export function together(ways: readonly Single[]): Together {
  const kits = ways.flatMap(({ change }) => change.kit ?? []);
  const site = Object.assign({}, ...ways.map(({ change }) => change.site)) as Draft['site'];
  const kit: Change['kit'] = (rows, units) =>
    kits.reduce((table, edit) => edit(table, units), rows.map((row) => [...row]));
  return { kind: 'together', ways, change: { site, ...(kits.length > 0 && { kit }) } };
} // prettier-ignore

/** The earliest start first; a milder one only if that is enough. A later one in any case: it is another kind of day. */
function* starts({ starts: all, start: from }: WaysOut): InTurn {
  const way = (start: string): Single => ({ kind: 'start', start, from, change: { site: { crewStart: start } } });
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
  const way = (worth: number): Single => ({ kind: 'means', worth, change: { site: { crewTimeWorth: worth } } });
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

/** A device of the kit with other cells. */
const edited =
  (at: number, cells: KitRow['cells']): NonNullable<Change['kit']> =>
  (rows, units) =>
    withDevice(
      rows,
      at,
      { ...devicesOf(rows).find((row) => row.at === at)?.cells, ...cells },
      units,
    );

/** Every hose that a person opens now. */
function* timers(setup: SetupReport | undefined): InTurn {
  const hoses = devicesOf(setup?.kit.rows ?? []).filter(
    ({ family, cells }) => family === 'soaker' && yesNo(cells.automatic ?? null) !== true,
  );
  if (hoses.length === 0) return;
  const kit: Change['kit'] = (rows, units) =>
    hoses.reduce<Cell[][]>(
      (table, { at }) => edited(at, { automatic: 'yes' })(table, units),
      rows.map((row) => [...row]),
    );
  yield { kind: 'timers', devices: hoses.map(({ cells }) => text(cells.name)), change: { kit } };
}

/** What lacks is bought, where the plan keeps to the stock: of all devices, or of those that say so for themselves. */
function* buying(setup: SetupReport | undefined): InTurn {
  const only = setup?.site.find(({ key }) => key === 'stockOnly')?.value;
  const asked = devicesOf(setup?.kit.rows ?? []).filter(({ family }) => asksToBuy(family));
  const refusing = asked.filter(({ cells }) => yesNo(cells.buy) === false);
  const answered = asked.length > 0 && asked.every(({ cells }) => yesNo(cells.buy) !== undefined);
  const bySite = only === 'yes' && !answered;
  if (!bySite && refusing.length === 0) return;
  const kit: Change['kit'] = (rows, units) =>
    refusing.reduce<Cell[][]>(
      (table, { at }) => edited(at, { buy: 'yes' })(table, units),
      rows.map((row) => [...row]),
    );
  yield {
    kind: 'buying',
    change: { ...(bySite && { site: { stockOnly: 'no' } }), ...(refusing.length > 0 && { kit }) },
  };
}

/** The tank that crews drive with, twice as large: of the kit's first tanker, else the site's. */
function* largerTank(setup: SetupReport | undefined): InTurn {
  if (!setup) return;
  const { rows } = setup.kit;
  const tanker = devicesOf(rows).find(({ family }) => family === 'tanker');
  const field = setup.site.find(({ key }) => key === 'tankVolume');
  if (tanker && !isBlank(tanker.cells.volume ?? null)) {
    const volume = twice(tanker.cells.volume ?? null);
    if (isBlank(volume)) return;
    const said = `${text(volume)} ${setup.kit.tank?.unit ?? ''}`.trim();
    yield { kind: 'tank', volume: said, change: { kit: edited(tanker.at, { volume }) } };
  } else if (typeof field?.value === 'number') {
    const volume = 2 * field.value;
    yield { kind: 'tank', volume: `${volume} ${field.unit}`, change: { site: { tankVolume: volume } } };
  }
} // prettier-ignore
