/** Charts: the season by weeks, the crew's hours by day, hoses as they are laid; also the chart of the Balance sheet. */
import { isoDate, weekday, type Day } from '../../engine/dates.js';
import type { TreeFacts, TreePlan } from '../../engine/plan/model.js';
import { DAYS_PER_MONTH, rootSpread } from '../../engine/tree/establishment.js';
import { canopyArea } from '../../engine/tree/demand.js';
import { cell, formula, SheetDraft, type ChartWords, type TablePlace } from '../model.js';
import type { BalanceDay } from './balance-trace.js';
import { pickOf, standing } from './balance-trees.js';
import { coilPictures } from './coils.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

const squareMetres = (diameter: number): number => (Math.PI / 4) * diameter * diameter;
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** A week of the season, Monday to Sunday, cut where the season begins and ends. Litres of all trees. */
export interface SeasonWeek {
  from: Day;
  to: Day;
  demand: number;
  rain: number;
  water: number;
}

/** Trees with the same facts and planting day, counted: like trees share one record of facts. */
function likeTrees(
  ctx: Pick<Context, 'plan'>,
): { facts: TreeFacts; first: Day; planted?: Day; count: number }[] {
  const groups = new Map<string, { facts: TreeFacts; first: Day; planted?: Day; count: number }>();
  const numbers = new Map<TreeFacts, number>();
  for (const t of ctx.plan.trees) {
    const { facts } = t;
    if (!numbers.has(facts)) numbers.set(facts, numbers.size);
    const days = standing(ctx, t);
    const key = `${numbers.get(facts)} ${days.first} ${days.planted}`;
    const group = groups.get(key) ?? { facts, ...days, count: 0 };
    group.count += t.tree.count;
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** Demand of all trees, rain that counts on their root zones, and watering, by weeks. */
export function seasonWeeks(ctx: Pick<Context, 'plan'>): SeasonWeek[] {
  const { site, weather, trees } = ctx.plan;
  const weeks: SeasonWeek[] = [];
  const weekOf: SeasonWeek[] = [];
  for (let i = 0; i < weather.et0.length; i++) {
    const day = weather.from + i;
    if (i === 0 || weekday(day) === 1)
      weeks.push({ from: day, to: day, demand: 0, rain: 0, water: 0 });
    const week = weeks.at(-1)!;
    week.to = day;
    weekOf.push(week);
  }
  for (const { facts, first, planted, count } of likeTrees(ctx)) {
    const ball = facts.ballDiameter / 1000;
    const use = facts.plantFactor * site.siteFactor * canopyArea(facts.canopy) * count;
    for (let day = first; day <= weather.from + weekOf.length - 1; day++) {
      const i = day - weather.from;
      weekOf[i]!.demand += weather.et0[i]! * use;
      const rain = weather.effectiveRain[i]!;
      if (rain === 0) continue;
      const months = planted === undefined ? Infinity : (day - planted) / DAYS_PER_MONTH;
      const across = rootSpread(ball, facts.establishedDiameter, months, facts.monthsToEstablish);
      weekOf[i]!.rain += rain * squareMetres(across) * count;
    }
  }
  for (const t of trees)
    for (const w of t.chosen.plan) weekOf[w.day - weather.from]!.water += w.litres * t.tree.count;
  return weeks;
}

/** Crew hours of each day of the season [h]. */
export function hoursByDay({ plan }: Pick<Context, 'plan'>): (readonly [Day, number])[] {
  const known = new Map(plan.crewDays.map((d) => [d.day, d.hours]));
  const { from, et0 } = plan.weather;
  return Array.from(et0, (_, i) => [from + i, known.get(from + i) ?? 0] as const);
}

/** Two charts and the title on a printed page. */
const ROWS = 19;
const COLUMNS = 7;
/** Above this many rows of Plan the weeks carry values: adding them up anew would take minutes. */
const MOST_SUMMED = 20_000;

export interface ChartRefs {
  weeks: TablePlace;
  hours: TablePlace;
  /** water of all weeks as the engine has it [L] */
  litres: number;
}

export function chartsSheet(
  ctx: Context,
  refs: { plan: TablePlace; planRows: number; calendar: TablePlace },
): Built<ChartRefs> {
  const draft = new SheetDraft('Charts', 'Charts', { orientation: 'portrait' });
  const weeks = seasonWeeks(ctx);
  const days = hoursByDay(ctx);
  draft.text([
    cell('Charts', 'title'),
    cell('The season by weeks, the crew’s hours by day, then the soaker hoses as they are laid; the numbers behind the charts stand below.', 'note'),
  ]); // prettier-ignore
  draft.skip();
  // charts come first on paper and point at the tables below: their rows are known beforehand
  const tops = [draft.row, draft.row + ROWS + 1] as const;
  draft.skip(2 * ROWS + 3);
  draft.breakAfter(tops[1] + ROWS);
  coilPictures(ctx, draft);
  const place = weeksTable(ctx, draft, weeks, refs);
  draft.skip();
  const hours = hoursTable(draft, days, refs.calendar);
  [seasonChart(ctx, place, weeks), hoursChart(ctx, hours, days)].forEach((chart, i) =>
    draft.chartAt(chart, {
      from: { row: tops[i]!, column: 0 },
      to: { row: tops[i]! + ROWS, column: COLUMNS },
    }),
  );
  return {
    sheet: draft.done(),
    refs: { weeks: place, hours, litres: sum(weeks.map((w) => w.water)) },
  };
}

function weeksTable(
  ctx: Context,
  draft: SheetDraft,
  weeks: readonly SeasonWeek[],
  { plan, planRows }: { plan: TablePlace; planRows: number },
): TablePlace {
  const gal = ctx.unit('volume');
  const part = { width: 14, style: 'calculation', format: 'whole' } as const;
  draft.text([
    cell('By week', 'heading'),
    cell('Demand without stress, and rain that counts on the root zones, as planned with; watering is added up from Plan.', 'note'),
  ]); // prettier-ignore
  return draft.table(
    'Weeks',
    [
      { key: 'from', header: 'Week from', width: 13, style: 'result', format: 'date' },
      { key: 'to', header: 'Week to', width: 13, format: 'date' },
      { key: 'demand', header: `Demand (${gal})`, ...part },
      { key: 'rain', header: `Rain that counts (${gal})`, ...part },
      { key: 'water', header: `Watering (${gal})`, ...part, style: 'result' },
    ],
    weeks.length,
    (i, at) => {
      const w = weeks[i]!;
      const water = ctx.show('volume', w.water);
      const days = plan.range('date');
      const added = `SUMIFS(${plan.range('volume')},${days},">="&${at.here('from', i)},${days},"<="&${at.here('to', i)})`;
      return [
        w.from,
        w.to,
        ctx.show('volume', w.demand),
        ctx.show('volume', w.rain),
        planRows <= MOST_SUMMED ? formula(added, water) : water,
      ];
    },
  );
}

function hoursTable(
  draft: SheetDraft,
  days: readonly (readonly [Day, number])[],
  calendar: TablePlace,
): TablePlace {
  draft.text([cell('Crew hours by day', 'heading')]);
  return draft.table(
    'CrewHours',
    [
      { key: 'date', header: 'Date', width: 13, style: 'result', format: 'date' },
      { key: 'hours', header: 'Crew (h)', width: 13, style: 'calculation', format: 'two' },
    ],
    days.length,
    (i) => [days[i]![0], formula(calendar.cell('hours', i), days[i]![1])],
  );
}

const whole = (value: number): string => Math.round(value).toLocaleString('en-US');

function seasonChart(
  ctx: Context,
  place: TablePlace,
  weeks: readonly SeasonWeek[],
): ChartWords {
  const gal = ctx.unit('volume');
  const [demand, rain, water] = (['demand', 'rain', 'water'] as const).map((key) =>
    ctx.show('volume', sum(weeks.map((w) => w[key]))),
  ) as [number, number, number];
  const most = [...weeks].sort((a, b) => b.demand - a.demand)[0];
  const categories = place.range('from');
  return {
    kind: 'line',
    title: `The season: trees need ${whole(demand)} ${gal}, the plan brings ${whole(water)} ${gal}`,
    x: 'Week from',
    y: `${gal} a week`,
    dates: true,
    series: [
      { name: 'Demand', values: place.range('demand'), categories, look: 'thick' },
      { name: 'Watering', values: place.range('water'), categories, look: 'line' },
      { name: 'Rain that counts', values: place.range('rain'), categories, look: 'dotted' },
    ],
    alt:
      `Line chart over ${weeks.length} weeks. Demand of the season ${whole(demand)} ${gal}, rain that counts on the root zones ${whole(rain)} ${gal}, watering before losses ${whole(water)} ${gal}.` +
      (most
        ? ` The thirstiest week begins ${isoDate(most.from)} with ${whole(ctx.show('volume', most.demand))} ${gal}.`
        : ''),
  };
} // prettier-ignore

function hoursChart(
  ctx: Context,
  place: TablePlace,
  days: readonly (readonly [Day, number])[],
): ChartWords {
  const out = days.filter(([, hours]) => hours > 0);
  const busiest = [...out].sort((a, b) => b[1] - a[1])[0];
  const { crewHours, crews = 1 } = ctx.plan.site;
  return {
    kind: 'column',
    title: busiest
      ? `Crew hours: ${out.length} days out, the longest ${busiest[1].toFixed(1)} h`
      : 'Crew hours: nobody has to go out',
    x: 'Day',
    y: 'crew hours',
    dates: true,
    series: [{ name: 'Crew hours', values: place.range('hours'), categories: place.range('date'), look: 'line' }],
    alt: `Bar chart of ${days.length} days. Crew hours on ${out.length} of them, ${whole(sum(out.map(([, hours]) => hours)))} h in all; ${
      busiest ? `the most is ${busiest[1].toFixed(1)} h on ${isoDate(busiest[0])}` : 'none'
    }. A crew has ${crewHours} h a day${crews > 1 ? `, and there are ${crews} crews` : ''}.`,
  };
} // prettier-ignore

/** Water left in ball and ring of the picked tree against the water left when stress begins. */
export function balanceChart(
  ctx: Context,
  place: TablePlace,
  t: TreePlan,
  trace: readonly (BalanceDay | undefined)[],
): ChartWords {
  const gal = ctx.unit('volume');
  const days = trace.filter((day) => day !== undefined);
  const least = Math.min(...days.map((d) => ctx.show('volume', d.ball + d.ring)));
  const stressed = t.chosen.stressDays;
  const categories = place.range('date');
  return {
    kind: 'line',
    title: 'Water left in the picked tree’s ball and ring, and the water left when stress begins',
    x: 'Day',
    y: `Water left (${gal})`,
    dates: true,
    series: [
      { name: 'Ball and ring', values: place.range('left'), categories, look: 'thick' },
      { name: 'Ball', values: place.range('ball'), categories, look: 'line' },
      { name: 'Stress below', values: place.range('threshold'), categories, look: 'dashed' },
      { name: 'Watering', values: place.range('water'), categories, look: 'dotted' },
    ],
    alt: `Line chart by day of the tree picked above: water left in ball and ring, in the ball alone, the water left when stress begins, and each watering. When the file was made the tree was ${pickOf(t)}: least water left ${least.toFixed(1)} ${gal}, ${stressed} stress ${stressed === 1 ? 'day' : 'days'}, ${t.chosen.waterings} waterings.`,
  };
}
