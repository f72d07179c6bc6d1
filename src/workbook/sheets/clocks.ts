/** Clocks: term and inspection of every tree, what has become of it, and the register of bags that are out. */
import {
  BAG_CARE,
  BAG_STATES,
  bagQuestions,
  type BagQuestion,
} from '../../engine/contract/bag-register.js';
import type { Clause } from '../../engine/contract/clauses.js';
import { clockOf, DEAD_SHARE, deadBy } from '../../engine/contract/clocks.js';
import { civil, dayOf, type Day } from '../../engine/dates.js';
import { BAG_COLUMNS, CLOCK_COLUMNS, TREE_STATES } from '../../tables/clocks.js';
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
import { both } from '../native-twins.js';
import type { PaperTree, ServicePapers } from '../service-papers.js';
import type { Context } from './context.js';
import { FIELD_LISTS } from './field-checks.js';
import type { Built } from './inputs.js';
import type { LogPlaces } from './log-columns.js'; // prettier-ignore

/** Months of a term where neither row nor contract says one: assumption, two years. */
const TERM = 24;
/** Months after which a tree is inspected: assumption, once a year. */
const INSPECT = 12;
/** Days an inspection may come early or late, as `clockOf` has it [days]. */
const INSPECT_GRACE = 30;
/** Blank rows of the register. */
const BAG_ROWS = 10;

/** The months the contract's longest duty lasts, or the assumption. */
function termOf(clauses: readonly Clause[]): { months: number; source: string } {
  const months = clauses.flatMap(({ until }) => (until && 'months' in until ? [until.months] : []));
  return months.length > 0
    ? { months: Math.max(...months), source: 'the longest Until of the sheet Contract' }
    : { months: TERM, source: 'assumption, where the contract names no months' };
}

export interface ClocksRefs {
  place: TablePlace;
  column: LogPlaces['clocks'];
}

type SettingKey = 'asOf' | 'months' | 'inspect' | 'grace' | 'dead' | 'move' | 'full' | 'offBy';

export function clocksSheet(ctx: Context, papers: ServicePapers): Built<ClocksRefs> {
  const draft = new SheetDraft('Clocks', 'Clocks', {}, 9);
  const asOf = Math.max(ctx.madeOn, ...papers.log.map((row) => row.day));
  const term = termOf(papers.clauses);
  const offBy = dayOf(civil(ctx.plan.site.seasonTo).year, 11, 15);
  draft.text([
    cell('Clocks', 'title'),
    cell('Terms run from planting, or again from a replacement; days of inadequate work do not count. Straw-coloured cells are yours.', 'note'),
  ]); // prettier-ignore
  draft.skip();
  const settings: [SettingKey, Scalar, string, string, Format][] = [
    ['asOf', asOf, 'date', 'The day asked about; change it to look ahead', 'date'],
    ['months', term.months, 'months', `Term of a row without its own: ${term.source}`, 'whole'],
    ['inspect', INSPECT, 'months', 'after the start a tree is inspected; assumption', 'whole'],
    ['grace', INSPECT_GRACE, 'days', 'an inspection may come early or late; assumption', 'whole'],
    ['dead', DEAD_SHARE, 'share', 'of the canopy died back, from which the contract calls a tree dead; a specification of 2009', 'two'],
    ['move', BAG_CARE.moveDays, 'days', 'after which a bag is lifted and the bark looked at; common practice, no source', 'whole'],
    ['full', BAG_CARE.fullDays, 'days', 'after which a bag still full is reported; a London borough’s advice', 'whole'],
    ['offBy', offBy, 'date', 'day by which all bags are off; assumption', 'date'],
  ]; // prettier-ignore
  const settingPlace = draft.table(
    'ClockSettings',
    [
      { key: 'value', header: 'Setting', width: 14, style: 'input', align: 'right' },
      { key: 'unit', header: 'Unit', width: 12 },
      { key: 'what', header: 'What it says', width: 12 },
    ],
    settings.length,
    (i) => {
      const [, value, unit, what, format] = settings[i]!;
      return [{ value, format }, unit, what];
    },
  );
  const set = (key: SettingKey): string => `$A$${settingPlace.row(settings.findIndex(([k]) => k === key))}`; // prettier-ignore
  draft.skip();
  draft.text([cell('Trees', 'heading')]);
  const place = treeClocks(ctx, draft, papers.trees, { set, asOf, months: term.months });
  draft.skip();
  draft.text([
    cell('Bags that are out', 'heading'),
    cell('One row a bag. What to do follows from the dates; rows typed below the last one join the table.', 'note'),
  ]); // prettier-ignore
  bagTable(draft, papers, set, asOf, offBy);
  draft.freeze(0, 1);
  return { sheet: draft.done(), refs: { place, column: (key) => place.range(key) } };
}

