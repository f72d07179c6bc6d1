/** Hoses, pipes and coils a second time: in logarithms, by quadrature, by the energy left in a porous hose. */
import {
  Big,
  big,
  ENDS,
  fromSi,
  GRAVITY,
  integral,
  PI,
  toSi,
  US_UNIT,
  type Oracles,
  type Units,
} from './precise.js';

const LOSS_POWER = big('1.852');

/** Hazen–Williams loss [kPa per m], in logarithms: 0.2083 (100/C)^1.852 q^1.852/d^4.8655 ft per 100 ft, gpm, in. */
function lossPerMetre(litresPerMinute: Big, boreMm: Big, c: number): Big {
  const gpm = Big.ln(litresPerMinute.div(US_UNIT.flow));
  const inches = Big.ln(boreMm.div(US_UNIT.depth));
  const log = LOSS_POWER.times(gpm.plus(Big.ln(big(100).div(c)))).minus(inches.times('4.8655'));
  // feet of water a hundred feet are metres of water a hundred metres; a metre of water weighs 9.80665 kPa
  return Big.exp(log).times('0.002083').times(GRAVITY);
}

/** Christiansen's factor over one denominator. */
function outletShare(n: number, m: Big): Big {
  const top = big(6)
    .times(n)
    .times(n)
    .plus(m.plus(1).times(3 * n))
    .plus(m.plus(1).times(m.minus(1).sqrt()));
  return Big.min(1, top.div(m.plus(1).times(6).times(n).times(n)));
}

/** Length of the coil: ∫ √(1 + (r/b)²) dr, b the rise of the radius in one radian; panels no wider than r + b. */
function spiral(from: Big, to: Big, spacing: Big): Big {
  const b = spacing.div(PI.times(2));
  let [length, at] = [big(0), from];
  while (at.lt(to)) {
    const next = Big.min(to, at.plus(at).plus(b));
    length = length.plus(integral((r) => r.div(b).pow(2).plus(1).sqrt(), at, next));
    at = next;
  }
  return length;
}

/** (to the power 2.852) of the quadrature's nodes, once. */
const FLOW_POWERS = ENDS.map(({ x }) => Big.pow(x, LOSS_POWER.plus(1)));

/**
 * Length of a porous hose with a closed end whose last metre gives the share e of the first. With p the pressure over that of
 * the inlet and u the flow over that of the inlet, dp/du is known in closed form: p^(x+1) = e' + (1 − e') u^2.852,
 * e' = e^((x+1)/x); the length is then ∫ dQ/q.
 */
function hoseOfEvenness(h: {
  e: number;
  rate: Big;
  pressure: Big;
  bore: Big;
  x: number;
  c: number;
}): Big {
  const x = big(h.x);
  const end = Big.pow(h.e, x.plus(1).div(x));
  const perMinute = h.rate.div(60); // [L/min per m]
  const lossAtOne = lossPerMetre(big(1), h.bore, h.c); // [kPa per m at 1 L/min]
  // q P0 (1 − e')/(x + 1) = loss · Q0^2.852/2.852
  const inlet = Big.pow(
    perMinute
      .times(h.pressure)
      .times(big(1).minus(end))
      .times(LOSS_POWER.plus(1))
      .div(x.plus(1).times(lossAtOne)),
    big(1).div(LOSS_POWER.plus(1)),
  );
  const power = x.div(x.plus(1)).neg();
  const sum = ENDS.reduce((total, { w }, i) => {
    const p = end.plus(
      big(1)
        .minus(end)
        .times(FLOW_POWERS[i] ?? NaN),
    );
    return total.plus(w.times(Big.pow(p, power)));
  }, big(0));
  return inlet.times(sum).div(perMinute);
}

interface PorousHose {
  rate: number;
  pressure: number;
  bore: number;
  exponent: number | undefined;
  c: number | undefined;
}
const longHose = (h: PorousHose, e: number, units: Units): Big =>
  fromSi(
    hoseOfEvenness({
      e,
      rate: toSi(h.rate, 'hoseRate', units),
      pressure: toSi(h.pressure, 'pressure', units),
      bore: toSi(h.bore, 'depth', units),
      x: h.exponent ?? 1,
      c: h.c ?? 140,
    }),
    'span',
    units,
  );

