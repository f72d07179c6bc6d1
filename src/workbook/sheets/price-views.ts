/** Price views: one build-up of cost in every unit that contracts pay by, and a dry season by who pays it. For the office. */
import {
  droughtScenarios,
  jobPrice,
  priceViews,
  type BuildUp,
  type PriceUnit,
} from '../../engine/contract/price-units.js';
import type { Estimate } from '../../engine/money/estimate.js';
import { L_PER_GALLON } from '../../engine/units.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import {
  cell,
  formula,
  SheetDraft,
  type Format,
  type ModelCell,
  type Scalar,
  type TablePlace,
} from '../model.js';
import type { Context } from './context.js';
import type { EstimateRefs } from './estimate.js';
import type { Built } from './inputs.js'; // prettier-ignore

/** Parts of the build-up as rows of a table, pointed at by the views. */
type Part = keyof Omit<BuildUp, 'waterPaidBy'> | 'payer' | 'extraVisits' | 'extraWater' | 'overage' | 'waterPrice' | 'overPrice'; // prettier-ignore

/** What a drought adds where nobody has said: a fifth more visits with their water. Assumption. */
const DRY_SHARE = 0.2;

export interface PriceViewRefs {
  parts: TablePlace;
  views: TablePlace;
  scenarios: TablePlace | undefined;
}

/** The season's service as one build-up, from the plan and its estimate. */
export function buildUpOf(ctx: Context, est: Estimate): BuildUp {
  const { trees, crewDays, site } = ctx.plan;
  const sum = (pick: (t: (typeof trees)[number]) => number): number =>
    trees.reduce((total, t) => total + pick(t) * t.tree.count, 0);
  const water = est.lines.filter((l) => l.kind === 'water').reduce((total, l) => total + l.cost, 0);
  const { watering, driving, refills, hoseChecks } = est.hours;
  return {
    trees: sum(() => 1),
    visits: sum((t) => t.chosen.plan.length),
    litres: sum((t) => t.chosen.litres),
    crewHours: watering + driving + refills + hoseChecks,
    tankLoads: crewDays.reduce((total, day) => total + day.tankLoads, 0),
    work: est.cost - water,
    water,
    waterPaidBy: 'contractor',
    margin: site.margin,
    minimum: 0,
  };
}

/** What each unit is counted by, as a formula of the parts. */
function quantityFormula(unit: PriceUnit, part: (key: Part) => string, us: boolean): string {
  const gallons = us ? part('litres') : `${part('litres')}/${L_PER_GALLON}`;
  const litres = us ? `${part('litres')}*${L_PER_GALLON}` : part('litres');
  switch (unit) {
    case 'visit':
      return part('visits');
    case 'tree and season':
      return part('trees');
    case 'gallon':
      return gallons;
    case '1,000 gallons':
      return `${gallons}/1000`;
    case 'litre':
      return litres;
    case 'm³':
      return `${litres}/1000`;
    case 'crew hour':
      return part('crewHours');
    case 'tank':
      return part('tankLoads');
    case 'lump sum':
      return '1';
  }
}

