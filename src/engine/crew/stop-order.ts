/** The order of a day's stops: a short way from the yard and back, by coordinates where they are given. */
import { metresBetween, type Place } from './place.js';
import { nodesOf } from './near.js';
import { exactTour } from './exact-tour.js';
import { shortTour, tourLength, type Nodes } from './tour.js';

export interface Stop {
  address: string;
  /** undefined when nothing says where it is */
  place?: Place | undefined;
}

/** How a stop came by its turn. */
export type Placing = 'by coordinates' | 'beside its street' | 'by address';

export interface StopOrder {
  /** the given stops, by index, in the order to visit them */
  order: number[];
  /** how each given stop, by index, came by its turn */
  placing: Placing[];
  /** length as a bird flies of the legs whose two ends are known [m] */
  metres: number;
  /** what is not by coordinates, in a sentence; "" when all is */
  note: string;
}

const collator = new Intl.Collator('en', { numeric: true });

/** Signs an address is sorted by: more is no address, and days are put in order thousands of times. */
const SORTED_SIGNS = 200;
const beginning = (text: string): string =>
  text.length > SORTED_SIGNS ? text.slice(0, SORTED_SIGNS) : text;

/** Addresses as people sort them: 9 before 10; by their first 200 signs. */
export const byAddress = (a: string, b: string): number =>
  collator.compare(beginning(a), beginning(b));

/**
 * Orders the stops of a crew's day.
 *
 * Stops with coordinates: the shortest way for up to nine, else nearest neighbour, 2-opt and Or-opt over great-circle
 * distances, from the yard and back, or an open way where the yard's place is not known; never longer than the order
 * given. A stop without
 * coordinates follows the stop of its street with the nearest house number, else it comes at the end in the order
 * of addresses.
 *
 * @param stops - any number; none is left out
 * @param yard - where the crew starts and ends
 * @param kicked - look for the last few per cent, too
 * Streets are not known here: rivers, one-way streets and fences may make another order the shorter drive.
 */
export function orderStops(stops: readonly Stop[], yard?: Place, kicked = true): StopOrder {
  const located = stops.flatMap(({ place }, i) => (place ? [i] : []));
  const nodes = nodesOf(
    located.map((i) => stops[i]!.place!),
    yard,
  );
  const tour = tourOf(nodes, kicked);
  const placing: Placing[] = stops.map(({ place }) => (place ? 'by coordinates' : 'by address'));
  const order = withoutPlace(
    stops,
    facing(tour.slice(1)).map((node) => located[node - 1]!),
    placing,
  );
  return { order, placing, metres: tourLength(tour, nodes), note: noteOf(placing, yard) };
}

/** Up to this many nodes, the yard among them, the shortest of all tours is found; above, a short one. */
const EXACT = 10;

/** A tour from node 0, never longer than the order given. */
function tourOf(nodes: Nodes, kicked: boolean): number[] {
  if (nodes.count <= EXACT) return exactTour(nodes);
  const given = Array.from({ length: nodes.count }, (_, i) => i);
  const tour = shortTour(given, nodes, kicked);
  const home = tour.indexOf(0);
  return [...tour.slice(home), ...tour.slice(0, home)];
}

/** A round trip can be driven both ways: the lower first stop leads, so that the given order breaks the tie. */
const facing = (tour: number[]): number[] =>
  tour.length > 1 && tour[0]! > tour[tour.length - 1]! ? [...tour].reverse() : tour;

