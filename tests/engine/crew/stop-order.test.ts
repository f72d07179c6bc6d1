import { describe, expect, it } from 'vitest';
import { metresBetween, middleOf, type Place } from '../../../src/engine/crew/place.js';
import { nodesOf } from '../../../src/engine/crew/near.js';
import { orderStops } from '../../../src/engine/crew/stop-order.js';
import { shortTour, tourLength } from '../../../src/engine/crew/tour.js';
import { randomStream, whole } from './random.js';

const RADIANS = Math.PI / 180;

/** Great circle by the haversine formula: another way than the engine's chord [m]. */
function haversine(a: Place, b: Place): number {
  const [p, q] = [a.latitude * RADIANS, b.latitude * RADIANS];
  const east = Math.sin(((b.longitude - a.longitude) * RADIANS) / 2);
  const h = Math.sin((q - p) / 2) ** 2 + Math.cos(p) * Math.cos(q) * east ** 2;
  return 2 * 6_371_008.8 * Math.asin(Math.sqrt(h));
}

const distance = (a: Place | undefined, b: Place | undefined): number =>
  a && b ? haversine(a, b) : 0;

const roundTrip = (yard: Place | undefined, places: readonly Place[]): number =>
  [yard, ...places].reduce((sum, a, i, all) => sum + distance(a, all[(i + 1) % all.length]), 0);

/** Length of the shortest of all orders, each tried, cut short only where it is longer already. */
function shortest(yard: Place | undefined, places: readonly Place[]): number {
  let best = Infinity;
  const visit = (here: Place | undefined, left: readonly Place[], length: number): void => {
    if (length >= best) return;
    if (left.length === 0) best = Math.min(best, length + distance(here, yard));
    left.forEach((next, i) =>
      visit(next, [...left.slice(0, i), ...left.slice(i + 1)], length + distance(here, next)),
    );
  };
  visit(yard, places, 0);
  return best;
}

/** Places of an invented town: anywhere, or in a few streets close together. */
function town(random: () => number, count: number): Place[] {
  const clustered = random() < 0.3;
  const spot = (): number =>
    clustered ? whole(random, 0, 2) * 0.05 + random() * 0.002 : random() * 0.1;
  return Array.from({ length: count }, () => ({
    latitude: 40 + spot(),
    longitude: -100 + spot(),
  }));
}

const ordered = (places: readonly Place[], yard?: Place): Place[] =>
  orderStops(
    places.map((place) => ({ address: '', place })),
    yard,
  ).order.map((i) => places[i]!);

