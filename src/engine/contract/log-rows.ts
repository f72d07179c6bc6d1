/** Questions a single row of a log raises: its tree, its times, what it leaves unsaid; and rows said twice. */
import { isoDate } from '../dates.js';
import type { Ask } from './log-flags.js';
import { grouped, plainName, type LogRow, type LogTree } from './visit-log.js';

const watered = ({ applied }: LogRow): boolean => (applied ?? 0) > 0;

export function askAboutRows(rows: readonly LogRow[], trees: readonly LogTree[], ask: Ask): void {
  const known = new Map(trees.map((tree) => [plainName(tree.id), tree]));
  for (const row of rows) {
    const tree = known.get(plainName(row.tree));
    if (tree) askAboutTree(row, tree, ask);
    else ask(row, 'unknown tree', `${row.tree} is not on the list of trees. Which tree was it?`);
    askAboutRow(row, ask);
  }
  askAboutTwice(rows, ask);
}

function askAboutTree(row: LogRow, { planted, gone }: LogTree, ask: Ask): void {
  if (!watered(row)) return;
  if (gone && (gone.since === null || row.day > gone.since)) {
    const since = gone.since === null ? '' : ` since ${isoDate(gone.since)}`;
    ask(row, 'gone', `The list calls ${row.tree} ${gone.word}${since}. What was watered?`);
  }
  if (planted !== undefined && row.day < planted)
    ask(row, 'before planting', `${row.tree} was planted on ${isoDate(planted)}, after this visit. Is the date right?`); // prettier-ignore
}

function askAboutRow(row: LogRow, ask: Ask): void {
  const { arrived, left, applied, skipped } = row;
  if (arrived !== undefined && left !== undefined && left < arrived)
    ask(row, 'times', 'The crew left before it arrived. Which time is right?');
  if (applied === undefined && skipped === '')
    ask(row, 'nothing said', 'There is neither water nor a reason to skip. What was done?');
  if (watered(row) && skipped !== '')
    ask(row, 'nothing said', 'There is water and a reason to skip it. Which holds?');
  if (applied === 0 && skipped === '')
    ask(row, 'nothing said', 'No water was given and no reason is written. Why was it skipped?');
}

/** The same tree twice on a day: the second row is asked about. */
function askAboutTwice(rows: readonly LogRow[], ask: Ask): void {
  const key = (r: LogRow): string => `${plainName(r.tree)}|${r.day}`;
  for (const [, visits] of grouped(rows.filter(watered), key)) {
    const [first, ...others] = [...visits].sort((a, b) => a.row - b.row);
    for (const other of others)
      if (plainName(other.crew) === plainName(first!.crew))
        ask(other, 'duplicate', `Row ${first!.row} has ${other.tree} on the same day already. Was it watered twice?`); // prettier-ignore
      else
        ask(other, 'two crews', `Row ${first!.row} has ${other.tree} watered by ${first!.crew || 'somebody else'} on the same day. Which crew was it?`); // prettier-ignore
  }
}
