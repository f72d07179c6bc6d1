/** Materials: what to buy, what the season bears of it, fittings, mulch, water month by month. For the office. */
import { dayOf, MONTHS } from '../../engine/dates.js';
import type { Estimate } from '../../engine/money/estimate.js';
import { waterTiers, type WaterMonth } from '../../engine/money/water-bill.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import {
  cell,
  formula,
  SheetDraft,
  type ModelCell,
  type RichCell,
  type TablePlace,
} from '../model.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

/** Sites of the mulch list; the rest stand together in its last row. */
const MOST_SITES = 300;

export interface MaterialRefs {
  kit: TablePlace;
  water: TablePlace;
  mulch?: TablePlace;
}

/** What the kit does not list and no price is known of. */
function fittings(ctx: Context, estimate: Estimate): [what: string, number: number, why: string][] {
  const tapped = new Set(
    ctx.kit.filter((d) => d.family !== 'tanker' && d.family !== 'pad').map((d) => d.name),
  );
  const watered = ctx.plan.trees.filter((t) => t.chosen.plan.length > 0);
  const sites = (trees: typeof watered): number => new Set(trees.map((t) => t.tree.site)).size;
  const fromTap = ({ chosen }: (typeof watered)[number]): boolean =>
    chosen.devices.some((name) => tapped.has(name));
  const timed = watered.filter((t) => t.chosen.devices.some((name) => ctx.automatic(name)));
  const truck = estimate.materials.some((m) => m.device.family === 'tanker');
  const rows: [string, number, string][] = [
    ['Vacuum breaker', sites(watered.filter((t) => t.tree.tap !== false && fromTap(t))), 'one at each tap in use, no valve downstream of it'],
    ['Timer with its valve', sites(timed), 'one for each site with hoses on a timer'],
    ['Air gap at the tank', truck ? 1 : 0, 'where the truck is filled'],
  ]; // prettier-ignore
  return rows.filter(([, number]) => number > 0);
}

const monthName = (m: WaterMonth): string => `${MONTHS[m.month - 1]} ${m.year}`;

/** First day of a month and of the next, as serials. */
const monthEnds = ({ year, month }: WaterMonth): [from: number, next: number] => [
  dayOf(year, month, 1),
  month === 12 ? dayOf(year + 1, 1, 1) : dayOf(year, month + 1, 1),
];

function kitTable(ctx: Context, draft: SheetDraft, { materials }: Estimate): TablePlace {
  const money = ctx.plan.site.currency;
  return draft.table(
    'Materials',
    [
      { key: 'device', header: 'Device', width: 30, wrap: true },
      { key: 'family', header: 'Family', width: 12 },
      { key: 'trees', header: 'Trees with it', width: 12, style: 'calculation', format: 'whole' },
      { key: 'needed', header: 'Needed', width: 12, style: 'calculation', format: 'whole' },
      { key: 'stock', header: 'In stock', width: 12, style: 'calculation', format: 'whole' },
      { key: 'toBuy', header: 'To buy', width: 12, style: 'result', format: 'whole' },
      { key: 'price', header: `Price (${money})`, width: 12, style: 'calculation', format: 'two' },
      { key: 'buyNow', header: `To pay now (${money})`, width: 12, style: 'result', format: 'two' },
      { key: 'seasons', header: 'Seasons it lasts', width: 11, style: 'calculation', format: 'general', align: 'right' },
      { key: 'share', header: `Season’s share (${money})`, width: 13, style: 'result', format: 'two' },
      { key: 'setup', header: 'Minutes to set, a tree', width: 12, style: 'calculation', format: 'general', align: 'right' },
      { key: 'setupHours', header: 'Setting out (crew h)', width: 12, style: 'result', format: 'two' },
    ],
    materials.length,
    (i, at): ModelCell[] => {
      const { device, trees, needed, toBuy, buyNow, seasonShare, setupHours } = materials[i]!;
      const here = (key: string): string => at.here(key, i);
      return [
        device.name,
        device.family,
        trees,
        needed,
        device.stock,
        formula(`MAX(0,${here('needed')}-${here('stock')})`, toBuy),
        device.price,
        formula(`${here('toBuy')}*${here('price')}`, buyNow),
        device.seasons,
        formula(`${here('needed')}*${here('price')}/${here('seasons')}`, seasonShare),
        // a nozzle or a truck is set up with the crew's day, not for each tree
        setupHours === 0 ? 0 : device.setupMinutes,
        formula(`${here('trees')}*${here('setup')}/60`, setupHours),
      ];
    },
  ); // prettier-ignore
}

function mulchTable(ctx: Context, draft: SheetDraft, { mulch }: Estimate): TablePlace {
  const unit = ctx.unit('bulk');
  const shown = mulch.slice(0, MOST_SITES);
  const rest = mulch.slice(MOST_SITES);
  if (rest.length > 0)
    shown.push({
      site: `${rest.length.toLocaleString('en-US')} more sites together`,
      trees: rest.reduce((sum, m) => sum + m.trees, 0),
      volume: rest.reduce((sum, m) => sum + m.volume, 0),
    });
  return draft.table(
    'Mulch',
    [
      { key: 'site', header: 'Site', width: 30, wrap: true },
      { key: 'trees', header: 'Trees', width: 12, style: 'calculation', format: 'whole' },
      { key: 'volume', header: `Mulch (${unit})`, width: 12, style: 'result', format: 'one' },
    ],
    shown.length,
    (i): ModelCell[] => {
      const { site, trees, volume } = shown[i]!;
      return [site, trees, ctx.show('bulk', volume)];
    },
  );
}

