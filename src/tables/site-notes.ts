/** What the inputs of a site mean and where their defaults come from: for the sheets, not for reading them. */
import type { Device, Site } from '../engine/plan/model.js';
import { L_PER_GALLON, type Units } from '../engine/units.js';
import type { Cell } from './cells.js';
import { hourText } from './hours.js';
import { fromSI, SITE_INPUTS, siteValue, type SiteKey } from './site-inputs.js';

export interface SiteNote {
  note: string;
  /** of the default */
  source: string;
}

const OURS = 'assumption of this planner';
const DEMO = 'invented demo figure, put your own';
const LOCAL = 'look up for the site; the default is only an example';

const says = (note: string, source: string): SiteNote => ({ note, source });

export const SITE_NOTES: Readonly<Record<SiteKey, SiteNote>> = {
  name: says('Shown on every sheet.', DEMO),
  latitude: says('North positive; sets day length and sun.', LOCAL),
  elevation: says('Above the sea; sets air pressure.', LOCAL),
  texture: says('USDA texture word; trees may have their own.', LOCAL),
  zone: says('Sets the months a tree takes to establish.', LOCAL),
  climate: says('dry or humid; picks the plant factor and the storm rules.', LOCAL),
  seasonFrom: says('First day of the plan.', LOCAL),
  seasonTo: says('Last day of the plan, inclusive.', LOCAL),
  plantFactor: says('For trees whose row names no water use.', 'ANSI/ASABE S623 woody plants, dry climate'),
  siteFactor: says('Above 1 beside hot walls and in wind, below 1 in shade.', 'landscape coefficient practice, 0.5 to 1.4'),
  reach: says('Diameter of the irrigated root zone over canopy diameter.', OURS),
  rootDepth: says('Most absorbing roots are in the top foot.', OURS),
  depletionNew: says('Part of the stored water used before stress, at 5 mm (0.2 in) a day.', OURS),
  depletionEstablished: says('Part of the stored water used before stress, at 5 mm (0.2 in) a day.', OURS),
  substrateAvailable: says('Volume of water a bark or peat ball gives up, over its volume.', 'nursery practice guides print 0.25 to 0.35: the low end'),
  joiningShare: says('Part of its available water that soil holds when roots reach it.', OURS),
  overflowToRing: says('The rest of what leaves a full ball sinks below the roots.', OURS),
  padRelease: says('Part of its capacity a pad gives to a fully dry ball in a day.', OURS),
  padCover: says('Part of the ball a pad lies on and sheds rain from.', OURS),
  padDecay: says('Part of its capacity a pad loses each year.', OURS),
  padReserve: says('A pad is lifted and soaked again when it holds this part.', OURS),
  'efficiency.bag': says('Part of the water that reaches the roots.', OURS),
  'efficiency.pad': says('Part of the water that reaches the roots.', OURS),
  'efficiency.soaker': says('Part of the water that reaches the roots.', OURS),
  'efficiency.hand': says('Part of the water that reaches the roots.', OURS),
  'efficiency.tanker': says('Part of the water that reaches the roots.', OURS),
  toleratedStress: says('Days of water stress a season that are accepted for a tree.', OURS),
  workDays: says('Weekdays the crew goes out: Mon-Sat, Mon Wed Fri, any. Automatic hoses run on all of them.', DEMO),
  crewSize: says('People on one truck.', DEMO),
  wage: says('Paid and burdened, for one person and hour.', DEMO),
  waterPrice: says('What the water itself costs.', DEMO),
  crewHours: says('Hours a crew can work on site and road in a day.', DEMO),
  crewStart: says('Hour of the day, as 6:30 or 18:00. What a person waters has to be open between it and the end of the crew hours, at most until midnight.', OURS),
  crewTimeWorth: says('Times its wage. Above 1 the choice of means saves the time of crews, even where that costs more: for seasons with days that do not fit. Costs and prices stay as they are.', OURS),
  driveMinutes: says('Mean drive from one site to the next.', DEMO),
  crews: says('Trucks that go out on the same day.', DEMO),
  driveKmh: says('On the straight line between two stops whose coordinates are known; else the driving between sites holds.', OURS),
  yardLatitude: says('Where crews start and end their day. Blank: not known, rounds begin at their first stop.', LOCAL),
  yardLongitude: says('Where crews start and end their day. Blank: not known, rounds begin at their first stop.', LOCAL),
  topUp: says('A tree that has used this part of its usable water is watered along when somebody comes to its site anyway.', OURS),
  stockOnly: says('yes: no more bags, pads and hoses than the kit has in stock. no: what lacks is bought. A device may say otherwise for itself, in its row of the kit.', OURS),
  tankVolume: says('Tank on the truck, full. Where a tanker of the kit has a volume, that one is used.', DEMO),
  tankUsable: says('Part of the tank the pump can draw.', 'common practice, no source'),
  tankRefillMinutes: says('Drive to water, fill and return.', DEMO),
  margin: says('Part of the price that is left over the cost: price = cost/(1 − margin).', OURS),
  block1UpTo: says('Monthly block rates, for the estimate. 0: the water price holds for every gallon or litre.', DEMO),
  block1Price: says('Read only where block 1 has an end.', DEMO),
  block2UpTo: says('Counted from the first gallon or litre of the month. 0: block 2 has no end.', DEMO),
  block2Price: says('Read only where block 1 has an end.', DEMO),
  block3Price: says('Read only where block 2 has an end.', DEMO),
  mulchDepth: says('Depth every tree is brought up to; what the row already has is taken off. 0: no mulch is priced.', OURS),
  mulchRing: says('The ring ends at the root zone of the peak month, or at this diameter.', OURS),
  mulchPrice: says('Delivered and laid.', DEMO),
  blanketRule: says('The water of the plan is compared with this published rule; the others stand beside it.', OURS),
  currency: says('Sign before amounts.', DEMO),
}; // prettier-ignore

