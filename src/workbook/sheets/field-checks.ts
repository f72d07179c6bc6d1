/** Field checks: timings and weighings from the round; a row filled in says what it means and what to do. */
import {
  CLOGGED_BELOW,
  FAULTY_AFTER_HOURS,
  LEAKING_FROM,
  ROUNDING,
} from '../../engine/means/bag-check.js';
import type { Device, Family } from '../../engine/plan/model.js';
import type { Units } from '../../engine/units.js';
import { KIT_COLUMNS } from '../../tables/kit.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import {
  cell,
  SheetDraft,
  type ColumnSpec,
  type Format,
  type ModelCell,
  type Scalar,
  type TablePlace,
} from '../model.js';
import { both, type Call } from '../native-twins.js';
import type { Context } from './context.js';
import {
  ACTIONS,
  bagShown,
  FLOW_HIGH,
  FLOW_LOW,
  flowShown,
  PAD_USABLE,
  PAD_WEAK,
  padShown,
  WANTED,
  type FieldReadings,
  type Shown,
} from './field-readings.js';
import type { Built } from './inputs.js';

/** Rows to fill in each table, the example among them. */
export const FIELD_ROWS = 20;
/** Names of the pick lists in the workbook. */
export const FIELD_LISTS = { trees: 'Field_Trees', devices: 'Kit_Devices' } as const;

/** One invented reading a table, from devices of the kit where it has any. */
export function exampleReadings(ctx: Context): FieldReadings {
  const named = (family: Family): Device | undefined => ctx.kit.find((d) => d.family === family);
  const about = (device: Device | undefined) => ({
    date: ctx.madeOn,
    tree: 'example, invented',
    device: device?.name ?? '',
  });
  const bag = named('bag');
  const timed = bag?.holes !== undefined && bag.ratedHours !== undefined;
  return {
    bags: [{ ...about(bag), ...(!timed && { holes: 4, ratedHours: 6 }), hours: 9, left: 0.04 }],
    flows: [{ ...about(named('soaker')), volume: 2, seconds: 90 }],
    pads: [{ ...about(named('pad')), saturated: 26, dry: 2, now: 4 }],
  };
}

export interface FieldSources {
  kit: TablePlace;
  site: (key: SiteKey) => string;
}

const LIMITS = [
  { key: 'faulty', value: FAULTY_AFTER_HOURS, unit: 'h', what: 'a full bag that takes longer is faulty; published guidance of a London borough council' },
  { key: 'leaking', value: LEAKING_FROM, unit: 'times its holes', what: 'a bag that drains faster is torn or leaking; assumption' },
  { key: 'clogged', value: CLOGGED_BELOW, unit: 'of its holes', what: 'fewer open holes: flush; assumption' },
  { key: 'low', value: FLOW_LOW, unit: 'of the flow on Kit', what: 'less is low; assumption' },
  { key: 'high', value: FLOW_HIGH, unit: 'of the flow on Kit', what: 'more is high; assumption' },
  { key: 'weak', value: PAD_WEAK, unit: 'of the volume on Kit', what: 'a pad that holds less is weak; assumption' },
  { key: 'usable', value: PAD_USABLE, unit: 'share', what: 'of a pad’s water that roots can draw, where the row gives none; assumption' },
] as const; // prettier-ignore
type Limit = (typeof LIMITS)[number]['key'];

const HAIR = String(ROUNDING).toUpperCase();
const text = (words: string): string => `"${words.replaceAll('"', '""')}"`;

/** A computed column: formula of the row, under the name of what it shows. */
interface Worked extends ColumnSpec {
  formula: (at: (key: string) => string, call: Call) => string;
}

/** A table to fill in: inputs, verdict and action beside them, the numbers behind them to the right. */
interface FieldTable {
  name: string;
  heading: string;
  note: string;
  inputs: ColumnSpec[];
  worked: Worked[];
  entries: readonly (readonly Scalar[])[];
  shown: readonly Shown[];
}

