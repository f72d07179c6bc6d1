/** An hour of the day as people and spreadsheets write it. */
import { clock } from '../engine/rules/rule-words.js';
import { plainNumber, text, type Cell } from './cells.js';

const WRITTEN = /^(\d{1,2})(?::(\d\d)(?::00)?| ?h ?(\d\d)?)? ?(?:(a|p)\.? ?m\.?)?$/i;

/**
 * Hours since midnight: 6, 6.5, "6:30", "6:30 am", "18:00", "18 h". A number between 0 and 1 is a spreadsheet's time, a part of
 * a day: 0.25 is six in the morning; half past midnight is therefore written 0:30, not 0.5. 0 is midnight.
 *
 * @returns [h], at least 0 and below 24; undefined for anything else
 */
export function hourOf(cell: Cell | undefined): number | undefined {
  const number = plainNumber(cell);
  if (number !== undefined)
    return withinDay(number > 0 && number < 1 ? toMinute(number * 24) : number);
  const [, hours, after, beside, half] = WRITTEN.exec(text(cell)) ?? [];
  if (hours === undefined) return undefined;
  const minutes = Number(after ?? beside ?? 0);
  if (minutes > 59) return undefined;
  if (half === undefined) return withinDay(Number(hours) + minutes / 60);
  if (Number(hours) < 1 || Number(hours) > 12) return undefined;
  return (Number(hours) % 12) + (half.toLowerCase() === 'p' ? 12 : 0) + minutes / 60;
}

/** A part of a day as a spreadsheet keeps it is a few millionths off. */
const toMinute = (hours: number): number => Math.round(hours * 60) / 60;

const withinDay = (hours: number): number | undefined =>
  hours >= 0 && hours * 60 < 24 * 60 - 0.5 ? hours : undefined;

/** `06:30`. @param hours - since midnight [h] */
export const hourText = (hours: number): string => clock(Math.round(hours * 60));
