/** Worksheet functions about soaker hoses: how much they give, how they are laid, how they run. */
import {
  coilDiameter as spiralDiameter,
  coilLength as spiralLength,
  cyclesAndSoak,
  FILM_STORAGE,
  porousHoseFlow,
  runMinutes,
} from '../engine/means/soaker-hose.js';
import { Problem } from '../engine/problems.js';
import { answer } from './answer.js';
import { number, optionalNumber, toCell, unitsOf } from './arguments.js';

/**
 * Water a porous hose takes at its inlet, gpm | L/min.
 * @customfunction HOSE_FLOW
 * @param length - of porous hose, ft | m
 * @param rate - measured output, gal/h per 100 ft | L/h per m; no default, hoses differ fourfold
 * @param pressure - at the inlet now, psi | kPa; default: as when the rate was measured. 0 is a true zero: no flow
 * @param rated_pressure - at which the rate was measured, psi | kPa; no default, needed when pressure is given
 * @param exponent - how output follows pressure, no unit; default 1
 * @param units - "US" or "SI", no unit; default "US"
 * @returns flow, gpm | L/min
 * @equation Q = rate · length · (pressure/rated_pressure)^exponent
 * @range friction along the hose left out; length to 1,500 m, pressure to 1,000 kPa, exponent to 2
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source emitter characteristic curve, Wu and Gitlin (1974)
 */
export function hoseFlow(
  length: unknown,
  rate: unknown,
  pressure?: unknown,
  rated_pressure?: unknown,
  exponent?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const metres = number('length', length, 'hoseLength', system);
    const output = number('rate', rate, 'hoseRate', system);
    const now = optionalNumber('pressure', pressure, 'pressure', undefined, system);
    const rated = optionalNumber(
      'rated_pressure',
      rated_pressure,
      'ratedPressure',
      undefined,
      system,
    );
    const power = optionalNumber('exponent', exponent, 'exponent', 1);
    if (now !== undefined && rated === undefined)
      throw new Problem('rated_pressure is needed when pressure is given; got a blank cell');
    const flow = porousHoseFlow(
      metres,
      output,
      now === undefined || rated === undefined
        ? undefined
        : { pressure: now, rated, exponent: power },
    );
    return toCell(flow, 'flow', system);
  });
}

/**
 * Minutes a hose must run to give a volume.
 * @customfunction HOSE_MINUTES
 * @param volume - water the soil shall keep, gal | L
 * @param flow - flow of the hose, gpm | L/min, in the unit of volume a minute
 * @param efficiency - share that reaches the root zone, no unit; default 0.9
 * @returns time, minutes
 * @equation t = volume/(flow · efficiency)
 * @range volume and flow above 0
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source definition
 */
export function hoseMinutes(volume: unknown, flow: unknown, efficiency?: unknown): number {
  return answer(() =>
    runMinutes(
      number('volume', volume, 'anyVolume'),
      number('flow', flow, 'flow'),
      optionalNumber('efficiency', efficiency, 'usable', 0.9),
    ),
  );
}

/**
 * Hose needed for a spiral round a tree, ft | m.
 * @customfunction COIL_LENGTH
 * @param inner - diameter where the spiral begins, ft | m
 * @param outer - diameter where it ends, ft | m
 * @param spacing - between turns, in | cm
 * @param units - "US" or "SI", no unit; default "US"
 * @returns hose length, ft | m
 * @equation L = [r √(r² + b²) + b² asinh(r/b)]/(2b) from r1 to r2, b = spacing/2π
 * @range diameters to 90 m, outer above inner, spacing 1 to 300 cm
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source arc length of the Archimedean spiral
 */
export function coilLength(
  inner: unknown,
  outer: unknown,
  spacing: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const from = number('inner', inner, 'coil', system);
    const to = number('outer', outer, 'coil', system);
    if (to <= from) throw new Problem('outer must be above inner');
    return toCell(
      spiralLength(from, to, number('spacing', spacing, 'spacing', system)),
      'span',
      system,
    );
  });
}

/**
 * Outer diameter of the spiral that a hose makes round a tree, ft | m.
 * @customfunction COIL_DIAMETER
 * @param length - of hose, ft | m
 * @param inner - diameter where the spiral begins, ft | m
 * @param spacing - between turns, in | cm
 * @param units - "US" or "SI", no unit; default "US"
 * @returns outer diameter, ft | m
 * @equation COIL_LENGTH solved for its outer diameter, to 1e-12
 * @range length to 10,000 m, inner to 90 m, spacing 1 to 300 cm
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source arc length of the Archimedean spiral
 */
export function coilDiameter(
  length: unknown,
  inner: unknown,
  spacing: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const diameter = spiralDiameter(
      number('length', length, 'coilHose', system),
      number('inner', inner, 'coil', system),
      number('spacing', spacing, 'spacing', system),
    );
    return toCell(diameter, 'span', system);
  });
}

/**
 * How to split a run so that water does not run off: number of cycles, minutes on, minutes off between two.
 * @customfunction SOAK_CYCLES
 * @param minutes - run needed, minutes
 * @param rate - application rate over the wetted ground, in/h | mm/h
 * @param intake - basic intake rate of the soil, in/h | mm/h
 * @param storage - water the surface holds without running off, in | mm; default 0.25 in (6.35 mm), an assumption
 * @param units - "US" or "SI", no unit; default "US"
 * @returns cycles, minutes on, minutes off, side by side; one cycle without a pause where the soil keeps up
 * @equation on ≤ storage/(rate − intake), off = on · (rate − intake)/intake, cycles · on = minutes
 * @range level ground; rates to 5,000 mm/h, storage to 100 mm, minutes to 10,000
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source water balance of the surface film; cycle-and-soak practice of a Southern Nevada utility
 */
export function soakCycles(
  minutes: unknown,
  rate: unknown,
  intake: unknown,
  storage?: unknown,
  units?: unknown,
): number[][] {
  return answer(() => {
    const system = unitsOf(units);
    const { cycles, onMinutes, offMinutes } = cyclesAndSoak(
      number('minutes', minutes, 'runMinutes'),
      number('rate', rate, 'intakeRate', system),
      number('intake', intake, 'intakeRate', system),
      optionalNumber('storage', storage, 'filmStorage', FILM_STORAGE, system),
    );
    return [[cycles, onMinutes, offMinutes]];
  });
}
