/** About: what this workbook is, what came out, what to watch for. */
import { overloads } from '../../engine/crew/smooth-plan.js';
import { isoDate } from '../../engine/dates.js';
import {
  cell,
  formula,
  lines,
  SheetDraft,
  STYLES,
  type RichCell,
  type Sheet,
  type TablePlace,
} from '../model.js';
import { cautionsOf, SHEET_PURPOSES } from '../words.js';
import type { Context } from './context.js';

export interface AboutRefs {
  trees: TablePlace;
  plan: TablePlace;
  planRows: number;
  crewDays: number;
  /** name of the sheet with the crew's pages */
  crewSheet: string;
  total: string;
  toLook: number;
  others: string[];
}

const LEGEND = ['input', 'calculation', 'result', 'look', 'fine', 'field', 'note'] as const;
const WIDTH = 104;

/** "36 days do not fit". */
const fits = (days: number): string => `${days} ${days === 1 ? 'day does' : 'days do'} not fit`;

export function aboutSheet(ctx: Context, refs: AboutRefs): Sheet {
  const { plan } = ctx;
  const draft = new SheetDraft('About', 'About', { orientation: 'portrait' });
  const states = refs.trees.range('state');
  const count = (state: string): RichCell =>
    formula(
      `COUNTIF(${states},"${state}")`,
      state === 'not planned'
        ? ctx.reading.rows.length - plan.trees.length
        : plan.trees.filter((t) => t.state === state).length,
      { format: 'whole' },
    );
  const litres = plan.trees.reduce((sum, t) => sum + t.chosen.litres * t.tree.count, 0);
  const over = overloads(plan.crewDays, plan.site);
  const worst = over.reduce((most, one) => (one.over > (most?.over ?? 0) ? one : most), over[0]);
  const facts: [string, RichCell, string][] = [
    ['Rows in the inventory', cell(ctx.reading.rows.length, undefined, { format: 'whole' }), ''],
    [
      'Rows planned',
      count('planned'),
      over.length === 0
        ? 'kept without more stress than accepted'
        : `▲ planned, but ${fits(over.length)}: kept without more stress than accepted only if every visit could be made`,
    ],
    [
      'Rows that cannot be kept',
      count('cannot be kept'),
      over.length === 0
        ? 'planned, but stressed: see Trees'
        : 'planned, but stressed even if every visit could be made: see Trees',
    ],
    ['Rows not planned', count('not planned'), 'each with its reason on Trees'],
    [
      ctx.joined === 'no' ? 'Waterings' : 'Plan rows',
      formula(`COUNT(${refs.plan.range('date')})`, refs.planRows, { format: 'whole' }),
      ctx.joined === 'no' ? 'one row each on Plan' : 'joined: too many for one row each',
    ],
    [
      `Water of the season (${ctx.unit('volume')})`,
      formula(`SUM(${refs.trees.range('season')})`, ctx.show('volume', litres), {
        format: 'whole',
      }),
      'before losses',
    ],
    [
      'Crew days',
      cell(refs.crewDays, undefined, { format: 'whole' }),
      `one page each on ${refs.crewSheet}; ${Math.round(plan.crewDays.reduce((sum, { hours }) => sum + hours, 0)).toLocaleString('en-US')} crew hours, without hose checks and setting out: see Estimate`,
    ],
    [
      'Crew days over hours',
      cell(over.length, over.length > 0 ? 'look' : undefined, { format: 'whole' }),
      worst === undefined
        ? 'every crew day fits its hours and the open ones'
        : `as it stands the plan cannot be worked off: ${
            worst.kind === 'day'
              ? `the longest takes a crew ${worst.hours.toFixed(1)} h of ${plan.site.crewHours}`
              : worst.sentence.replace(/\.$/, '')
          }`,
    ],
    [
      'To look at',
      formula(`${refs.total}&" to look at"`, `${refs.toLook} to look at`),
      'listed on Checks',
    ],
  ];
  const paragraph = (text: string, style: 'note' | 'caution' | 'text' | 'look') =>
    lines(text, WIDTH).map((line) => cell(line, style));

  draft.text([
    cell(ctx.title, 'title'),
    ...paragraph(
      `A watering plan for ${plan.site.name}, ${isoDate(plan.site.seasonFrom)} to ${isoDate(plan.site.seasonTo)}, made ${isoDate(ctx.madeOn)} from ${ctx.source}. For the arborist, the office, the estimator and the crew.`,
      'text',
    ),
    ...paragraph(
      'Numbers are the spreadsheet’s own formulas and values: the file needs nothing installed. A changed input moves demand, usable water and interval at once; dates move when you plan again.',
      'note',
    ),
    ...ctx.notes.flatMap((note) => paragraph(`▲ ${note}`, 'look')),
  ]);
  draft.skip();
  draft.text([cell('What came out', 'heading')]);
  draft.table(
    'Outcome',
    [
      { key: 'what', header: 'What', width: 32 },
      { key: 'value', header: 'Number', width: 22, style: 'result', align: 'right' },
      { key: 'note', header: 'Meaning', width: 62, style: 'note' },
    ],
    facts.length,
    (i) => {
      const [what, value, note] = facts[i]!;
      return [what, value, note];
    },
  );
  draft.skip();
  draft.text([
    cell('What can hurt', 'heading'),
    ...cautionsOf(plan).flatMap((text) => lines(text, WIDTH).map((line) => cell(line, 'caution'))),
  ]);
  draft.skip();
  draft.text([
    cell('How to read cells', 'heading'),
    ...LEGEND.map((style) => [
      cell(style === 'look' ? '▲ look' : style, style),
      cell(STYLES[style], 'note'),
    ]),
  ]);
  draft.skip();
  draft.text([cell('Sheets', 'heading')]);
  draft.table(
    'Contents',
    [
      { key: 'sheet', header: 'Sheet', width: 32, style: 'result' },
      { key: 'who', header: 'For', width: 22 },
      { key: 'what', header: 'Holds', width: 62 },
    ],
    refs.others.length,
    (i) => {
      const name = refs.others[i]!;
      const purpose = SHEET_PURPOSES[name];
      return [{ value: name, jump: `'${name}'!A1` }, purpose?.who ?? '', purpose?.what ?? ''];
    },
  );
  return draft.done();
}
