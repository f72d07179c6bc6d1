/**
 * The porous hose against other ways to the same answer. Marching is written here in US units, from the inlet or from
 * the closed end, and shares nothing with the engine but the published formulas.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frictionHead, outletFactor, pressureOfHead } from '../../../src/engine/means/pipe-flow.js';
import { longestEven, porousHose, type PorousHose } from '../../../src/engine/means/porous-hose.js';
import { Problem } from '../../../src/engine/problems.js';
import { FUNCTIONS } from '../../../src/functions/index.js';

const PSI = 6.894757293168361;
const GALLON = 3.785411784;
const PSI_PER_FOOT = (9.80665 * 0.3048) / PSI;

/** Half-inch hose of 100 ft that gives 90 gal/h per 100 ft at 10 psi. */
const usual: PorousHose = {
  length: 30.48,
  rate: (90 * GALLON) / 30.48,
  pressure: 10 * PSI,
  bore: 12.7,
  exponent: 1,
  c: 140,
};
const feet = (length: number, more: Partial<PorousHose> = {}): PorousHose => ({
  ...usual,
  length: length * 0.3048,
  ...more,
});

/** The hose in US units: outflow [gpm per ft] at a pressure, friction [psi per ft] at a flow. */
function american(hose: PorousHose) {
  const perFoot = ((hose.rate / GALLON) * 0.3048) / 60;
  const psi = hose.pressure / PSI;
  const inches = hose.bore / 25.4;
  return {
    feet: hose.length / 0.3048,
    psi,
    outflow: (p: number): number => perFoot * (Math.max(0, p) / psi) ** hose.exponent,
    friction: (q: number): number =>
      ((0.2083 * (100 / hose.c) ** 1.852 * Math.max(0, q) ** 1.852) / inches ** 4.8655 / 100) *
      PSI_PER_FOOT,
  };
}

/**
 * Shooting from the inlet: finite differences (midpoint) along equal pieces, the inlet flow by bisection until flow
 * and hose end together.
 */
function shoot(hose: PorousHose, pieces: number) {
  const { feet: length, psi, outflow, friction } = american(hose);
  const step = length / pieces;
  let end = psi;
  const tooMuch = (inlet: number): boolean => {
    let [p, q] = [psi, inlet];
    for (let i = 0; i < pieces; i++) {
      const pHalf = p - (friction(q) * step) / 2;
      const qHalf = q - (outflow(p) * step) / 2;
      p -= friction(qHalf) * step;
      q -= outflow(pHalf) * step;
      if (q <= 0) {
        end = p;
        return false;
      }
      if (p <= 0) return true;
    }
    end = p;
    return true;
  };
  let [low, high] = [0, outflow(psi) * length * 1.001];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (tooMuch(middle)) high = middle;
    else low = middle;
  }
  return { inlet: low, end };
}

/** Marching (Runge–Kutta) from the closed end at a given pressure: what arrives at the inlet. */
function march(hose: PorousHose, endPressure: number, pieces = 4000) {
  const { feet: length, outflow, friction } = american(hose);
  let [p, q, lastQuarter] = [endPressure / PSI, 0, 0];
  const h = length / pieces;
  for (let i = 0; i < pieces; i++) {
    const [k1, l1] = [friction(q), outflow(p)];
    const [k2, l2] = [friction(q + (h / 2) * l1), outflow(p + (h / 2) * k1)];
    const [k3, l3] = [friction(q + (h / 2) * l2), outflow(p + (h / 2) * k2)];
    const [k4, l4] = [friction(q + h * l3), outflow(p + h * k3)];
    p += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    q += (h / 6) * (l1 + 2 * l2 + 2 * l3 + l4);
    if (i + 1 === pieces / 4) lastQuarter = q;
  }
  return { pressure: p * PSI, flow: q * GALLON, lowQuarter: (4 * lastQuarter) / q };
}

const relative = (a: number, b: number): number => Math.abs(a / b - 1);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Hoses over all that the worksheet accepts, evenly in the logarithm. */
const anyHose = fc
  .record({
    length: between(-5, 7.3),
    rate: between(-5, 5.5),
    pressure: between(-5, 6.9),
    bore: between(0.92, 6.4),
    exponent: between(-7, Math.log(2)),
    c: between(60, 160),
  })
  .map(({ c, ...logs }): PorousHose => {
    const [length, rate, pressure, bore, exponent] = Object.values(logs).map(Math.exp);
    return { length, rate, pressure, bore, exponent, c } as PorousHose;
  });
/** Hoses a practitioner lays. */
const laid = fc.record({
  length: between(3, 120),
  rate: between(2, 16),
  pressure: between(30, 170),
  bore: between(9, 20),
  exponent: between(0.5, 1.3),
  c: between(100, 150),
});

