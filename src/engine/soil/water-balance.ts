/**
 * The daily water balance of one tree: a ball, a ring of soil round it, and, where one lies there, a gel pad.
 *
 * Order of a day, with water early as in FAO-56 Example 38:
 *   roots reach further; rain and watering enter; the pad gives; what a store cannot hold leaves it;
 *   then the tree draws ET = Ks·D from both stores in proportion to the water still in each.
 *
 * All amounts in litres. FAO-56 (Allen, Pereira, Raes, Smith 1998) Eq. 82–88.
 */

/** Water a tree can draw on. Mutable: a season is many steps on one of these. */
export interface Stores {
  /** available water held in ball, ring, pad [L] */
  ball: number;
  ring: number;
  pad: number;
}

/** One day's conditions. */
export interface Day {
  /** total available water of each store today [L] */
  ballTaw: number;
  ringTaw: number;
  /** allowable depletion p [-] */
  p: number;
  /** demand D without stress [L/day] */
  demand: number;
  /** water reaching each store from rain and watering, after losses [L] */
  toBall: number;
  toRing: number;
  /** most the pad can give today when the ball is empty: capacity × release rate [L] */
  padGives: number;
  /** share φ of the ball's overflow that the ring catches [-] */
  overflowToRing: number;
}

export interface DayResult {
  /** depletion of both stores together, before ET [L] */
  depletion: number;
  /** stress coefficient, 1 without stress [-] (FAO-56 Eq. 84) */
  ks: number;
  /** actual evapotranspiration [L] */
  et: number;
  /** water lost below the roots [L] */
  percolated: number;
}

/**
 * Stress coefficient Ks = (TAW − Dr)/((1 − p)·TAW), held to 0…1 (FAO-56 Eq. 84).
 *
 * @param depletion - Dr [L or mm]
 * @param taw - total available water, same unit
 * @param p - share that may be used without stress, 0 ≤ p < 1 [-]
 */
export function stress(depletion: number, taw: number, p: number): number {
  if (taw <= 0) return 0;
  return Math.min(1, Math.max(0, (taw - depletion) / ((1 - p) * taw)));
}

/** New soil joins the ring holding a share of its available water [L added]. */
export function rootsReach(
  stores: Stores,
  tawBefore: number,
  tawNow: number,
  share: number,
): number {
  const joined = Math.max(0, tawNow - tawBefore) * share;
  stores.ring += joined;
  return joined;
}

/** Moves the stores through one day and says what happened. Changes `stores`. */
export function stepDay(stores: Stores, day: Day): DayResult {
  let ball = stores.ball + day.toBall;
  let ring = stores.ring + day.toRing;
  if (stores.pad > 0 && ball < day.ballTaw) {
    const lack = day.ballTaw - ball;
    const given = Math.min(stores.pad, (day.padGives * lack) / day.ballTaw, lack);
    ball += given;
    stores.pad -= given;
  }
  let percolated = 0;
  if (ball > day.ballTaw) {
    const over = ball - day.ballTaw;
    ball = day.ballTaw;
    const caught = day.ringTaw > 0 ? over * day.overflowToRing : 0;
    ring += caught;
    percolated += over - caught;
  }
  if (ring > day.ringTaw) {
    percolated += ring - day.ringTaw;
    ring = day.ringTaw;
  }
  const taw = day.ballTaw + day.ringTaw;
  const held = ball + ring;
  const depletion = taw - held;
  const ks = stress(depletion, taw, day.p);
  const et = Math.min(ks * day.demand, held);
  const kept = held > 0 ? (held - et) / held : 0;
  stores.ball = ball * kept;
  stores.ring = ring * kept;
  return { depletion, ks, et, percolated };
}
