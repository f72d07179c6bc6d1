/** The bag functions a second time: from the outflow itself, not from the closed form of the drain time. */
import { Big, big, ENDS, fromSi, GRAVITY, PI, toSi, type Draw, type Oracles } from './precise.js';

interface Bag {
  volume: Big; // [L]
  depth: Big; // [m]
  /** n · Cd · area of a hole [m²] */
  opening: Big;
}

/** Flow of the full bag [L/h]: Torricelli with a discharge coefficient. */
const firstFlow = ({ opening, depth }: Bag): Big =>
  opening.times(GRAVITY.times(depth).times(2).sqrt()).times(1000).times(3600);

const holeArea = (cell: number, units: 'US' | 'SI'): Big =>
  PI.times(toSi(cell, 'depth', units).div(2000).pow(2));

/** Hours until `left` remains, ∫ dV/Q with Q = Q0 √(V/V0): double-exponential quadrature. */
function hoursByQuadrature(bag: Bag, left: Big): Big {
  const flow = firstFlow(bag);
  const out = bag.volume.minus(left);
  return ENDS.reduce((sum, { x, w }) => {
    const share = left.plus(out.times(x)).div(bag.volume);
    return sum.plus(w.div(share.sqrt()));
  }, big(0))
    .times(out)
    .div(flow);
}

/** Litres left: the outflow falls by the same amount every hour, Q0²/(2 V0), until it is nothing. */
function leftAfter(bag: Bag, hours: Big): Big {
  const flow = firstFlow(bag);
  const slowing = flow.pow(2).div(bag.volume.times(2));
  const empty = flow.div(slowing);
  if (hours.gte(empty)) return big(0);
  return bag.volume.minus(flow.times(hours)).plus(slowing.times(hours.pow(2)).div(2));
}

interface Cells {
  volume: number;
  holes: number;
  hole: number;
  depth: number;
  discharge: number | undefined;
}
const cellsOf = (draw: Draw): Cells => ({
  volume: draw.cell('volume', 5, 400),
  holes: draw.whole(1, 24),
  hole: draw.cell('depth', 0.3, 9),
  depth: draw.cell('size', 3, 140),
  discharge: draw.maybe(() => draw.number(0.15, 0.99)),
});
const bagOf = (c: Cells, units: 'US' | 'SI'): Bag => ({
  volume: toSi(c.volume, 'volume', units),
  depth: toSi(c.depth, 'size', units).div(100),
  opening: holeArea(c.hole, units)
    .times(c.holes)
    .times(c.discharge ?? '0.62'),
});

export const BAG_ORACLES: Oracles = {
  BAG_HOURS: {
    source: 'Torricelli with a discharge coefficient, dV/Q summed by double-exponential quadrature',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const c = cellsOf(draw);
      const left = draw.maybe(() => c.volume * draw.number(0.01, 0.95));
      const bag = bagOf(c, units);
      const rest = left === undefined ? big(0) : toSi(left, 'volume', units);
      return {
        args: [c.volume, c.holes, c.hole, c.depth, c.discharge, left, units],
        expected: hoursByQuadrature(bag, rest),
      };
    },
  },
  BAG_LEFT: {
    source:
      'Torricelli: an outflow that slows evenly, summed over time to a second-degree polynomial',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const c = cellsOf(draw);
      const bag = bagOf(c, units);
      // Up to nearly empty, and now and then long past it.
      const full = hoursByQuadrature(bag, big(0)).toNumber();
      const hours = full * (draw.number(0, 1) < 0.9 ? draw.number(0, 0.99) : draw.number(1.01, 3));
      return {
        args: [c.volume, hours, c.holes, c.hole, c.depth, c.discharge, units],
        expected: fromSi(leftAfter(bag, big(hours)), 'volume', units),
      };
    },
  },
  BAG_HOLE: {
    source:
      'Torricelli: the mean outflow of a full drain is half the first, so the opening follows from it',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const c = cellsOf(draw);
      const hours = draw.number(0.2, 40);
      const head = toSi(c.depth, 'size', units).div(100);
      const flow = toSi(c.volume, 'volume', units).times(2).div(hours).div(3_600_000); // [m³/s]
      const speed = Big.exp(Big.ln(GRAVITY.times(2).times(head)).div(2));
      const area = flow
        .div(speed)
        .div(c.discharge ?? '0.62')
        .div(c.holes);
      const diameter = Big.exp(Big.ln(area.times(4).div(PI)).div(2)).times(1000);
      return {
        args: [c.volume, c.holes, hours, c.depth, c.discharge, units],
        expected: fromSi(diameter, 'depth', units),
      };
    },
  },
  BAG_OPEN_HOLES: {
    source:
      'the share left after a time, 1 − 2z + z² with z = n t/(n0 T0), solved for n by the root of a square equation',
    tolerance: 1e-9,
    draw(draw) {
      const [holes, rated] = [draw.whole(1, 40), draw.number(0.5, 30)];
      const hours = rated * draw.number(0.4, 6);
      const left = draw.maybe(() => draw.number(0.01, 0.95));
      // z² − 2z + (1 − left) = 0, the smaller root in the form that does not cancel
      const rest = big(1).minus(left ?? 0);
      const z = rest.div(big(1).plus(big(1).minus(rest).sqrt()));
      return {
        args: [holes, rated, hours, left],
        expected: z.times(holes).times(rated).div(hours),
      };
    },
  },
};
