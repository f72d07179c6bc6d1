/** A reading from the round and what it means, in the panel's words. The numbers are those of the sheet Field checks. */
import { CLOGGED_BELOW, FAULTY_AFTER_HOURS, LEAKING_FROM } from '../../engine/means/bag-check.js';
import type { Device } from '../../engine/plan/model.js';
import { KG_PER_POUND, KPA_PER_PSI, L_PER_GALLON, type Units } from '../../engine/units.js';
import {
  bagShown,
  FLOW_HIGH,
  FLOW_LOW,
  flowShown,
  PAD_WEAK,
  padShown,
  type Shown,
} from '../../workbook/sheets/field-readings.js';
import type { Formats } from '../parts/format.js';
import type { CornerWords } from '../words/corners.js';

type Words = CornerWords['field'];
export type Kind = keyof Words['kinds'];
export type FieldKey = keyof Words['fields'];
export const KINDS: readonly Kind[] = ['bag', 'flow', 'pad'];

/** Families of the kit that a check is about. */
export const FAMILIES_OF: Readonly<Record<Kind, readonly Device['family'][]>> = {
  bag: ['bag'],
  flow: ['soaker', 'hand', 'tanker'],
  pad: ['pad'],
};
/** Worksheet functions whose equation and source a check rests on. */
export const FUNCTIONS_OF: Readonly<Record<Kind, readonly string[]>> = {
  bag: ['BAG_OPEN_HOLES'],
  flow: ['BUCKET_FLOW', 'HOSE_FLOW'],
  pad: ['PAD_VOLUME'],
};

export interface FieldInput {
  key: FieldKey;
  unit: (units: Units, words: Words) => string;
  /** one of the US unit in the metric one, where they differ */
  metricPerUS?: number;
  optional?: boolean;
  /** what Kit says, which a blank field takes */
  kit?: (device: Device) => number | undefined;
}

type Measured = Pick<FieldInput, 'unit' | 'metricPerUS'>;
const us = (american: string, metric: string, metricPerUS: number): Measured => ({
  unit: (units) => (units === 'US' ? american : metric),
  metricPerUS,
});
const volume = us('gal', 'L', L_PER_GALLON);
const weight = us('lb', 'kg', KG_PER_POUND);
const pressure = us('psi', 'kPa', KPA_PER_PSI);
const share: FieldInput['unit'] = (_, words) => words.units.share;
const hours: FieldInput['unit'] = (_, words) => words.units.hours;

export const INPUTS: Readonly<Record<Kind, readonly FieldInput[]>> = {
  bag: [
    { key: 'holes', unit: (_, words) => words.units.holes, kit: (d) => d.holes },
    { key: 'ratedHours', unit: hours, kit: (d) => d.ratedHours },
    { key: 'hours', unit: hours },
    { key: 'left', unit: share, optional: true },
  ],
  flow: [
    { key: 'volume', ...volume },
    { key: 'seconds', unit: (_, words) => words.units.seconds },
    { key: 'pressure', ...pressure, optional: true },
    { key: 'rated', ...pressure, optional: true },
  ],
  pad: [
    { key: 'saturated', ...weight },
    { key: 'dry', ...weight },
    { key: 'now', ...weight, optional: true },
    { key: 'usable', unit: share, optional: true },
  ],
};

/** Invented readings, for who has not typed any yet. */
export const EXAMPLES: Readonly<Record<Kind, Readonly<Record<Units, Asked['values']>>>> = {
  bag: {
    US: { holes: 4, ratedHours: 6, hours: 8 },
    SI: { holes: 4, ratedHours: 6, hours: 8 },
  },
  flow: { US: { volume: 5, seconds: 60 }, SI: { volume: 20, seconds: 60 } },
  pad: { US: { saturated: 30, dry: 2, now: 20 }, SI: { saturated: 14, dry: 1, now: 9 } },
};

/** A number in other units than `from`: the same reading. */
export const inOtherUnits = (
  { metricPerUS = 1 }: FieldInput,
  value: number,
  from: Units,
): number => (from === 'US' ? value * metricPerUS : value / metricPerUS);

export interface Checked {
  sentence: string;
  action: string;
  fine: boolean;
  numbers: { name: string; value: string; unit: string }[];
}

export interface Asked {
  kind: Kind;
  /** numbers as typed, in the units; what is missing is taken from the device or left out */
  values: Partial<Record<FieldKey, number>>;
  device: Device | undefined;
  units: Units;
  /** share left at which a pad is due [-] */
  reserve: number;
}

