/** Words of the estimate: lines, the comparison with published rules, what the price stands on. */
import { isoDate } from '../engine/dates.js';
import type { RuleComparison } from '../engine/money/against-rules.js';
import type { Estimate, EstimateLine } from '../engine/money/estimate.js';
import type { Family } from '../engine/plan/model.js';
import { RULES_OF_THUMB, type RuleName } from '../engine/tree/rules-of-thumb.js';
import { L_PER_GALLON } from '../engine/units.js';
import type { Context } from './sheets/context.js';
import { familiesOf } from './words.js';

export const count = (n: number): string => Math.round(n).toLocaleString('en-US');
export const plural = (n: number, word: string): string =>
  `${count(n)} ${word}${n === 1 ? '' : 's'}`;

/** Rules as a client reads them; amounts as published. */
export const RULE_WORDS: Readonly<Record<RuleName, string>> = {
  colorado: '10 gal for each inch of trunk, once a week',
  florida: '2 to 3 gal an inch; daily, then alternate days, then weekly, until established',
  minnesota: '1 to 1.5 gal an inch; daily, then every 2 to 3 days, then weekly, until established',
  extension: '1.5 gal an inch; daily, then alternate days, then weekly, until established',
};

/** What a line is for, with its counts. */
export function lineWords(ctx: Context, { kind, device }: EstimateLine): string {
  const { crewDays } = ctx.plan;
  const stops = crewDays.reduce((sum, d) => sum + d.stops.length, 0);
  const loads = crewDays.reduce((sum, d) => sum + d.tankLoads, 0);
  switch (kind) {
    case 'kit':
      return `${device}: use for the season`;
    case 'set-up':
      return `Setting out ${listed(setOut(ctx), 'and') || 'devices'}`;
    case 'watering':
      return `Watering: ${plural(stops, 'site visit')} on ${plural(crewDays.length, 'day')}`;
    case 'driving':
      return 'Driving to and between sites';
    case 'refills':
      return `Filling the truck: ${plural(loads, 'load')}`;
    case 'hose checks':
      return 'Checks of hoses on timers, every 30 days';
    case 'water':
      return 'Water';
    case 'mulch':
      return 'Mulch, delivered and laid';
  }
}

/** What the rule would give less what the plan gives, least and most [L]; below 0: the plan gives more. */
const saved = ({ low, high, plan }: RuleComparison): [least: number, most: number] => [
  low - plan,
  high - plan,
];

/** The comparison in a sentence, good or bad. */
export function comparisonWords(ctx: Context, c: RuleComparison): string {
  const water = (litres: number): string => `${count(ctx.show('volume', litres))} ${ctx.unit('volume')}`;
  const { source } = RULES_OF_THUMB[c.rule];
  const rule = `the rule “${RULE_WORDS[c.rule]}” (${source})`;
  if (c.trees === 0) return `Not compared with ${rule}: it speaks of none of these trees.`;
  const [least, most] = saved(c);
  const span = c.low === c.high ? water(c.low) : `${water(c.low)} to ${water(c.high)}`;
  const base = `For ${plural(c.trees, 'tree')} ${rule} gives ${span}; this plan gives ${water(c.plan)}`;
  const rest = c.others > 0 ? ` It does not speak of the other ${plural(c.others, 'tree')}.` : '';
  if (least > 0) {
    const percent = Math.round((100 * least) / c.low);
    return `${base}: ${c.low === c.high ? '' : 'at least '}${water(least)} less (${percent} %).${rest}`;
  }
  if (most < 0)
    return `${base}: ${c.low === c.high ? '' : 'at least '}${water(-most)} more. The rule knows neither soil nor weather; this plan goes by both.${rest}`;
  return `${base}, which lies within the rule.${rest}`;
} // prettier-ignore