export const HOSE_ORACLES: Oracles = {
  HOSE_FLOW: {
    source:
      'q = k·P^x (Wu and Gitlin 1974) in logarithms, from the output of one metre in one hour',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const [length, rate] = [draw.cell('span', 2, 120), draw.cell('hoseRate', 0.5, 30)];
      const now = draw.maybe(() => ({
        pressure: draw.cell('pressure', 10, 500),
        rated: draw.cell('pressure', 10, 500),
      }));
      const exponent = draw.maybe(() => draw.number(0.3, 1.6));
      const ratio = now ? Big.ln(now.pressure).minus(Big.ln(now.rated)) : big(0);
      const flow = Big.exp(ratio.times(exponent ?? 1))
        .times(toSi(length, 'span', units))
        .times(toSi(rate, 'hoseRate', units))
        .div(60);
      return {
        args: [length, rate, now?.pressure, now?.rated, exponent, units],
        expected: fromSi(flow, 'flow', units),
      };
    },
  },
  HOSE_MINUTES: {
    source:
      'definition: what must leave the hose, by the second, is the volume and what is lost of it',
    tolerance: 1e-9,
    draw(draw) {
      const [volume, flow] = [draw.number(1, 900), draw.number(0.1, 40)];
      const efficiency = draw.maybe(() => draw.number(0.3, 1));
      const share = big(efficiency ?? '0.9');
      const lost = big(volume).times(big(1).minus(share)).div(share);
      return {
        args: [volume, flow, efficiency],
        expected: big(volume).plus(lost).div(big(flow).div(60)).div(60),
      };
    },
  },
  HOSE_LOSS: {
    source:
      'Hazen–Williams, US form, in logarithms; psi from the weight of a foot of water on a square inch',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const [flow, length] = [draw.cell('flow', 1, 300), draw.cell('span', 3, 300)];
      const bore = draw.cell('depth', 9, 110);
      const c = draw.maybe(() => draw.number(65, 158));
      const outlets = draw.maybe(() => draw.whole(1, 90));
      const whole = lossPerMetre(
        toSi(flow, 'flow', units),
        toSi(bore, 'depth', units),
        c ?? 140,
      ).times(toSi(length, 'span', units));
      const share = outlets === undefined ? big(1) : outletShare(outlets, LOSS_POWER);
      return {
        args: [flow, length, bore, c, outlets, units],
        expected: fromSi(whole.times(share), 'pressure', units),
      };
    },
  },
  OUTLET_FACTOR: {
    source: 'Christiansen (1942), over one denominator',
    tolerance: 1e-9,
    draw(draw) {
      const outlets = draw.whole(1, 300);
      const m = draw.maybe(() => draw.number(1.05, 2));
      return { args: [outlets, m], expected: outletShare(outlets, big(m ?? LOSS_POWER)) };
    },
  },
  HOSE_EVENNESS: {
    source:
      'closed-end porous hose with q = k·P^x and Hazen–Williams: the pressure as a function of the flow in closed form, the length by quadrature',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const hose = {
        rate: draw.cell('hoseRate', 1, 20),
        pressure: draw.cell('pressure', 20, 300),
        bore: draw.cell('depth', 9, 25),
        exponent: draw.maybe(() => draw.number(0.4, 1.5)),
        c: draw.maybe(() => draw.number(100, 155)),
      };
      const evenness = draw.number(0.3, 0.985);
      const length = longHose(hose, evenness, units).toNumber();
      if (length > (units === 'US' ? 4900 : 1490)) return undefined; // longer than the function takes
      return {
        args: [length, hose.rate, hose.pressure, hose.bore, hose.exponent, hose.c, units],
        expected: big(evenness),
      };
    },
  },
  HOSE_LONGEST: {
    source: 'as HOSE_EVENNESS, which is there solved for the length without trial',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const hose = {
        rate: draw.cell('hoseRate', 1, 20),
        pressure: draw.cell('pressure', 20, 300),
        bore: draw.cell('depth', 9, 25),
        exponent: draw.maybe(() => draw.number(0.4, 1.5)),
        c: draw.maybe(() => draw.number(100, 155)),
      };
      const evenness = draw.maybe(() => draw.number(0.3, 0.985));
      return {
        args: [hose.rate, hose.pressure, hose.bore, evenness, hose.exponent, hose.c, units],
        expected: longHose(hose, evenness ?? 0.8, units),
      };
    },
  },
  COIL_LENGTH: {
    source: 'arc length of r = bθ by Gauss–Legendre quadrature of √(1 + (r/b)²)',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const inner = draw.number(0.02, 4);
      const [from, to] = [inner, inner + draw.number(0.05, 12)].map((metres) =>
        fromSi(big(metres), 'span', units).toNumber(),
      ) as [number, number];
      const spacing = draw.cell('size', 2, 120);
      const length = spiral(
        toSi(from, 'span', units).div(2),
        toSi(to, 'span', units).div(2),
        toSi(spacing, 'size', units).div(100),
      );
      return { args: [from, to, spacing, units], expected: fromSi(length, 'span', units) };
    },
  },
  COIL_DIAMETER: {
    source:
      'the outer diameter is chosen, the length of its coil found by quadrature and given to the function',
    tolerance: 1e-9,
    draw(draw) {
      const { units } = draw;
      const inner = draw.cell('span', 0.02, 4);
      const spacing = draw.cell('size', 2, 120);
      const outer = toSi(inner, 'span', units).plus(draw.number(0.05, 12));
      const length = spiral(
        toSi(inner, 'span', units).div(2),
        outer.div(2),
        toSi(spacing, 'size', units).div(100),
      );
      return {
        args: [fromSi(length, 'span', units).toNumber(), inner, spacing, units],
        expected: fromSi(outer, 'span', units),
      };
    },
  },
};