/** Adds the stops nobody can place on a map: behind a neighbour of the same street, else at the end. */
function withoutPlace(
  stops: readonly Stop[],
  tour: readonly number[],
  placing: Placing[],
): number[] {
  const lost = stops
    .flatMap(({ place }, i) => (place ? [] : [i]))
    .sort((a, b) => byAddress(stops[a]!.address, stops[b]!.address) || a - b);
  if (lost.length === 0) return [...tour];
  const streets = new Map<string, number[]>();
  for (const i of tour) {
    const { street } = partsOf(stops[i]!.address);
    if (street) streets.set(street, [...(streets.get(street) ?? []), i]);
  }
  const behind = new Map<number, number[]>();
  const last: number[] = [];
  for (const i of lost) {
    const neighbour = neighbourOf(stops, i, streets);
    if (neighbour === undefined) last.push(i);
    else {
      placing[i] = 'beside its street';
      behind.set(neighbour, [...(behind.get(neighbour) ?? []), i]);
    }
  }
  return [...tour.flatMap((i) => [i, ...(behind.get(i) ?? [])]), ...last];
}

/** The stop with coordinates in the same street whose house number is nearest. */
function neighbourOf(
  stops: readonly Stop[],
  lost: number,
  streets: ReadonlyMap<string, number[]>,
): number | undefined {
  const { street, house } = partsOf(stops[lost]!.address);
  const gap = (i: number): number => {
    const other = partsOf(stops[i]!.address).house;
    return house === undefined || other === undefined ? Infinity : Math.abs(house - other);
  };
  return streets.get(street)?.reduce((a, b) => (gap(b) < gap(a) ? b : a));
}

/** House number before or after the name of the street; "" for an address without letters. */
function partsOf(address: string): { street: string; house: number | undefined } {
  const plain = beginning(address.trim()).toLowerCase().replace(/\s+/g, ' ');
  const found =
    /^(?<house>\d+)[a-z]?[ ,]+(?<street>.+)$/.exec(plain) ??
    /^(?<street>.*?\p{L}.*?)[ ,]+(?<house>\d+) ?[a-z]?$/u.exec(plain);
  const street = found?.groups?.['street'] ?? plain;
  const house = found?.groups?.['house'];
  return {
    street: /\p{L}/u.test(street) ? street : '',
    house: house === undefined ? undefined : Number(house),
  };
}

function noteOf(placing: readonly Placing[], yard: Place | undefined): string {
  const located = placing.filter((p) => p === 'by coordinates').length;
  const beside = placing.filter((p) => p === 'beside its street').length;
  const last = placing.length - located - beside;
  if (placing.length === 0) return '';
  if (located === 0)
    return 'No stop has coordinates: the stops are in the order of their addresses.';
  const stops = (n: number): string => `${n} ${n === 1 ? 'stop' : 'stops'}`;
  const parts = [
    ...(beside > 0 ? [`${stops(beside)} without coordinates beside the same street`] : []),
    ...(last > 0 ? [`${stops(last)} without coordinates last, in the order of addresses`] : []),
    ...(yard
      ? []
      : ['the place of the yard is not given, so the way out and back is not part of it']),
  ];
  return parts.length === 0 ? '' : `Order of stops: ${parts.join('; ')}.`;
}

/**
 * Stops of a season, over all its days, whose orders are searched to the last few per cent. What comes after gets
 * 2-opt and Or-opt alone, so that a city of thousands of sites is planned in seconds.
 */
export const SEARCHED_STOPS = 5_000;

/** Remembers the orders of a season: the same stops come again on many days. */
export function rememberOrders(yard?: Place): (stops: readonly Stop[]) => StopOrder {
  const known = new Map<string, StopOrder>();
  const numbers = new Map<string, number>();
  const numberOf = (address: string): number => {
    const number = numbers.get(address) ?? numbers.size;
    numbers.set(address, number);
    return number;
  };
  let searched = 0;
  return (stops) => {
    const key = JSON.stringify(
      stops.map(({ address, place }) => [numberOf(address), place?.latitude, place?.longitude]),
    );
    let order = known.get(key);
    if (!order) {
      searched += stops.length;
      known.set(key, (order = orderStops(stops, yard, searched <= SEARCHED_STOPS)));
    }
    return order;
  };
}

/** Length of one leg, undefined when an end is not known [m]. */
export const legMetres = (from: Place | undefined, to: Place | undefined): number | undefined =>
  from && to ? metresBetween(from, to) : undefined;
