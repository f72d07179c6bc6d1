/** Worksheet functions about bags, pads and hoses: there and back, and which way the answer moves. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/index.js';

const run = (id: string, ...inputs: unknown[]): number => FUNCTIONS[id]!(...inputs) as number;
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const holes = fc.integer({ min: 1, max: 12 });
const units = fc.constantFrom('US', 'SI');
const relative = (a: number, b: number): number => Math.abs(a / b - 1);
/** Units are converted at the edge, there and back. */
const ROUNDING = 1 + 1e-12;
const SETTINGS = { numRuns: 400, seed: 17 };

/** Bags by volume, holes, hole, depth, discharge, units; hole sizes are those of the unit system. */
const bag = fc
  .record({
    volume: between(4, 200),
    count: holes,
    share: between(0, 1),
    depth: between(5, 80),
    discharge: between(0.4, 0.98),
    units,
  })
  .map(({ share, ...rest }) => ({
    ...rest,
    hole: rest.units === 'US' ? 0.02 + 0.18 * share : 0.5 + 4.5 * share,
  }));

const hours = (
  b: {
    volume: number;
    count: number;
    hole: number;
    depth: number;
    discharge: number;
    units: string;
  },
  left = 0,
): number => run('BAG_HOURS', b.volume, b.count, b.hole, b.depth, b.discharge, left, b.units);

describe('there and back', () => {
  it('BAG_HOLE of BAG_HOURS is the hole, to 1e-9', () => {
    fc.assert(
      fc.property(bag, (b) => {
        const time = hours(b);
        fc.pre(time <= 10_000);
        const back = run('BAG_HOLE', b.volume, b.count, time, b.depth, b.discharge, b.units);
        expect(relative(back, b.hole)).toBeLessThan(1e-9);
      }),
      SETTINGS,
    );
  });

  it('BAG_LEFT after BAG_HOURS is what was to be left, to 1e-9', () => {
    fc.assert(
      fc.property(bag, between(0.001, 0.99), (b, share) => {
        const time = hours(b, share * b.volume);
        fc.pre(time <= 10_000);
        const left = run(
          'BAG_LEFT',
          b.volume,
          time,
          b.count,
          b.hole,
          b.depth,
          b.discharge,
          b.units,
        );
        expect(Math.abs(left / b.volume - share)).toBeLessThan(1e-9);
      }),
      SETTINGS,
    );
  });

  it('BAG_OPEN_HOLES of a bag with some holes clogged counts the open ones, to 1e-9', () => {
    fc.assert(
      fc.property(bag, holes, between(0, 0.95), (b, open, left) => {
        const time = hours({ ...b, count: open }, left * b.volume);
        const rated = hours(b);
        fc.pre(time <= 10_000 && rated <= 10_000);
        expect(relative(run('BAG_OPEN_HOLES', b.count, rated, time, left), open)).toBeLessThan(
          1e-9,
        );
      }),
      SETTINGS,
    );
  });

  it('COIL_DIAMETER of COIL_LENGTH is the outer diameter, to 1e-9', () => {
    fc.assert(
      fc.property(
        between(0.1, 90),
        between(0.001, 1),
        between(1, 120),
        units,
        (outer, share, spacing, u) => {
          const inner = outer * (1 - share) || outer / 2;
          fc.pre(inner > 0 && inner < outer);
          const length = run('COIL_LENGTH', inner, outer, spacing, u);
          fc.pre(length <= 10_000);
          expect(relative(run('COIL_DIAMETER', length, inner, spacing, u), outer)).toBeLessThan(
            1e-9,
          );
        },
      ),
      SETTINGS,
    );
  });

  it('COIL_LENGTH of COIL_DIAMETER is the hose, to 1e-9 where it adds at least a hundredth', () => {
    fc.assert(
      fc.property(
        between(1, 500),
        between(0.1, 9),
        between(2, 100),
        units,
        (length, inner, spacing, u) => {
          const outer = run('COIL_DIAMETER', length, inner, spacing, u);
          fc.pre(outer <= 90 && outer > 1.01 * inner);
          expect(relative(run('COIL_LENGTH', inner, outer, spacing, u), length)).toBeLessThan(1e-9);
        },
      ),
      SETTINGS,
    );
  });

  it('RECHARGE_DATE is the first whole day from PAD_DAYS on', () => {
    fc.assert(
      fc.property(between(1, 60), between(0.2, 8), between(0, 0.9), (volume, draw, reserve) => {
        const days = run('PAD_DAYS', volume, draw, reserve);
        fc.pre(days <= 400 && Math.abs(days - Math.round(days)) > 1e-6);
        expect(run('RECHARGE_DATE', 46_000, volume, [[draw]], reserve)).toBe(
          46_000 + Math.ceil(days),
        );
      }),
      SETTINGS,
    );
  });

  it('what flowed in by BUCKET_FLOW takes HOSE_MINUTES to give again', () => {
    fc.assert(
      fc.property(between(0.5, 40), between(2, 600), units, (volume, seconds, u) => {
        const flow = run('BUCKET_FLOW', volume, seconds, u);
        expect(relative(run('HOSE_MINUTES', volume, flow, 1) * 60, seconds)).toBeLessThan(1e-9);
      }),
      SETTINGS,
    );
  });
});

