/** Whether a row of measurements grows: a line through them by least squares, and how far the line itself is certain. */

export interface Growth {
  /** rise from one measurement to the next, in the unit of the measurements */
  perStep: number;
  /** standard error of that rise, from how far the measurements lie off the line; same unit */
  error: number;
}

/** Standard errors within which a rise may as well be none. */
const CERTAIN = 2;

/** @throws RangeError for fewer than three measurements, which lie on their line and say nothing of its error */
export function growth(measured: readonly number[]): Growth {
  const n = measured.length;
  if (n < 3) throw new RangeError(`a rise and its error need three measurements, not ${n}`);
  const middle = (n - 1) / 2;
  const mean = measured.reduce((sum, y) => sum + y, 0) / n;
  let [along, across] = [0, 0];
  for (const [x, y] of measured.entries()) {
    along += (x - middle) * (y - mean);
    across += (x - middle) ** 2;
  }
  const perStep = along / across;
  const off = measured.reduce((sum, y, x) => sum + (y - mean - perStep * (x - middle)) ** 2, 0);
  return { perStep, error: Math.sqrt(off / (n - 2) / across) };
}

/** The least the rise is, as certain as the measurements allow; below zero where it may be none. */
export const leastRise = ({ perStep, error }: Growth): number => perStep - CERTAIN * error;
