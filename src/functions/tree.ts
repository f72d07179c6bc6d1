/** Worksheet functions about the tree: its demand, the stock it came as and how far its roots have reached. */
import { dailyDemand } from '../engine/tree/demand.js';
import { monthsToEstablish, rootSpread as diameterOfRoots } from '../engine/tree/establishment.js';
import { CLIMATES, PLANT_KINDS, plantFactor as factorOf } from '../engine/tree/plant-factor.js';
import {
  ballDepth as depthOfBall,
  ballDiameter as diameterOfBall,
  containerVolume as volumeOfContainer,
} from '../engine/tree/stock-sizes.js';
import { answer } from './answer.js';
import {
  containerClass,
  hardinessZone,
  number,
  optionalNumber,
  toCell,
  unitsOf,
  word,
} from './arguments.js';

/**
 * Plant factor: the share of reference evapotranspiration a kind of plant needs.
 * @customfunction PLANT_FACTOR
 * @param kind - "tree", "desert", or a water need: "very low", "low", "moderate", "high"; no unit
 * @param climate - "dry" (summers without rain to speak of) or "humid" (wet growing season), no unit; default "dry"
 * @returns share of reference evapotranspiration, 0 to 1
 * @equation read from a table; only "tree" depends on the climate
 * @range established plants; a new transplant is bound by its root ball
 * @throws #VALUE! with the accepted words
 * @source ANSI/ASABE S623.1 (2017); Costello and others (2000), WUCOLS species factors, middle of each class
 */
export function plantFactor(kind: unknown, climate?: unknown): number {
  return answer(
    () =>
      factorOf(word('kind', kind, PLANT_KINDS), word('climate', climate, CLIMATES, 'dry')).value,
  );
}

/**
 * Water a tree uses in a day, gal | L.
 * @customfunction TREE_DEMAND
 * @param et0 - reference evapotranspiration of the day, in | mm; above 0 (for a true zero write 0.001)
 * @param canopy - canopy diameter, ft | m
 * @param plant_factor - share of et0 this kind of plant needs, no unit; default 0.5
 * @param site_factor - reflected heat and wind, no unit, 0.5 to 1.4 is usual; default 1
 * @param units - "US" or "SI", no unit; default "US"
 * @returns water, gal | L a day
 * @equation D = ET0 · PF · ks · π/4 · d²
 * @range established trees; et0 to 23 mm, canopy to 90 m
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source ANSI/ASABE S623.1 (2017) and SLIDE rules
 */
export function treeDemand(
  et0: unknown,
  canopy: unknown,
  plant_factor?: unknown,
  site_factor?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const litres = dailyDemand(
      number('et0', et0, 'et0', system),
      number('canopy', canopy, 'canopy', system),
      optionalNumber('plant_factor', plant_factor, 'plantFactor', 0.5),
      optionalNumber('site_factor', site_factor, 'siteFactor', 1),
    );
    return toCell(litres, 'volume', system);
  });
}

/**
 * Least root-ball diameter of balled stock for a trunk, in | cm.
 * @customfunction BALL_DIAMETER
 * @param caliper - trunk diameter, 6 in above ground up to 4 in, above that at 12 in; in | cm
 * @param units - "US" or "SI", no unit; default "US"
 * @returns least ball diameter, in | cm
 * @equation straight line between the rows of the table
 * @range shade trees, caliper 0.5 to 5 in; other standards and growers differ: at 2 in from 23 to 28 in, at 4 in from 28 to 42 in
 * @throws #VALUE! naming the parameter that is blank, not a number, or outside the table
 * @source ANSI Z60.1 (2014), section 1, from memory; a municipal chart agrees within 1 in
 */
export function ballDiameter(caliper: unknown, units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    return toCell(
      diameterOfBall(number('caliper', caliper, 'ballCaliper', system)),
      'size',
      system,
    );
  });
}

