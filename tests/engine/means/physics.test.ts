import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  drainTime,
  frustumDrainTime,
  frustumVolume,
  holeDiameter,
  openHoles,
  volumeLeft,
} from '../../../src/engine/means/bag.js';
import { padCharge, rechargeDate } from '../../../src/engine/means/gel-pad.js';
import { stopMinutes, tankLoads } from '../../../src/engine/means/hand-and-tanker.js';
import { frictionHead, outletFactor, pressureOfHead } from '../../../src/engine/means/pipe-flow.js';
import { coilLength, cyclesAndSoak } from '../../../src/engine/means/soaker-hose.js';
import { Problem } from '../../../src/engine/problems.js';

const bag = { volume: 57, head: 600 };
const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('a bag', () => {
  it('what is left after the time until x is left is x', () => {
    fc.assert(
      fc.property(
        positive(5, 200),
        positive(100, 900),
        fc.integer({ min: 1, max: 12 }),
        positive(0.5, 5),
        positive(0, 0.99),
        (volume, head, count, diameter, share) => {
          const vessel = { volume, head };
          const hours = drainTime(vessel, { count, diameter }, share * volume);
          return Math.abs(volumeLeft(vessel, { count, diameter }, hours) / volume - share) < 1e-9;
        },
      ),
      { seed: 5 },
    );
  });

  it('with one of four holes open takes four times as long, and the timing says so', () => {
    const all = drainTime(bag, { count: 4, diameter: 1.4 });
    const one = drainTime(bag, { count: 1, diameter: 1.4 });
    expect(one / all).toBeCloseTo(4, 12);
    expect(openHoles(4, all, one)).toBeCloseTo(1, 12);
  });

  it('a part drain between two levels gives the same holes as a full one', () => {
    const all = drainTime(bag, { count: 4, diameter: 1.4 });
    const three = { count: 3, diameter: 1.4 };
    const from = drainTime(bag, three, 0.8 * bag.volume);
    const to = drainTime(bag, three, 0.3 * bag.volume);
    expect(openHoles(4, all, to - from, 0.3, 0.8)).toBeCloseTo(3, 9);
  });

  it('is empty, not below empty, after its time', () => {
    expect(volumeLeft(bag, { count: 4, diameter: 1.4 }, 1000)).toBe(0);
  });

  it('a timed drain gives back the hole it was made with', () => {
    const hours = drainTime(bag, { count: 3, diameter: 1.3, discharge: 0.7 });
    expect(holeDiameter(bag, 3, hours, 0.7)).toBeCloseTo(1.3, 12);
  });

  it('a frustum with straight walls is a cylinder', () => {
    const straight = { bottomRadius: 180, topRadius: 180, height: 600 };
    const holes = { count: 4, diameter: 1.4 };
    const cylinder = { volume: frustumVolume(straight), head: 600 };
    expect(frustumDrainTime(straight, holes)).toBeCloseTo(drainTime(cylinder, holes), 10);
    const part = drainTime(cylinder, holes, cylinder.volume / 3);
    expect(frustumDrainTime(straight, holes, 200)).toBeCloseTo(part, 10);
  });

  it('a frustum agrees with stepping through its levels', () => {
    const shape = { bottomRadius: 300, topRadius: 120, height: 500 };
    const factor = 2 * 0.62 * (Math.PI / 4) * 0.0015 ** 2 * Math.sqrt(2 * 9.80665);
    const steps = 400_000;
    let seconds = 0;
    for (let i = 0; i < steps; i++) {
      // Even steps in √h, where the integrand is smooth down to the floor.
      const root = ((i + 0.5) / steps) * Math.sqrt(0.5);
      const radius = 0.3 - (0.18 * root ** 2) / 0.5;
      seconds += ((Math.PI * radius ** 2) / factor) * 2 * (Math.sqrt(0.5) / steps);
    }
    const hours = frustumDrainTime(shape, { count: 2, diameter: 1.5 });
    expect(hours * 3600).toBeCloseTo(seconds, 3);
  });

  it('refuses what no bag is', () => {
    expect(() => drainTime({ volume: 0, head: 1 }, { count: 1, diameter: 1 })).toThrow(Problem);
    expect(() => drainTime(bag, { count: 1.5, diameter: 1 })).toThrow(/whole number/);
    expect(() => drainTime(bag, { count: 1, diameter: 1 }, 57)).toThrow(/below the volume/);
    expect(() => openHoles(4, 5, 5, 0.5, 0.5)).toThrow(Problem);
  });
});

