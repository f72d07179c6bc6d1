/** One tree over one season: sizes, stores and demand day by day, before anybody waters it. */
import { dailyDemand } from '../tree/demand.js';
import { DAYS_PER_MONTH, monthsToEstablish, rootSpread } from '../tree/establishment.js';
import {
  ballDepth,
  ballDiameter,
  caliperFromCanopy,
  canopyFromCaliper,
  containerBall,
  containerCaliper,
  containerVolume,
} from '../tree/stock-sizes.js';
import { adjustDepletion, cylinderVolume } from '../soil/root-zone.js';
import { joining, type Ground } from '../soil/water-balance.js';
import { basicIntake, textureWater } from '../soil/texture.js';
import { Problem } from '../problems.js';
import { MM_PER_INCH } from '../units.js';
import { civil } from '../dates.js';
import type { SeasonWeather, Site, Tree, TreeFacts } from './model.js';

/** Trunks up to this size without a planting date are read as planted at the season's start [mm]. */
export const YOUNG_CALIPER = 3 * MM_PER_INCH;
/** Largest ball diameter of the stock table [mm]; larger ones on a row are taken as this. */
export const LARGEST_BALL = 54 * MM_PER_INCH;

/** Daily series, index 0 = first day of the season; days before the tree stands hold nothing meant to be read. */
export interface TreeDays {
  demand: Float64Array; // [L/day]
  p: Float64Array; // [-]
  ringTaw: Float64Array; // [L]
  ringArea: Float64Array; // [m²]
  /** water of the soil the roots have reached overnight [L], see `joining` */
  joined: Float64Array;
  /** usable before stress, RAW = p·TAW of ball and ring [L] (FAO-56 Eq. 83) */
  raw: Float64Array;
}

export const treeDays = (days: number): TreeDays => ({
  demand: new Float64Array(days),
  p: new Float64Array(days),
  ringTaw: new Float64Array(days),
  ringArea: new Float64Array(days),
  joined: new Float64Array(days),
  raw: new Float64Array(days),
});

export interface TreeSeason extends TreeDays, Ground {
  facts: TreeFacts;
  /** first index on which the tree stands */
  first: number;
  days: number;
  ballArea: number; // [m²]
}

const squareMetres = (diameterM: number): number => (Math.PI / 4) * diameterM * diameterM;

/**
 * Irrigated area of a tree once it is established, from whatever its row says [m²].
 *
 * @throws Problem if nothing on the row gives a size
 */
export function establishedArea(tree: Tree, site: Pick<Site, 'reach'>): number {
  const sized = sizes(tree, []);
  return squareMetres(Math.max(sized.ballDiameter / 1000, site.reach * sized.canopy));
}

/**
 * Sizes of a tree from whatever the row says, and its season of stores and demand.
 *
 * @param into - daily series to write into, of the season's length: trees planned one after another share them
 * @throws Problem if nothing on the row gives a size, or a size or its demand is out of range
 */
