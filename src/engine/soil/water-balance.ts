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

/** Soil and demand of one tree, day by day. */
export interface Ground {
  /** total available water of the ball [L], and of the ring on each day [L] */
  ballTaw: number;
  ringTaw: Float64Array;
  /** allowable depletion of each day [-] */
  p: Float64Array;
  /** demand D of each day without stress [L/day] */
  demand: Float64Array;
  /** share φ of the ball's overflow that the ring catches [-] */
  overflowToRing: number;
}

/** Water a tree can draw on, what enters today, and what the day did. A season is many steps on one of these. */
export interface Balance {
  /** available water held in ball, ring, pad [L] */
  ball: number;
  ring: number;
  pad: number;
  /** water reaching ball and ring today from rain and watering, after losses [L] */
  toBall: number;
  toRing: number;
  /** most the pad can give today when the ball is empty: capacity × release rate [L] */
  padGives: number;
  /** depletion Dr of both stores together, before ET [L] */
  depletion: number;
  /** stress coefficient, 1 without stress [-] (FAO-56 Eq. 84) */
  ks: number;
  /** actual evapotranspiration [L] */
  et: number;
  /** water lost below the roots [L] */
  percolated: number;
}

/** A balance before its first day; nothing enters [L]. */
export const newBalance = (ball: number, ring: number, pad: number): Balance => ({
  ball,
  ring,
  pad,
  toBall: 0,
  toRing: 0,
  padGives: 0,
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

/**
 * Water that comes with the soil the roots reach overnight, before day `i` [L].
 *
 * @param ringTaw - total available water of the ring on each day [L]
 * @param share - of its available water that new soil holds [-]
 */
export function joining(ringTaw: Float64Array, i: number, share: number): number {
  const grown = ringTaw[i]! - ringTaw[i - 1]!;
  return grown > 0 ? grown * share : 0;
}

/** Moves the stores through day `i` of the ground and notes what happened. Changes `stores`. */
export function stepDay(stores: Balance, ground: Ground, i: number): void {
  const { ballTaw } = ground;
  const ringTaw = ground.ringTaw[i]!;
  let ball = stores.ball + stores.toBall;
  let ring = stores.ring + stores.toRing;
  if (ball < ballTaw && stores.pad > 0) {
    const lack = ballTaw - ball;
    let given = (stores.padGives * lack) / ballTaw;
    if (given > lack) given = lack;
    if (given > stores.pad) given = stores.pad;
    ball += given;
    stores.pad -= given;
  }
  let percolated = 0;
  if (ball > ballTaw) {
    const over = ball - ballTaw;
    ball = ballTaw;
    const caught = ringTaw > 0 ? over * ground.overflowToRing : 0;
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
  const ks = stress(depletion, taw, ground.p[i]!);
  let et = ks * ground.demand[i]!;
  if (et > held) et = held;
  const kept = held > 0 ? (held - et) / held : 0;
  stores.ball = ball * kept;
  stores.ring = ring * kept;
  stores.depletion = depletion;
  stores.ks = ks;
  stores.et = et;
  stores.percolated = percolated;
}
