/** Worksheet functions about flow and pressure in hoses and pipes. */
import { bucketFlow as flowOfBucket } from '../engine/means/hand-and-tanker.js';
import {
  FLOW_EXPONENT,
  frictionHead,
  outletFactor as christiansen,
  pressureOfHead,
} from '../engine/means/pipe-flow.js';
import { longestEven, porousHose } from '../engine/means/porous-hose.js';
import { plain } from '../engine/checks.js';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import { answer } from './answer.js';
import { number, optionalNumber, toCell, unitsOf } from './arguments.js';
import { LIMITS, QUANTITIES } from './limits.js';

/** Hazen–Williams coefficient of a smooth hose [-]. */
const SMOOTH = 140;

/**
 * Flow of a tap or a pump from a bucket and a stopwatch, gpm | L/min.
 * @customfunction BUCKET_FLOW
 * @param volume - of the bucket, gal | L
 * @param seconds - time to fill it, seconds; average two or three fills
 * @param units - "US" or "SI", no unit; default "US"
 * @returns flow, gpm | L/min
 * @equation Q = volume · 60/seconds
 * @range best from 15 s; at most a day
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source definition
 */
export function bucketFlow(volume: unknown, seconds: unknown, units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    const flow = flowOfBucket(
      number('volume', volume, 'bagVolume', system),
      number('seconds', seconds, 'seconds'),
    );
    return toCell(flow, 'flow', system);
  });
}

/**
 * Pressure that friction takes in a hose or pipe, psi | kPa.
 * @customfunction HOSE_LOSS
 * @param flow - at the inlet, gpm | L/min
 * @param length - of hose or pipe, ft | m
 * @param bore - inside diameter, in | mm
 * @param c - Hazen-Williams coefficient, no unit; default 140, smooth plastic; about 130 for old rubber
 * @param outlets - equal outlets along it, a whole number, no unit; default 0: all the flow goes to the end
 * @param units - "US" or "SI", no unit; default "US"
 * @returns loss, psi | kPa; without fittings, valves and height
 * @equation h = 0.2083 (100/c)^1.852 q^1.852/d^4.8655 per 100 of length (gpm, in); with outlets times OUTLET_FACTOR
 * @range turbulent flow of cool water; flow to 40,000 L/min, length to 10,000 m, bore 2.5 to 610 mm, c 60 to 160
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Hazen-Williams, US form; Christiansen (1942) for outlets
 */
export function hoseLoss(
  flow: unknown,
  length: unknown,
  bore: unknown,
  c?: unknown,
  outlets?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const head = frictionHead(
      number('flow', flow, 'pipeFlow', system),
      number('length', length, 'pipeLength', system),
      number('bore', bore, 'pipeBore', system),
      optionalNumber('c', c, 'roughness', SMOOTH),
    );
    const along = optionalNumber('outlets', outlets, 'outlets', 0);
    const share = along === 0 ? 1 : christiansen(along);
    return toCell(pressureOfHead(head * share), 'pressure', system);
  });
}

/**
 * Share of the friction that is left in a line with equal outlets along it.
 * @customfunction OUTLET_FACTOR
 * @param outlets - a whole number, no unit; the first sits one spacing from the inlet
 * @param m - exponent of flow in the friction formula, no unit; default 1.852, Hazen-Williams
 * @returns factor, no unit, at most 1
 * @equation F = 1/(m+1) + 1/(2N) + √(m−1)/(6N²), not above 1
 * @range outlets 1 to 100,000, m 1 to 2; outlets that give alike
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Christiansen (1942)
 */
export function outletFactor(outlets: unknown, m?: unknown): number {
  return answer(() =>
    christiansen(
      number('outlets', outlets, 'someOutlets'),
      optionalNumber('m', m, 'flowExponent', FLOW_EXPONENT),
    ),
  );
}

