/** Meters: what passed each meter or hydrant permit, what the log has drawn from it, what it costs. */
import {
  ledger,
  LEDGER_TOLERANCE,
  type LedgerRow,
  type MeterRow,
} from '../../engine/contract/ledger.js';
import { METER_LITRES, METER_UNITS } from '../../engine/contract/meter.js';
import { L_PER_GALLON } from '../../engine/units.js';
import { METER_COLUMNS } from '../../tables/meters.js';
import {
  cell,
  formula,
  SheetDraft,
  type ColumnSpec,
  type Format,
  type ModelCell,
  type Scalar,
  type TablePlace,
} from '../model.js';
import type { ServicePapers } from '../service-papers.js';
import { typedNumber, type Context } from './context.js';
import type { Built } from './inputs.js'; // prettier-ignore

type MeterKey = keyof typeof METER_COLUMNS;

/** Blank rows below the periods that are in. */
const MORE_ROWS = 10;

const TYPED: Readonly<Record<MeterKey, readonly [width: number, format: Format]>> = {
  meter: [13, 'text'], from: [11, 'date'], to: [11, 'date'], begin: [10, 'general'], end: [10, 'general'], unit: [8, 'text'],
  digits: [7, 'plain'], permitFrom: [11, 'date'], permitTo: [11, 'date'], price: [11, 'two'], fixed: [9, 'two'],
  allowance: [10, 'whole'], overPrice: [11, 'two'],
}; // prettier-ignore

/** Questions in a word each, and what of a ledger's row makes each. */
const ASKED: readonly (readonly [word: string, asks: (row: LedgerRow) => boolean])[] = [
  ['reading missing', ({ meter }) => meter.begin === undefined || meter.end === undefined],
  ['reading wrong', ({ meter, used }) => used === undefined && meter.begin !== undefined && meter.end !== undefined],
  ['began again', ({ rolled }) => rolled],
  ['log differs', ({ agrees }) => agrees === false],
  ['outside the permit', ({ questions }) => questions.some((q) => q.startsWith('Water was drawn outside'))],
  ['other unit', ({ questions }) => questions.some((q) => q.startsWith('The unit was'))],
  ['gap', ({ questions }) => questions.some((q) => q.startsWith('It begins at'))],
  ['days overlap', ({ questions }) => questions.some((q) => q.startsWith('Its days overlap'))],
]; // prettier-ignore