describe('a bag', () => {
  it('drains faster through more or larger holes, slower when it is fuller or flatter', () => {
    fc.assert(
      fc.property(bag, between(1.01, 3), (b, more) => {
        const base = hours(b);
        expect(hours({ ...b, count: b.count + 1 })).toBeLessThan(base);
        expect(hours({ ...b, hole: b.hole * more })).toBeLessThan(base);
        expect(hours({ ...b, volume: b.volume * more })).toBeGreaterThan(base);
        // the same water standing deeper pushes harder
        expect(hours({ ...b, depth: b.depth * more })).toBeLessThan(base);
        expect(hours(b, b.volume / 3)).toBeLessThan(base);
      }),
      SETTINGS,
    );
  });

  it('only empties, ends at 0 and never holds more than it held', () => {
    fc.assert(
      fc.property(bag, between(0, 1.5), between(0.01, 0.5), (b, share, more) => {
        const full = hours(b);
        fc.pre(full <= 4000);
        const left = (time: number): number =>
          run('BAG_LEFT', b.volume, time, b.count, b.hole, b.depth, b.discharge, b.units);
        const now = left(share * full);
        expect(now).toBeLessThanOrEqual(b.volume * ROUNDING);
        if (share < 1 - 1e-9) {
          expect(left((share + more) * full)).toBeLessThan(now);
          expect(now).toBeGreaterThan(0);
        } else if (share > 1 + 1e-9) expect(now).toBe(0);
      }),
      SETTINGS,
    );
  });

  it('gets its verdict from the open holes and the two days alone', () => {
    const word = (text: string): string => text.slice(0, text.indexOf(':'));
    const seen = new Set<string>();
    fc.assert(
      fc.property(
        holes,
        between(0.5, 40),
        between(0.2, 60),
        between(0, 0.9),
        (n, rated, time, left) => {
          const verdict = FUNCTIONS['BAG_VERDICT']!(n, rated, time, left) as string;
          const open = run('BAG_OPEN_HOLES', n, rated, time, left) / n;
          const full = time / (1 - Math.sqrt(left));
          fc.pre([full / 48, open / 1.25, open / 0.8].every((ratio) => Math.abs(ratio - 1) > 1e-6));
          seen.add(word(verdict));
          expect(word(verdict)).toBe(
            full > 48 || open > 1.25 ? 'replace' : open < 0.8 ? 'flush' : 'ok',
          );
          expect(verdict).toMatch(/^(ok|flush|replace): a full bag takes [\d.]+ h, rated [\d.]+ h/);
        },
      ),
      SETTINGS,
    );
    expect([...seen].sort()).toEqual(['flush', 'ok', 'replace']);
  });

  it('on a border is judged kindly', () => {
    expect(FUNCTIONS['BAG_VERDICT']!(4, 5, 6.25)).toMatch(/^ok: /);
    expect(FUNCTIONS['BAG_VERDICT']!(4, 5, 4)).toMatch(/^ok: /);
    expect(FUNCTIONS['BAG_VERDICT']!(4, 48, 48)).toMatch(/^ok: /);
    expect(FUNCTIONS['BAG_VERDICT']!(1, 5, 10)).toBe(
      'flush: a full bag takes 10 h, rated 5 h; the hole seems 50 % open',
    );
    expect(FUNCTIONS['BAG_VERDICT']!(4, 5, 3)).toBe(
      'replace: a full bag takes 3 h, rated 5 h, as if 6.67 holes were open instead of 4; torn or leaking',
    );
  });
});