export function priceViewsSheet(
  ctx: Context,
  est: Estimate,
  estimate: EstimateRefs,
  site: (key: SiteKey) => string,
): Built<PriceViewRefs> {
  const us = ctx.units === 'US';
  const money = ctx.plan.site.currency;
  const gal = ctx.unit('volume');
  const per = us ? '1,000 gal' : 'm³';
  const build = buildUpOf(ctx, est);
  const perPrice = us ? 1000 * L_PER_GALLON : 1000; // [L]
  const waterPrice = (ctx.plan.site.waterPrice * perPrice) / 1000;
  const draft = new SheetDraft('Price views', 'Price views', { orientation: 'portrait' }, 9);
  draft.text([
    cell('Price views', 'title'),
    cell('For the office. The same work has the same price in whatever unit it is written; the Estimate’s own lines are rounded to the cent.', 'note'),
  ]); // prettier-ignore
  draft.skip();
  draft.text([cell('Build-up', 'heading')]);
  const extraVisits = Math.round(build.visits * DRY_SHARE);
  const costs = estimate.place.range('cost');
  const waterRows = estimate.rowsOf('water').map((i) => estimate.place.cell('cost', i));
  const waterCost = waterRows.join('+') || '0';
  const rows: { key: Part; what: string; value: Scalar; unit: string; format: Format; formula?: string; input?: true }[] = [
    { key: 'trees', what: 'Trees', value: build.trees, unit: 'trees', format: 'whole' },
    { key: 'visits', what: 'Visits to a tree, all trees together', value: build.visits, unit: 'visits', format: 'whole' },
    { key: 'litres', what: 'Water', value: ctx.show('volume', build.litres), unit: gal, format: 'whole' },
    { key: 'crewHours', what: 'Hours of whole crews', value: build.crewHours, unit: 'h', format: 'one' },
    { key: 'tankLoads', what: 'Tank loads', value: build.tankLoads, unit: 'loads', format: 'whole' },
    { key: 'work', what: 'Cost of labour, travel and kit', value: build.work, unit: money, format: 'two', formula: `SUM(${costs})-(${waterCost})` },
    { key: 'water', what: 'Cost of water', value: build.water, unit: money, format: 'two', formula: waterCost },
    { key: 'margin', what: 'Margin, as on Site', value: build.margin, unit: 'share', format: 'two', formula: site('margin') },
    { key: 'payer', what: 'Water is paid by', value: build.waterPaidBy, unit: 'contractor or client', format: 'text', input: true },
    { key: 'minimum', what: 'Minimum charge of the job', value: 0, unit: money, format: 'two', input: true },
    { key: 'extraVisits', what: 'Dry season: visits more; a fifth, assumption', value: extraVisits, unit: 'visits', format: 'whole', input: true },
    { key: 'extraWater', what: 'Dry season: water more; a fifth, assumption', value: Math.round(ctx.show('volume', build.litres * DRY_SHARE)), unit: gal, format: 'whole', input: true },
    { key: 'overage', what: 'Dry season: of it, priced as overage as well', value: 0, unit: gal, format: 'whole', input: true },
    { key: 'waterPrice', what: 'Price of water, as on Site', value: waterPrice, unit: `${money} per ${per}`, format: 'two', formula: site('waterPrice') },
    { key: 'overPrice', what: 'Price of overage', value: waterPrice, unit: `${money} per ${per}`, format: 'two', input: true },
  ];
  const parts = draft.table(
    'BuildUp',
    [
      { key: 'what', header: 'What', width: 46 },
      { key: 'value', header: 'Number', width: 15, style: 'calculation', align: 'right' },
      { key: 'unit', header: 'Unit', width: 20 },
    ],
    rows.length,
    (i): ModelCell[] => {
      const { what, value, unit, format, formula: text, input } = rows[i]!;
      return [
        what,
        text === undefined ? { value, format, ...(input && { style: 'input' as const }) } : formula(text, value, { format }),
        unit,
      ];
    },
  );
  const part = (key: Part): string => `$B$${parts.row(rows.findIndex((r) => r.key === key))}`;
  draft.validate(part('payer').replaceAll('$', ''), ['contractor', 'client'], 'contractor or client');
  draft.skip();
  const total = jobPrice(build);
  const priced = `MAX(${part('minimum')},(${part('work')}+IF(${part('payer')}="contractor",${part('water')},0))/(1-${part('margin')}))`;
  draft.text([cell('The price in every unit', 'heading')]);
  const shown = priceViews(build);
  const views = draft.table(
    'PriceViews',
    [
      { key: 'unit', header: 'For one', width: 46 },
      { key: 'number', header: 'How many', width: 15, style: 'calculation', format: 'one' },
      { key: 'each', header: `Price of one (${money})`, width: 20, style: 'result', format: 'two' },
      { key: 'back', header: `Back to the whole (${money})`, width: 15, style: 'calculation', format: 'two' },
    ],
    shown.length,
    (i, at): ModelCell[] => {
      const { unit, quantity, each } = shown[i]!;
      return [
        unit,
        formula(quantityFormula(unit, part, us), quantity),
        { ...formula(`${priced}/${at.here('number', i)}`, each), format: each < 1 ? 'three' : 'two' },
        formula(`${at.here('each', i)}*${at.here('number', i)}`, total),
      ];
    },
  );
  draft.skip();
  const litresOf = (shownVolume: number): number => (us ? shownVolume * L_PER_GALLON : shownVolume);
  const extra = rows.find((r) => r.key === 'extraWater')!.value as number;
  const scenarios = build.visits > 0 ? droughtScenarios(build, {
    extraVisits, extraLitres: litresOf(extra), overage: 0, waterPrice: ctx.plan.site.waterPrice, overPrice: ctx.plan.site.waterPrice,
  }) : [];
  if (scenarios.length === 0) return { sheet: draft.done(), refs: { parts, views, scenarios: undefined } };
  const visits = `${part('work')}/${part('visits')}*${part('extraVisits')}`;
  const water = `(${part('extraWater')}*${part('waterPrice')}+${part('overage')}*${part('overPrice')})/1000`;
  const said: readonly (readonly [client: string, contractor: string])[] = [
    [priced, `${visits}+${water}`],
    [`${priced}+${water}`, visits],
    [`${priced}+${water}+${visits}/(1-${part('margin')})`, '0'],
  ];
  draft.text([cell('A dry season, by who pays it', 'heading')]);
  const place = draft.table(
    'DrySeason',
    [
      { key: 'name', header: 'Who pays', width: 46 },
      { key: 'client', header: `Client pays (${money})`, width: 15, style: 'result', format: 'two' },
      { key: 'contractor', header: `Contractor is not paid for (${money})`, width: 20, style: 'result', format: 'two' },
      { key: 'says', header: 'What that means', width: 15, style: 'note' },
    ],
    scenarios.length,
    (i): ModelCell[] => {
      const { name, says, client, contractor } = scenarios[i]!;
      const [clientFormula, contractorFormula] = said[i]!;
      return [name, formula(clientFormula, client), formula(contractorFormula, contractor), says];
    },
  );
  return { sheet: draft.done(), refs: { parts, views, scenarios: place } };
} // prettier-ignore
