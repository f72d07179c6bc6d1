/**
 * The words the planner speaks: what it is given (trees, site, weather, kit, rules) and what it answers.
 * SI throughout: mm for trunk, ball, soil depth and water depth; m for canopy; L; days; currency as given.
 */
import type { Day } from '../dates.js';
import type { RuleName } from '../tree/rules-of-thumb.js';

export const FAMILIES = ['bag', 'pad', 'soaker', 'hand', 'tanker'] as const;
/** The five families of watering. */
export type Family = (typeof FAMILIES)[number];

/** One nozzle or truck serves all trees; a bag, a pad and a hose belong to one tree each. */
export const servesAllTrees = (family: Family): boolean => family === 'hand' || family === 'tanker';

export const SOURCES = ['mains', 'reclaimed', 'well', 'grey', 'rain', 'tanker'] as const;
export type WaterSource = (typeof SOURCES)[number];

/** One inventory row that can be planned. Everything the row does not say is undefined. */
export interface Tree {
  id: string;
  /** 1-based row in the sheet it came from. */
  row: number;
  species: string;
  /** like trees on this row, a whole number from 1 */
  count: number;
  /** trunk diameter: caliper of nursery stock or DBH of a standing tree [mm] */
  caliper?: number | undefined;
  /** nursery container class as a number, 15 for "#15" [-] */
  container?: number | undefined;
  ballDiameter?: number | undefined; // [mm]
  ballDepth?: number | undefined; // [mm]
  planted?: Day | undefined;
  canopy?: number | undefined; // diameter [m]
  height?: number | undefined; // [m]
  /** plant factor [-], from the row's water-use word or number */
  plantFactor?: number | undefined;
  /** soil texture word as in engine/soil/texture */
  texture?: string | undefined;
  mulchDepth?: number | undefined; // [mm]
  site: string;
  address: string;
  latitude?: number | undefined;
  longitude?: number | undefined;
  /** a tap can be reached; undefined when the inventory does not say */
  tap?: boolean | undefined;
  tapFlow?: number | undefined; // [L/min]
  source?: WaterSource | undefined;
  /** families the row asks for; undefined: any */
  meansWanted?: Family[] | undefined;
  note?: string | undefined;
  /** what of it nobody has measured or seen: "size", "soil"; as the inventory marks it */
  assumed?: readonly string[] | undefined;
}

/** Site-wide inputs; every one is a row of the Site sheet with a default and a source. */
export interface Site {
  name: string;
  latitude: number; // [deg], north positive
  elevation: number; // [m]
  texture: string;
  /** hardiness zone 1…13 [-] */
  zone: number;
  climate: 'dry' | 'humid';
  seasonFrom: Day;
  seasonTo: Day;
  /** plant factor where a row has none [-] */
  plantFactor: number;
  siteFactor: number; // [-] 0.5…1.4
  /** irrigated root zone as a multiple of canopy diameter [-] */
  reach: number;
  rootDepth: number; // [mm]
  /** allowable depletion at 5 mm/day: unestablished, established [-] */
  depletionNew: number;
  depletionEstablished: number;
  /** available water of container substrate [-] */
  substrateAvailable: number;
  /** share of available water in newly reached soil [-] */
  joiningShare: number;
  /** share of a ball's overflow that passes to the ring [-] */
  overflowToRing: number;
  /** pad release rate r [1/day] */
  padRelease: number;
  /** ball area a pad covers [-] */
  padCover: number;
  /** pad capacity lost each year [-] */
  padDecay: number;
  /** reserve at which a pad is recharged [-] */
  padReserve: number;
  efficiency: Record<Family, number>;
  /** stress days a season that are accepted [days] */
  toleratedStress: number;
  /** weekdays the crew works, as in a rules table: "Mon-Sat", "Mon Tue Thu", "any" */
  workDays: string;
  crewSize: number;
  wage: number; // per person-hour
  waterPrice: number; // per m³
  crewHours: number; // a day
  /** hour of the day at which crews start [h]; undefined: CREW_START */
  crewStart?: number | undefined;
  driveMinutes: number; // between two sites
  tankVolume: number; // [L]
  tankUsable: number; // [-]
  tankRefillMinutes: number;
  /** share of the price left over the cost [-], below 1 */
  margin: number;
  /** water by blocks of a month [m³, per m³]; block 1 up to 0: waterPrice holds for all of it */
  block1UpTo: number;
  block1Price: number;
  /** 0: block 2 has no end */
  block2UpTo: number;
  block2Price: number;
  block3Price: number;
  /** mulch to bring every tree up to [mm]; 0: none is priced */
  mulchDepth: number;
  /** widest mulch ring [m] */
  mulchRing: number;
  mulchPrice: number; // per m³, laid
  /** published rule of thumb the plan's water is compared with, a key of RULES_OF_THUMB */
  blanketRule: RuleName;
  currency: string;
  /** crews that go out on a day, a whole number from 1; undefined: one */
  crews?: number | undefined;
  /** where crews start and end the day [deg], undefined when not known */
  yardLatitude?: number | undefined;
  yardLongitude?: number | undefined;
  /** speed on the straight line between two stops, where both have coordinates [km/h]; undefined: DRIVE_KMH */
  driveKmh?: number | undefined;
  /** "yes": no more bags, pads and hoses than the kit has in stock; "no" or undefined: what lacks is bought. A device may say otherwise */
  stockOnly?: 'yes' | 'no' | undefined;
  /** times its wage an hour of the crew counts in the choice of means [-], from 1; undefined: CREW_TIME_WORTH */
  crewTimeWorth?: number | undefined;
  /** share of the usable water a tree must have used to be watered when somebody comes anyway [-]; undefined: TOP_UP */
  topUp?: number | undefined;
}