/**
 * Least root-ball depth for a ball diameter, in | cm.
 * @customfunction BALL_DEPTH
 * @param ball_diameter - of the root ball, in | cm
 * @param units - "US" or "SI", no unit; default "US"
 * @returns least ball depth, in | cm
 * @equation 0.75 of the diameter below 20 in, 0.66 to 30 in, 0.60 above
 * @range ball to 120 in; at 20 and 30 in the rule itself steps down
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source UF/IFAS, root-ball depth of field-grown trees (shares of ANSI Z60.1)
 */
export function ballDepth(ball_diameter: unknown, units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    const depth = depthOfBall(number('ball_diameter', ball_diameter, 'ballSize', system));
    return toCell(depth, 'size', system);
  });
}

/**
 * True volume of a nursery container class, gal | L. A #5 is not 5 gallons.
 * @customfunction CONTAINER_VOLUME
 * @param class_ - container class such as 15 or "#15", no unit
 * @param units - "US" or "SI", no unit; default "US"
 * @returns volume, gal | L
 * @equation a row of the table, or a straight line between two rows
 * @range class 1 to 100; classes 1, 2, 3, 5, 7, 10, 15, 20, 25, 45, 65 and 100 are rows, others are interpolated
 * @throws #VALUE! naming the parameter that is blank, no class, or out of range
 * @source HortScience 39(3):591 (2004) for 1, 2, 7, 15, 25; nursery glossary for 5; the others from ANSI Z60.1 ranges, from memory
 */
export function containerVolume(class_: unknown, units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    return toCell(volumeOfContainer(containerClass('class', class_)), 'volume', system);
  });
}

/**
 * Months a planted tree takes to establish.
 * @customfunction ROOT_MONTHS
 * @param caliper - trunk diameter at planting, in | cm
 * @param zone - USDA hardiness zone, 1 to 13, such as 9 or "9b"; no unit
 * @param units - "US" or "SI", no unit; default "US"
 * @returns months; in zones 1 to 6 the least, it may take longer
 * @equation per inch of trunk: 3 months in zones 9 to 13, 6 in zones 7 and 8, 12 in zones 1 to 6
 * @range zones 12, 13 and 1 are read as their neighbours (assumption); deserts and container stock take longer
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source UF/IFAS, Gilman, establishment period
 */
export function rootMonths(caliper: unknown, zone: unknown, units?: unknown): number {
  return answer(() =>
    monthsToEstablish(
      number('caliper', caliper, 'caliper', unitsOf(units)),
      hardinessZone('zone', zone),
    ),
  );
}

/**
 * Diameter of the irrigated root zone of a planted tree as its roots spread, ft | m.
 * @customfunction ROOT_SPREAD
 * @param ball_diameter - root ball at planting, in | cm
 * @param canopy - canopy diameter, ft | m
 * @param months - since planting, no unit; 0 on planting day
 * @param months_to_establish - until established, no unit (ROOT_MONTHS gives them)
 * @param reach - irrigated diameter when established, as a multiple of the canopy, no unit; default 1
 * @param units - "US" or "SI", no unit; default "US"
 * @returns diameter, ft | m; never below the ball
 * @equation diameter = ball_diameter + (reach · canopy − ball_diameter) · min(1, months/months_to_establish), lengths in one unit
 * @range reach 0.1 to 5; a straight line in time is an assumption, and so is a reach of 1: roots go on to about 3
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source a model of this workbook; 3 times the canopy is an established tree by UF/IFAS, Gilman
 */
export function rootSpread(
  ball_diameter: unknown,
  canopy: unknown,
  months: unknown,
  months_to_establish: unknown,
  reach?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const ball = number('ball_diameter', ball_diameter, 'ballSize', system) / 1000;
    const established =
      number('canopy', canopy, 'canopy', system) * optionalNumber('reach', reach, 'reach', 1);
    const metres = diameterOfRoots(
      ball,
      established,
      number('months', months, 'months'),
      number('months_to_establish', months_to_establish, 'monthsNeeded'),
    );
    return toCell(metres, 'span', system);
  });
}