function waterTable(
  ctx: Context,
  draft: SheetDraft,
  { water }: Estimate,
  days: TablePlace,
  site: (key: SiteKey) => string,
): TablePlace {
  const gal = ctx.unit('volume');
  const { currency } = ctx.plan.site;
  const blocks = waterTiers(ctx.plan.site);
  const priceCells = (
    blocks.length === 1 ? ['waterPrice'] : ['block1Price', 'block2Price', 'block3Price']
  ) as SiteKey[];
  // the Site sheet shows a block's end in gallons or cubic metres, this table in gallons or litres
  const end = (b: number): string =>
    `${site(b === 0 ? 'block1UpTo' : 'block2UpTo')}${ctx.units === 'US' ? '' : '*1000'}`;
  const inBlock = (b: number, volume: string): string => {
    const upper = b === blocks.length - 1 ? volume : `MIN(${volume},${end(b)})`;
    return b === 0 ? upper : `MAX(0,${upper}-${end(b - 1)})`;
  };
  return draft.table(
    'WaterMonths',
    [
      { key: 'month', header: 'Month', width: 30 },
      { key: 'from', header: 'From', width: 12, style: 'calculation', format: 'date' },
      { key: 'before', header: 'Before', width: 12, style: 'calculation', format: 'date' },
      { key: 'volume', header: `Water (${gal})`, width: 12, style: 'calculation', format: 'whole' },
      ...blocks.map((_, b) => ({
        key: `block${b}`,
        header: blocks.length === 1 ? `Priced (${gal})` : `Block ${b + 1} (${gal})`,
        width: 12,
        style: 'calculation' as const,
        format: 'whole' as const,
      })),
      { key: 'cost', header: `Cost (${currency})`, width: 12, style: 'result', format: 'two' },
    ],
    water.length,
    (i, at): ModelCell[] => {
      const m = water[i]!;
      const [from, next] = monthEnds(m);
      const here = (key: string): string => at.here(key, i);
      const dates = days.range('date');
      return [
        monthName(m),
        from,
        next,
        formula(
          `SUMIFS(${days.range('volume')},${dates},">="&${here('from')},${dates},"<"&${here('before')})`,
          ctx.show('volume', m.litres),
        ),
        ...m.blocks.map((litres, b) =>
          formula(inBlock(b, here('volume')), ctx.show('volume', litres)),
        ),
        formula(
          `(${blocks.map((_, b) => `${here(`block${b}`)}*${site(priceCells[b]!)}`).join('+')})/1000`,
          m.cost,
        ),
      ];
    },
  );
}

export function materialsSheet(
  ctx: Context,
  estimate: Estimate,
  refs: { days: TablePlace; site: (key: SiteKey) => string },
): Built<MaterialRefs> {
  const { site } = ctx.plan;
  const money = site.currency;
  const draft = new SheetDraft('Materials', 'Materials');
  draft.text([
    cell('Materials', 'title'),
    cell(
      'What the plan needs and stock does not hold. The estimate bills a season’s share of all kit in use, owned or bought; what is to be paid now is working capital.',
      'note',
    ),
  ]);
  draft.skip();
  const kit = kitTable(ctx, draft, estimate);
  const total = (key: 'buyNow' | 'seasonShare'): number =>
    estimate.materials.reduce((sum, m) => sum + m[key], 0);
  const sumLine = (label: string, range: string, value: number): RichCell[] => [
    cell(label),
    formula(`SUM(${range})`, value, { style: 'result', format: 'two' }),
  ];
  draft.text([
    sumLine(`All to pay now (${money})`, kit.range('buyNow'), total('buyNow')),
    sumLine(`Season’s share, all (${money})`, kit.range('share'), total('seasonShare')),
  ]);
  draft.skip();

  const fit = fittings(ctx, estimate);
  if (fit.length > 0) {
    draft.text([cell('Fittings to check before the first visit; not priced', 'heading')]);
    draft.table(
      'Fittings',
      [
        { key: 'what', header: 'Fitting', width: 30 },
        { key: 'number', header: 'Number', width: 12, style: 'calculation', format: 'whole' },
        { key: 'why', header: 'Where', width: 12 },
      ],
      fit.length,
      (i) => [...fit[i]!],
    );
    draft.skip();
  }

  draft.text([
    cell('Water by month', 'heading'),
    cell(
      'All water is priced, whatever its source. Blocks begin anew each month; the choice of means goes by the flat water price.',
      'note',
    ),
  ]);
  const water = waterTable(ctx, draft, estimate, refs.days, refs.site);
  draft.skip();

  draft.text([cell('Mulch', 'heading')]);
  const depth = `${ctx.show('depth', site.mulchDepth).toLocaleString('en-US', { maximumFractionDigits: 1 })} ${ctx.unit('depth')}`;
  let mulch: TablePlace | undefined;
  if (estimate.mulch.length > 0) {
    draft.text([
      cell(`To bring every tree up to ${depth}; bark kept free, what the row says is there taken off, no word counts as none.`, 'note'),
    ]); // prettier-ignore
    mulch = mulchTable(ctx, draft, estimate);
  } else
    draft.text([
      cell(
        site.mulchDepth > 0
          ? `Every tree has its ${depth} already.`
          : 'No mulch is priced: Mulch target on Site is 0.',
        'note',
      ),
    ]);
  return { sheet: draft.done(), refs: { kit, water, ...(mulch && { mulch }) } };
}