describe('the order of stops', () => {
  it('is within 2 % of the best of all orders for up to nine stops, in 400 random towns', () => {
    const random = randomStream(2027);
    let worst = 0;
    for (let k = 0; k < 400; k++) {
      const places = town(random, whole(random, 2, 9));
      const yard = random() < 0.3 ? undefined : town(random, 1)[0];
      const found = roundTrip(yard, ordered(places, yard));
      worst = Math.max(worst, found / shortest(yard, places) - 1);
    }
    expect(worst).toBeLessThan(0.02);
    // so few are solved exactly
    expect(worst).toBeLessThan(1e-9);
  });
  it('is within 2 % as well by the search that larger days use, in the same kind of towns', () => {
    const random = randomStream(2028);
    for (let k = 0; k < 400; k++) {
      const places = town(random, whole(random, 2, 9));
      const yard = random() < 0.3 ? undefined : town(random, 1)[0];
      const nodes = nodesOf(places, yard);
      const given = places.map((_, i) => i + 1);
      const found = tourLength(shortTour([0, ...given], nodes), nodes);
      expect(found / shortest(yard, places) - 1).toBeLessThan(0.02);
    }
  });
  it('visits every stop once, and never drives farther than the order given', () => {
    const random = randomStream(7);
    for (const count of [0, 1, 2, 3, 10, 14, 41, 60, 150, 450, 900]) {
      const places = town(random, count);
      const yard = town(random, 1)[0]!;
      const { order, metres } = orderStops(
        places.map((place) => ({ address: '', place })),
        yard,
      );
      expect([...order].sort((a, b) => a - b)).toEqual(places.map((_, i) => i));
      const found = roundTrip(
        yard,
        order.map((i) => places[i]!),
      );
      expect(found).toBeCloseTo(metres, 3);
      expect(found).toBeLessThanOrEqual(roundTrip(yard, places) + 1e-3);
      if (count >= 41) expect(found).toBeLessThan(0.5 * roundTrip(yard, places));
    }
  });
  it('is the same again, and stays when it is given its own answer', () => {
    const places = town(randomStream(3), 80);
    const yard = { latitude: 40, longitude: -100 };
    const once = ordered(places, yard);
    expect(ordered(places, yard)).toEqual(once);
    expect(roundTrip(yard, ordered(once, yard))).toBeCloseTo(roundTrip(yard, once), 3);
  });
  it('takes places that are one and the same, and the far sides of the earth', () => {
    const same = Array.from({ length: 60 }, () => ({ latitude: 40, longitude: -100 }));
    expect(new Set(orderStops(same.map((place) => ({ address: '', place }))).order).size).toBe(60);
    const far = [
      { latitude: 90, longitude: 0 },
      { latitude: -90, longitude: 0 },
      { latitude: 0, longitude: 180 },
      { latitude: 0, longitude: -180 },
    ];
    expect(ordered(far)).toHaveLength(4);
  });
  it('without a yard is an open way from end to end', () => {
    const street = [3, 1, 4, 0, 2].map((k) => ({ latitude: 40 + k / 1000, longitude: -100 }));
    const way = ordered(street).map((p) => Math.round((p.latitude - 40) * 1000));
    expect([
      [0, 1, 2, 3, 4],
      [4, 3, 2, 1, 0],
    ]).toContainEqual(way);
  });
});

/**
 * TSPLIB, G. Reinelt, ORSA Journal on Computing 3 (1991) 376–384: instances and the lengths of their proven
 * shortest tours, by the library's own distances in whole units. Seen in public copies of the library.
 */
const TSPLIB = [
  {
    name: 'burma14',
    best: 3323,
    within: 0,
    nodes: '16.47 96.10;16.47 94.44;20.09 92.54;22.39 93.37;25.23 97.24;22.00 96.05;20.47 97.02;17.20 96.29;16.30 97.38;14.05 98.12;16.53 97.38;21.52 95.59;19.41 97.13;20.09 94.55',
  },
  {
    name: 'ulysses16',
    best: 6859,
    within: 0,
    nodes: '38.24 20.42;39.57 26.15;40.56 25.32;36.26 23.12;33.48 10.54;37.56 12.19;38.42 13.11;37.52 20.44;41.23 9.10;41.17 13.05;36.08 -5.21;38.47 15.13;38.15 15.35;37.51 15.17;35.49 14.32;39.36 19.56',
  },
  {
    name: 'eil51',
    best: 426,
    within: 0.02,
    nodes: '37 52;49 49;52 64;20 26;40 30;21 47;17 63;31 62;52 33;51 21;42 41;31 32;5 25;12 42;36 16;52 41;27 23;17 33;13 13;57 58;62 42;42 57;16 57;8 52;7 38;27 68;30 48;43 67;58 48;58 27;37 69;38 46;46 10;61 33;62 63;63 69;32 22;45 35;59 15;5 6;10 17;21 10;5 64;30 15;39 10;32 39;25 32;25 55;48 28;56 37;30 40',
  },
]; // prettier-ignore

/** TSPLIB's GEO: degrees and minutes as DDD.MM, an earth of 6378.388 km, whole kilometres. */
function geo(a: readonly number[], b: readonly number[]): number {
  const angle = (x: number): number => {
    const degrees = Math.trunc(x);
    return ((degrees + (5 * (x - degrees)) / 3) * 3.141592) / 180;
  };
  const q1 = Math.cos(angle(a[1]!) - angle(b[1]!));
  const q2 = Math.cos(angle(a[0]!) - angle(b[0]!));
  const q3 = Math.cos(angle(a[0]!) + angle(b[0]!));
  return Math.trunc(6378.388 * Math.acos(0.5 * ((1 + q1) * q2 - (1 - q1) * q3)) + 1);
}