const result = { style: 'result' } as const;
const part = { style: 'calculation', width: 11, format: 'two' } as const;
const typed = (key: string, header: string, format: Format = 'general'): ColumnSpec => ({
  key, header, width: 11, style: 'input', format, align: 'right',
}); // prettier-ignore

const READING: ColumnSpec[] = [
  { key: 'date', header: 'Date', width: 12, style: 'input', format: 'date' },
  { key: 'tree', header: 'Tree', width: 18, style: 'input', format: 'text', wrap: true },
  { key: 'device', header: 'Device', width: 22, style: 'input', format: 'text', wrap: true },
];

/** Kit looked up by the device of the row; '' where Kit says nothing. */
function kitOf(kit: TablePlace) {
  const column = (key: keyof Device): string =>
    kit.range(`c${KIT_COLUMNS.findIndex((c) => c.key === key)}`);
  return (device: string, key: keyof Device): string => {
    const place = `MATCH(${device}&"",${column('name')},0)`;
    const there = `INDEX(${column(key)},${place})`;
    return `IF(ISNA(${place}),"",IF(${there}="","",${there}))`;
  };
}

/** 1 when every test holds, 0 when one does not, nothing while the key cell is blank. */
const ready = (key: string, numbers: string[], tests: string[]): string =>
  `IF(${key}="","",IF(AND(${numbers.map((n) => `ISNUMBER(${n})`).join(',')}),IF(AND(${tests.join(',')}),1,0),0))`;

/** Nothing for a blank row, what is missing for an incomplete one, else the answer. */
const answer = (readyCell: string, missing: string, then: string): string =>
  `IF(${readyCell}="","",IF(${readyCell}=0,${text(missing)},${then}))`;
const number = (readyCell: string, then: string): string => `IF(${readyCell}=1,${then},"")`;

type Refs = {
  kit: ReturnType<typeof kitOf>;
  limit: (key: Limit) => string;
  site: FieldSources['site'];
};

function bagTable(ctx: Context, { kit, limit }: Refs, { bags }: FieldReadings): FieldTable {
  const gal = ctx.unit('volume');
  const over = (a: string, b: string): string => `${a}>${b}*(1+${HAIR})`;
  return {
    name: 'BagTimings',
    heading: 'Bag timings',
    note: 'From a full bag: hours until empty, or hours until a share is left. Holes and rated hours come from Kit unless they are filled in.',
    inputs: [
      ...READING,
      typed('givenHoles', 'Holes, if not as on Kit'),
      typed('givenRated', 'Rated hours, if not as on Kit'),
      typed('hours', 'Hours timed (h)'),
      typed('share', 'Share left (0 to 0.99)'),
    ],
    worked: [
      { key: 'verdict', header: 'Verdict', ...result, width: 18, wrap: true,
        formula: (at) => answer(at('ready'), WANTED.bag,
          `IF(${over(at('full'), limit('faulty'))},"replace",IF(${over(at('open'), `${limit('leaking')}*${at('holes')}`)},"replace",IF(${at('open')}<${limit('clogged')}*${at('holes')}*(1-${HAIR}),"flush","ok")))`) },
      { key: 'action', header: 'Next action', ...result, width: 46, wrap: true,
        formula: (at) => `IF(${at('verdict')}="ok",${text(ACTIONS.bagOk)},IF(${at('verdict')}="flush",${text(ACTIONS.flush[0])}&ROUND(${at('open')},1)&${text(ACTIONS.flush[1])}&${at('holes')}&${text(ACTIONS.flush[2])},IF(${at('verdict')}="replace",IF(${over(at('full'), limit('faulty'))},${text(ACTIONS.slow[0])}&${limit('faulty')}&${text(ACTIONS.slow[1])},${text(ACTIONS.leaking)}),"")))` },
      { key: 'ready', header: 'Complete (0 or 1)', ...part, format: 'whole',
        formula: (at) => ready(at('hours'), [at('hours'), at('holes'), at('rated')],
          [`${at('hours')}>0`, `${at('holes')}>=1`,
            `INT(${at('holes')})=${at('holes')}`, `${at('rated')}>0`, `OR(${at('share')}="",ISNUMBER(${at('share')}))`, `${at('share')}>=0`, `${at('share')}<1`]) },
      { key: 'holes', header: 'Holes', ...part, format: 'whole',
        formula: (at) => `IF(${at('hours')}="","",IF(${at('givenHoles')}<>"",${at('givenHoles')},${kit(at('device'), 'holes')}))` },
      { key: 'rated', header: 'Rated (h)', ...part,
        formula: (at) => `IF(${at('hours')}="","",IF(${at('givenRated')}<>"",${at('givenRated')},${kit(at('device'), 'ratedHours')}))` },
      { key: 'open', header: 'Open holes', ...part,
        formula: (at, call) => number(at('ready'), call('BAG_OPEN_HOLES', [at('holes'), at('rated'), at('hours'), at('share')])) },
      { key: 'full', header: 'Full drain now (h)', ...part,
        formula: (at) => number(at('ready'), `${at('hours')}/(1-SQRT(${at('share')}))`) },
      { key: 'flow', header: `Mean flow (${gal}/h)`, ...part,
        formula: (at) => number(at('ready'), `IF(ISNUMBER(${kit(at('device'), 'volume')}),${kit(at('device'), 'volume')}*(1-${at('share')})/${at('hours')},"")`) },
    ],
    entries: bags.map((b) => [b.date, b.tree, b.device || null, b.holes ?? null, b.ratedHours ?? null, b.hours, b.left ?? null]),
    shown: bags.map((b) => bagShown(b, device(ctx, b.device), ctx.units, FAULTY_AFTER_HOURS)),
  };
} // prettier-ignore

