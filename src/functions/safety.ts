/** Worksheet functions about the crew's and the trees' safety: heat, and salts in the water. */
import { adjustedTemperature, SUNS, workRest, WORKLOADS } from '../engine/safety/heat.js';
import { SALINITY_MEASURES, salinityClass } from '../engine/safety/salinity.js';
import { answer } from './answer.js';
import { number, optionalNumber, unitsOf, word } from './arguments.js';

/** The humidity the schedule is printed for [-]. */
const PRINTED_HUMIDITY = 0.3;

/**
 * Work and rest minutes an hour in the heat, by a sample schedule for healthy, acclimatised workers under 40 in normal clothing; local law and a competent person decide.
 * @customfunction HEAT_REST
 * @param temperature - of the air, in the shade, °F | °C
 * @param workload - "light", "moderate" or "heavy" work, no unit
 * @param humidity - relative humidity as a share, no unit, to 0.6; default 0.3, also for 0
 * @param sun - "full", "partly" or "shade", no unit; default "full"
 * @param units - "US" or "SI", no unit; default "US"
 * @returns work and rest, minutes in the hour, two cells side by side; "stop" twice where the schedule says caution and above
 * @equation adjusted °F = air + sun (full 13, partly 7, shade 0) + humidity (10 % −8, 20 % −4, 30 % 0, 40 % +3, 50 % +6, 60 % +9), rounded up; humidity between two values counts as the higher
 * @range a sample schedule for healthy, rested, acclimatised workers under 40, normal clothing, air that moves; 60 and 0 mean that it states no limit, not that nobody needs water, shade and breaks; air from 40 °F | 5 °C, so that a blank cell cannot read as a cool day; local law and a competent person decide; the federal rule proposed in 2024 was not final when this was written
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range; #N/A above 60 % humidity, for which no adjustment is published: go by the heat index and local rules
 * @source NIOSH, Heat Stress: Work/Rest Schedules; the adjustments for sun and humidity are from memory, after EPA and OSHA, A Guide to Heat Stress in Agriculture (1993), to be confirmed
 */
export function heatRest(
  temperature: unknown,
  workload: unknown,
  humidity?: unknown,
  sun?: unknown,
  units?: unknown,
): unknown[][] {
  return answer(() => {
    const system = unitsOf(units);
    const celsius = number('temperature', temperature, 'airTemperature', system);
    const load = word('workload', workload, WORKLOADS);
    const adjusted = adjustedTemperature({
      temperature: celsius,
      humidity: optionalNumber('humidity', humidity, 'humidity', PRINTED_HUMIDITY),
      sun: word('sun', sun, SUNS, 'full'),
    });
    const hour = workRest(adjusted, load);
    return [hour === 'stop' ? ['stop', 'stop'] : [hour.work, hour.rest]];
  });
}

/**
 * How far the salts in reclaimed or well water restrict its use: "none", "slight to moderate" or "severe".
 * @customfunction SALINITY
 * @param ec - the measured value: conductivity in dS/m, or what the next argument names, the same unit in US | SI
 * @param what - "ec" in dS/m, "tds" in mg/L, "sar" no unit, "chloride" in meq/L or "boron" in mg/L; default "ec"
 * @returns class of restriction; each printed limit itself is "slight to moderate"
 * @equation none below, slight to moderate within, severe above: ec 0.7 to 3 dS/m; tds 450 to 2000 mg/L; sar 3 to 9; chloride 4 to 10 meq/L; boron 0.7 to 3 mg/L
 * @range sensitive plants, watering on the ground, not over the leaves; sar is judged for harm by sodium, not for water that no longer soaks in; take the worst class of all you have measured
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source FAO Irrigation and Drainage Paper 29 rev. 1 (1985) Table 1, in published extracts; one of them calls the third class high
 */
export function salinity(ec: unknown, what?: unknown): string {
  return answer(() =>
    salinityClass(number('ec', ec, 'concentration'), word('what', what, SALINITY_MEASURES, 'ec')),
  );
}
