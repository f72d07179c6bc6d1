/** Questions a log raises, row by row. A flag is a question, not an accusation: each has an honest answer now and then. */
import type { Units } from '../units.js';
import { askAboutDays } from './log-days.js';
import { askAboutNumbers } from './log-numbers.js';
import { askAboutRows } from './log-rows.js';
import type { LogRow, LogTree, LogTruck } from './visit-log.js';

export const FLAG_KINDS = [
  'unknown tree',
  'gone',
  'before planting',
  'times',
  'nothing said',
  'duplicate',
  'two places',
  'two crews',
  'minutes',
  'pump',
  'tank',
  'no rain reading',
  'too regular',
  'copied day',
] as const;
export type FlagKind = (typeof FLAG_KINDS)[number];

export interface LogFlag {
  row: number;
  kind: FlagKind;
  /** the question, in a sentence */
  sentence: string;
}

/** What rows are asked about with; all of it may be left out but the trees. */
export interface LogSetting {
  trees: readonly LogTree[];
  /** trucks with their pump and tank; left out: what water could be given is not asked */
  kit?: readonly LogTruck[] | undefined;
  units?: Units | undefined;
}

export type Ask = (row: LogRow, kind: FlagKind, sentence: string) => void;

/**
 * All questions about a log.
 *
 * @returns in the order of the rows, the gravest kind first within a row
 */
export function logFlags(rows: readonly LogRow[], setting: LogSetting): LogFlag[] {
  const flags: LogFlag[] = [];
  const asked = new Set<string>();
  const ask: Ask = ({ row }, kind, sentence) => {
    // one question of a kind is enough for a row
    if (asked.has(`${row} ${kind}`)) return;
    asked.add(`${row} ${kind}`);
    flags.push({ row, kind, sentence });
  };
  const { trees, kit = [], units = 'US' } = setting;
  askAboutRows(rows, trees, ask);
  askAboutDays(rows, kit, units, ask);
  askAboutNumbers(rows, units, ask);
  const place = (kind: FlagKind): number => FLAG_KINDS.indexOf(kind);
  return flags.sort((a, b) => a.row - b.row || place(a.kind) - place(b.kind));
}