const plane = (a: readonly number[], b: readonly number[]): number =>
  Math.round(Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!));

describe('published tours', () => {
  for (const { name, best, within, nodes } of TSPLIB)
    it(`${name}: ${within === 0 ? 'the proven shortest tour' : `within ${100 * within} % of it`}`, () => {
      const points = nodes.split(';').map((line) => line.split(' ').map(Number));
      const onGlobe = name !== 'eil51';
      // a plane of small degrees at the equator is flat; DDD.MM is read as the library reads it
      const degrees = (x: number): number => Math.trunc(x) + (5 * (x - Math.trunc(x))) / 3;
      const places = points.map(([x, y]) =>
        onGlobe
          ? { latitude: degrees(x!), longitude: degrees(y!) }
          : { latitude: y! * 1e-4, longitude: x! * 1e-4 },
      );
      const { order } = orderStops(
        places.slice(1).map((place) => ({ address: '', place })),
        places[0],
      );
      const tour = [0, ...order.map((i) => i + 1)];
      const length = tour.reduce((sum, a, i) => {
        const b = tour[(i + 1) % tour.length]!;
        return sum + (onGlobe ? geo : plane)(points[a]!, points[b]!);
      }, 0);
      expect(length).toBeGreaterThanOrEqual(best);
      expect(length).toBeLessThanOrEqual(best * (1 + within));
    });
});

describe('stops without coordinates', () => {
  // corners of a square, the yard at one of them: one way round, or the other
  const at = (latitude: number, longitude = -100): Place => ({ latitude, longitude });
  const stops = [
    { address: '9 Elm Street', place: at(40, -99.98) },
    { address: '12 Invented Way' },
    { address: '30 Elm Street', place: at(40.02) },
    { address: '27 Elm Street' },
    { address: '2 Invented Way' },
    { address: 'Birkenweg 5', place: at(40.02, -99.98) },
    { address: 'Birkenweg 7' },
  ];
  it('follow the nearest number of their street, or come last in the order of addresses', () => {
    const { order, placing, note } = orderStops(stops, at(40));
    expect(order.map((i) => stops[i]!.address)).toEqual([
      '9 Elm Street',
      'Birkenweg 5',
      'Birkenweg 7',
      '30 Elm Street',
      '27 Elm Street',
      '2 Invented Way',
      '12 Invented Way',
    ]);
    expect(placing).toEqual([
      'by coordinates',
      'by address',
      'by coordinates',
      'beside its street',
      'by address',
      'by coordinates',
      'beside its street',
    ]);
    expect(note).toBe(
      'Order of stops: 2 stops without coordinates beside the same street; 2 stops without coordinates last, in the order of addresses.',
    );
  });
  it('are all in the order of addresses when none has coordinates, and it is said', () => {
    const { order, metres, note } = orderStops(
      ['10 Oak Row', '9 Oak Row', '1 Ash Row'].map((address) => ({ address })),
    );
    expect(order).toEqual([2, 1, 0]);
    expect(metres).toBe(0);
    expect(note).toMatch(/No stop has coordinates/);
  });
  it('are not joined by an address without letters', () => {
    const { placing } = orderStops([{ address: '', place: at(40) }, { address: '' }], at(40));
    expect(placing).toEqual(['by coordinates', 'by address']);
  });
});

describe('places', () => {
  it('a degree of a meridian is πR/180, pole to pole half the way round (definition)', () => {
    const origin = { latitude: 0, longitude: 0 };
    expect(metresBetween(origin, { latitude: 1, longitude: 0 })).toBeCloseTo(111_195.08, 1);
    expect(
      metresBetween({ latitude: 90, longitude: 5 }, { latitude: -90, longitude: 77 }),
    ).toBeCloseTo(Math.PI * 6_371_008.8, 3);
  });
  it('the middle of places on both sides of 180° lies between them, not on the other side', () => {
    const middle = middleOf([
      { latitude: 10, longitude: 179 },
      { latitude: 10, longitude: -179 },
    ])!;
    expect(Math.abs(middle.longitude)).toBeCloseTo(180, 9);
    expect(middle.latitude).toBeCloseTo(10, 1);
  });
});