export function metersSheet(
  ctx: Context,
  papers: ServicePapers,
  log: TablePlace,
): Built<TablePlace> {
  const { meters } = papers;
  const gal = ctx.unit('volume');
  const money = ctx.plan.site.currency;
  const per = ctx.units === 'US' ? 1000 * L_PER_GALLON : 1000; // [L] a price is for
  const book = ledger(meters, papers.log, LEDGER_TOLERANCE, ctx.units);
  const draft = new SheetDraft('Meters', 'Meters', {}, 9);
  draft.text([
    cell('Meters', 'title'),
    cell('One row a period of a meter or hydrant permit. A row of the log belongs to the period of its source that its day lies in.', 'note'),
  ]); // prettier-ignore
  draft.skip();
  const tolerance = draft.text([
    [
      cell('Share log and meter may differ by; assumption'),
      ...Array.from({ length: 3 }, () => cell(null)),
      cell(LEDGER_TOLERANCE, 'input', { format: 'two' }),
    ],
  ]);
  draft.skip();
  draft.text([cell('Units of meters', 'heading')]);
  const units = draft.table(
    'MeterUnits',
    [
      { key: 'unit', header: 'Unit', width: 13 },
      { key: 'volume', header: `In one (${gal})`, width: 11, style: 'calculation', format: 'general', align: 'right' },
    ],
    METER_UNITS.length,
    (i) => [METER_UNITS[i]!, ctx.show('volume', METER_LITRES[METER_UNITS[i]!])],
  ); // prettier-ignore
  draft.skip();
  draft.text([cell('Ledger', 'heading')]);
  const worked = { style: 'calculation', width: 11, format: 'one' } as const;
  const keys = Object.keys(METER_COLUMNS) as MeterKey[];
  const place = draft.table(
    'Meters',
    [
      ...keys.map((key): ColumnSpec => {
        const { name, unit }: { name: string; unit?: readonly [string, string] } = METER_COLUMNS[key];
        const [width, format] = TYPED[key];
        const own = unit === undefined ? (key === 'fixed' ? ` (${money})` : key === 'begin' || key === 'end' ? ' (in Unit)' : '') : ` (${ctx.units === 'US' ? unit[0] : unit[1]})`;
        return { key, header: `${name}${own}`, width, style: 'input', format, align: format === 'text' ? 'left' : 'right' };
      }),
      { key: 'used', header: `Through it (${gal})`, ...worked, style: 'result' },
      { key: 'logged', header: `In the log (${gal})`, ...worked },
      { key: 'difference', header: `Difference (${gal})`, ...worked, style: 'result' },
      { key: 'over', header: `Above what is included (${gal})`, ...worked },
      { key: 'cost', header: `Cost (${money})`, ...worked, style: 'result', format: 'two' },
      { key: 'questions', header: 'Questions', width: 28, style: 'result', wrap: true },
      { key: 'range', header: 'Counts to (in Unit)', ...worked, format: 'general' },
      { key: 'no', header: 'Number', ...worked, format: 'general' },
      { key: 'after', header: 'Log counts from (date)', ...worked, format: 'general' },
      { key: 'last', header: 'Period before, from (date)', ...worked, format: 'general' },
    ],
    meters.length + MORE_ROWS,
    (i, at): ModelCell[] => {
      const meter = meters[i];
      const row = meter && book.rows[i]!;
      return [
        ...typedCells(ctx, meter, keys, per),
        ...ledgerCells(ctx, row, meters, (key) => at.here(key, i), (key) => at.range(key), { log, units, tolerance: `$E$${tolerance}` }),
      ];
    },
  ); // prettier-ignore
  draft.hide(...['range', 'no', 'after', 'last'].map((key) => place.letter(key)));
  draft.validate(place.area('unit'), [...METER_UNITS], `One of: ${METER_UNITS.join(', ')}`);
  draft.when(place.area('questions'), `$${place.letter('questions')}${place.row(0)}<>""`, 'look');
  draft.skip();
  const [sources, water] = [log.range('source'), log.range('applied')];
  const all = papers.log.reduce((sum, r) => sum + Math.max(0, r.applied ?? 0), 0);
  const metered = book.rows.reduce((sum, r) => sum + r.logged, 0);
  draft.text([
    cell('Not metered', 'heading'),
    [
      cell(`Water in the log that came through no meter of the ledger (${gal})`),
      ...Array.from({ length: 3 }, () => cell(null)),
      formula(`SUM(${water})-SUM(${place.range('logged')})`, ctx.show('volume', all) - ctx.show('volume', metered), { style: 'result', format: 'one' }),
      cell(null),
      formula(`COUNTIFS(${sources},"",${water},">0")&" rows name no source"`, `${papers.log.filter((r) => (r.applied ?? 0) > 0 && r.source === '').length} rows name no source`, { style: 'note' }),
    ],
  ]); // prettier-ignore
  draft.freeze(0, 1);
  return { sheet: draft.done(), refs: place };
}

/** A period as typed, in the units of the workbook. */
function typedCells(
  ctx: Context,
  meter: MeterRow | undefined,
  keys: readonly MeterKey[],
  per: number,
): ModelCell[] {
  return keys.map((key): ModelCell => {
    const value = meter?.[key];
    if (value === undefined || value === '') return null;
    if (key === 'allowance') return typedNumber(ctx.show('volume', value as number));
    // a price inside is for 1 m³
    return key === 'price' || key === 'overPrice'
      ? typedNumber(((value as number) * per) / 1000)
      : value;
  });
}

interface Places {
  log: TablePlace;
  units: TablePlace;
  tolerance: string;
}