const device = (ctx: Context, name: string): Device | undefined =>
  ctx.kit.find((d) => d.name === name);

function flowTable(ctx: Context, { kit, limit }: Refs, { flows }: FieldReadings): FieldTable {
  const gal = ctx.unit('volume');
  const flow = ctx.units === 'US' ? 'gpm' : 'L/min';
  const kPa = ctx.units === 'US' ? 'psi' : 'kPa';
  return {
    name: 'FlowReadings',
    heading: 'Hose and tap readings',
    note: 'Fill a bucket against a stopwatch. Device blank: a tap. Give both pressures where a hose is not at the pressure it was measured at.',
    inputs: [
      ...READING,
      typed('volume', `Volume (${gal})`),
      typed('seconds', 'Seconds (s)'),
      typed('pressure', `Pressure now (${kPa})`),
      typed('ratedPressure', `Pressure when measured (${kPa})`),
    ],
    worked: [
      { key: 'verdict', header: 'Verdict', ...result, width: 18, wrap: true,
        formula: (at) => answer(at('ready'), WANTED.flow,
          `IF(${at('share')}="","noted",IF(${at('share')}<${limit('low')}*(1-${HAIR}),"low",IF(${at('share')}>${limit('high')}*(1+${HAIR}),"high","ok")))`) },
      { key: 'action', header: 'Next action', ...result, width: 46, wrap: true,
        formula: (at) => `IF(${at('verdict')}="ok",${text(ACTIONS.flowOk)},IF(${at('verdict')}="low",${text(ACTIONS.low)},IF(${at('verdict')}="high",${text(ACTIONS.high)},IF(${at('verdict')}="noted",${text(ACTIONS.noted)},""))))` },
      { key: 'ready', header: 'Complete (0 or 1)', ...part, format: 'whole',
        formula: (at) => ready(at('seconds'), [at('volume'), at('seconds')], [`${at('volume')}>0`, `${at('seconds')}>0`]) },
      { key: 'flow', header: `Flow (${flow})`, ...part, formula: (at, call) => number(at('ready'), call('BUCKET_FLOW', [at('volume'), at('seconds')])) },
      { key: 'expected', header: `Flow on Kit (${flow})`, ...part,
        formula: (at, call) => {
          const [rate, length, own] = (['rate', 'length', 'flow'] as const).map((key) => kit(at('device'), key)) as [string, string, string];
          const pressed = `IF(AND(ISNUMBER(${at('pressure')}),ISNUMBER(${at('ratedPressure')}),${at('ratedPressure')}>0),${at('pressure')}/${at('ratedPressure')},1)`;
          const hose = call('HOSE_FLOW', [length, rate, pressed, '1']);
          return number(at('ready'), `IF(AND(ISNUMBER(${rate}),ISNUMBER(${length})),${hose},${own})`);
        } },
      { key: 'share', header: 'Share of Kit', ...part,
        formula: (at) => number(at('ready'), `IF(ISNUMBER(${at('expected')}),${at('flow')}/${at('expected')},"")`) },
    ],
    entries: flows.map((f) => [f.date, f.tree, f.device || null, f.volume, f.seconds, f.pressure ?? null, f.rated ?? null]),
    shown: flows.map((f) => flowShown(f, device(ctx, f.device), ctx.units)),
  };
} // prettier-ignore

