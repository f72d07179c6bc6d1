/** Checks of water, hours and money across Means, Plan, Calendar, Crew, Materials and Estimate. */
import type { EstimateLine } from '../../engine/money/estimate.js';
import { cell, formula } from '../model.js';
import type { CheckRefs, Total } from './checks.js';
import type { Context } from './context.js';
import { CHOSEN } from './means.js';

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

export function moneyTotals(ctx: Context, refs: CheckRefs): Total[] {
  const { plan } = ctx;
  const { calendar, means, materials, estimate: sold } = refs;
  const { money } = sold;
  const gal = ctx.unit('volume');
  const litres = sum(plan.trees.map((t) => t.chosen.litres * t.tree.count));
  const water = ctx.show('volume', litres);
  const automatic = sum(
    plan.trees.flatMap((t) =>
      t.chosen.plan.filter((w) => ctx.automatic(w.device)).map((w) => w.litres * t.tree.count),
    ),
  );
  const byCrew = sum(plan.crewDays.map((d) => d.litres));
  const all = (place: { range: (key: string) => string }, key: string): string =>
    `SUM(${place.range(key)})`;
  /** One column of the lines of some kinds, added up; 0 where there is no such line. */
  const lines = (key: string, kinds: EstimateLine['kind'][]): string =>
    kinds.flatMap((kind) => sold.rowsOf(kind).map((i) => sold.place.cell(key, i))).join('+') || '0';
  const cost = (kind: EstimateLine['kind']): number =>
    sum(money.lines.filter((l) => l.kind === kind).map((l) => l.cost));
  // a line of water counts thousands of gallons or litres
  const inLine = 1000;
  const onCalendar = formula(all(calendar.days, 'volume'), ctx.show('volume', calendar.litres));
  return [
    ...(means.complete
      ? [
          {
            what: `Water of the chosen means (${gal}): Means = Trees`,
            left: formula(
              `SUMIF(${means.place.range('mark')},"${CHOSEN}",${means.place.range('volume')})`,
              ctx.show('volume', means.litres),
            ),
            right: formula(all(refs.trees, 'season'), water),
          },
        ]
      : []),
    {
      what: `Water of the season (${gal}): Plan = Calendar`,
      left: formula(all(refs.plan, 'volume'), water),
      right: onCalendar,
    },
    {
      what: `Water of the season (${gal}): Calendar = Crew + timers on Plan`,
      left: onCalendar,
      right: formula(
        `${all(refs.crew, 'volume')}+SUMIF(${refs.plan.range('by')},"timer",${refs.plan.range('volume')})`,
        ctx.show('volume', byCrew + automatic),
      ),
    },
    {
      what: `Water of the season (${gal}): Plan = Estimate`,
      left: formula(all(refs.plan, 'volume'), water),
      right: formula(`(${lines('quantity', ['water'])})*${inLine}`, water),
    },
    {
      what: 'Crew hours: crew days = Calendar',
      left: cell(sum(plan.crewDays.map((d) => d.hours))),
      right: formula(all(calendar.days, 'hours'), calendar.hours),
    },
    {
      what: 'Crew hours: Calendar = watering, driving and refills on Estimate',
      left: formula(all(calendar.days, 'hours'), calendar.hours),
      right: formula(
        lines('quantity', ['watering', 'driving', 'refills']),
        money.hours.watering + money.hours.driving + money.hours.refills,
      ),
    },
    {
      what: 'Kit: season’s share on Materials = on Estimate',
      left: formula(all(materials.kit, 'share'), sum(money.materials.map((m) => m.seasonShare))),
      right: formula(lines('cost', ['kit']), cost('kit')),
    },
    {
      what: 'Water: cost on Materials = on Estimate',
      left: formula(all(materials.water, 'cost'), sum(money.water.map((m) => m.cost))),
      right: formula(lines('cost', ['water']), cost('water')),
    },
    {
      what: 'Price: lines = total of the Estimate',
      left: formula(all(sold.place, 'price'), sum(money.lines.map((l) => l.price))),
      right: formula(sold.total, sold.price),
    },
  ];
}