describe('a pipe', () => {
  it('a garden hose loses the charted pressure', () => {
    // 5/8 in, C 140, per 100 ft: 3.6 psi at 3 gpm, 9.4 at 5, 22.4 at 8.
    for (const [gpm, psi] of [
      [3, 3.6],
      [5, 9.4],
      [8, 22.4],
    ] as const) {
      const loss = pressureOfHead(frictionHead(gpm * 3.785411784, 30.48, 15.875)) / 6.894757;
      expect(Math.abs(loss - psi)).toBeLessThan(0.1);
    }
  });

  it('the outlet factor follows the exact sum', () => {
    for (const n of [2, 5, 10, 40]) {
      let exact = 0;
      for (let k = 1; k <= n; k++) exact += k ** 1.852 / n ** 2.852;
      expect(Math.abs(outletFactor(n) - exact)).toBeLessThan(0.002);
    }
    expect(outletFactor(1)).toBe(1);
  });
});

describe('a coil', () => {
  it('is as long as two coils that meet', () => {
    const whole = coilLength(0.6, 3, 0.3);
    expect(coilLength(0.6, 1.4, 0.3) + coilLength(1.4, 3, 0.3)).toBeCloseTo(whole, 12);
  });
});

describe('cycle and soak', () => {
  it('is one run where the soil takes the water as it comes', () => {
    expect(cyclesAndSoak(40, 8, 8, 6)).toEqual({ cycles: 1, onMinutes: 40, offMinutes: 0 });
  });

  it('adds up to the run, never exceeds the surface storage, and waits until the film is gone', () => {
    fc.assert(
      fc.property(
        positive(1, 600),
        positive(1, 200),
        positive(1, 40),
        positive(1, 12),
        (run, rate, intake, storage) => {
          const { cycles, onMinutes, offMinutes } = cyclesAndSoak(run, rate, intake, storage);
          const film = (Math.max(0, rate - intake) * onMinutes) / 60;
          return (
            Number.isInteger(cycles) &&
            Math.abs(cycles * onMinutes - run) < 1e-9 * run &&
            film <= storage * (1 + 1e-6) &&
            (cycles === 1 || Math.abs((intake * offMinutes) / 60 - film) < 1e-9)
          );
        },
      ),
      { seed: 11 },
    );
  });
});

describe('a pad', () => {
  it('is half full after its half time and never fuller than full', () => {
    expect(padCharge(10, 2)).toBeCloseTo(5, 12);
    expect(padCharge(10, 1000)).toBeLessThanOrEqual(10);
  });

  it('keeps its reserve on every day before the recharge date', () => {
    expect(rechargeDate(46000, 10, [3], 0.1)).toBe(46003);
    expect(rechargeDate(46000, 10, [0, 0, 9, 0], 0.1)).toBe(46003);
    // Ten draws of a tenth are a whole, whatever their sum in binary.
    expect(rechargeDate(46000, 1, Array<number>(12).fill(0.1), 0)).toBe(46010);
  });

  it('says so when the reserve is not reached', () => {
    expect(() => rechargeDate(46000, 10, [1, 1], 0.1)).toThrow(/within 2 days/);
    expect(() => rechargeDate(46000, 10, [0], 0.1)).toThrow(/within 400 days/);
  });
});

describe('a tank', () => {
  it('takes a second load only when the first does not suffice', () => {
    expect(tankLoads(0, 500)).toBe(0);
    expect(tankLoads(450, 500)).toBe(1);
    expect(tankLoads(450.1, 500)).toBe(2);
    expect(tankLoads(0.9 * 3 * 500, 500)).toBe(3);
  });

  it('a stop is set-up and filling', () => {
    expect(stopMinutes(80, 20, 4)).toBe(8);
  });
});
