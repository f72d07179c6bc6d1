/** The daily columns of Balance: each a formula of the sheet's own, with the engine's number behind it. */
import { DAYS_PER_MONTH } from '../../engine/tree/establishment.js';
import { L_PER_GALLON, M_PER_FOOT, MM_PER_INCH, type Units } from '../../engine/units.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import type { ColumnSpec, Scalar, TablePlace } from '../model.js';
import type { Call } from '../native-twins.js';
import { areaFactor } from './balance-trees.js';
import type { BalanceDay } from './balance-trace.js';
import type { Context } from './context.js';

/** Where a daily formula finds things. */
export interface DaySources {
  /** a column of the same day, of the day before */
  now: (key: string) => string;
  before: (key: string) => string;
  /** a fact of the picked tree */
  fact: (key: string) => string;
  site: (key: SiteKey) => string;
  weather: TablePlace;
  plan: TablePlace;
  call: Call;
}

export interface DayColumn extends ColumnSpec {
  formula: (from: DaySources) => string;
  value: (day: BalanceDay, index: number) => Scalar;
}

/** Shown volume of one shown depth of water on one shown unit of area. */
const volumeOfDepth = (units: Units): number =>
  units === 'US' ? (MM_PER_INCH * M_PER_FOOT ** 2) / L_PER_GALLON : 1;

/** A series of the Weather sheet on the day of the row. */
const ofWeather =
  (key: string) =>
  ({ now, weather }: DaySources): string =>
    `INDEX(${weather.range(key)},MATCH(${now('date')},${weather.range('date')},0))`;

/** Water that Plan gives one tree of the row on the day, of one device or of all. */
function ofPlan({ now, fact, plan }: DaySources, device = ''): string {
  const one = device && `,${plan.range('device')},"="&${device}`;
  return `SUMIFS(${plan.range('each')},${plan.range('row')},${fact('row')},${plan.range('date')},${now('date')}${one})`;
}

/** Months the tree has stood; an established one as many as it needed. */
const monthsOn = ({ now, fact }: DaySources): string =>
  `IF(${fact('planted')}="",${fact('needed')},(${now('date')}-${fact('planted')})/${DAYS_PER_MONTH})`;

