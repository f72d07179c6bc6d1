/** Weeks of the strip that are the same day by day are shown once, so that six of them need no six blocks. */
import type { RuleStrip, StripKind, StripMeans } from '../../workbook/rules-strip.js';

export const WEEK = 7;

export type Square = 'any' | 'open' | 'closed' | 'banned';

/** What a day is for a means: open all day, some hours, closed, or closed by a ban. */
export function squareOf(kind: StripKind, { means, hours }: StripMeans, day: number): Square {
  const shown = hours[day] ?? '';
  if (shown === 'any') return 'any';
  if (shown !== '') return 'open';
  const bans = (kind.bans[day] ?? '').split(', ');
  return bans.some((ban) => ban.startsWith(`${means} (`)) ? 'banned' : 'closed';
}

/** Whether another stage begins on a day, or the strip begins with one. */
export const stageBegins = ({ stages }: Pick<RuleStrip, 'stages'>, day: number): boolean =>
  (stages[day] ?? '') !== (day === 0 ? '' : (stages[day - 1] ?? ''));

/** A run of weeks that are alike. */
export interface AlikeWeeks {
  /** days of the first of them, counted from the strip's first day */
  days: number[];
  weeks: number;
}

/**
 * The strip's weeks in order, those that follow each other alike as one: the same squares and hours on the same days, and
 * no stage that begins in a later one, since its date would be lost.
 */
export function alikeWeeks(
  strip: Pick<RuleStrip, 'days' | 'stages'>,
  kind: StripKind,
): AlikeWeeks[] {
  const runs: (AlikeWeeks & { key: string })[] = [];
  for (let first = 0; first < strip.days; first += WEEK) {
    const days = Array.from({ length: Math.min(WEEK, strip.days - first) }, (_, i) => first + i);
    const key = JSON.stringify(
      days.map((day) => kind.means.map((m) => [squareOf(kind, m, day), m.hours[day] ?? ''])),
    );
    const last = runs.at(-1);
    const alike = last?.key === key && !days.some((day) => stageBegins(strip, day));
    if (last && alike) last.weeks++;
    else runs.push({ days, weeks: 1, key });
  }
  return runs.map(({ days, weeks }) => ({ days, weeks }));
}
