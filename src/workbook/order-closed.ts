/**
 * Hours in which an order closes everything: one row that bans every means for everybody on every day. A ban wins over every
 * other row, exempt ones too, so no line needs these hours again.
 */
import { text } from '../tables/cells.js';
import { newLine, type OrderLine } from './order-lines.js';

/** Columns that do not limit such a row, whatever they hold. */
const BESIDE: ReadonlySet<string> = new Set(['Note', 'Agency', '31st', 'Midnight', 'Drain', 'Filling', 'Day one']); // prettier-ignore
/** Words that limit nothing. */
const NO_LIMIT: ReadonlySet<string> = new Set(['', 'any', 'inside']);

/** No such hours yet. */
export const noHours = (key: number): OrderLine => ({
  ...newLine(key),
  means: null,
  verdict: 'ban',
  span: 'within',
});

/** The row closes one span of hours to everybody and everything. */
export const closesAll = (line: OrderLine): boolean =>
  line.verdict === 'ban' &&
  line.means === null &&
  line.address === '' &&
  line.weekdays === 0 &&
  line.dates === 'any' &&
  line.perWeek + line.every === '' &&
  line.span !== 'words' &&
  line.from !== '' &&
  line.from2 + line.to2 === '' &&
  Object.entries(line.more).every(
    ([name, cell]) => BESIDE.has(name) || NO_LIMIT.has(text(cell).toLowerCase()),
  );

/** The first row that closes everything, and the lines without it. */
export function partClosed(all: readonly OrderLine[]): { closed: OrderLine | undefined; lines: OrderLine[] } {
  const closed = all.find(closesAll);
  return { closed, lines: all.filter((line) => line !== closed) };
} // prettier-ignore

export interface ClosedHours {
  from: string;
  to: string;
}

/** The closed hours: a ban but for some hours is one from their end to their beginning. */
export const closedHours = ({ span, from, to }: OrderLine): ClosedHours =>
  span === 'outside' ? { from: to, to: from } : { from, to };

/** The row with other hours. */
export const withHours = (line: OrderLine, part: Partial<ClosedHours>): OrderLine => ({
  ...line,
  ...closedHours(line),
  ...part,
  span: 'within',
});

/** Some of the hours are given. */
export const hasHours = ({ from, to }: OrderLine): boolean => from + to !== '';
