/** Estimate: what a client gets, with the office's costs beside it. */
import { isoDate } from '../../engine/dates.js';
import type { RuleComparison } from '../../engine/money/against-rules.js';
import type { Estimate, EstimateLine } from '../../engine/money/estimate.js';
import { RULES_OF_THUMB } from '../../engine/tree/rules-of-thumb.js';
import { L_PER_GALLON } from '../../engine/units.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import {
  asked,
  caution,
  comparisonWords,
  count,
  hoursWords,
  lineWords,
  otherwise,
  plural,
  RULE_WORDS,
  terms,
} from '../estimate-words.js';
import {
  cell,
  formula,
  lines,
  SheetDraft,
  type ColumnSpec,
  type ModelCell,
  type RichCell,
  type TablePlace,
} from '../model.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';
import type { MaterialRefs } from './materials.js';

/** The office's copy shows costs and margin; the client's holds neither them nor formulas that point at them. */
export type EstimateCopy = 'office' | 'client';

export interface EstimateRefs {
  place: TablePlace;
  /** cell of the total price, and its value */
  total: string;
  price: number;
  /** rows of the lines of one kind, for checks */
  rowsOf: (kind: EstimateLine['kind']) => number[];
}

/** Characters of a line of text, and of the first column: a client's copy has the office's columns to spare. */
const WIDTH = { office: 96, client: 112 } as const;
const FIRST = { office: 46, client: 68 } as const;
/** A line in the units shown: quantity, its unit, cost of one. */
function shownLine(ctx: Context, l: EstimateLine): { quantity: number; unit: string; unitCost: number } {
  const { quantity, unitCost } = l;
  if (l.unit === 'm³') {
    const us = l.kind === 'water' ? L_PER_GALLON : 1 / ctx.show('bulk', 1);
    const unit = l.kind === 'mulch' ? ctx.unit('bulk') : ctx.units === 'US' ? '1,000 gal' : 'm³';
    const factor = ctx.units === 'US' ? us : 1;
    return { quantity: quantity / factor, unit, unitCost: unitCost * factor };
  }
  return { quantity, unit: l.unit === 'crew h' ? 'crew hours' : 'pieces', unitCost };
} // prettier-ignore

export interface EstimateSources {
  days: TablePlace;
  materials: MaterialRefs;
  site: (key: SiteKey) => string;
}

/** Formulas of quantity and unit cost of a line; undefined where the engine's number stands. */
function lineFormulas(
  l: EstimateLine,
  kitRow: number,
  { days, materials, site }: EstimateSources,
): { quantity?: string; unitCost?: string } {
  const sum = (place: TablePlace, key: string): string => `SUM(${place.range(key)})`;
  const crewHour = `${site('wage')}*${site('crewSize')}`;
  const { kit, water, mulch } = materials;
  switch (l.kind) {
    case 'kit':
      return {
        quantity: kit.cell('needed', kitRow),
        unitCost: `${kit.cell('price', kitRow)}/${kit.cell('seasons', kitRow)}`,
      };
    case 'set-up':
      return { quantity: sum(kit, 'setupHours'), unitCost: crewHour };
    case 'watering':
      return { quantity: sum(days, 'atTrees'), unitCost: crewHour };
    case 'driving':
      return { quantity: sum(days, 'driving'), unitCost: crewHour };
    case 'refills':
      return { quantity: sum(days, 'refills'), unitCost: crewHour };
    case 'hose checks':
      return { unitCost: crewHour };
    case 'water':
      return {
        quantity: `${sum(water, 'volume')}/1000`,
        unitCost: `${sum(water, 'cost')}/${sum(water, 'volume')}*1000`,
      };
    case 'mulch':
      return { ...(mulch && { quantity: sum(mulch, 'volume') }), unitCost: site('mulchPrice') };
  }
}

/** A heading over the columns a client sees. */
const across = (text: string): RichCell[] => [
  cell(text, 'heading'),
  ...Array.from({ length: 3 }, () => cell(null, 'heading')),
];

