import { describe, expect, it } from 'vitest';
import {
  DAYS_PER_MONTH,
  monthsToEstablish,
  rootSpread,
} from '../../src/engine/tree/establishment.js';
import {
  ballDepth,
  ballDiameter,
  canopyFromCaliper,
  caliperFromCanopy,
  containerBall,
  containerVolume,
} from '../../src/engine/tree/stock-sizes.js';
import { L_PER_GALLON, MM_PER_INCH, M_PER_FOOT } from '../../src/engine/units.js';

const inches = (mm: number): number => mm / MM_PER_INCH;

describe('establishment, UF/IFAS Gilman (seen): 3 months an inch in zones 9–11, 6 in 7–8, a year or more in 2–6', () => {
  it.each([
    [10, 9],
    [8, 18],
    [5, 36],
  ])('a 3-inch tree in zone %i takes %i months', (zone, months) => {
    expect(monthsToEstablish(3 * MM_PER_INCH, zone)).toBeCloseTo(months, 12);
  });
  it('a zone outside 1…13 is refused in a sentence', () => {
    expect(() => monthsToEstablish(50, 0)).toThrow(/zone must be from 1 to 13; got 0/);
    expect(() => monthsToEstablish(50, 14)).toThrow(/zone must be from 1 to 13/);
  });
  it('roots leave the ball on planting day and stop at the established diameter', () => {
    expect(rootSpread(0.6, 2, 0, 9)).toBe(0.6);
    expect(rootSpread(0.6, 2, 4.5, 9)).toBeCloseTo(1.3, 12);
    expect(rootSpread(0.6, 2, 90, 9)).toBe(2);
    expect(rootSpread(2, 0.6, 90, 9)).toBe(2);
    expect(DAYS_PER_MONTH).toBeCloseTo(30.44, 2);
  });
});

describe('root balls', () => {
  // UF/IFAS ball-depth page, ANSI Z60.1 depth shares (seen): 75 %, 66 %, 60 %
  it.each([
    [18, 13.5],
    [24, 15.84],
    [36, 21.6],
  ])('a %i-inch ball is at least %f inches deep', (diameter, depth) => {
    expect(inches(ballDepth(diameter * MM_PER_INCH))).toBeCloseTo(depth, 9);
  });
  // ANSI Z60.1-2014 (memory)
  it.each([
    [1, 16],
    [2, 24],
    [3, 32],
    [4, 42],
    [40, 54],
  ])('a %f-inch tree stands in a ball of at least %f inches', (caliper, ball) => {
    expect(inches(ballDiameter(caliper * MM_PER_INCH))).toBeCloseTo(ball, 9);
  });
});

describe('containers', () => {
  // HortScience 39(3):591 (2004), seen: litres
  it.each([
    [1, 3.7],
    [2, 7.5],
    [7, 21.9],
    [15, 50.6],
    [25, 104.5],
  ])('a #%i holds %f L', (container, litres) => {
    expect(Math.abs(containerVolume(container) - litres)).toBeLessThan(0.15);
  });
  it('a #5 is not 5 gallons', () => {
    expect(containerVolume(5) / L_PER_GALLON).toBeLessThan(4);
  });
  it('the cylinder taken for a container holds its volume', () => {
    const { diameter, depth } = containerBall(50.6);
    expect(((Math.PI / 4) * diameter ** 2 * depth) / 1e6).toBeCloseTo(50.6, 9);
  });
});

it('the canopy estimate reads the same both ways', () => {
  for (const caliper of [1, 2, 4, 8, 30])
    expect(inches(caliperFromCanopy(canopyFromCaliper(caliper * MM_PER_INCH)))).toBeCloseTo(
      caliper,
      9,
    );
  expect(canopyFromCaliper(2 * MM_PER_INCH)).toBeCloseTo(5 * M_PER_FOOT, 12);
});
