/**
 * The daily water balance of one tree: a ball, a ring of soil round it, and, where one lies there, a gel pad.
 *
 * Order of a day, with water early as in FAO-56 Example 38:
 *   roots reach further; rain and watering enter; the pad gives; what a store cannot hold leaves it;
 *   then the tree draws ET = Ks·D from both stores in proportion to the water still in each.
 *
 * All amounts in litres. FAO-56 (Allen, Pereira, Raes, Smith 1998) Eq. 82–88.
 *
 * A season engine takes this step some hundred million times: plain numbers in, one record changed in place.
 */

/** Water a tree can draw on, and what the last day did. A season is many steps on one of these. */
export interface Balance {
  /** available water held in ball, ring, pad [L] */
  ball: number;
  ring: number;
  pad: number;
  /** depletion Dr of ball and ring together on the last day, before ET [L] */
  depletion: number;
  /** stress coefficient of the last day, 1 without stress [-] (FAO-56 Eq. 84) */
  ks: number;
  /** actual evapotranspiration of the last day [L] */
  et: number;
  /** water lost below the roots on the last day [L] */
  percolated: number;
}

/** A balance before its first day [L]. */
export const newBalance = (ball: number, ring: number, pad: number): Balance => ({
  ball,
  ring,
  pad,
  depletion: 0,
  ks: 1,
  et: 0,
  percolated: 0,
});

/**
 * Stress coefficient Ks = (TAW − Dr)/((1 − p)·TAW), held to 0…1 (FAO-56 Eq. 84).
 *
 * @param depletion - Dr [L or mm]
 * @param taw - total available water, same unit
 * @param p - share that may be used without stress, 0 ≤ p < 1 [-]
 */
export function stress(depletion: number, taw: number, p: number): number {
  const left = taw - depletion;
  const unusable = (1 - p) * taw;
  if (taw <= 0 || left <= 0) return 0;
  return left < unusable ? left / unusable : 1;
}

/** New soil joins the ring holding a share of its available water [L added]. */
export function rootsReach(
  stores: Balance,
  tawBefore: number,
  tawNow: number,
  share: number,
): number {
  const joined = tawNow > tawBefore ? (tawNow - tawBefore) * share : 0;
  stores.ring += joined;
  return joined;
}

/**
 * Moves the stores through one day and notes what happened. Changes `stores`.
 *
 * @param ballTaw, ringTaw - total available water of each store today [L]
 * @param p - allowable depletion [-]
 * @param demand - D without stress [L/day]
 * @param toBall, toRing - water reaching each store from rain and watering, after losses [L]
 * @param padGives - most the pad can give today when the ball is empty: capacity × release rate [L]
 * @param overflowToRing - share φ of the ball's overflow that the ring catches [-]
 */
export function stepDay(
  stores: Balance,
  ballTaw: number,
  ringTaw: number,
  p: number,
  demand: number,
  toBall: number,
  toRing: number,
  padGives: number,
  overflowToRing: number,
): void {
  let ball = stores.ball + toBall;
  let ring = stores.ring + toRing;
  if (ball < ballTaw && stores.pad > 0) {
    const lack = ballTaw - ball;
    let given = (padGives * lack) / ballTaw;
    if (given > lack) given = lack;
    if (given > stores.pad) given = stores.pad;
    ball += given;
    stores.pad -= given;
  }
  let percolated = 0;
  if (ball > ballTaw) {
    const over = ball - ballTaw;
    ball = ballTaw;
    const caught = ringTaw > 0 ? over * overflowToRing : 0;
    ring += caught;
    percolated += over - caught;
  }
  if (ring > ringTaw) {
    percolated += ring - ringTaw;
    ring = ringTaw;
  }
  const taw = ballTaw + ringTaw;
  const held = ball + ring;
  const depletion = taw - held;
  const ks = stress(depletion, taw, p);
  let et = ks * demand;
  if (et > held) et = held;
  const kept = held > 0 ? (held - et) / held : 0;
  stores.ball = ball * kept;
  stores.ring = ring * kept;
  stores.depletion = depletion;
  stores.ks = ks;
  stores.et = et;
  stores.percolated = percolated;
}
