/** Log: one row a visit to a tree, filled in by hand or typed, with the questions it raises by formulas. */
import { BAG_STATES } from '../../engine/contract/bag-register.js';
import { FEW, HYDRANT, LEAST_MINUTES, SLACK, WATCH } from '../../engine/contract/log-days.js';
import { FLAG_KINDS, logFlags, type LogFlag } from '../../engine/contract/log-flags.js';
import { DAY_ROWS, ENOUGH } from '../../engine/contract/log-numbers.js';
import { GRACE, type PlannedVisit } from '../../engine/contract/log-totals.js';
import { MEASURED_HOW, minutesAt, type LogRow, type LogTruck } from '../../engine/contract/visit-log.js'; // prettier-ignore
import { L_PER_GALLON } from '../../engine/units.js';
import { KIT_COLUMNS } from '../../tables/kit.js';
import { BELOW_LOG, LOG_COLUMNS } from '../../tables/visit-log.js';
import { cell, formula, SheetDraft, tidy, type ColumnSpec, type Format, type ModelCell, type Scalar, type TablePlace } from '../model.js'; // prettier-ignore
import { logTrees, type ServicePapers } from '../service-papers.js';
import { typedNumber, type Context } from './context.js';
import { FIELD_LISTS } from './field-checks.js';
import type { Built } from './inputs.js';
import { LOG_FLAG_COLUMNS, LOG_PARTS, questionsFormula, questionsText, type LogLimit, type LogPlaces } from './log-columns.js'; // prettier-ignore
import { logValues } from './log-values.js';

type LogKey = keyof typeof LOG_COLUMNS;

/** Blank rows below the visits that are in. */
const MORE_ROWS = 40;

/** What people type, by column: width and format. */
const TYPED: Readonly<Record<LogKey, readonly [width: number, format: Format]>> = {
  tree: [12, 'text'], date: [11, 'date'], arrived: [8, 'time'], left: [8, 'time'], crew: [9, 'text'], truck: [13, 'text'],
  planned: [9, 'one'], applied: [9, 'one'], measured: [10, 'text'], source: [11, 'text'], rain: [9, 'two'],
  probed: [11, 'one'], leaves: [16, 'text'], bag: [9, 'text'], condition: [11, 'text'], photo: [10, 'text'],
  skipped: [14, 'text'], approved: [10, 'text'], truckMinutes: [8, 'one'],
}; // prettier-ignore

const LIMITS = (ctx: Context): readonly (readonly [LogLimit, number, string, string])[] => [
  ['watch', WATCH, 'min', 'a watch may be off at one visit; assumption'],
  ['slack', SLACK, 'share', 'by which pump, tank or truck record may differ before somebody is asked; assumption'],
  ['minutes', LEAST_MINUTES, 'min', 'least difference of a day to the truck record; assumption'],
  ['few', FEW, 'visits', 'from which the pace of a day says something; assumption'],
  ['hydrant', ctx.show('volume', HYDRANT), `${ctx.unit('volume')}/min`, 'at which a tank is filled from a hydrant; secondary, truck operators'],
  ['enough', ENOUGH, 'rows', 'of a day from which like numbers are worth a question; assumption'],
  ['dayRows', DAY_ROWS, 'rows', 'from which a day that repeats another one is; assumption'],
  ['grace', GRACE, 'days', 'a visit may come before or after its day; assumption'],
]; // prettier-ignore

export interface LogSources {
  clocks: LogPlaces['clocks'];
  kit: TablePlace;
  due: LogPlaces['due'];
  /** waterings planned for the days of the log */
  planned: readonly PlannedVisit[];
}

export interface LogRefs {
  place: TablePlace;
  rows: number;
  values: readonly Record<string, Scalar>[];
  flags: readonly LogFlag[];
}

/** Header of one of our columns with the unit of the workbook. */
function headerOf(ctx: Context, key: LogKey): string {
  const { name, unit }: { name: string; unit?: readonly [string, string] } = LOG_COLUMNS[key];
  return unit === undefined ? name : `${name} (${ctx.units === 'US' ? unit[0] : unit[1]})`;
}

/** A row as typed, in the units of the workbook. */
function typedCells(ctx: Context, row: LogRow | undefined): ModelCell[] {
  if (!row) return Object.keys(LOG_COLUMNS).map(() => null);
  const shown: Partial<Record<LogKey, Scalar | undefined>> = {
    ...row,
    date: row.day,
    arrived: row.arrived === undefined ? null : row.arrived / 1440,
    left: row.left === undefined ? null : row.left / 1440,
    planned: row.planned === undefined ? null : typedNumber(ctx.show('volume', row.planned)),
    applied: row.applied === undefined ? null : typedNumber(ctx.show('volume', row.applied)),
    rain: row.rain === undefined ? null : typedNumber(ctx.show('depth', row.rain)),
    probed: row.probed === undefined ? null : typedNumber(ctx.show('depth', row.probed)),
  };
  return (Object.keys(LOG_COLUMNS) as LogKey[]).map((key) => {
    const value = shown[key];
    return value === undefined || value === '' ? null : value;
  });
}

/** Trucks of the kit, as the flags are asked with. */
export const trucksOf = (ctx: Context): LogTruck[] =>
  ctx.kit
    .filter((d) => d.family === 'tanker')
    .map(({ name, flow, volume }) => ({ name, flow, tank: volume }));

