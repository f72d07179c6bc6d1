/** Which ways of watering a tree could have, and which of the simulated ones to take. */
import { coiledArea } from '../means/soaker-hose.js';
import { MM_PER_INCH } from '../units.js';
import { flowOf, type AllowedDays, type Option } from './option.js';
import type { Device, Family, MeansOutcome, Tree } from './model.js';

/** Stems above this are too thick for one bag; two are joined [mm]. Common practice, no source. */
export const ONE_BAG_CALIPER = 3 * MM_PER_INCH;
/** No joined bags close round a thicker stem [mm]. Common practice, no source. */
export const LARGEST_BAG_CALIPER = 8 * MM_PER_INCH;
/** A pad lies on the ball of young stock only [mm]. Assumption. */
export const LARGEST_PAD_CALIPER = 6 * MM_PER_INCH;

/** Most hoses coiled round one tree; a larger tree gets this many and keeps the rest dry. Assumption. */
export const MOST_HOSES = 6;

/** Hoses whose coils cover an area [m²], at most MOST_HOSES. */
const hosesFor = (hose: Device, area: number): number =>
  Math.min(MOST_HOSES, Math.max(1, Math.ceil(area / coiledArea(hose.length ?? 0) - 1e-9)));

/**
 * Devices one tree needs: bags joined on a thick stem, hoses coiled side by side; one of anything else.
 *
 * @param caliper - trunk diameter, measured or estimated [mm]
 * @param rootArea - irrigated area when established [m²]
 */
export function joinedFor(device: Device, caliper: number, rootArea: number): number {
  if (device.family === 'bag') return caliper > ONE_BAG_CALIPER ? 2 : 1;
  return device.family === 'soaker' ? hosesFor(device, rootArea) : 1;
}

/** A device this tree cannot have, with the reason. */
export interface Refused {
  device: Device;
  reason: string;
}

/**
 * Every feasible means and combination for one tree: the usual ones, which water as late as safe, then the same ahead of
 * need, for trees that the usual ones do not keep.
 *
 * @param caliper - trunk diameter, measured or estimated [mm]
 * @param rootArea - irrigated area when established [m²]
 * @param driveMinutes - this tree's share of a drive to its site [min a visit]
 * @param allowedFor - days on which a device may be used: rules, and the crew's work days where a person is needed
 */
export function optionsFor(
  tree: Tree,
  caliper: number,
  rootArea: number,
  kit: Device[],
  driveMinutes: number,
  allowedFor: (device: Device) => AllowedDays,
): { options: Option[]; usual: number; refused: Refused[] } {
  const refused: Refused[] = [];
  const fits = kit.filter((device) => {
    const reason = whyNot(tree, caliper, device, kit);
    if (reason) refused.push({ device, reason });
    return !reason;
  });
  const named = (device: Device): string =>
    fits.filter((d) => d.family === device.family).length > 1
      ? `${FAMILY_WORDS[device.family]} (${device.name})`
      : FAMILY_WORDS[device.family];
  const truck = tree.tap === false ? kit.find((d) => d.family === 'tanker') : undefined;
  const withTruck = truck ? { truck } : {};
  const options: Option[] = [];
  for (const device of fits) {
    const allowed = allowedFor(device);
    if (device.family === 'pad') {
      options.push({ label: named(device), driveMinutes, pad: { device, allowed } });
    } else if (device.family === 'bag') {
      const joined = joinedFor(device, caliper, rootArea);
      const count = joined === 2 ? '2 joined ' : '';
      const name = joined === 2 ? named(device).replace('bag', 'bags') : named(device);
      for (const fill of ['full', 'enough'] as const)
        options.push({
          label: `${count}${name}, ${fill === 'full' ? 'full fills' : 'part fills'}`,
          driveMinutes,
          main: { device, joined, fill, allowed },
          ...withTruck,
        });
    } else {
      const joined = joinedFor(device, caliper, rootArea);
      const label =
        joined > 1 ? `${joined} ${named(device).replace('hose', 'hoses')}` : named(device);
      options.push({ label, driveMinutes, main: { device, joined, fill: 'enough', allowed } });
    }
  }
  const mains = options.filter(
    (o) => o.main && o.main.fill === 'enough' && !o.main.device.automatic,
  );
  for (const pad of fits.filter((d) => d.family === 'pad'))
    for (const option of mains)
      options.push({
        ...option,
        label: `${option.label} + ${named(pad)}`,
        pad: { device: pad, allowed: allowedFor(pad) },
      });
  const usual = options.length;
  options.push(...options.flatMap(ahead));
  return { options, usual, refused };
}