export function treeSeason(
  tree: Tree,
  site: Site,
  weather: SeasonWeather,
  into: TreeDays = treeDays(weather.et0.length),
): TreeSeason {
  const flags = (tree.assumed ?? []).map((what) => `${what} assumed`);
  const sized = sizes(tree, flags);
  const plantFactor = tree.plantFactor ?? site.plantFactor;
  const texture = tree.texture ?? site.texture;
  const soil = textureWater(texture).available;
  const fromContainer = tree.container !== undefined;
  const ballAvailable = fromContainer ? site.substrateAvailable : soil;
  const ballVolume = cylinderVolume(sized.ballDiameter, sized.ballDepth);
  const ballTaw = ballVolume * ballAvailable;
  const ballM = sized.ballDiameter / 1000;
  const establishedDiameter = Math.max(ballM, site.reach * sized.canopy);
  const needed = monthsToEstablish(sized.caliper, site.zone);

  const days = weather.et0.length;
  const planted = plantingDay(tree, sized.caliper, weather, flags);
  const first = planted === undefined ? 0 : Math.min(days, Math.max(0, planted - weather.from));
  const monthsOn = (i: number): number =>
    planted === undefined ? Infinity : (weather.from + i - planted) / DAYS_PER_MONTH;

  const { demand, p, ringTaw, ringArea, joined, raw } = into;
  const ballArea = squareMetres(ballM);
  const ringDiameter = (i: number): number =>
    planted === undefined
      ? establishedDiameter
      : rootSpread(ballM, establishedDiameter, monthsOn(i), needed);
  for (let i = first; i < days; i++) {
    const et0 = weather.et0[i]!;
    const established = monthsOn(i) >= needed;
    demand[i] = dailyDemand(et0, sized.canopy, plantFactor, site.siteFactor);
    p[i] = adjustDepletion(
      established ? site.depletionEstablished : site.depletionNew,
      et0 * plantFactor * site.siteFactor,
    );
    ringArea[i] = squareMetres(ringDiameter(i)) - ballArea;
    ringTaw[i] = ringArea[i]! * site.rootDepth * soil; // m² × mm = L
    joined[i] = i > first ? joining(ringTaw, i, site.joiningShare) : 0;
    raw[i] = p[i]! * (ballTaw + ringTaw[i]!);
  }

  const at = Math.max(first, peakIndex(weather));
  const inSeason = at < days;
  const taw = inSeason ? ballTaw + ringTaw[at]! : ballTaw;
  const depletion = inSeason ? p[at]! : site.depletionNew;
  const peakDemand = inSeason
    ? dailyDemand(weather.peakEt0, sized.canopy, plantFactor, site.siteFactor)
    : 0;
  return {
    facts: {
      canopy: sized.canopy,
      ballDiameter: sized.ballDiameter,
      ballDepth: sized.ballDepth,
      ballVolume,
      ballAvailable,
      soilAvailable: soil,
      intake: basicIntake(texture).rate,
      ballTaw,
      establishedDiameter,
      monthsToEstablish: needed,
      monthsAtStart: monthsOn(first),
      peak: {
        ringDiameter: inSeason ? ringDiameter(at) : ballM,
        taw,
        depletion,
        raw: depletion * taw,
        demand: peakDemand,
        interval: peakDemand > 0 ? (depletion * taw) / peakDemand : 0,
      },
      plantFactor,
      flags,
    },
    first,
    days,
    demand,
    p,
    ballTaw,
    overflowToRing: site.overflowToRing,
    ringTaw,
    ballArea,
    ringArea,
    joined,
    raw,
  };
}

interface Sizes {
  caliper: number;
  canopy: number;
  ballDiameter: number;
  ballDepth: number;
}

function sizes(tree: Tree, flags: string[]): Sizes {
  const caliper = tree.caliper ?? estimatedCaliper(tree, flags);
  if (tree.canopy === undefined) flags.push('canopy estimated from the trunk');
  const canopy = tree.canopy ?? canopyFromCaliper(caliper);
  if (tree.ballDiameter === undefined && tree.container !== undefined) {
    const inside = containerBall(containerVolume(tree.container));
    return {
      caliper,
      canopy,
      ballDiameter: inside.diameter,
      ballDepth: tree.ballDepth ?? inside.depth,
    };
  }
  if (tree.ballDiameter !== undefined && tree.ballDiameter > LARGEST_BALL)
    flags.push('ball larger than the stock table, taken as 54 in');
  const diameter = Math.min(tree.ballDiameter ?? ballDiameter(caliper), LARGEST_BALL);
  return {
    caliper,
    canopy,
    ballDiameter: diameter,
    ballDepth: tree.ballDepth ?? ballDepth(diameter),
  };
}

function estimatedCaliper(tree: Tree, flags: string[]): number {
  if (tree.container !== undefined) {
    flags.push('trunk estimated from the container class');
    return containerCaliper(tree.container);
  }
  if (tree.canopy !== undefined) {
    flags.push('trunk estimated from the canopy');
    return caliperFromCanopy(tree.canopy);
  }
  if (tree.ballDiameter !== undefined) {
    flags.push('trunk estimated from the ball: 12 in of ball for each inch');
    return tree.ballDiameter / 12;
  }
  throw new Problem(
    `row ${tree.row}: nothing gives a size; fill trunk diameter, container class, ball or canopy`,
  );
}

/** Planting day, or undefined for a tree taken as established. */
function plantingDay(
  tree: Tree,
  caliper: number,
  weather: SeasonWeather,
  flags: string[],
): number | undefined {
  if (tree.planted !== undefined) return tree.planted;
  if (caliper <= YOUNG_CALIPER) {
    flags.push('no planting date: taken as planted when the season starts');
    return weather.from;
  }
  flags.push('no planting date: taken as established');
  return undefined;
}

const peaks = new WeakMap<SeasonWeather, number>();

/** Middle of the peak month within the season, as an index. */
function peakIndex(weather: SeasonWeather): number {
  const known = peaks.get(weather);
  if (known !== undefined) return known;
  const inPeak: number[] = [];
  for (let i = 0; i < weather.et0.length; i++)
    if (civil(weather.from + i).month === weather.peakMonth) inPeak.push(i);
  const middle = inPeak[Math.floor(inPeak.length / 2)] ?? 0;
  peaks.set(weather, middle);
  return middle;
}
