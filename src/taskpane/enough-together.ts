/** Which of the ways that were tried are worth trying together. No page. */
import type { PlanSummary } from '../workers/plan-room.js';
import { together, type Fewer, type Single, type Together, type Way } from './enough-ways.js';

interface Planned<W extends Way = Way> {
  way: W;
  plan: PlanSummary;
}
type Serving = NonNullable<Fewer['under']>;

/** A start before that is night work, which few may or will do. Our choice. */
const NIGHT_ENDS = '04:00';
/** A way has crews work at night. */
export const isAtNight = (way: Way): boolean =>
  way.kind === 'start'
    ? way.start < NIGHT_ENDS
    : way.kind === 'together'
      ? way.ways.some(isAtNight)
      : way.kind === 'fewer' && way.under !== undefined && isAtNight(way.under);

const serves = (one: Planned): one is Planned<Serving> => one.way.kind !== 'fewer';

/** Hours lacking in all: with a further work day more days may be short, each of less. */
const lacking = ({ plan }: { plan: PlanSummary }): number => plan.over?.lacking ?? 0;

/**
 * Ways that serve all trees with the crews there are, by day, and leave fewer hours lacking, the best first; none where one of
 * them is enough.
 *
 * @param base - the plan as it is
 */
export function besidesCrews(tried: readonly Planned[], base: PlanSummary): Planned<Serving>[] {
  const own = tried.filter(serves).filter(({ way }) => way.kind !== 'crews' && !isAtNight(way));
  if (own.some(({ plan }) => !plan.over)) return [];
  return own
    .filter((each) => lacking(each) < lacking({ plan: base }))
    .sort((a, b) => lacking(a) - lacking(b));
}

/** Kinds that ask nothing new of the people: their hours and their number stay. */
const OF_KIT: ReadonlySet<Way['kind']> = new Set(['timers', 'buying', 'tank', 'means']);
/** Part of the hours lacking that may be left where something helps much [-]. Our choice. */
const MUCH = 0.5;
const isOfKit = (way: Serving): boolean =>
  way.kind === 'together' ? way.ways.every(isOfKit) : OF_KIT.has(way.kind);

/**
 * The way under which it is worth leaving trees out: the best of other kit alone, which helps much but is not enough, for those
 * who cannot work at other hours; where there is none, the best that serves all trees with the crews there are. Undefined where that
 * is enough.
 *
 * @param base - the plan as it is
 */
export function worthFewer(
  tried: readonly Planned[],
  base: PlanSummary,
): Planned<Serving> | undefined {
  const [ofKit] = besidesCrews(
    tried.filter(serves).filter(({ way }) => isOfKit(way)),
    base,
  );
  const isMuch = ofKit && lacking(ofKit) <= MUCH * lacking({ plan: base });
  return isMuch ? ofKit : besidesCrews(tried, base)[0];
}

/** The best of each kind, at most three. */
function bestKinds(helping: readonly Planned<Serving>[]): Single[] {
  const best = new Map<string, Single>();
  for (const { way } of helping)
    if (way.kind !== 'together' && !best.has(way.kind)) best.set(way.kind, way);
  return [...best.values()].slice(0, 3);
}

/** The best way with the second and with the third best, of other kinds. */
export function pairsOf(helping: readonly Planned<Serving>[]): Together[] {
  const [first, ...others] = bestKinds(helping);
  return first ? others.map((other) => together([first, other])) : [];
}

/** The three best, of three kinds. */
export function threeOf(helping: readonly Planned<Serving>[]): Together[] {
  const best = bestKinds(helping);
  return best.length === 3 ? [together(best)] : [];
}