/** Share of the usable water at which a means that waters ahead comes. Assumption. */
const AHEAD = 0.5;

/**
 * The same means used earlier than needed. A bag cannot bring back what a dry tree lacks in one fill, so it helps to fill
 * it before it is due; waterings that are limited by the week are not to be spent on its first days.
 */
function ahead(option: Option): Option[] {
  const { main } = option;
  if (!main?.allowed.open.includes(1)) return [];
  const early = (words: string, more: { early?: number; gap?: number }): Option => ({
    ...option,
    label: `${option.label}, ${words}`,
    main: { ...main, ...more },
  });
  const found: Option[] = [];
  if (main.device.family === 'bag')
    found.push(early('ahead', { early: AHEAD }), early('every allowed day', { early: 0 }));
  const { allowed } = main;
  const perWeek = allowed.open.reduce((least, _, i) => Math.min(least, allowed.perWeek(i)), 7);
  if (perWeek > 1 && perWeek < 7) {
    const gap = Math.floor(7 / perWeek);
    found.push(
      early('spread over the week', { gap }),
      early('spread over the week, ahead', { gap, early: AHEAD }),
    );
  }
  return found;
}

export const FAMILY_WORDS: Record<Family, string> = {
  bag: 'bag',
  pad: 'gel pad',
  soaker: 'soaker hose',
  hand: 'hand watering',
  tanker: 'tanker',
};

function whyNot(tree: Tree, caliper: number, device: Device, kit: Device[]): string | undefined {
  if (tree.meansWanted && !tree.meansWanted.includes(device.family))
    return `the row asks for ${tree.meansWanted.map((f) => FAMILY_WORDS[f]).join(' or ')}`;
  const noTap = tree.tap === false;
  switch (device.family) {
    case 'bag':
      if (caliper > LARGEST_BAG_CALIPER) return 'the stem is too thick for bags';
      if (noTap && !kit.some((d) => d.family === 'tanker'))
        return 'no tap and no tanker to fill a bag';
      return device.volume ? undefined : 'the kit gives no volume for it';
    case 'pad':
      if (caliper > LARGEST_PAD_CALIPER) return 'a pad covers the ball of young stock only';
      return device.volume ? undefined : 'the kit gives no usable water for it';
    case 'soaker':
      if (noTap) return 'no tap';
      return flowOf(device) > 0 ? undefined : 'no measured output or length for it';
    case 'hand':
      if (noTap) return 'no tap';
      return flowOf(device) > 0 ? undefined : 'the kit gives no flow for it';
    case 'tanker':
      return flowOf(device) > 0 ? undefined : 'the kit gives no flow for it';
  }
}

const order = (a: number, b: number): number => (Math.abs(a - b) < 1e-9 ? 0 : a - b);

/** What the choice goes by. */
type Choosable = Pick<MeansOutcome, 'stressDays' | 'cost' | 'litres' | 'visits'> & {
  feasible?: boolean;
};

/**
 * The cheapest among those with no more stress days than tolerated; ties by litres, then visits.
 * If none: the least stress, then the least cost.
 *
 * @param costOf - the cost to choose by, where it is not the outcome's own [money]
 * @returns undefined when nothing is feasible
 */
export function chooseMeans<T extends Choosable>(
  outcomes: readonly T[],
  tolerated: number,
  costOf: (outcome: T) => number = ({ cost }) => cost,
): { chosen: T; kept: boolean } | undefined {
  const byCost = (a: T, b: T): number =>
    order(costOf(a), costOf(b)) || order(a.litres, b.litres) || a.visits - b.visits;
  const feasible = outcomes.filter((o) => o.feasible !== false);
  const keeping = feasible.filter((o) => o.stressDays <= tolerated).sort(byCost);
  if (keeping[0]) return { chosen: keeping[0], kept: true };
  const least = [...feasible].sort((a, b) => a.stressDays - b.stressDays || byCost(a, b));
  return least[0] && { chosen: least[0], kept: false };
}
