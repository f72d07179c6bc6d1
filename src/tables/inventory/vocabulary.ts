/** What a column may mean, how our own workbook heads it, and the words cells hold. */
export const MEANINGS = [
  'id', 'species', 'commonName', 'genus', 'epithet', 'count', 'caliper', 'circumference', 'diameterClass', 'container',
  'ballDiameter', 'ballDepth', 'planted', 'plantedYear', 'canopy', 'height', 'waterNeed', 'texture', 'mulchDepth', 'site',
  'address', 'houseNumber', 'street', 'latitude', 'longitude', 'tap', 'tapFlow', 'source', 'meansWanted', 'status', 'served', 'note', 'assumed',
] as const; // prettier-ignore

export type Meaning = (typeof MEANINGS)[number];

/** The columns of our own workbook: an exact match. */
export const OWN_HEADERS: Readonly<Record<string, Meaning>> = {
  'Tree id': 'id', Species: 'species', Count: 'count', Caliper: 'caliper', DBH: 'caliper', 'Caliper or DBH': 'caliper',
  'Container class': 'container', 'Ball diameter': 'ballDiameter', 'Ball depth': 'ballDepth', Planted: 'planted',
  'Canopy diameter': 'canopy', Height: 'height', 'Water use': 'waterNeed', 'Soil texture': 'texture',
  'Mulch depth': 'mulchDepth', Site: 'site', Address: 'address', Latitude: 'latitude', Longitude: 'longitude', Tap: 'tap',
  'Tap flow': 'tapFlow', Source: 'source', 'Means wanted': 'meansWanted', Served: 'served', Note: 'note', Assumed: 'assumed',
}; // prettier-ignore

/** Words in a status, species, planting or note cell for a tree that is not there to be watered. */
export const GONE_WORDS: readonly string[] = [
  'dead', 'removed', 'stump', 'gone', 'felled', 'cut down', 'retired', 'missing', 'no tree', 'vacant', 'empty', 'vacant site', 'planting site', 'not planted', 'not completed', 'cancelled', 'canceled', 'destroyed', 'uprooted', 'deceased',
  'abattu', 'supprime', 'essouche', 'non essouche', 'remplace', 'mort', 'souche', 'arrache', 'vide',
  'gefallt', 'gefaellt', 'entfernt', 'tot', 'abgestorben', 'stumpf', 'stubben', 'gerodet', 'leer', 'unbesetzt',
  'talado', 'muerto', 'eliminado', 'seco', 'tocon', 'retirado', 'vacio', 'extraido', 'apeado',
  'morto', 'abbattuto', 'rimosso', 'ceppaia', 'rimossa', 'abbattuta', 'vuoto', 'radiato', 'eliminato',
]; // prettier-ignore

/** Whole species cells that name no species: an empty place, or nothing at all. */
export const EMPTY_PLACES: readonly string[] = [
  'blank', 'vacant', 'vacant site', 'vacant planting', 'planting site', 'empty', 'empty site', 'no tree', 'stump', 'removed', 'dead', 'vacant site large', 'vacant site medium', 'vacant site small', 'available planting space', 'leer', 'vide', 'vacio', 'vuoto', 'souche', 'tocon', 'ceppaia', 'stubben',
]; // prettier-ignore
export const NO_SPECIES: readonly string[] = [
  'error', 'tree', 'trees', 'tree s', 'other', 'unknown tree', 'unidentified', 'not identified', 'various', 'x', 'unknown species',
]; // prettier-ignore

/** First cell of a sum line. */
export const TOTAL_WORDS: readonly string[] = [
  'total', 'totals', 'grand total', 'subtotal', 'sub total', 'sum', 'summe', 'gesamt', 'gesamtsumme', 'insgesamt', 'somme', 'total general', 'totale', 'suma', 'totales', 'tree total', 'total trees',
]; // prettier-ignore
/** Only cell of a closing line. */
export const END_WORDS: readonly string[] = [
  'fin', 'end', 'ende', 'eof', 'fine', 'end of list', 'end of file', 'end of data', '***', 'final',
]; // prettier-ignore

/** Water-use words with the plant factor they stand for [-]: middles of the published classes. */
export const WATER_USE_WORDS: Readonly<Record<string, number>> = {
  'very low': 0.1, vl: 0.1, low: 0.2, l: 0.2, moderate: 0.5, medium: 0.5, m: 0.5, mod: 0.5, average: 0.5, high: 0.8, h: 0.8,
  'muy bajo': 0.1, bajo: 0.2, medio: 0.5, moderado: 0.5, alto: 0.8, niedrig: 0.2, gering: 0.2, mittel: 0.5, hoch: 0.8,
  faible: 0.2, moyen: 0.5, eleve: 0.8, basso: 0.2, alta: 0.8, baja: 0.2, media: 0.5,
}; // prettier-ignore

export const SOURCE_WORDS: Readonly<Record<string, 'mains' | 'reclaimed' | 'well' | 'grey' | 'rain' | 'tanker'>> = {
  mains: 'mains', main: 'mains', city: 'mains', potable: 'mains', municipal: 'mains', tap: 'mains', 'city water': 'mains', reclaimed: 'reclaimed',
  recycled: 'reclaimed', 'reclaimed water': 'reclaimed', purple: 'reclaimed', well: 'well', bore: 'well', borehole: 'well', 'well water': 'well', grey: 'grey', gray: 'grey',
  greywater: 'grey', graywater: 'grey', 'grey water': 'grey', 'gray water': 'grey', rain: 'rain', rainwater: 'rain', cistern: 'rain', 'rain barrel': 'rain',
  tanker: 'tanker', truck: 'tanker', tank: 'tanker', 'water truck': 'tanker',
}; // prettier-ignore
