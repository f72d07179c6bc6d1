/** The rules in use as two sheets of a workbook, Rules and Stages, to be edited and read again. */
import { dayFromIso } from '../engine/dates.js';
import { text, type Cell } from '../tables/cells.js';
import type { RulesReport } from '../workers/plan-room.js';
import { today, type Session } from './session.js';
import { SheetDraft, type Sheet, type WorkbookModel } from '../workbook/model.js';

const WIDTHS = { least: 10, most: 40, spare: 2 };

function tableSheet(name: string, rows: readonly Cell[][]): Sheet {
  const [header = [], ...body] = rows;
  const headers = header.map((cell) => text(cell));
  const width = (column: number): number =>
    Math.min(
      WIDTHS.most,
      Math.max(WIDTHS.least, ...rows.map((row) => text(row[column]).length + WIDTHS.spare)),
    );
  const draft = new SheetDraft(name, name);
  draft.table(
    name,
    headers.map((title, i) => ({ key: title, header: title, width: width(i), style: 'input', wrap: true })),
    body.length,
    (i) => headers.map((_, column) => body[i]?.[column] ?? null),
  );
  return draft.done();
} // prettier-ignore

/**
 * @param rules - with their header row, as `stages`
 * @param madeOn - yyyy-mm-dd
 */
export function rulesModel(rules: Cell[][], stages: Cell[][], madeOn: string): WorkbookModel {
  return {
    title: 'Rules',
    description: 'Watering rules, to be edited',
    madeOn: dayFromIso(madeOn),
    paper: 'letter',
    sheets: [tableSheet('Rules', rules), tableSheet('Stages', stages)],
    names: {},
  };
}

/** Writes the rules in use to sheets and brings them to the front. */
export async function toSheet(session: Session, { rules, stages }: RulesReport): Promise<void> {
  const { host, words: w } = session;
  const { sheets } = await host.writeModel(rulesModel(rules, stages, today()), {
    live: false,
    onProgress: (_done, _total, sheet) => session.say(w.panel.sheet(sheet)),
    signal: { aborted: false },
  });
  await session.change({ starter: '' });
  // a number is added to a name that is in use
  const [first] = sheets;
  if (first) await host.showCell(0, 0, first.name);
  session.say(w.rules.written(sheets.map(({ name }) => name).join(', ')), 'fine');
}