function head(ctx: Context): (RichCell | RichCell[])[] {
  const { plan } = ctx;
  const { site, trees } = plan;
  const standing = trees.reduce((sum, t) => sum + t.tree.count, 0);
  const waterings = trees.reduce((sum, t) => sum + t.tree.count * t.chosen.plan.length, 0);
  const litres = trees.reduce((sum, t) => sum + t.chosen.litres * t.tree.count, 0);
  const places = new Set(trees.map((t) => t.tree.site)).size;
  return [
    cell('Estimate', 'title'),
    across(ctx.title),
    cell(
      `${site.name} · ${isoDate(site.seasonFrom)} to ${isoDate(site.seasonTo)} · prepared ${isoDate(ctx.madeOn)}`,
    ),
    cell(
      `${plural(standing, 'tree')} at ${plural(places, 'site')} · ${plural(waterings, 'watering')} of single trees · ${count(ctx.show('volume', litres))} ${ctx.unit('volume')}`,
    ),
  ];
}

/** Every published rule beside the plan, on the trees and days it speaks of. */
function rulesTable(
  ctx: Context,
  draft: SheetDraft,
  all: readonly RuleComparison[],
  copy: EstimateCopy,
): void {
  const gal = ctx.unit('volume');
  const show = (litres: number): number => ctx.show('volume', litres);
  draft.table(
    'AgainstRules',
    [
      { key: 'rule', header: 'Published rule', width: FIRST[copy], wrap: true },
      { key: 'trees', header: 'Trees it speaks of', width: 12, style: 'calculation', format: 'whole' },
      { key: 'low', header: `Rule, least (${gal})`, width: 14, style: 'calculation', format: 'whole' },
      { key: 'plan', header: `Plan, same trees and days (${gal})`, width: 15, style: 'result', format: 'whole' },
      { key: 'saved', header: `Saved (${gal}), minus: more`, width: 12, style: 'result', format: 'whole' },
    ],
    all.length,
    (i, at): ModelCell[] => {
      const c = all[i]!;
      return [
        `${RULE_WORDS[c.rule]} · ${RULES_OF_THUMB[c.rule].source}`,
        c.trees,
        show(c.low),
        show(c.plan),
        formula(`${at.here('low', i)}-${at.here('plan', i)}`, show(c.low) - show(c.plan)),
      ];
    },
  ); // prettier-ignore
}

/** The price by what clients ask for: per tree, watering, crew hour, volume. On a page of its own, for the office. */
function pricePer(ctx: Context, draft: SheetDraft, est: Estimate, total: string): void {
  const rows = otherwise(ctx, est);
  draft.skip().breakAfter(draft.row - 1);
  draft.text([
    cell('For the office: the same price said otherwise', 'heading'),
    ...lines(hoursWords(est), WIDTH.office).map((text) => cell(text, 'note')),
  ]);
  draft.table(
    'PricePer',
    [
      { key: 'per', header: 'For one', width: 46 },
      { key: 'number', header: 'Number in plan', width: 12, style: 'calculation', format: 'one' },
      { key: 'each', header: `Price of one (${ctx.plan.site.currency})`, width: 14, style: 'result', format: 'two' },
    ],
    rows.length,
    (i, at): ModelCell[] => {
      const [per, number, each] = rows[i]!;
      return [per, number, formula(`${total}/${at.here('number', i)}`, each)];
    },
  ); // prettier-ignore
}

