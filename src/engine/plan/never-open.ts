/** Why a device can be used for a tree on no day of the season, where that is so: the hours, not the device's worth, decide. */
import { inShift } from '../crew/shift.js';
import type { RuleWindow } from '../rules/rule-types.js';
import type { Calendars } from './calendars.js';
import type { Device, Tree } from './model.js';

export type NeverOpen =
  /** it must have drained inside the open hours, and no span of them that the crew reaches is so long */
  | {
      kind: 'drain';
      /** it takes to drain; undefined: not known [min] */
      minutes?: number;
      /** the longest: from when the crew can have come until the hours end [min of the day] */
      span: RuleWindow;
    }
  /** the rules open hours on work days, all of them outside the crew's day; on other days only; on no day */
  | { kind: 'crew' | 'days' | 'rules' };

const lasts = ({ start, end }: RuleWindow): number => end - start;

/** @returns undefined where some day is open, or where it is something else that closes all of them */
export function neverOpen(calendars: Calendars, tree: Tree, device: Device): NeverOpen | undefined {
  if (calendars.allowed(tree, device).open.includes(1)) return undefined;
  const { calendar, drain } = calendars.lawful(tree, device);
  const open = [...calendar.open.keys()].filter((i) => calendar.open[i] === 1);
  if (open.length === 0) return { kind: 'rules' };
  const worked = device.automatic ? open : open.filter((i) => calendars.isWorkDay(i));
  if (worked.length === 0) return { kind: 'days' };
  const { shift } = calendars;
  const spans = worked.flatMap((i) =>
    calendar
      .windows(calendar.from + i)
      .filter((window) => inShift([window], shift).length > 0)
      .map(({ start, end }) => ({ start: Math.max(start, shift.start), end })),
  );
  const [first] = spans;
  if (!first) return { kind: 'crew' };
  if (drain === 0) return undefined;
  const span = spans.reduce((most, one) => (lasts(one) > lasts(most) ? one : most), first);
  return { kind: 'drain', ...(Number.isFinite(drain) && { minutes: drain }), span };
}
