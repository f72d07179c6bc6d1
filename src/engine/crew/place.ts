/** Places on the earth and how far apart they are, as a bird flies. */

/** Degrees, north and east positive. */
export interface Place {
  latitude: number;
  longitude: number;
}

/** Mean radius of the earth, (2a + b)/3 of the WGS 84 ellipsoid [m]. Source: definition, IUGG 1980 (memory). */
export const EARTH_RADIUS = 6_371_008.8;

const RADIANS = Math.PI / 180;

/** True when both degrees are given and lie on the globe. */
export const isPlace = (latitude: number | undefined, longitude: number | undefined): boolean =>
  latitude !== undefined &&
  longitude !== undefined &&
  Math.abs(latitude) <= 90 &&
  Math.abs(longitude) <= 180;

/** Direction of a place from the middle of the earth, a vector of length 1. */
export function direction({ latitude, longitude }: Place): [number, number, number] {
  const across = Math.cos(latitude * RADIANS);
  return [
    across * Math.cos(longitude * RADIANS),
    across * Math.sin(longitude * RADIANS),
    Math.sin(latitude * RADIANS),
  ];
}

/** Great-circle distance of two directions, 2R·asin(chord/2): exact for near places too [m]. */
export function arc(dx: number, dy: number, dz: number): number {
  return 2 * EARTH_RADIUS * Math.asin(Math.min(1, Math.sqrt(dx * dx + dy * dy + dz * dz) / 2));
}

/** Great-circle distance [m]. */
export function metresBetween(a: Place, b: Place): number {
  const [p, q] = [direction(a), direction(b)];
  return arc(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

/** The middle of places: their mean direction, so that places on both sides of 180° meet there. */
export function middleOf(places: readonly Place[]): Place | undefined {
  let [x, y, z] = [0, 0, 0];
  for (const place of places) {
    const d = direction(place);
    x += d[0];
    y += d[1];
    z += d[2];
  }
  // places right opposite each other have no middle
  if (Math.hypot(x, y, z) < 1e-9) return undefined;
  return {
    latitude: Math.atan2(z, Math.hypot(x, y)) / RADIANS,
    longitude: Math.atan2(y, x) / RADIANS,
  };
}