const typed = (key: keyof typeof CLOCK_COLUMNS, header: string, width: number, format: Format): ColumnSpec => ({
  key, header, width, style: 'input', format, align: format === 'text' ? 'left' : 'right',
}); // prettier-ignore
const worked = { style: 'calculation', width: 9 } as const;

interface ClockSetting {
  set: (key: SettingKey) => string;
  asOf: Day;
  months: number;
}

/** What a tree's clock shows by the engine; blanks where it has no planting date. */
function clockShown({ planted, clock }: PaperTree, { asOf, months }: ClockSetting) {
  const dead = deadBy(clock?.diedBack ?? 0, clock?.leaderDead ?? false);
  const fate = clock !== undefined && clock.status !== 'alive' ? clock.status : dead ? 'dead by the contract' : ''; // prettier-ignore
  if (planted === undefined) return { start: '', end: '', left: '', due: '', inspection: '', state: fate || 'no planting date' }; // prettier-ignore
  const replaced = clock?.replaced !== undefined && clock.replaced <= asOf ? [clock.replaced] : [];
  const start = Math.max(planted, ...replaced);
  const lost = clock?.uncredited ?? 0;
  const found = clockOf(
    {
      planted,
      months: clock?.months ?? months,
      replaced,
      inspections: [INSPECT],
      inspected: clock?.inspected === undefined ? [] : [clock.inspected],
      uncredited: lost > 0 ? [{ from: start, to: start + lost - 1 }] : [],
    },
    Math.max(asOf, start + lost),
  );
  const end = found.end;
  const [inspection] = found.inspections;
  const state = inspection!.state === 'made' ? 'made' : asOf >= inspection!.due ? 'due' : 'coming';
  return {
    start, end, left: Math.max(0, end - Math.max(asOf, start)), due: inspection!.due,
    inspection: state, state: fate || (asOf >= end ? 'over' : 'running'),
  }; // prettier-ignore
}

function treeClocks(ctx: Context, draft: SheetDraft, trees: readonly PaperTree[], setting: ClockSetting): TablePlace {
  const { set } = setting;
  const trunk = ctx.unit('trunk');
  const columns: ColumnSpec[] = [
    { key: 'tree', header: 'Tree', width: 14, format: 'text', align: 'left' },
    typed('planted', 'Planted', 11, 'date'),
    typed('months', 'Term (months)', 9, 'whole'),
    typed('uncredited', 'Days not credited (days)', 9, 'whole'),
    typed('replaced', 'Replaced on', 11, 'date'),
    typed('inspected', 'Inspected on', 11, 'date'),
    typed('diedBack', 'Died back (share)', 9, 'two'),
    typed('leader', 'Leader dead', 8, 'text'),
    typed('status', 'Status', 9, 'text'),
    typed('since', 'Since', 11, 'date'),
    { key: 'start', header: 'Start', ...worked, width: 11, format: 'date' },
    { key: 'end', header: 'End of term', width: 11, style: 'result', format: 'date' },
    { key: 'left', header: 'Days left (days)', ...worked, format: 'whole' },
    { key: 'due', header: 'Inspection', ...worked, width: 11, format: 'date' },
    { key: 'inspection', header: 'Inspection is', width: 10, style: 'result' },
    { key: 'state', header: 'Term is', width: 22, style: 'result' },
    { key: 'gone', header: 'Gone (0 or 1)', ...worked, format: 'whole' },
    { key: 'caliper', header: `Trunk (${trunk})`, ...worked, format: 'general', align: 'right' },
    { key: 'height', header: `Height (${ctx.unit('canopy')})`, ...worked, format: 'general', align: 'right' },
    { key: 'species', header: 'Species', ...worked, format: 'text' },
    { key: 'site', header: 'Site', ...worked, format: 'text' },
  ];
  const place = draft.table('Clocks', columns, trees.length, (i, at): ModelCell[] => {
    const tree = trees[i]!;
    const { clock } = tree;
    const here = (key: string): string => at.here(key, i);
    const shown = clockShown(tree, setting);
    const unless = (then: string): string => `IF(${here('planted')}="","",${then})`;
    const status = `IF(OR(${here('status')}="dead",${here('status')}="removed"),1,0)`;
    const started = `${here('replaced')}*(${here('replaced')}<=${set('asOf')})`;
    const ends = {
      value: shown.end,
      ...both(ctx.units, (call) => unless(call('WARRANTY_END', [here('planted'), `IF(${here('months')}="",${set('months')},${here('months')})`, `SUM(${here('uncredited')})`, started]))),
    };
    const inspection = {
      value: shown.due,
      ...both(ctx.units, (call) => unless(call('WARRANTY_END', [here('start'), set('inspect')]))),
    };
    return [
      tree.id, tree.planted ?? null, clock?.months ?? null, clock?.uncredited ?? null, clock?.replaced ?? null,
      clock?.inspected ?? null, clock?.diedBack ?? null, clock?.leaderDead ? 'yes' : null,
      clock && clock.status !== 'alive' ? clock.status : null, clock?.since ?? null,
      formula(unless(`MAX(${here('planted')},${started})`), shown.start),
      ends,
      formula(unless(`MAX(0,${here('end')}-MAX(${set('asOf')},${here('start')}))`), shown.left),
      inspection,
      formula(unless(`IF(AND(${here('inspected')}<>"",ABS(${here('inspected')}-${here('due')})<=${set('grace')}),"made",IF(${set('asOf')}>=${here('due')},"due","coming"))`), shown.inspection),
      formula(`IF(${here('gone')}=1,${here('status')},IF(OR(${here('leader')}="yes",SUM(${here('diedBack')})>=${set('dead')}),"dead by the contract",IF(${here('planted')}="","no planting date",IF(${set('asOf')}>=${here('end')},"over","running"))))`, shown.state),
      formula(status, clock && clock.status !== 'alive' ? 1 : 0),
      tree.caliper === undefined ? null : ctx.show('trunk', tree.caliper),
      tree.height === undefined ? null : ctx.show('canopy', tree.height),
      tree.species, tree.site,
    ];
  });
  draft.hide(...['gone', 'caliper', 'height', 'species', 'site'].map((key) => place.letter(key)));
  draft.validate(place.area('leader'), ['no', 'yes'], 'yes where the leader has died');
  draft.validate(place.area('status'), [...TREE_STATES], `One of: ${TREE_STATES.join(', ')}; blank is alive`);
  const [first, state, inspection] = [place.row(0), place.letter('state'), place.letter('inspection')];
  draft.when(place.area('state'), `OR($${state}${first}="dead by the contract",$${state}${first}="dead")`, 'look');
  draft.when(place.area('inspection'), `$${inspection}${first}="due"`, 'look');
  return place;
} // prettier-ignore

