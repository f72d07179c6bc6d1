/** Readings from the round and what they mean, in the units of the sheet: the numbers behind its formulas. */
import { openHoles } from '../../engine/means/bag.js';
import { bagVerdict } from '../../engine/means/bag-check.js';
import { padVolume } from '../../engine/means/gel-pad.js';
import { porousHoseFlow } from '../../engine/means/soaker-hose.js';
import type { Device } from '../../engine/plan/model.js';
import { KG_PER_POUND, L_PER_GALLON, type Units } from '../../engine/units.js';
import type { Scalar } from '../model.js';

/** Shares below and above which a measured flow or store is not what Kit says [-]. Assumptions. */
export const FLOW_LOW = 0.8;
export const FLOW_HIGH = 1.25;
export const PAD_WEAK = 0.8;
/** Share of a pad's water that roots can draw, as PAD_VOLUME takes it [-]. */
export const PAD_USABLE = 0.9;
/** Rounding that does not tip a verdict [-]. */
const HAIR = 1e-9;

interface Reading {
  date: number;
  tree: string;
  /** a name on Kit; '' for none */
  device: string;
}

/** A bag timed from full. What is undefined is taken from Kit, or 0 for the share left. */
export interface BagTiming extends Reading {
  holes?: number;
  ratedHours?: number;
  hours: number;
  left?: number;
}

/** A bucket filled at a hose, nozzle or tap; volume in gal or L, pressure in one unit. */
export interface FlowReading extends Reading {
  volume: number;
  seconds: number;
  pressure?: number;
  rated?: number;
}

/** A pad on the scales, lb or kg. */
export interface PadWeighing extends Reading {
  saturated: number;
  dry: number;
  now?: number;
  usable?: number;
}

export interface FieldReadings {
  bags: BagTiming[];
  flows: FlowReading[];
  pads: PadWeighing[];
}

/** What the formulas of a row show, by column. */
export type Shown = Record<string, Scalar>;

const one = (value: number): number => Math.round(value * 10) / 10;

/** Sentences of the next action, shared by formula and value. `#` stands for the number beside it. */
export const ACTIONS = {
  slow: ['Not empty within ', ' h: take it off and use another.'],
  leaking: 'Torn or leaking: use another.',
  flush: ['About ', ' of ', ' holes are open: flush, fill, time it again.'],
  bagOk: 'Nothing: keep it in use.',
  low: 'Look for a kink, a half-open valve or clogged hose; if it stays, put this flow on Kit and plan again.',
  high: 'Look for a split or an open end; if there is none, put this flow on Kit and plan again.',
  flowOk: 'Nothing: as on Kit.',
  noted: 'Nothing to compare with: write it down as tap flow on the inventory, or as flow on Kit.',
  soak: 'Lift it, soak it overnight, lay it back.',
  weak: 'Holds less than on Kit: put the new volume on Kit and plan again; think of softer water or a new pad.',
  padOk: 'Nothing: weigh it again at the next soaking.',
} as const;

/** What a row must hold before it says anything else. */
export const WANTED = {
  bag: '▲ hours above 0, share left from 0 to below 1, holes and rated hours here or on Kit',
  flow: '▲ volume and seconds above 0',
  pad: '▲ dry weight above 0, soaked weight above dry, usable share above 0 to 1',
} as const;

export function bagShown(
  entry: BagTiming,
  device: Device | undefined,
  units: Units,
  faultyAfter: number,
): Shown {
  const holes = entry.holes ?? device?.holes ?? '';
  const rated = entry.ratedHours ?? device?.ratedHours ?? '';
  const { hours, left = 0 } = entry;
  const blank = { holes, rated, open: '', full: '', flow: '' };
  if (
    holes === '' ||
    !Number.isInteger(holes) ||
    rated === '' ||
    !(hours > 0) ||
    !(left >= 0 && left < 1)
  )
    return { ...blank, ready: 0, verdict: WANTED.bag, action: '' };
  const open = openHoles(holes, rated, hours, left);
  const { verdict, fullHours } = bagVerdict(holes, rated, hours, left);
  const slow = fullHours > faultyAfter * (1 + HAIR);
  const litres = device?.volume;
  return {
    holes,
    rated,
    ready: 1,
    open,
    full: fullHours,
    flow: litres === undefined ? '' : (volumeIn(litres, units) * (1 - left)) / hours,
    verdict,
    action:
      verdict === 'ok'
        ? ACTIONS.bagOk
        : verdict === 'flush'
          ? `${ACTIONS.flush[0]}${one(open)}${ACTIONS.flush[1]}${holes}${ACTIONS.flush[2]}`
          : slow
            ? ACTIONS.slow.join(String(faultyAfter))
            : ACTIONS.leaking,
  };
}

const volumeIn = (litres: number, units: Units): number =>
  units === 'US' ? litres / L_PER_GALLON : litres;

export function flowShown(entry: FlowReading, device: Device | undefined, units: Units): Shown {
  const { volume, seconds, pressure, rated } = entry;
  if (!(volume > 0 && seconds > 0))
    return { ready: 0, flow: '', expected: '', share: '', verdict: WANTED.flow, action: '' };
  const flow = (volume * 60) / seconds;
  const pressed = pressure !== undefined && rated !== undefined && rated > 0;
  const litres =
    device?.rate !== undefined && device.length !== undefined
      ? porousHoseFlow(
          device.length,
          device.rate,
          pressed ? { pressure, rated, exponent: 1 } : undefined,
        )
      : device?.flow;
  if (litres === undefined || litres === 0)
    return { ready: 1, flow, expected: '', share: '', verdict: 'noted', action: ACTIONS.noted };
  const expected = volumeIn(litres, units);
  const share = flow / expected;
  const verdict =
    share < FLOW_LOW * (1 - HAIR) ? 'low' : share > FLOW_HIGH * (1 + HAIR) ? 'high' : 'ok';
  const action = { low: ACTIONS.low, high: ACTIONS.high, ok: ACTIONS.flowOk }[verdict];
  return { ready: 1, flow, expected, share, verdict, action };
}

export function padShown(
  entry: PadWeighing,
  device: Device | undefined,
  units: Units,
  reserve: number,
): Shown {
  const { saturated, dry, now, usable = PAD_USABLE } = entry;
  if (!(dry > 0 && saturated > dry && usable > 0 && usable <= 1))
    return { ready: 0, volume: '', left: '', share: '', ofKit: '', verdict: WANTED.pad, action: '' };
  const weight = units === 'US' ? KG_PER_POUND : 1;
  const held = (heavy: number): number =>
    volumeIn(padVolume(heavy * weight, dry * weight, usable), units);
  const volume = held(saturated);
  const left = now === undefined ? '' : now > dry ? held(now) : 0;
  const share = left === '' ? '' : left / volume;
  const ofKit = device?.volume === undefined ? '' : volume / volumeIn(device.volume, units);
  const verdict =
    share !== '' && share <= reserve * (1 + HAIR)
      ? 'soak'
      : ofKit !== '' && ofKit < PAD_WEAK * (1 - HAIR)
        ? 'weak'
        : 'ok';
  const action = { soak: ACTIONS.soak, weak: ACTIONS.weak, ok: ACTIONS.padOk }[verdict];
  return { ready: 1, volume, left, share, ofKit, verdict, action };
} // prettier-ignore