describe('a porous hose that gives alike everywhere', () => {
  it('loses the plain loss times the factor for very many outlets, within 2e-5', () => {
    const even = feet(100, { exponent: 1e-9 });
    const plainLoss = pressureOfHead(frictionHead((even.rate * 30.48) / 60, 30.48, 12.7, 140));
    const loss = even.pressure - porousHose(even).endPressure;
    expect(relative(loss, plainLoss * outletFactor(100_000))).toBeLessThan(2e-5);
    expect(relative(loss, plainLoss / 2.852)).toBeLessThan(1e-7);
  });

  it('does so with any exponent when little is lost, within the share that is lost', () => {
    for (const exponent of [0.5, 1, 1.3, 2]) {
      const short = feet(10, { exponent });
      const plainLoss = pressureOfHead(frictionHead((short.rate * 3.048) / 60, 3.048, 12.7, 140));
      const loss = short.pressure - porousHose(short).endPressure;
      expect(relative(loss, plainLoss / 2.852)).toBeLessThan((2 * plainLoss) / short.pressure);
    }
  });

  it('runs dry before its end when the loss would exceed the pressure, as the balance says', () => {
    // With equal outflow the wet part ℓ uses up the whole pressure: loss(ℓ) = P0.
    const long = feet(1000, { exponent: 1e-9 });
    const fullLoss = pressureOfHead(frictionHead((long.rate * 304.8) / 60, 304.8, 12.7, 140));
    const wet = (long.pressure / (fullLoss / 2.852)) ** (1 / 2.852);
    const state = porousHose(long);
    expect(state.evenness).toBe(0);
    expect(state.endPressure).toBe(0);
    expect(state.lowQuarter).toBe(0);
    expect(relative(state.inletFlow, ((long.rate * 304.8) / 60) * wet)).toBeLessThan(1e-7);
  });
});

describe('a porous hose against 20,000 finite differences from the inlet', () => {
  it.each([
    ['the usual one', feet(100)],
    ['three times as long', feet(300)],
    ['turbulent outlets', feet(200, { exponent: 0.5 })],
    ['stretching pores', feet(250, { exponent: 1.3, c: 120 })],
    ['one that loses nearly all', feet(600)],
    ['one where m·x is almost 1', feet(300, { exponent: 0.54 })],
  ] as const)('%s agrees within 1e-6', (_, hose) => {
    const state = porousHose(hose);
    const other = shoot(hose, 20_000);
    expect(relative(other.inlet * GALLON, state.inletFlow)).toBeLessThan(1e-6);
    expect(relative(other.end * PSI, state.endPressure)).toBeLessThan(1e-6);
    expect(state.evenness).toBeCloseTo((state.endPressure / hose.pressure) ** hose.exponent, 12);
  });

  it('a hose with a dry end takes as much at its inlet', () => {
    const hose = feet(1000, { exponent: 0.3 });
    expect(porousHose(hose).evenness).toBe(0);
    const other = shoot(hose, 20_000);
    expect(relative(other.inlet * GALLON, porousHose(hose).inletFlow)).toBeLessThan(1e-5);
  });

  it('the differences close in on the engine with the square of the step', () => {
    const state = porousHose(feet(300));
    const error = (pieces: number): number =>
      relative(shoot(feet(300), pieces).inlet * GALLON, state.inletFlow);
    expect(error(200) / error(800)).toBeGreaterThan(10);
    expect(error(800)).toBeLessThan(1e-4);
  });
});

describe('what goes in comes out', () => {
  it('inlet flow is the sum of the outflow, and inlet pressure is met, within 1e-7', () => {
    fc.assert(
      fc.property(laid, (hose) => {
        const state = porousHose(hose);
        // Below a thousandth of the pressure even steps from the end are too coarse for this check.
        fc.pre(state.endPressure > hose.pressure / 1000);
        const inlet = march(hose, state.endPressure);
        expect(relative(inlet.pressure, hose.pressure)).toBeLessThan(1e-7);
        expect(relative(inlet.flow, state.inletFlow)).toBeLessThan(1e-7);
        expect(relative(inlet.lowQuarter, state.lowQuarter)).toBeLessThan(1e-7);
      }),
      { numRuns: 60, seed: 3 },
    );
  });
});