const kitColumn = (kit: TablePlace, key: 'name' | 'family' | 'volume' | 'flow'): string =>
  kit.range(`c${KIT_COLUMNS.findIndex((c) => c.key === key)}`);

export function logSheet(ctx: Context, papers: ServicePapers, sources: LogSources): Built<LogRefs> {
  const { log, trees } = papers;
  const gal = ctx.unit('volume');
  const count = log.length + MORE_ROWS;
  const flags = logFlags(log, { trees: logTrees(trees), kit: trucksOf(ctx), units: ctx.units });
  const kinds = new Map<number, LogFlag[]>();
  for (const flag of flags) kinds.set(flag.row, [...(kinds.get(flag.row) ?? []), flag]);
  const values = logValues(ctx, log, count, { trees, due: sources.planned });
  const draft = new SheetDraft('Log', 'Log', { pagesWide: 1 }, 9);
  draft.text([
    cell('Log', 'title'),
    cell('One row a visit to a tree, filled in from the crew sheet. Times as times (7:30), dates as dates, rows in the order of the days. Rows typed below the last one join the table.', 'note'),
    cell('A question is not an accusation: each has an honest answer now and then. The function SOAK.LOG_FLAGS and the panel (Contract, Log) say each in a sentence.', 'note'),
  ]); // prettier-ignore
  draft.skip();
  // the limits stand last but are pointed at from above: their rows are known beforehand
  const limits = LIMITS(ctx);
  const limitsTop = draft.row + count + 3;
  const limit = (key: LogLimit): string => `$A$${limitsTop + 1 + limits.findIndex(([k]) => k === key)}`; // prettier-ignore
  const typed = (Object.keys(LOG_COLUMNS) as LogKey[]).map((key): ColumnSpec => {
    const [width, format] = TYPED[key];
    const align = format === 'text' ? 'left' : 'right';
    return { key, header: headerOf(ctx, key), width, style: 'input', format, align };
  });
  const shown: ColumnSpec[] = [
    { key: 'questions', header: 'Questions', width: 26, style: 'result', wrap: true },
    { key: 'stay', header: 'Minutes there (min)', width: 9, style: 'calculation', format: 'whole' },
    { key: 'gap', header: `Applied less planned (${gal})`, width: 10, style: 'calculation', format: 'one' },
  ]; // prettier-ignore
  const place = draft.table(
    'VisitLog',
    [...typed, ...shown, ...LOG_PARTS, ...LOG_FLAG_COLUMNS],
    count,
    (i, at): ModelCell[] => {
      const row = log[i];
      const own = row ? (kinds.get(row.row) ?? []).map((f) => f.kind) : [];
      const places: LogPlaces = {
        at: (key) => at.here(key, i),
        all: (key) => at.range(key),
        above: (key) => `$${at.letter(key)}$${at.headerRow}:$${at.letter(key)}${at.row(i) - 1}`,
        header: `$A$${at.headerRow}`,
        limit,
        clocks: sources.clocks,
        kit: (key) => kitColumn(sources.kit, key),
        litres: ctx.units === 'US' ? String(L_PER_GALLON) : '1',
        due: sources.due,
      };
      const here = places.at;
      const both = row?.planned !== undefined && row.applied !== undefined;
      return [
        ...typedCells(ctx, row),
        formula(questionsFormula(places), questionsText(own)),
        formula(`IF(${here('timed')}=1,${here('to')}-${here('from')},"")`, row ? (minutesAt(row) ?? '') : ''),
        formula(
          `IF(AND(ISNUMBER(${here('planned')}),ISNUMBER(${here('applied')})),${here('applied')}-${here('planned')},"")`,
          both ? ctx.show('volume', row.applied!) - ctx.show('volume', row.planned!) : '',
        ),
        ...LOG_PARTS.map((c) => formula(c.formula(places), values[i]![c.key]!)),
        ...LOG_FLAG_COLUMNS.map((c, k) => formula(c.formula(places), own.includes(FLAG_KINDS[k]!) ? 1 : 0)),
      ];
    },
  ); // prettier-ignore
  draft.hide(...[...LOG_PARTS, ...LOG_FLAG_COLUMNS].map((c) => place.letter(c.key)));
  draft.validateFrom(place.area('tree'), FIELD_LISTS.trees, 'A tree of the sheet Trees');
  draft.validate(place.area('measured'), [...MEASURED_HOW], `One of: ${MEASURED_HOW.join(', ')}`);
  draft.validate(place.area('bag'), [...BAG_STATES], `One of: ${BAG_STATES.join(', ')}`);
  draft.when(place.area('questions'), `$${place.letter('questions')}${place.row(0)}<>""`, 'look');
  draft.freeze(place.headerRow, 2).repeat(place.headerRow, place.headerRow);
  draft.skip();
  draft.text([cell(BELOW_LOG, 'heading')]);
  const limitPlace = draft.table(
    'LogLimits',
    [
      { key: 'value', header: 'Limit', width: 12, style: 'input', align: 'right' },
      { key: 'unit', header: 'Unit', width: 11 },
      { key: 'what', header: 'What it says', width: 8 },
    ],
    limits.length,
    (i): ModelCell[] => {
      const [, value, unit, what] = limits[i]!;
      return [{ value, format: tidy(value) }, unit, what];
    },
  );
  if (limitPlace.headerRow !== limitsTop) throw new RangeError('the limits of Log moved');
  return { sheet: draft.done(), refs: { place, rows: count, values, flags } };
}