/** What the price stands on, and what it does not hold. */
export function terms(ctx: Context): string[] {
  const { plan } = ctx;
  const { site, trees, notPlanned } = plan;
  const short = trees.filter((t) => t.state === 'cannot be kept');
  const over = plan.crewDays.filter((day) => day.overload).length;
  return [
    ...(over > 0
      ? [
          `▲ This price is of a plan that does not fit: ${plural(over, 'day')} ask${over === 1 ? 's' : ''} for more hours than the crews have. It holds only if every visit can be made.`,
        ]
      : []),
    `For the season ${isoDate(site.seasonFrom)} to ${isoDate(site.seasonTo)}, planned on ${isoDate(ctx.madeOn)} under the watering rules and the weather known then. If rules or stages change, the plan and this price are worked out again.`,
    'Watering days follow the local rules in force. A visit is left out while the soil is still wet; a visit left out is not made up for by giving more at the next.',
    'Every visit is proved by its crew sheet: date, trees, amounts and readings.',
    'Taxes, permits, meter rent and replacement trees are not in the price.',
    ...(short.length > 0
      ? [
          `▲ ${plural(short.length, 'row')} of the inventory will be short of water on some days even with this plan; each is named with what would help.`,
        ]
      : []),
    ...(notPlanned.length > 0
      ? [
          `▲ ${plural(notPlanned.length, 'row')} of the inventory ${notPlanned.length === 1 ? 'is' : 'are'} not in this plan and not in the price; the reasons are listed with the trees.`,
        ]
      : []),
  ];
}

/** `bags, pads and hoses` */
const listed = (words: readonly string[], joint: 'and' | 'or'): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${joint} ${words.at(-1)}`;

const SET_OUT: readonly (readonly [Family, string])[] = [
  ['bag', 'bags'],
  ['pad', 'pads'],
  ['soaker', 'hoses'],
];

/** What the plan sets out at its trees. */
const setOut = ({ plan }: Pick<Context, 'plan'>): string[] => {
  const used = familiesOf(plan);
  return SET_OUT.flatMap(([family, word]) => (used.has(family) ? [word] : []));
};

/** What the client can do, with the means of the plan. */
export function asked(ctx: Pick<Context, 'plan'>): string[] {
  const left = setOut(ctx);
  const still = left.length > 0 ? `, and do not move ${listed(left, 'or')}` : '';
  return [
    'Keep taps open to the crew, with their vacuum breakers on.',
    `Do not water these trees as well${still}: too much water kills, too.`,
    left.includes('bags')
      ? 'Tell us of a wet or wilting tree, a leak or a bag that is not empty after two days.'
      : 'Tell us of a wet or wilting tree or a leak.',
  ];
}

/** What can hurt, for people beside the trees; of bags where there are any. */
export const caution = (ctx: Pick<Context, 'plan'>): string =>
  [
    ...(setOut(ctx).includes('bags')
      ? ['A full 15 gal (57 L) bag weighs 125 lb (57 kg): it stands on the ground and is no seat or toy.']
      : []),
    'This is a planning aid: local code and licensed practice decide.',
  ].join(' '); // prettier-ignore

/** What the crew hours of the estimate are made of: those of the crew days, and what comes on top of them. */
export function hoursWords({ hours, lines }: Estimate): string {
  const { watering, driving, refills, hoseChecks } = hours;
  const setUp = lines.reduce((sum, l) => sum + (l.kind === 'set-up' ? l.quantity : 0), 0);
  const days = watering + driving + refills;
  const beside = [
    hoseChecks > 0 ? `, checks of hoses ${count(hoseChecks)}` : '',
    setUp > 0 ? `, setting out ${count(setUp)}` : '',
  ].join('');
  const about = `Crew hours: ${count(days + hoseChecks + setUp)} in all, of which crew days (watering, driving, filling) ${count(days)}${beside}.`;
  return beside === '' ? about : `${about} Calendar and Charts hold those of the crew days alone; the price of a crew hour is without setting out.`;
} // prettier-ignore

/** The price of the season by what clients ask for: per tree, watering, crew hour, volume. */
export function otherwise(
  ctx: Context,
  { price, hours }: Estimate,
): [per: string, number: number, each: number][] {
  const { trees, crewDays } = ctx.plan;
  const sum = (pick: (t: (typeof trees)[number]) => number): number =>
    trees.reduce((total, t) => total + pick(t), 0);
  const litres = sum((t) => t.chosen.litres * t.tree.count);
  const crew = hours.watering + hours.driving + hours.refills + hours.hoseChecks;
  const all: [string, number][] = [
    ['tree and season', sum((t) => t.tree.count)],
    ['watering of one tree', sum((t) => t.tree.count * t.chosen.plan.length)],
    ['stop of the crew', crewDays.reduce((n, d) => n + d.stops.length, 0)],
    ['crew hour', crew],
    [ctx.units === 'US' ? '1,000 gal' : 'm³', litres / (ctx.units === 'US' ? 1000 * L_PER_GALLON : 1000)],
  ]; // prettier-ignore
  return all.filter(([, n]) => n > 0).map(([per, n]) => [per, n, price / n]);
}