export function estimateSheet(
  ctx: Context,
  est: Estimate,
  sources: EstimateSources,
  copy: EstimateCopy = 'office',
): Built<EstimateRefs> {
  const office = copy === 'office';
  const money = ctx.plan.site.currency;
  const draft = new SheetDraft('Estimate', 'Estimate', { orientation: 'portrait' });
  draft.text(head(ctx));
  draft.skip();
  const costs: ColumnSpec[] = [
    { key: 'unitCost', header: `Office: cost of one (${money})`, width: 12, style: 'calculation', format: 'two' },
    { key: 'cost', header: `Office: cost (${money})`, width: 12, style: 'calculation', format: 'two' },
    { key: 'left', header: `Office: left over (${money})`, width: 12, style: 'calculation', format: 'two' },
  ]; // prettier-ignore
  const place = draft.table(
    'Estimate',
    [
      { key: 'what', header: 'What', width: FIRST[copy], wrap: true },
      { key: 'quantity', header: 'Quantity', width: 12, style: 'calculation', format: 'one' },
      { key: 'unit', header: 'Unit', width: 14 },
      { key: 'price', header: `Price (${money})`, width: 15, style: 'result', format: 'two' },
      ...(office ? costs : []),
    ],
    est.lines.length,
    (i, at): ModelCell[] => {
      const l = est.lines[i]!;
      const { quantity, unit, unitCost } = shownLine(ctx, l);
      const format = Number.isInteger(quantity) ? 'whole' : 'one';
      const words = lineWords(ctx, l);
      if (!office) return [words, { value: quantity, format }, unit, l.price];
      const kitRow = est.materials.findIndex((m) => m.device.name === l.device);
      const by = lineFormulas(l, kitRow, sources);
      const number = (text: string | undefined, value: number, more: Partial<RichCell> = {}): RichCell =>
        text === undefined ? { value, ...more } : formula(text, value, more);
      const here = (key: string): string => at.here(key, i);
      return [
        words,
        number(by.quantity, quantity, { format }),
        unit,
        formula(`ROUND(${here('cost')}/(1-${sources.site('margin')}),2)`, l.price),
        number(by.unitCost, unitCost),
        formula(`${here('quantity')}*${here('unitCost')}`, l.cost),
        formula(`${here('price')}-${here('cost')}`, l.price - l.cost),
      ];
    },
  ); // prettier-ignore
  const totalRow = draft.row;
  const sum = (key: string, value: number): RichCell =>
    formula(`SUM(${place.range(key)})`, value, { style: 'header', format: 'two' });
  draft.text([
    [
      cell(`Total (${money})`, 'header'),
      cell(null, 'header'),
      cell(null, 'header'),
      sum('price', est.price),
      ...(office
        ? [cell(null, 'header'), sum('cost', est.cost), sum('left', est.price - est.cost)]
        : []),
    ],
  ]);
  draft.skip();
  const paragraph = (text: string, style: 'text' | 'note' | 'caution' = 'text') =>
    lines(text, WIDTH[copy]).map((line) => cell(line, style));
  const [own] = est.againstRules;
  draft.text([
    across('Water'),
    ...(own ? paragraph(comparisonWords(ctx, own)) : []),
    ...paragraph('Published rules conflict, so all stand here, the one chosen for this site first; each is counted on the trees and days it speaks of, at its least.', 'note'),
  ]); // prettier-ignore
  rulesTable(ctx, draft, est.againstRules, copy);
  draft.skip();
  const listed = (text: string) =>
    text.startsWith('▲') ? paragraph(text, 'caution') : paragraph(`– ${text}`);
  draft.text([
    across('What this price stands on'),
    ...terms(ctx).flatMap(listed),
    across('What we ask of you'),
    ...asked(ctx).flatMap(listed),
    ...paragraph(caution(ctx), 'caution'),
    cell(null),
    [
      cell('Accepted: name, date, signature'),
      ...Array.from({ length: 3 }, () => cell(null, 'field')),
    ],
  ]);
  const total = `Estimate!$D$${totalRow}`;
  if (office) pricePer(ctx, draft, est, total);
  return {
    sheet: draft.done(),
    refs: {
      place,
      total,
      price: est.price,
      rowsOf: (kind) => est.lines.flatMap((l, i) => (l.kind === kind ? [i] : [])),
    },
  };
}