/** What to do in a word each, in the order of the engine. */
const BAG_WORDS: readonly BagQuestion['kind'][] = ['dates', 'leaking', 'stuck', 'still full', 'move', 'off']; // prettier-ignore
const bagWords = (kinds: readonly string[]): string =>
  BAG_WORDS.filter((k) => kinds.includes(k))
    .map((k) => `${k}?`)
    .join(' ');

function bagTable(
  draft: SheetDraft,
  { bags }: ServicePapers,
  set: ClockSetting['set'],
  asOf: Day,
  offBy: Day,
): void {
  const asked = bagQuestions(bags, asOf, { ...BAG_CARE, offBy });
  const keys = Object.keys(BAG_COLUMNS) as (keyof typeof BAG_COLUMNS)[];
  const isText = (key: string): boolean => ['bag', 'tree', 'state'].includes(key);
  const place = draft.table(
    'BagRegister',
    [
      ...keys.map((key): ColumnSpec => ({
        key, header: BAG_COLUMNS[key].name, width: 11, style: 'input',
        format: isText(key) ? 'text' : 'date', align: isText(key) ? 'left' : 'right',
      })),
      { key: 'todo', header: 'To do', width: 24, style: 'result' },
    ],
    bags.length + BAG_ROWS,
    (i, at): ModelCell[] => {
      const bag = bags[i];
      const here = (key: string): string => at.here(key, i);
      const day = set('asOf');
      const out = `OR(${here('fitted')}="",${here('fitted')}>${day},${here('state')}="gone")`;
      const early = `IF(AND(${here('off')}<>"",${here('off')}<${here('fitted')}),"dates? ","")`;
      const word = (test: string, text: string): string => `IF(${test},"${text}? ","")`;
      const inUse = [
        word(`OR(${here('state')}="leaking",${here('state')}="torn")`, 'leaking'),
        word(`${here('state')}="stuck"`, 'stuck'),
        word(`AND(${here('filled')}<>"",${here('fullOn')}<>"",${here('fullOn')}-${here('filled')}>=${set('full')})`, 'still full'),
        word(`${day}-IF(${here('moved')}="",${here('fitted')},${here('moved')})>=${set('move')}`, 'move'),
        word(`AND(${set('offBy')}<>"",${day}>=${set('offBy')})`, 'off'),
      ].join('&');
      const isOff = `AND(${here('off')}<>"",${here('off')}<=${day})`;
      const found = bag ? asked.filter((q) => q.row === bag.row).map((q) => q.kind) : [];
      return [
        ...keys.map((key): ModelCell => {
          const value = bag?.[key];
          return value === undefined || value === '' ? null : value;
        }),
        formula(`TRIM(IF(${here('fitted')}="","",${early})&IF(OR(${isOff},${out}),"",${inUse}))`, bagWords(found)),
      ];
    },
  ); // prettier-ignore
  draft.validateFrom(place.area('tree'), FIELD_LISTS.trees, 'A tree of the sheet Trees');
  draft.validate(place.area('state'), [...BAG_STATES], `One of: ${BAG_STATES.join(', ')}`);
  draft.when(place.area('todo'), `$${place.letter('todo')}${place.row(0)}<>""`, 'look');
}
