/** Two seasons beside each other, in words: "14 fewer stress days, 120 gal more water". */
import type { PlanSummary } from '../../workers/plan-room.js';
import type { Session } from '../session.js';
import { buildWords } from '../words/build.js';

interface Season {
  stressDays: number;
  cannotBeKept: number;
  waterings: number;
  water: number;
  /** days that ask for more hours than the crews have */
  over?: { days: number };
  crewHours?: number;
  price?: number;
}

/** Less is rounding, not a difference. */
const HAIR = 0.05;

/**
 * @param base - the season as it is
 * @param other - with something changed
 */
export function differences(
  base: Season,
  other: Season,
  { waterUnit, currency }: Pick<PlanSummary, 'waterUnit' | 'currency'>,
  { language, formats: f }: Session,
): string {
  const { trial: t, currency: money } = buildWords(language);
  const counts: [number, string][] = [
    [(other.over?.days ?? 0) - (base.over?.days ?? 0), t.overDays],
    [other.cannotBeKept - base.cannotBeKept, t.lost],
    [other.stressDays - base.stressDays, t.stressDays],
    [other.waterings - base.waterings, t.waterings],
    [(other.crewHours ?? 0) - (base.crewHours ?? 0), t.hours],
  ];
  const counted = counts.flatMap(([n, what]) =>
    Math.abs(n) < HAIR ? [] : [n > 0 ? t.more(f, n, what) : t.fewer(f, -n, what)],
  );
  const amounts: [number, string, string][] = [
    [
      other.water - base.water,
      `${f.amount(Math.abs(other.water - base.water))} ${waterUnit}`,
      t.water,
    ],
    [
      (other.price ?? 0) - (base.price ?? 0),
      money(f.amount(Math.abs((other.price ?? 0) - (base.price ?? 0))), currency),
      t.price,
    ],
  ];
  const measured = amounts.flatMap(([n, amount, what]) =>
    Math.abs(n) < HAIR ? [] : [n > 0 ? t.moreOf(amount, what) : t.lessOf(amount, what)],
  );
  const all = [...counted, ...measured];
  return all.length === 0 ? t.nothing : `${all.join(', ')}.`;
}