const about = (device: Device | undefined) => ({ date: 0, tree: '', device: device?.name ?? '' });

/** The row of the sheet Field checks that a reading would make. */
export function shownOf({ kind, values: v, device, units, reserve }: Asked): Shown {
  const optional = (key: FieldKey) => (v[key] === undefined ? {} : { [key]: v[key] });
  const number = (key: FieldKey): number => v[key] ?? Number.NaN;
  const reading = about(device);
  switch (kind) {
    case 'bag':
      return bagShown(
        { ...reading, hours: number('hours'), ...optional('holes'), ...optional('ratedHours'), ...optional('left') },
        device, units, FAULTY_AFTER_HOURS,
      ); // prettier-ignore
    case 'flow':
      return flowShown(
        { ...reading, volume: number('volume'), seconds: number('seconds'), ...optional('pressure'), ...optional('rated') },
        device, units,
      ); // prettier-ignore
    case 'pad':
      return padShown(
        { ...reading, saturated: number('saturated'), dry: number('dry'), ...optional('now'), ...optional('usable') },
        device, units, reserve,
      ); // prettier-ignore
  }
}

/** The verdict in words; undefined while something is missing or cannot be. */
export function checkOf(asked: Asked, words: Words, f: Formats): Checked | undefined {
  const shown = shownOf(asked);
  if (shown['ready'] !== 1) return undefined;
  const { verdicts: says, actions, numbers: names } = words;
  const n = (key: string): number => Number(shown[key]);
  const tenth = (value: number): string => f.plain(Math.round(value * 10) / 10);
  const percent = (value: number): string => f.whole(value * 100);
  const [gal, gpm] = asked.units === 'US' ? ['gal', 'gpm'] : ['L', 'L/min'];
  const numbers = (...list: [keyof typeof names, string][]): Checked['numbers'] =>
    list.flatMap(([key, unit]) => {
      const value = shown[key === 'held' ? 'volume' : key];
      return typeof value === 'number' ? [{ name: names[key], value: tenth(value), unit }] : [];
    });
  const made = (action: keyof typeof actions, sentence: string, list: Checked['numbers']): Checked => ({
    sentence,
    action: actions[action],
    fine: action.endsWith('Ok') || action === 'noted',
    numbers: list,
  }); // prettier-ignore
  if (asked.kind === 'bag') {
    const [open, holes, full] = [tenth(n('open')), f.plain(n('holes')), tenth(n('full'))];
    const list = numbers(['open', ''], ['full', words.units.hours], ['flow', `${gal}/h`]);
    if (shown['verdict'] === 'ok') return made('bagOk', says.bagOk(full), list);
    if (shown['verdict'] === 'flush') return made('flush', says.flush(open, holes), list);
    return n('full') > FAULTY_AFTER_HOURS
      ? made('slow', says.slow(full, f.plain(FAULTY_AFTER_HOURS)), list)
      : made('leaking', says.leaking(open, holes), list);
  }
  if (asked.kind === 'flow') {
    const list = numbers(['flow', gpm], ['expected', gpm]);
    const ofKit = percent(n('share'));
    if (shown['verdict'] === 'low') return made('low', says.low(ofKit), list);
    if (shown['verdict'] === 'high') return made('high', says.high(ofKit), list);
    if (shown['verdict'] === 'ok') return made('flowOk', says.flowOk(ofKit), list);
    return made('noted', says.noted(`${tenth(n('flow'))} ${gpm}`), list);
  }
  const list = numbers(['held', gal], ['left', gal]);
  if (shown['verdict'] === 'soak') return made('soak', says.soak(percent(n('share'))), list);
  if (shown['verdict'] === 'weak') return made('weak', says.weak(percent(n('ofKit'))), list);
  return made('padOk', says.padOk(`${tenth(n('volume'))} ${gal}`), list);
}

/** Where the verdict turns, and how sure that is. */
export function limitsOf(kind: Kind, reserve: number, { limits }: Words, f: Formats): string {
  const p = (value: number): string => f.plain(value);
  if (kind === 'bag') return limits.bag(p(FAULTY_AFTER_HOURS), p(LEAKING_FROM), p(CLOGGED_BELOW));
  if (kind === 'flow') return limits.flow(p(FLOW_LOW), p(FLOW_HIGH));
  return limits.pad(p(reserve), p(PAD_WEAK));
}