describe('a gel pad', () => {
  it('takes up more the longer it soaks, less the slower it is, and never more than it holds', () => {
    fc.assert(
      fc.property(
        between(0.5, 80),
        between(0, 30),
        between(0.5, 8),
        between(0.01, 5),
        (v, t, half, more) => {
          const now = run('PAD_CHARGED', v, t, half);
          expect(run('PAD_CHARGED', v, t + more, half)).toBeGreaterThanOrEqual(now / ROUNDING);
          expect(run('PAD_CHARGED', v, t, half + more)).toBeLessThanOrEqual(now * ROUNDING);
          expect(now).toBeLessThanOrEqual(v * ROUNDING);
        },
      ),
      SETTINGS,
    );
  });

  it('lasts longer when it holds more, shorter when more is drawn or kept back', () => {
    fc.assert(
      fc.property(
        between(0.5, 80),
        between(0.01, 8),
        between(0, 0.5),
        between(1.01, 1.9),
        (v, d, r, more) => {
          const days = run('PAD_DAYS', v, d, r);
          expect(run('PAD_DAYS', v * more, d, r)).toBeGreaterThan(days);
          expect(run('PAD_DAYS', v, d * more, r)).toBeLessThan(days);
          expect(run('PAD_DAYS', v, d, r + 0.1)).toBeLessThan(days);
        },
      ),
      SETTINGS,
    );
  });
});

describe('a hose', () => {
  const hose = [between(0.5, 20), between(10, 300), between(0.5, 2), between(100, 150)] as const;

  it('loses more when longer, thinner, rougher or at more flow, less with outlets on the way', () => {
    fc.assert(
      fc.property(
        ...hose,
        between(1.01, 1.5),
        fc.integer({ min: 2, max: 200 }),
        (q, l, d, c, more, n) => {
          const loss = (flow = q, length = l, bore = d, smooth = c, outlets = 0): number =>
            run('HOSE_LOSS', flow, length, bore, smooth, outlets);
          const base = loss();
          expect(loss(q * more)).toBeGreaterThan(base);
          expect(loss(q, l * more)).toBeGreaterThan(base);
          expect(loss(q, l, d / more)).toBeGreaterThan(base);
          expect(loss(q, l, d, c / more)).toBeGreaterThan(base);
          expect(loss(q, l, d, c, n)).toBeLessThan(base);
          expect(loss(q, l, d, c, n + 1)).toBeLessThan(loss(q, l, d, c, n));
          expect(loss(q, l, d, c, 1)).toBe(base);
          expect(relative(loss(q, 2 * l), 2 * base)).toBeLessThan(1e-12);
          expect(relative(loss(2 * q), 2 ** 1.852 * base)).toBeLessThan(1e-12);
        },
      ),
      SETTINGS,
    );
  });

  it('coils wider the longer it is, the wider the gaps and the wider the beginning', () => {
    fc.assert(
      fc.property(
        between(1, 500),
        between(0.1, 9),
        between(2, 39),
        between(1.01, 3),
        (l, inner, gap, more) => {
          const base = run('COIL_DIAMETER', l, inner, gap);
          expect(base).toBeGreaterThan(inner);
          expect(run('COIL_DIAMETER', l * more, inner, gap)).toBeGreaterThan(base);
          expect(run('COIL_DIAMETER', l, inner * more, gap)).toBeGreaterThan(base);
          expect(run('COIL_DIAMETER', l, inner, gap * more)).toBeGreaterThan(base);
        },
      ),
      SETTINGS,
    );
  });

  it('is run in cycles that add up, never fewer when the soil is slower or the film thinner', () => {
    const cycles = (...inputs: number[]): number[] =>
      (FUNCTIONS['SOAK_CYCLES']!(...inputs) as number[][])[0]!;
    fc.assert(
      fc.property(
        between(1, 600),
        between(0.1, 6),
        between(0.05, 2),
        between(0.05, 1),
        between(1.01, 3),
        (t, rate, intake, film, more) => {
          const [count, on, off] = cycles(t, rate, intake, film) as [number, number, number];
          expect(relative(count * on, t)).toBeLessThan(1e-9);
          expect((Math.max(0, rate - intake) * on) / 60).toBeLessThanOrEqual(film * (1 + 1e-6));
          expect(off === 0).toBe(count === 1);
          expect(cycles(t, rate, intake / more, film)[0]).toBeGreaterThanOrEqual(count);
          expect(cycles(t, rate, intake, film / more)[0]).toBeGreaterThanOrEqual(count);
        },
      ),
      SETTINGS,
    );
  });
});