describe('whatever the hose', () => {
  it('shares stay shares, in their order, and no flow exceeds the flow without friction', () => {
    fc.assert(
      fc.property(anyHose, (hose) => {
        const { inletFlow, endPressure, evenness, lowQuarter } = porousHose(hose);
        const slack = 1 + 1e-9;
        expect(evenness).toBeGreaterThanOrEqual(0);
        expect(lowQuarter * slack).toBeGreaterThanOrEqual(evenness);
        expect(lowQuarter).toBeLessThanOrEqual(slack);
        expect(endPressure).toBeGreaterThanOrEqual(0);
        expect(endPressure).toBeLessThanOrEqual(hose.pressure);
        expect(inletFlow).toBeGreaterThan(0);
        expect(inletFlow).toBeLessThanOrEqual(((hose.rate * hose.length) / 60) * slack);
      }),
      { numRuns: 2000, seed: 4 },
    );
  });

  it('longer, thinner or more porous is less even; longer and wider takes more', () => {
    fc.assert(
      fc.property(laid, between(1.01, 3), (hose, more) => {
        const base = porousHose(hose);
        const evenness = (change: Partial<PorousHose>): number =>
          porousHose({ ...hose, ...change }).evenness;
        expect(evenness({ length: hose.length * more })).toBeLessThan(base.evenness);
        expect(evenness({ rate: hose.rate * more })).toBeLessThan(base.evenness);
        expect(evenness({ bore: hose.bore * more })).toBeGreaterThan(base.evenness);
        const flow = (change: Partial<PorousHose>): number =>
          porousHose({ ...hose, ...change }).inletFlow;
        expect(flow({ length: hose.length * more })).toBeGreaterThan(base.inletFlow);
        expect(flow({ bore: hose.bore * more })).toBeGreaterThan(base.inletFlow);
        expect(flow({ rate: hose.rate * more })).toBeGreaterThan(base.inletFlow);
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it('the same hose in the joint of two series is one hose', () => {
    // E = 0.2 where the engine changes series; x = 1/m where a power becomes a logarithm.
    for (const exponent of [0.3, 1 / 1.852, 1, 1.9]) {
      const border = 0.2 ** (exponent / (1 + exponent));
      const at = (evenness: number, x = exponent): number =>
        longestEven({ ...usual, exponent: x }, evenness);
      expect(relative(at(border * (1 + 1e-9)), at(border * (1 - 1e-9)))).toBeLessThan(1e-8);
      expect(relative(at(0.01, exponent * (1 + 1e-10)), at(0.01))).toBeLessThan(1e-8);
    }
  });
});

describe('the longest even run', () => {
  it('gives its end the share that was asked, to 1e-9, for exponents from 0.5', () => {
    fc.assert(
      fc.property(anyHose, between(0.5, 2), between(0.01, 0.999), (any, exponent, asked) => {
        const hose = { ...any, exponent };
        const length = longestEven(hose, asked);
        expect(relative(porousHose({ ...hose, length }).evenness, asked)).toBeLessThan(1e-9);
      }),
      { numRuns: 1000, seed: 6 },
    );
  });

  it('is the length again, to 1e-9, for any exponent', () => {
    // Near the dry end of a small exponent the evenness falls steeply; the length is the steady side of the question.
    fc.assert(
      fc.property(anyHose, between(0.01, 0.999), (hose, asked) => {
        const length = longestEven(hose, asked);
        const { evenness } = porousHose({ ...hose, length });
        fc.pre(evenness > 1e-6 && evenness < 0.9999);
        expect(relative(longestEven(hose, evenness), length)).toBeLessThan(1e-9);
      }),
      { numRuns: 1000, seed: 6 },
    );
  });

  it('ends where the pressure is used up when outflow hardly follows pressure', () => {
    for (const exponent of [1e-6, 1e-9, 1e-300, Number.MIN_VALUE]) {
      const length = longestEven({ ...usual, exponent }, 0.5);
      const loss = pressureOfHead(frictionHead((usual.rate * length) / 60, length, 12.7, 140));
      expect(relative(loss / 2.852, usual.pressure)).toBeLessThan(1e-5);
    }
  });

  it('so do the worksheet functions', () => {
    for (const asked of [0.5, 0.8, 0.95])
      for (const units of ['US', 'SI']) {
        const hose = units === 'US' ? [90, 10, 0.5] : [11, 70, 12.7];
        const length = FUNCTIONS['HOSE_LONGEST']!(...hose, asked, 1.1, 130, units) as number;
        const back = FUNCTIONS['HOSE_EVENNESS']!(length, ...hose, 1.1, 130, units) as number;
        expect(relative(back, asked)).toBeLessThan(1e-9);
      }
  });

  it('is no answer, with a sentence, where friction sets no limit or no hose will do', () => {
    for (const [inputs, sentence] of [
      [[0.01, 100, 2], /stays above 0.8 at every length up to 5000 ft/],
      [[0.01, 100, 50, 0.8, 1, 140, 'SI'], /up to 1500 m/],
      [[2000, 0.0001, 0.1], /below 0.8 on any hose from 1 cm/],
    ] as const) {
      let problem: unknown;
      try {
        FUNCTIONS['HOSE_LONGEST']!(...inputs);
      } catch (error) {
        problem = error;
      }
      expect(problem).toBeInstanceOf(Problem);
      expect((problem as Problem).kind).toBe('none');
      expect((problem as Problem).message).toMatch(sentence);
    }
  });
});

describe('a porous hose refuses', () => {
  it.each([
    [{ length: 0 }, /hose length must be above 0 m/],
    [{ rate: -1 }, /hose rate must be above 0/],
    [{ pressure: 0 }, /pressure must be above 0 kPa/],
    [{ bore: NaN }, /bore must be above 0 mm/],
    [{ exponent: 2.1 }, /exponent must be from 0 to 2/],
    [{ c: 20 }, /roughness coefficient C must be from 60 to 160/],
  ])('%j', (change, sentence) => {
    expect(() => porousHose({ ...usual, ...change })).toThrow(Problem);
    expect(() => porousHose({ ...usual, ...change })).toThrow(sentence);
  });

  it('an evenness of 0 or 1', () => {
    expect(() => longestEven(usual, 1)).toThrow(/evenness must be above 0 and below 1/);
    expect(() => longestEven(usual, 0)).toThrow(Problem);
  });
});