/** True when the default is a choice of this planner, not a published number. */
export const isAssumption = (key: SiteKey): boolean => {
  const { source } = SITE_NOTES[key];
  return [OURS, DEMO, LOCAL].includes(source) || /^(common practice|nursery practice)/.test(source);
};

/** Inputs whose value is not the default: put in by a person, or taken from the trees' own coordinates. */
export type SiteOrigins = Readonly<Partial<Record<SiteKey, 'own' | 'inventory'>>>;

/** Where the value of an input is from, and of what kind it is; of a default, where the default is from. */
export function originOf(key: SiteKey, origins: SiteOrigins): { source: string; kind: string } {
  switch (origins[key]) {
    case 'own':
      return { source: 'put in for this plan', kind: OWN_KIND };
    case 'inventory':
      return { source: 'middle of the coordinates in the inventory', kind: 'inventory' };
    default:
      return {
        source: SITE_NOTES[key].source,
        kind: isAssumption(key) ? 'assumption' : 'published',
      };
  }
}

/** Kind of a value that a person has put in; a workbook is read back by it. */
export const OWN_KIND = 'input';

/** What holds in the place of the site's tank, where tankers of the kit have tanks of their own; else the plain note. */
function tankNote(kit: readonly Device[], units: Units): string {
  const tankers = kit.filter(({ family }) => family === 'tanker');
  const tanks = tankers.flatMap(({ name, volume }) => {
    if (volume === undefined) return [];
    const shown = units === 'US' ? volume / L_PER_GALLON : volume;
    return [`“${name}” (${Number(shown.toPrecision(4))} ${units === 'US' ? 'gal' : 'L'})`];
  });
  if (tanks.length === 0) return SITE_NOTES.tankVolume.note;
  const used = `the tank of ${tanks.join(', ')} is used instead`;
  return tanks.length === tankers.length
    ? `Not used in this plan: ${used}.`
    : `Used only where a tanker of the kit has no volume: else ${used}.`;
}

/**
 * The Site sheet as rows: header, then name, value, unit, note, source. Dates stay serial numbers.
 *
 * @param origins - inputs that are not the default
 * @param kit - devices whose tanks hold in the place of the site's
 */
export function siteRows(
  site: Site,
  units: Units,
  origins: SiteOrigins = {},
  kit: readonly Device[] = [],
): Cell[][] {
  const rows: Cell[][] = [['Name', 'Value', 'Unit', 'Note', 'Source']];
  for (const i of SITE_INPUTS) {
    const { source } = originOf(i.key, origins);
    const note = i.key === 'tankVolume' ? tankNote(kit, units) : SITE_NOTES[i.key].note;
    const v = siteValue(site, i.key);
    const shown =
      i.kind === 'hour'
        ? hourText(Number(v))
        : i.kind === 'number' && typeof v === 'number'
          ? fromSI(i, v, units)
          : v;
    rows.push([i.name, shown, units === 'US' ? i.unitUS : i.unitSI, note, source]);
  }
  return rows;
}