function padTable(ctx: Context, { kit, limit, site }: Refs, { pads }: FieldReadings): FieldTable {
  const gal = ctx.unit('volume');
  const lb = ctx.units === 'US' ? 'lb' : 'kg';
  const usable = (at: (key: string) => string): string => `IF(${at('usable')}="",${limit('usable')},${at('usable')})`;
  return {
    name: 'PadWeights',
    heading: 'Pad weights',
    note: 'Weigh a pad dry, soaked in the water it gets, and, to see what is left, as it lies there now.',
    inputs: [
      ...READING,
      typed('saturated', `Soaked (${lb})`),
      typed('dry', `Dry (${lb})`),
      typed('now', `Now, if weighed (${lb})`),
      typed('usable', 'Usable share (blank: as below)'),
    ],
    worked: [
      { key: 'verdict', header: 'Verdict', ...result, width: 18, wrap: true,
        formula: (at) => answer(at('ready'), WANTED.pad,
          `IF(AND(ISNUMBER(${at('share')}),${at('share')}<=${site('padReserve')}*(1+${HAIR})),"soak",IF(AND(ISNUMBER(${at('ofKit')}),${at('ofKit')}<${limit('weak')}*(1-${HAIR})),"weak","ok"))`) },
      { key: 'action', header: 'Next action', ...result, width: 46, wrap: true,
        formula: (at) => `IF(${at('verdict')}="ok",${text(ACTIONS.padOk)},IF(${at('verdict')}="soak",${text(ACTIONS.soak)},IF(${at('verdict')}="weak",${text(ACTIONS.weak)},"")))` },
      { key: 'ready', header: 'Complete (0 or 1)', ...part, format: 'whole',
        formula: (at) => ready(at('saturated'), [at('saturated'), at('dry'), usable(at)], [`${at('dry')}>0`, `${at('saturated')}>${at('dry')}`, `${usable(at)}>0`, `${usable(at)}<=1`]) },
      { key: 'held', header: `Usable water (${gal})`, ...part, formula: (at, call) => number(at('ready'), call('PAD_VOLUME', [at('saturated'), at('dry'), usable(at)])) },
      { key: 'left', header: `Left now (${gal})`, ...part,
        formula: (at, call) => number(at('ready'), `IF(ISNUMBER(${at('now')}),MAX(0,${call('PAD_VOLUME', [at('now'), at('dry'), usable(at)])}),"")`) },
      { key: 'share', header: 'Share left', ...part, formula: (at) => number(at('ready'), `IF(ISNUMBER(${at('left')}),${at('left')}/${at('held')},"")`) },
      { key: 'ofKit', header: 'Share of Kit', ...part,
        formula: (at) => number(at('ready'), `IF(ISNUMBER(${kit(at('device'), 'volume')}),${at('held')}/${kit(at('device'), 'volume')},"")`) },
    ],
    entries: pads.map((p) => [p.date, p.tree, p.device || null, p.saturated, p.dry, p.now ?? null, p.usable ?? null]),
    shown: pads.map((p) => {
      const { volume, ...rest } = padShown(p, device(ctx, p.device), ctx.units, ctx.plan.site.padReserve);
      return { ...rest, held: volume! };
    }),
  };
} // prettier-ignore