/** Results first, then what they are worked out with. `on` and the date are not among them. */
export function dayColumns(ctx: Context): DayColumn[] {
  const { units } = ctx;
  const { weather } = ctx.plan;
  const gal = ctx.unit('volume');
  const inch = ctx.unit('depth');
  const area = units === 'US' ? 'ft²' : 'm²';
  const U = volumeOfDepth(units);
  const volume = (litres: number): number => ctx.show('volume', litres);
  const result = { width: 9, style: 'result', format: 'two' } as const;
  const part = { width: 9, style: 'calculation', format: 'two' } as const;
  const first = ({ now, fact }: DaySources, then: string, other: string): string =>
    `IF(${now('date')}=${fact('first')},${then},${other})`;
  return [
    { key: 'et0', header: `ET0 (${inch})`, ...part, format: 'three', value: (_, i) => ctx.show('depth', weather.et0[i]!),
      formula: ofWeather('et0') },
    { key: 'rain', header: `Rain that counts (${inch})`, ...part, format: 'three', value: (_, i) => ctx.show('depth', weather.effectiveRain[i]!),
      formula: ofWeather('counted') },
    { key: 'demand', header: `Demand (${gal})`, ...result, value: (d) => volume(d.demand),
      formula: ({ now, fact, site, call }) => call('TREE_DEMAND', [now('et0'), fact('canopy'), fact('factor'), site('siteFactor')]) },
    { key: 'water', header: `Watering (${gal})`, ...result, value: (d) => volume(d.water),
      formula: (from) => `${ofPlan(from)}-${from.now('soaked')}` },
    { key: 'soaked', header: `Pad soaked (${gal})`, ...result, value: (d) => volume(d.soaked),
      formula: (from) => `IF(${from.fact('padVolume')}=0,0,${ofPlan(from, from.fact('pad'))})` },
    { key: 'ball', header: `Ball, evening (${gal})`, ...result, value: (d) => volume(d.ball),
      formula: ({ now }) => `${now('ballFilled')}*(1-${now('used')}/(${now('ballFilled')}+${now('ringFilled')}))` },
    { key: 'ring', header: `Ring, evening (${gal})`, ...result, value: (d) => volume(d.ring),
      formula: ({ now }) => `${now('ringFilled')}*(1-${now('used')}/(${now('ballFilled')}+${now('ringFilled')}))` },
    { key: 'pad', header: `Pad, evening (${gal})`, ...result, value: (d) => volume(d.pad),
      formula: ({ now }) => `${now('padMorning')}-${now('gives')}` },
    { key: 'left', header: `Water left (${gal})`, ...result, value: (d) => volume(d.ball + d.ring),
      formula: ({ now }) => `${now('ball')}+${now('ring')}` },
    { key: 'threshold', header: `Stress below (${gal})`, ...result, value: (d) => volume(d.threshold),
      formula: ({ now, fact }) => `(1-${now('p')})*(${fact('ballTaw')}+${now('ringTaw')})` },
    { key: 'depletion', header: `Depletion (${gal})`, ...result, value: (d) => volume(d.depletion),
      formula: ({ now, fact }) => `${fact('ballTaw')}+${now('ringTaw')}-${now('ballFilled')}-${now('ringFilled')}` },
    { key: 'ks', header: 'Ks', ...result, format: 'three', value: (d) => d.ks,
      formula: ({ now, fact, call }) => call('STRESS', [now('depletion'), `${fact('ballTaw')}+${now('ringTaw')}`, now('p')]) },
    { key: 'used', header: `Used (${gal})`, ...result, value: (d) => volume(d.used),
      formula: ({ now }) => `MIN(${now('ks')}*${now('demand')},${now('ballFilled')}+${now('ringFilled')})` },
    { key: 'lost', header: `Lost below roots (${gal})`, ...result, value: (d) => volume(d.lost),
      formula: ({ now, fact }) => `MAX(0,${now('ballMorning')}+${now('toBall')}+${now('gives')}-${fact('ballTaw')})+${now('ringMorning')}+${now('toRing')}-${now('ringFilled')}` },
    { key: 'p', header: 'Depletion allowed (share)', ...part, format: 'three', value: (d) => d.p,
      formula: (from) => {
        const base = `IF(${monthsOn(from)}>=${from.fact('needed')},${from.site('depletionEstablished')},${from.site('depletionNew')})`;
        return from.call('DEPLETION', [base, `${from.now('et0')}*${from.fact('factor')}*${from.site('siteFactor')}`]);
      } },
    { key: 'ringArea', header: `Ring area (${area})`, ...part, value: (d) => d.ringArea / areaFactor(units),
      formula: (from) => {
        const { fact, site } = from;
        const spread = from.call('ROOT_SPREAD', [fact('ball'), fact('canopy'), monthsOn(from), fact('needed'), site('reach')]);
        return `PI()/4*(${spread})^2-${fact('ballArea')}`;
      } },
    { key: 'ringTaw', header: `Ring holds (${gal})`, ...part, value: (d) => volume(d.ringTaw),
      formula: ({ now, fact, site }) => `${now('ringArea')}*${site('rootDepth')}*${fact('soilWater')}*${U}` },
    { key: 'joined', header: `Joins the ring (${gal})`, ...part, value: (d) => volume(d.joined),
      formula: (from) => first(from, '0', `MAX(0,${from.now('ringTaw')}-${from.before('ringTaw')})*${from.site('joiningShare')}`) },
    { key: 'ballMorning', header: `Ball, morning (${gal})`, ...part, value: (d) => volume(d.ballMorning),
      formula: (from) => first(from, from.fact('ballTaw'), from.before('ball')) },
    { key: 'ringMorning', header: `Ring, morning (${gal})`, ...part, value: (d) => volume(d.ringMorning),
      formula: (from) => first(from, from.now('ringTaw'), `${from.before('ring')}+${from.now('joined')}`) },
    { key: 'padFull', header: `Pad, full (${gal})`, ...part, value: (d) => volume(d.padFull),
      formula: ({ now, fact, site }) => `${fact('padVolume')}*(1-${site('padDecay')})^((${now('date')}-${fact('first')})/365)` },
    { key: 'padMorning', header: `Pad, morning (${gal})`, ...part, value: (d) => volume(d.padMorning),
      formula: (from) => `MIN(${from.now('padFull')},${first(from, from.now('padFull'), `MIN(${from.now('padFull')},${from.before('pad')})`)}+${from.now('soaked')})` },
    { key: 'share', header: 'Watering to the ball (share)', ...part, format: 'three', value: (d) => d.share,
      formula: ({ now, fact }) => {
        const ball = `MAX(0,${fact('ballTaw')}-${now('ballMorning')})`;
        const reach = `IF(${fact('beyond')}="",1,IF(${now('ringArea')}<=0,1,MIN(1,MAX(0,${fact('beyond')}/${now('ringArea')}))))`;
        const lack = `(${ball}+MAX(0,${now('ringTaw')}-${now('ringMorning')})*${reach})`;
        return `IF(${fact('ballOnly')}=1,1,IF(${lack}>0,${ball}/${lack},0))`;
      } },
    { key: 'toBall', header: `Into the ball (${gal})`, ...part, value: (d) => volume(d.toBall),
      formula: ({ now, fact }) => `${now('water')}*${fact('efficiency')}*${now('share')}+${now('rain')}*(${fact('ballArea')}-${fact('covered')})*${U}` },
    { key: 'toRing', header: `Into the ring (${gal})`, ...part, value: (d) => volume(d.toRing),
      formula: ({ now, fact }) => `${now('water')}*${fact('efficiency')}*(1-${now('share')})+${now('rain')}*(${now('ringArea')}+${fact('covered')})*${U}` },
    { key: 'gives', header: `Pad gives (${gal})`, ...part, value: (d) => volume(d.gives),
      formula: ({ now, fact, site }) => {
        const lack = `(${fact('ballTaw')}-${now('ballMorning')}-${now('toBall')})`;
        return `MAX(0,MIN(${now('padFull')}*${site('padRelease')}*${lack}/${fact('ballTaw')},${lack},${now('padMorning')}))`;
      } },
    { key: 'ballFilled', header: `Ball, filled (${gal})`, ...part, value: (d) => volume(d.ballFilled),
      formula: ({ now, fact }) => `MIN(${fact('ballTaw')},${now('ballMorning')}+${now('toBall')}+${now('gives')})` },
    { key: 'ringFilled', header: `Ring, filled (${gal})`, ...part, value: (d) => volume(d.ringFilled),
      formula: ({ now, fact, site }) =>
        `MIN(${now('ringTaw')},${now('ringMorning')}+${now('toRing')}+MAX(0,${now('ballMorning')}+${now('toBall')}+${now('gives')}-${fact('ballTaw')})*${site('overflowToRing')})` },
  ]; // prettier-ignore
}
