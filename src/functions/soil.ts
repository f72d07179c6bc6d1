/** Worksheet functions about the soil: what it holds, what a tree may take from it, and mulch on it. */
import { Problem } from '../engine/problems.js';
import { mulchVolume as volumeOfMulch } from '../engine/soil/mulch.js';
import { adjustDepletion, cylinderVolume, usableWater } from '../engine/soil/root-zone.js';
import { basicIntake, textureWater, TEXTURES } from '../engine/soil/texture.js';
import { stress as stressCoefficient } from '../engine/soil/water-balance.js';
import { M_PER_FOOT } from '../engine/units.js';
import { answer } from './answer.js';
import { number, optionalNumber, toCell, unitsOf, word } from './arguments.js';
import { SOIL_SHARES } from './choices.js';

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
 * Basic intake rate of a soil texture: what bare soil still takes after a long wetting, in/h | mm/h.
 * @customfunction SOIL_INTAKE
 * @param texture - sand, loamy sand, sandy loam, loam, silt loam, silt, clay loam, silty clay loam, sandy clay, silty clay or clay; no unit
 * @param units - "US" or "SI", no unit; default "US"
 * @returns rate, in/h | mm/h
 * @equation middle of the published range; sand at its lower limit of 20 mm/h
 * @range bare level soil, not compacted; textures between two published ones take the limit they share (assumption); published rates differ twofold, so measure where it matters
 * @throws #VALUE! with the accepted words
 * @source soil physics lecture notes after Hillel (1980)
 */
export function soilIntake(texture: unknown, units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    return toCell(basicIntake(word('texture', texture, TEXTURES)).rate, 'intake', system);
  });
}

/**
 * Allowable depletion adjusted for the demand of the day.
 * @customfunction DEPLETION
 * @param base - share that may be used at 5 mm a day, from a table, no unit; 0.5 is usual
 * @param etc - water the tree uses in a day as a depth, in | mm
 * @param units - "US" or "SI", no unit; default "US"
 * @returns share of the available water, 0.1 to 0.8
 * @equation share = base + 0.04 · (5 − etc), etc in mm a day, held to 0.1 to 0.8
 * @range base to 1, etc to 30 mm a day
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Allen, Pereira, Raes, Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 8
 */
export function depletion(base: unknown, etc: unknown, units?: unknown): number {
  return answer(() =>
    adjustDepletion(
      number('base', base, 'baseDepletion'),
      number('etc', etc, 'dayDemand', unitsOf(units)),
    ),
  );
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
 * Stress coefficient: the share of its demand a tree still draws from a drying root zone.
 * @customfunction STRESS
 * @param depleted - water used up, gal | L or in | mm
 * @param total - available water of the full root zone, in the unit of depleted: gal | L or in | mm
 * @param depletion - share that may be used without stress, no unit, to 0.95
 * @returns share of demand, 1 without stress, 0 at wilting point
 * @equation Ks = (total − depleted)/((1 − depletion) · total), at most 1 (FAO-56 Eq. 84)
 * @range depleted from 0 to total
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Allen, Pereira, Raes, Smith (1998), FAO Irrigation and Drainage Paper 56
 */
export function stress(depleted: unknown, total: unknown, depletion: unknown): number {
  return answer(() => {
    const used = number('depleted', depleted, 'depleted');
    const full = number('total', total, 'anyVolume');
    if (used > full) throw new Problem('depleted must not be above total');
    return stressCoefficient(used, full, number('depletion', depletion, 'stressDepletion'));
  });
}

/**
 * Mulch for a ring round a tree, cubic yards | m³.
 * @customfunction MULCH_VOLUME
 * @param outer_diameter - of the mulched circle, ft | m
 * @param depth - of the mulch, in | cm
 * @param clear_diameter - circle without mulch, which keeps it off the stem, ft | m; default 1 ft
 * @param units - "US" or "SI", no unit; default "US"
 * @returns loose mulch, cubic yards | m³
 * @equation volume = π/4 · (outer_diameter² − clear_diameter²) · depth, lengths in one unit
 * @range outer_diameter to 90 m and above clear_diameter, depth to 60 cm; 2 to 4 in is usual
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source geometry; mulch off the stem is common practice, no source
 */
export function mulchVolume(
  outer_diameter: unknown,
  depth: unknown,
  clear_diameter?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const outer = number('outer_diameter', outer_diameter, 'mulchRing', system);
    const thick = number('depth', depth, 'mulchDepth', system);
    const clear = optionalNumber('clear_diameter', clear_diameter, 'mulchRing', M_PER_FOOT, system);
    if (outer <= clear)
      throw new Problem('outer_diameter must be above clear_diameter, which is 1 ft if not given');
    return toCell(volumeOfMulch(outer, thick, clear), 'heap', system);
  });
}