function ledgerCells(
  ctx: Context,
  row: LedgerRow | undefined,
  meters: readonly MeterRow[],
  at: (key: string) => string,
  all: (key: string) => string,
  { log, units, tolerance }: Places,
): ModelCell[] {
  const show = (litres: number | undefined): Scalar => (litres === undefined ? '' : ctx.show('volume', litres)); // prettier-ignore
  const [begin, end, range] = [at('begin'), at('end'), at('range')];
  const there = `AND(ISNUMBER(${begin}),ISNUMBER(${end}))`;
  const inOne = `VLOOKUP(${at('unit')},${units.range('unit').replace(/\$A(\$\d+)$/, '$B$1')},2,FALSE)`; // prettier-ignore
  const again = `${range}-${begin}+${end}`;
  const passed = `IF(${end}>=${begin},${end}-${begin},IF(AND(${begin}<${range},2*(${again})<${range}),${again},"?"))`;
  const period = `${log.range('source')},${at('meter')},${log.range('date')},">="&${at('after')},${log.range('date')},"<="&${at('to')}`; // prettier-ignore
  const blank = `${at('meter')}=""`;
  const { meter } = row ?? {};
  const before = meter ? meters.filter((m) => m.meter.trim().toLowerCase() === meter.meter.trim().toLowerCase() && m.from < meter.from) : []; // prettier-ignore
  const lastFrom = Math.max(0, ...before.map((m) => m.from));
  const lastTo = before.find((m) => m.from === lastFrom)?.to ?? 0;
  const rate = `IF(${at('overPrice')}="",${at('price')},${at('overPrice')})`;
  const previous = (key: string): string => `SUMIFS(${all(key)},${all('meter')},${at('meter')},${all('no')},${at('no')}-1)`; // prettier-ignore
  const tests: readonly string[] = [
    `NOT(${there})`,
    `AND(${there},${at('used')}="")`,
    `AND(${there},${at('used')}<>"",${end}<${begin})`,
    `IF(${at('used')}="",FALSE,ABS(${at('difference')})>${tolerance}*${at('used')}+1E-9)`,
    `OR(AND(${at('permitFrom')}<>"",COUNTIFS(${period},${log.range('applied')},">0",${log.range('date')},"<"&${at('permitFrom')})>0),AND(${at('permitTo')}<>"",COUNTIFS(${period},${log.range('applied')},">0",${log.range('date')},">"&${at('permitTo')})>0))`,
    `AND(${at('last')}>0,COUNTIFS(${all('meter')},${at('meter')},${all('from')},${at('last')},${all('unit')},${at('unit')})=0)`,
    `AND(${at('last')}>0,COUNTIFS(${all('meter')},${at('meter')},${all('from')},${at('last')},${all('unit')},${at('unit')})>0,ISNUMBER(${begin}),COUNTIFS(${all('meter')},${at('meter')},${all('from')},${at('last')},${all('end')},">=0")>0,${previous('end')}<>${begin})`,
    `AND(${at('last')}>0,${at('from')}<${previous('to')})`,
  ]; // prettier-ignore
  const asked = row ? ASKED.filter(([, asks]) => asks(row)).map(([word]) => `${word}?`) : [];
  const questions = ASKED.map(([word], k) => `IF(${tests[k]},"${word}? ","")`).join('&');
  const digits = meter?.digits ?? (meter?.begin === undefined ? 1 : String(Math.floor(meter.begin)).length); // prettier-ignore
  return [
    formula(`IF(${blank},"",IF(${there},IF(ISNUMBER(${passed}),${passed}*${inOne},""),""))`, show(row?.used)),
    formula(`IF(${blank},"",SUMIFS(${log.range('applied')},${period}))`, row ? ctx.show('volume', row.logged) : ''),
    formula(`IF(${at('used')}="","",${at('used')}-${at('logged')})`, show(row?.difference)),
    formula(`IF(OR(${at('used')}="",${at('allowance')}=""),"",MAX(0,${at('used')}-${at('allowance')}))`, row?.used === undefined || row.meter.allowance === undefined ? '' : ctx.show('volume', row.over)),
    formula(`IF(OR(${at('used')}="",AND(${at('price')}="",${at('fixed')}="",${at('overPrice')}="")),"",SUM(${at('fixed')})+IF(${at('allowance')}="",${at('used')}/1000*SUM(${at('price')}),${at('over')}/1000*SUM(${rate})))`, row?.cost ?? ''),
    formula(`IF(${blank},"",TRIM(${questions}))`, asked.join(' ')),
    formula(`10^IF(${at('digits')}="",LEN(INT(${begin})),${at('digits')})`, 10 ** digits),
    formula(`IF(${blank},0,1+COUNTIFS(${all('meter')},${at('meter')},${all('from')},"<"&${at('from')}))`, meter ? before.length + 1 : 0),
    formula(`IF(${blank},0,IF(${at('no')}<=1,${at('from')},MAX(${at('from')},1+${previous('to')})))`, meter ? Math.max(meter.from, lastTo + 1) : 0),
    formula(`IF(OR(${blank},${at('no')}<=1),0,SUMIFS(${all('from')},${all('meter')},${at('meter')},${all('no')},${at('no')}-1))`, meter ? lastFrom : 0),
  ]; // prettier-ignore
}