/**
 * @param readings - rows filled in beforehand; default: one invented example a table
 * @param rows - rows of each table
 */
export function fieldChecksSheet(
  ctx: Context,
  refs: FieldSources,
  readings: FieldReadings = exampleReadings(ctx),
  rows = FIELD_ROWS,
): Built<Record<'bags' | 'flows' | 'pads', TablePlace>> {
  const draft = new SheetDraft('Field checks', 'Field checks', {}, 9);
  draft.text([
    cell('Field checks', 'title'),
    cell('Fill in the straw-coloured cells of a row; verdict, next action and numbers follow. The first row of each table is an invented example: write over it.', 'note'),
  ]); // prettier-ignore
  draft.skip();
  // the limits stand last but are pointed at from above: their rows are known beforehand
  const all = [readings.bags, readings.flows, readings.pads];
  const counts = all.map((entries) => Math.max(rows, entries.length));
  const limitsTop = draft.row + counts.reduce((sum, count) => sum + count + 4, 0) + 1;
  const limit = (key: Limit): string =>
    `$A$${limitsTop + 1 + LIMITS.findIndex((l) => l.key === key)}`;
  const sources: Refs = { kit: kitOf(refs.kit), limit, site: refs.site };
  const [bags, flows, pads] = [
    bagTable(ctx, sources, readings),
    flowTable(ctx, sources, readings),
    padTable(ctx, sources, readings),
  ].map((table, i) => fieldTable(draft, table, counts[i]!, ctx.units)) as [
    TablePlace,
    TablePlace,
    TablePlace,
  ];
  draft.text([cell('Limits', 'heading')]);
  const limits = draft.table(
    'FieldLimits',
    [
      { key: 'value', header: 'Limit', width: 12, style: 'input', align: 'right' },
      { key: 'unit', header: 'Unit', width: 18 },
      { key: 'what', header: 'What it says', width: 22 },
    ],
    LIMITS.length,
    (i) => [LIMITS[i]!.value, LIMITS[i]!.unit, LIMITS[i]!.what],
  );
  if (limits.headerRow !== limitsTop) throw new RangeError('the limits of Field checks moved');
  draft.breakAfter(pads.headerRow - 3);
  return { sheet: draft.done(), refs: { bags, flows, pads } };
}

function fieldTable(draft: SheetDraft, table: FieldTable, rows: number, units: Units): TablePlace {
  const { inputs, worked, entries, shown } = table;
  draft.text([cell(table.heading, 'heading'), cell(table.note, 'note')]);
  const place = draft.table(table.name, [...inputs, ...worked], rows, (i, at): ModelCell[] => [
    ...inputs.map((_, c) => entries[i]?.[c] ?? null),
    ...worked.map((w): ModelCell => ({
      value: shown[i]?.[w.key] ?? '',
      ...both(units, (call) => w.formula((key) => at.here(key, i), call)),
    })),
  ]);
  draft.validateFrom(place.area('tree'), FIELD_LISTS.trees, 'A tree of the sheet Trees');
  draft.validateFrom(place.area('device'), FIELD_LISTS.devices, 'A device of the sheet Kit');
  const [first, verdict] = [place.row(0), place.letter('verdict')];
  draft.when(
    place.area('verdict', 'action'),
    `AND($${verdict}${first}<>"",$${verdict}${first}<>"ok",$${verdict}${first}<>"noted")`,
    'look',
  );
  draft.skip();
  return place;
}