export interface Device {
  name: string;
  family: Family;
  /** bag: full fill; pad: usable water; tanker: tank [L] */
  volume?: number | undefined;
  holes?: number | undefined;
  /** bag: hours a full drain takes when all holes are open [h] */
  ratedHours?: number | undefined;
  /** soaker: measured output [L/h per m]. There is no default: hoses differ fourfold. */
  rate?: number | undefined;
  /** soaker: length of one hose; a large tree gets several [m] */
  length?: number | undefined;
  /** hand, tanker: flow at the nozzle [L/min] */
  flow?: number | undefined;
  price: number;
  seasons: number;
  stock: number;
  /** bag, pad, soaker: whether more may be bought than is in stock; undefined: as the site says */
  buy?: boolean | undefined;
  setupMinutes: number;
  visitMinutes: number;
  /** true when a timer opens the valve: no crew visit for a watering */
  automatic: boolean;
  /**
   * soaker without such a timer: true when a wind-up timer or a metering valve at the tap shuts it, so that whoever opens it
   * may go on; else somebody stays while it runs
   */
  shutsItself?: boolean | undefined;
}

/** A season of days. Index 0 is `from`. */
export interface SeasonWeather {
  from: Day;
  /** reference ET [mm/day] */
  et0: Float64Array;
  /** measured or expected rain [mm/day] */
  rain: Float64Array;
  /** rain that counts [mm/day], already multiplied by the share to count on */
  effectiveRain: Float64Array;
  /** hottest month of the season, 1…12, and its mean ET0 [mm/day] */
  peakMonth: number;
  peakEt0: number;
}

/** Sizes and rates of one tree, with what was measured and what was estimated. */
export interface TreeFacts {
  canopy: number; // [m]
  ballDiameter: number; // [mm]
  ballDepth: number; // [mm]
  ballVolume: number; // [L]
  ballAvailable: number; // [-]
  soilAvailable: number; // [-]
  /** basic intake rate of the soil [mm/h] */
  intake: number;
  ballTaw: number; // [L]
  /** outer diameter of the irrigated ring when established [m] */
  establishedDiameter: number;
  monthsToEstablish: number;
  /** months since planting at the season's start; Infinity for an established tree */
  monthsAtStart: number;
  /** at the middle of the peak month */
  peak: {
    ringDiameter: number; // [m]
    taw: number; // ball and ring [L]
    depletion: number; // p [-]
    raw: number; // usable before stress [L]
    demand: number; // [L/day]
    interval: number; // RAW / demand [days]
  };
  plantFactor: number;
  /** what was estimated or assumed for this tree, a phrase each */
  flags: string[];
}

