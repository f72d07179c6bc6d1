/** How people head their columns in English. Earlier words of a list are surer than later ones. */
import type { Meaning } from './vocabulary.js';

/** Languages of a header; those that measure in metric units speak for metric columns. */
export type Language = 'en' | 'es' | 'de' | 'fr' | 'it';

export interface Wording {
  meaning: Meaning;
  language: Language;
  /** headers as written, any case; compared without blanks, accents and signs */
  words: readonly string[];
  /** the value is multiplied by this: 2 where a radius is given */
  factor?: number;
  /** names so general that the match must be looked at */
  loose?: boolean;
}

export const say = (
  meaning: Meaning,
  language: Language,
  words: string,
  more: Pick<Wording, 'factor' | 'loose'> = {},
): Wording => ({ meaning, language, words: words.split(',').map((w) => w.trim()), ...more });

export const ENGLISH: readonly Wording[] = [
  say('id', 'en', 'tree id, tree no, tree number, tree num, tree nr, tree tag, tag no, tag number, tag, id, unique id, asset id, facility id, tr num, tr no, primary id, main id, tree code, planting space id, object id, fid, id main table, inventory number, label, number, no, nr, num'),
  say('id', 'en', 'tree', { loose: true }),
  say('species', 'en', 'species, scientific name, botanical name, latin name, scientific, botanical, botanic, latin, tree species, species name, tree species name, sci name, name latin, name lat, spp bot, spp latin, spp, scient name, species scientific name, species latin, plant species, taxon, cultivar name, species full name, tree type, t species name, kind'),
  say('species', 'en', 'tree, plant', { loose: true }),
  say('commonName', 'en', 'common name, common, spp com, spp common, comm name, com name, name common, species common, species common name, tree common name, tree name, common names, cmmn nm, t name, vernacular name, english name, species type, plant name, plant spec'),
  say('genus', 'en', 'genus, genus name, latin genus, tree genus, t genus, botanical genus'),
  say('epithet', 'en', 'epithet, specific epithet, species epithet, latin specific epithet, t species'),
  say('count', 'en', 'count, quantity, qty, number of trees, no of trees, tree count, trees, tree qty, tree planted qty, planted qty, tree quantity, how many'),
  say('caliper', 'en', 'dbh, caliper, trunk diameter, caliper or dbh, diameter at breast height, diameter breast height, diam breast height, tree dbh, exact dbh, ex dbh, dbh size, dbh val, dbh value, dbh actual, dsh, d b h, tree caliper, calliper, cal, trunk diam, trunk dia, stem dia, tree dia, stem diameter, bole diameter, tree diameter, diameter at base, diameter base height, trunk size, tree size dbh, trunk width, diameter, diam, dia'),
  say('caliper', 'en', 'tree size, size', { loose: true }),
  say('circumference', 'en', 'circumference, trunk circumference, girth, trunk girth, circum, stem girth, gbh, cbh'),
  say('diameterClass', 'en', 'diameter class, dbh class, dbh classes, dbh range, size class, trunk diameter range, diameter range, dv dbh, trunk diameter class'),
  say('container', 'en', 'container class, container, container size, pot size, pot, stock size, nursery size, gallon size, container gal'),
  say('container', 'en', 'tree size, size', { loose: true }),
  say('ballDiameter', 'en', 'ball diameter, root ball diameter, rootball diameter, ball size, root ball, rootball, root ball width, ball width, ball dia'),
  say('ballDepth', 'en', 'ball depth, root ball depth, rootball depth, ball height, root ball height'),
  say('planted', 'en', 'planted, planting date, plant date, date planted, planted date, planted on, planted at, installed, install date, installed date, date of planting, pl date, tree plant date, date installed, day planted, transplant date'),
  say('planted', 'en', 'date, completed date, year', { loose: true }),
  say('plantedYear', 'en', 'year planted, planting year, planted year, plant year, plant yr, yr planted, year plant, install year, year installed, year of planting'),
  say('canopy', 'en', 'canopy diameter, crown diameter, canopy, canopy width, crown width, crown spread, canopy spread, spread, crown spread ft, can width, canopy wid, tree spread, tree spread tip to tip, crown width ew, crown width ns, dripline, dripline diameter, crown'),
  say('canopy', 'en', 'canopy radius, crown radius, can radius, dripline radius', { factor: 2 }),
  say('height', 'en', 'height, tree height, total height, ht, exact height, height total, exact hgt, tree ht, height range, height class, h class'),
  say('waterNeed', 'en', 'water use, water need, water needs, water requirement, plant factor, watering needs, water demand'),
  say('texture', 'en', 'soil texture, soil type, soil, texture'),
  say('mulchDepth', 'en', 'mulch depth, mulch, mulch thickness'),
  say('site', 'en', 'site, site name, property, park name, park location, park, job site, job, site name combo box, client, project, location, tree location, located in, area, zone name, project name'),
  say('address', 'en', 'address, street address, property address, full address, site address, addr'),
  say('houseNumber', 'en', 'street number, house number, house no, building number, address number, on address, street no, house num, addr num'),
  say('street', 'en', 'street, street name, on street, road, street nam'),
  say('latitude', 'en', 'latitude, lat, y coord, y, lat location, gps lat, point y, coord y, y wgs84'),
  say('longitude', 'en', 'longitude, long, lon, lng, x coord, x, long location, lon location, gps long, point x, coord x, x wgs84'),
  say('tap', 'en', 'tap, hose bib, hose bibb, spigot, water access, tap nearby, tap distance, distance to tap, distance to water, faucet'),
  say('tapFlow', 'en', 'tap flow, flow, flow rate, hose flow, bib flow, gpm'),
  say('source', 'en', 'water source, source, water supply, supply'),
  say('meansWanted', 'en', 'means wanted, means, watering method, method, irrigation, irrigation method, water method, watering'),
  say('status', 'en', 'status, tree status, condition, tree condition, health, site status, space status, wo status, condition rating, condition class, state of tree, t condition, tree condi, tp structure, tp condition, health sta, legal status'),
  say('served', 'en', 'served'),
  say('note', 'en', 'note, notes, comments, comment, remarks, details, notes eg mushroom, description, memo, comments hidden'),
  say('assumed', 'en', 'assumed, assumed values'),
]; // prettier-ignore