/**
 * How even a porous hose gives: outflow of its end as a share of the outflow at its start.
 * @customfunction HOSE_EVENNESS
 * @param length - of porous hose, closed at its end, ft | m
 * @param rate - measured output of a short piece at that pressure, gal/h per 100 ft | L/h per m; no default, hoses differ fourfold
 * @param pressure - at the inlet, and at which the rate was measured, psi | kPa
 * @param bore - inside diameter, in | mm
 * @param exponent - how output follows pressure, no unit; default 1
 * @param c - Hazen-Williams coefficient, no unit; default 140, smooth; a porous wall is rougher
 * @param units - "US" or "SI", no unit; default "US"
 * @returns end ÷ start, 0 to 1; 0.8 and more is usual for good work, 0 where the end runs dry
 * @equation dQ/ds = q, q = rate · (P/pressure)^exponent, dP/ds = Hazen-Williams at Q; Q = 0 at the closed end; solved exactly, to 1e-9
 * @range level hose, turbulent flow; length to 1,500 m, rate to 250 L/h per m, bore 2.5 to 610 mm, exponent to 2
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Hazen-Williams; emitter characteristic curve, Wu and Gitlin (1974)
 */
export function hoseEvenness(
  length: unknown,
  rate: unknown,
  pressure: unknown,
  bore: unknown,
  exponent?: unknown,
  c?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const metres = number('length', length, 'hoseLength', system);
    const hose = hoseOf(system, rate, pressure, bore, exponent, c);
    return porousHose({ ...hose, length: metres }).evenness;
  });
}

/**
 * Longest run of a porous hose that stays that even, ft | m.
 * @customfunction HOSE_LONGEST
 * @param rate - measured output of a short piece at that pressure, gal/h per 100 ft | L/h per m; no default, hoses differ fourfold
 * @param pressure - at the inlet, and at which the rate was measured, psi | kPa
 * @param bore - inside diameter, in | mm
 * @param evenness - outflow of the end as a share of the outflow at the start, no unit, 0.01 to 0.999; default 0.8
 * @param exponent - how output follows pressure, no unit; default 1
 * @param c - Hazen-Williams coefficient, no unit; default 140, smooth; a porous wall is rougher
 * @param units - "US" or "SI", no unit; default "US"
 * @returns length, ft | m
 * @equation HOSE_EVENNESS solved for length, exactly, to 1e-9
 * @range level hose, turbulent flow; answers from 1 cm to 1,500 m
 * @throws #VALUE! naming the parameter that is blank or out of range; #N/A if the run is outside those lengths
 * @source Hazen-Williams; emitter characteristic curve, Wu and Gitlin (1974)
 */
export function hoseLongest(
  rate: unknown,
  pressure: unknown,
  bore: unknown,
  evenness?: unknown,
  exponent?: unknown,
  c?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const asked = optionalNumber('evenness', evenness, 'evenness', 0.8);
    const metres = longestEven(hoseOf(system, rate, pressure, bore, exponent, c), asked);
    const longest = LIMITS.hoseLength[system][1];
    const length = toCell(metres, 'span', system);
    const { label } = QUANTITIES.span[system];
    if (!(length <= longest))
      throw new Problem(
        `evenness stays above ${plain(asked)} at every length up to ${longest} ${label}; friction sets no limit here`,
        'none',
      );
    if (metres < SHORTEST)
      throw new Problem(
        `evenness is below ${plain(asked)} on any hose from 1 cm up; check rate, pressure and bore`,
        'none',
      );
    return length;
  });
}

/** A hose shorter than this waters nothing [m]. */
const SHORTEST = 0.01;

/** What the two functions about a porous hose read alike. */
function hoseOf(
  system: Units,
  rate: unknown,
  pressure: unknown,
  bore: unknown,
  exponent: unknown,
  c: unknown,
): Omit<Parameters<typeof porousHose>[0], 'length'> {
  return {
    rate: number('rate', rate, 'hoseRate', system),
    pressure: number('pressure', pressure, 'hosePressure', system),
    bore: number('bore', bore, 'pipeBore', system),
    exponent: optionalNumber('exponent', exponent, 'exponent', 1),
    c: optionalNumber('c', c, 'roughness', SMOOTH),
  };
}