export interface Watering {
  day: Day;
  family: Family;
  device: string;
  /** applied for one tree, before losses [L] */
  litres: number;
  /** minutes water runs or drains, without pauses [min] */
  minutes: number;
  cycles: number;
  /** pause between two cycles [min]; left out: none */
  pause?: number | undefined;
  /** bags joined on the stem, hoses coiled round the tree; left out: one */
  joined?: number | undefined;
  /** minutes it runs on when the person has gone, to the full step [min]; left out: none */
  runsOn?: number | undefined;
  /** the hours the rules give, e.g. "00:00-10:00, 19:00-24:00" or "any" */
  hours: string;
  /** where a person does it: the part of these hours within the crew's day, "06:00-10:00"; undefined: none is known */
  within?: string | undefined;
  /** why this day: a sentence with numbers */
  why: string;
  /** the day it was planned for before a full crew day moved it earlier */
  movedFrom?: Day | undefined;
}

export interface MeansOutcome {
  /** "bag", "soaker", "bag + pad" … */
  label: string;
  families: Family[];
  devices: string[];
  feasible: boolean;
  /** why not feasible, or the verdict in a sentence */
  verdict: string;
  waterings: number;
  litres: number; // for one tree [L]
  /** times a person must come, recharges of a pad included */
  visits: number;
  stressDays: number;
  leastKs: number;
  cost: number; // for one tree and season
  /** the single waterings; kept for the chosen means only */
  plan: Watering[];
}

export type TreeState = 'planned' | 'cannot be kept';

export interface TreePlan {
  tree: Tree;
  facts: TreeFacts;
  options: MeansOutcome[];
  chosen: MeansOutcome;
  state: TreeState;
  /** what would help, when the state is "cannot be kept" */
  advice: string;
}

export interface CrewTask {
  tree: Tree;
  watering: Watering;
  /** litres and minutes for all `count` trees of the row */
  litres: number;
  minutes: number;
}

/** The truck's tank is filled, at a place of water the plan does not know. */
export interface TankFilling {
  /** index of the stop's task that it comes before */
  before: number;
  loads: number;
  /** with the drive to water and back [min] */
  minutes: number;
}

export interface CrewStop {
  site: string;
  address: string;
  tasks: CrewTask[];
  litres: number;
  minutes: number;
  /** the crew that comes, from 1 */
  crew?: number;
  /** its turn on that crew's round, from 1 */
  order?: number;
  /** drive from the stop before, or from the yard [min] */
  legMinutes?: number;
  /** how it came by its turn */
  placing?: 'by coordinates' | 'beside its street' | 'by address';
  /** when the tank is filled before or between its tasks; none where it need not be */
  fillings?: TankFilling[];
}

/** One crew's round of a day. */
export interface CrewRound {
  /** from 1 */
  crew: number;
  stops: number;
  /** stops, driving, refills [h] */
  hours: number;
  litres: number;
  tankLoads: number;
  /** drive of the round, there and back [min] */
  driveMinutes: number;
  /** hours above the crew's day or above the open hours, 0 when it fits [h] */
  over?: number;
  /** open hours within the crew's day that are too short for the work bound to them */
  shortage?: OpenShortage | undefined;
  /** the amounts fit, but in no order tried do all stops fall into their hours */
  order?: boolean;
}

/** Work bound to hours that are too short for it, with its driving and refills. */
export interface OpenShortage {
  /** within the crew's day, "06:00-09:00" */
  hours: string;
  open: number; // [h]
  need: number; // [h]
}

export interface CrewDay {
  day: Day;
  stops: CrewStop[];
  litres: number;
  /** crew hours of all rounds: stops, driving, refills [h] */
  hours: number;
  tankLoads: number;
  /** some crew has more hours than a day's, or more work than its open hours hold */
  overload: boolean;
  /** one round for every crew that goes out */
  rounds?: CrewRound[];
  /** hours of the round that is most above a crew's day or its open hours, 0 when all fit [h] */
  overBy?: number;
  /** how stops without coordinates came by their turn, in a sentence; "" when all have them */
  note?: string;
}

export interface SeasonPlan {
  site: Site;
  weather: SeasonWeather;
  trees: TreePlan[];
  /** rows that could not be planned, with the reason */
  notPlanned: { row: number; id: string; reason: string }[];
  crewDays: CrewDay[];
  /** everything somebody should look at, a sentence each */
  problems: string[];
}
