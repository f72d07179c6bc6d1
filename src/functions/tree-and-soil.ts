/** Worksheet functions about the tree's demand, its soil and how long the water in it lasts. */
import { Problem } from '../engine/problems.js';
import { cylinderVolume, usableWater } from '../engine/soil/root-zone.js';
import { textureWater, TEXTURES } from '../engine/soil/texture.js';
import { dailyDemand } from '../engine/tree/demand.js';
import { answer } from './answer.js';
import { number, optionalNumber, toCell, unitsOf, word } from './arguments.js';
import { SOIL_SHARES } from './choices.js';

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
 * Water a soil texture holds, as a share of its volume.
 * @customfunction SOIL_WATER
 * @param texture - sand, loamy sand, sandy loam, loam, silt loam, silt, clay loam, silty clay loam, sandy clay, silty clay or clay; no unit
 * @param what - "available", "field capacity" or "wilting point", no unit; default "available"
 * @returns share of volume, 0 to 1
 * @equation middle of the printed range, FAO-56 Table 19
 * @range the textures listed; clay loam and sandy clay have available water only
 * @throws #VALUE! with the accepted words; #N/A where the source prints no such value
 * @source Allen and others (1998), FAO-56 Table 19; University of California table of inches per foot
 */
export function soilWater(texture: unknown, what?: unknown): number {
  return answer(() => {
    const name = word('texture', texture, TEXTURES);
    const asked = word('what', what, SOIL_SHARES, 'available');
    const water = textureWater(name);
    const share = {
      available: water.available,
      'field capacity': water.fieldCapacity,
      'wilting point': water.wiltingPoint,
    }[asked];
    if (share === undefined)
      throw new Problem(
        `what: no ${asked} is published for ${name}, only its available water`,
        'none',
      );
    return share;
  });
}

/**
 * Water a root zone gives before the tree suffers, gal | L.
 * @customfunction ROOTZONE_VOLUME
 * @param diameter - of the root zone or ball, in | cm
 * @param depth - of the root zone or ball, in | cm
 * @param available - available water of the soil, share of volume, no unit
 * @param depletion - share of it that may be used, no unit; default 0.5
 * @param units - "US" or "SI", no unit; default "US"
 * @returns usable water, gal | L
 * @equation RAW = p · available · π/4 · d² · depth (FAO-56 Eq. 82, 83)
 * @range diameter and depth to 30 m, available to 0.6, depletion to 1
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Allen, Pereira, Raes, Smith (1998), FAO Irrigation and Drainage Paper 56
 */
export function rootzoneVolume(
  diameter: unknown,
  depth: unknown,
  available: unknown,
  depletion?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const soil = cylinderVolume(
      number('diameter', diameter, 'rootSize', system),
      number('depth', depth, 'rootSize', system),
    );
    const litres = usableWater(
      soil,
      number('available', available, 'available'),
      optionalNumber('depletion', depletion, 'depletion', 0.5),
    );
    return toCell(litres, 'volume', system);
  });
}

/**
 * Days a root zone's usable water lasts.
 * @customfunction INTERVAL
 * @param volume - usable water of the root zone, gal | L
 * @param demand - water used a day, gal | L as volume
 * @param rain - water that rain brings a day, gal | L as volume; default 0
 * @returns days
 * @equation t = volume/(demand − rain)
 * @range volume and demand above 0
 * @throws #VALUE! naming the parameter that is blank or out of range; #N/A if rain covers demand
 * @source water balance, FAO-56 Eq. 85
 */
export function interval(volume: unknown, demand: unknown, rain?: unknown): number {
  return answer(() => {
    const usable = number('volume', volume, 'anyVolume');
    const net = number('demand', demand, 'demand') - optionalNumber('rain', rain, 'rainGain', 0);
    if (net <= 0)
      throw new Problem('rain covers demand, so the root zone does not run dry', 'none');
    return usable / net;
  });
}
