/**
 * Dry seasons that can be worked out by hand: an established tree, a hose long enough for its whole root zone, water allowed on
 * any day, the same weather every day. One store, one demand, one interval.
 */

/** Published values: FAO-56 Table 19 (middle of the printed range), ANSI Z60.1 ball by caliper, UF/IFAS ball depth. */
const AVAILABLE = { sand: 0.08, 'sandy loam': 0.13, loam: 0.155, clay: 0.16 } as const;
const BALL_INCHES: Readonly<Record<number, { wide: number; deep: number }>> = {
  2: { wide: 24, deep: 0.66 * 24 },
  3: { wide: 32, deep: 0.6 * 32 },
  4: { wide: 42, deep: 0.6 * 42 },
};
const CUBIC_INCHES_PER_GALLON = 231;
/** What the design assumes and the Site table would change: roots a foot deep out to the crown's edge, plant factor 0.5. */
const ROOT_DEPTH = 12; // [in]
const PLANT_FACTOR = 0.5;
/** Half of it may be used at 5 mm a day; FAO-56 chapter 8 adjusts by 0.04 a millimetre. */
const depletion = (etcInches: number): number =>
  Math.min(0.8, Math.max(0.1, 0.5 + 0.04 * (5 - etcInches * 25.4)));
const HOSE_EFFICIENCY = 0.9;

export interface Season {
  texture: keyof typeof AVAILABLE;
  caliper: number; // [in]
  canopy: number; // [ft]
  et0: number; // [in/day]
  rate: number; // [gal/h per 100 ft]
  length: number; // [ft]
}

export const SEASONS: readonly Season[] = [
  { texture: 'loam', caliper: 2, canopy: 5, et0: 0.28, rate: 60, length: 30 },
  { texture: 'loam', caliper: 2, canopy: 5, et0: 0.17, rate: 90, length: 30 },
  { texture: 'sand', caliper: 2, canopy: 6, et0: 0.25, rate: 60, length: 40 },
  { texture: 'sandy loam', caliper: 3, canopy: 8, et0: 0.22, rate: 120, length: 80 },
  { texture: 'clay', caliper: 4, canopy: 10, et0: 0.31, rate: 120, length: 110 },
  { texture: 'loam', caliper: 4, canopy: 9, et0: 0.26, rate: 200, length: 90 },
];

/** Days from 1 June 2027, a Tuesday; the crew's default week leaves Sunday out. */
export const DAYS = 61;
const isSunday = (day: number): boolean => day % 7 === 5;

export interface ByHand {
  demand: number; // [gal/day]
  total: number; // available water of the whole root zone [gal]
  /** days until the usable water is gone */
  lasts: number;
  /** day of the season, and what runs from the hose: the need of all days since the last one, or since the start */
  waterings: { day: number; gallons: number; minutes: number }[];
}

/** The season by hand, in inches and gallons throughout. */
export function byHand(s: Season): ByHand {
  const ball = BALL_INCHES[s.caliper];
  if (!ball) throw new Error(`no ball for ${s.caliper} in`);
  const disc = (inches: number): number => (Math.PI / 4) * inches ** 2;
  const crown = 12 * s.canopy;
  const cubicInches = disc(ball.wide) * ball.deep + (disc(crown) - disc(ball.wide)) * ROOT_DEPTH;
  const total = (AVAILABLE[s.texture] * cubicInches) / CUBIC_INCHES_PER_GALLON;
  const etc = PLANT_FACTOR * s.et0;
  const demand = (etc * disc(crown)) / CUBIC_INCHES_PER_GALLON;
  const lasts = (depletion(etc) * total) / demand;

  // The last morning on which nothing is lacking yet; a Sunday's watering is done on Saturday.
  const waterings: ByHand['waterings'] = [];
  for (let before = 0; ;) {
    const due = before + Math.floor(lasts);
    if (due >= DAYS) break;
    const day = isSunday(due) ? due - 1 : due;
    const gallons = ((day - before) * demand) / HOSE_EFFICIENCY;
    waterings.push({ day, gallons, minutes: gallons / ((s.rate * s.length) / 100 / 60) });
    before = day;
  }
  return { demand, total, lasts, waterings };
}
