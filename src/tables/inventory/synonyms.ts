/**
 * What a column may mean and how people head it, in English, Spanish, German, French and Italian, with the cut-down
 * names that map software writes. Earlier words of a list are surer than later ones.
 */
export const MEANINGS = [
  'id', 'species', 'commonName', 'genus', 'epithet', 'count', 'caliper', 'circumference', 'diameterClass', 'container',
  'ballDiameter', 'ballDepth', 'planted', 'plantedYear', 'canopy', 'height', 'waterNeed', 'texture', 'mulchDepth', 'site',
  'address', 'houseNumber', 'street', 'latitude', 'longitude', 'tap', 'tapFlow', 'source', 'meansWanted', 'status', 'note',
] as const; // prettier-ignore

export type Meaning = (typeof MEANINGS)[number];

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

/** The columns of our own workbook: an exact match. */
export const OWN_HEADERS: Readonly<Record<string, Meaning>> = {
  'Tree id': 'id', Species: 'species', Count: 'count', Caliper: 'caliper', DBH: 'caliper', 'Caliper or DBH': 'caliper',
  'Container class': 'container', 'Ball diameter': 'ballDiameter', 'Ball depth': 'ballDepth', Planted: 'planted',
  'Canopy diameter': 'canopy', Height: 'height', 'Water use': 'waterNeed', 'Soil texture': 'texture',
  'Mulch depth': 'mulchDepth', Site: 'site', Address: 'address', Latitude: 'latitude', Longitude: 'longitude', Tap: 'tap',
  'Tap flow': 'tapFlow', Source: 'source', 'Means wanted': 'meansWanted', Note: 'note',
}; // prettier-ignore

const say = (
  meaning: Meaning,
  language: Language,
  words: string,
  more: Pick<Wording, 'factor' | 'loose'> = {},
): Wording => ({ meaning, language, words: words.split(',').map((w) => w.trim()), ...more });

export const WORDINGS: readonly Wording[] = [
  say('id', 'en', 'tree id, tree no, tree number, tree num, tree nr, tree tag, tag no, tag number, tag, id, unique id, asset id, facility id, tr num, tr no, primary id, main id, tree code, planting space id, object id, fid, id main table, inventory number, label, number, no, nr, num'),
  say('id', 'en', 'tree', { loose: true }),
  say('id', 'es', 'id arbol, numero de arbol, codigo arbol, n arbol, arbol'),
  say('id', 'de', 'baumnummer, baum nr, baumid, baum id, lfd nr, laufende nummer, baum'),
  say('id', 'fr', 'numero arbre, id arbre, numero d arbre, no arbre, identifiant'),
  say('id', 'it', 'id albero, numero albero, id punto, codice albero'),
  say('species', 'en', 'species, scientific name, botanical name, latin name, scientific, botanical, botanic, latin, tree species, species name, tree species name, sci name, name latin, name lat, spp bot, spp latin, spp, scient name, species scientific name, species latin, plant species, taxon, cultivar name, species full name, tree type, t species name, kind'),
  say('species', 'en', 'tree, plant', { loose: true }),
  say('species', 'es', 'nombre cientifico, especie, nombre de la especie'),
  say('species', 'de', 'botanischer name, baumart, art botanisch, gattung art, wissenschaftlicher name, art, name lat, bezeichnung botanisch'),
  say('species', 'fr', 'nom scientifique, nom latin, espece, essence, nom botanique, nom technique, nomtech, fk nomtech'),
  say('species', 'it', 'nome scientifico, specie, nome botanico'),
  say('commonName', 'en', 'common name, common, spp com, spp common, comm name, com name, name common, species common, species common name, tree common name, tree name, common names, cmmn nm, t name, vernacular name, english name, species type, plant name, plant spec'),
  say('commonName', 'es', 'nombre comun, nombre vulgar, nombre popular'),
  say('commonName', 'de', 'deutscher name, name dt, name deutsch, baumart deutsch, art deutsch, trivialname'),
  say('commonName', 'fr', 'nom commun, nom francais, nom vernaculaire'),
  say('commonName', 'it', 'nome comune, nome volgare, nome volg'),
  say('genus', 'en', 'genus, genus name, latin genus, tree genus, t genus, botanical genus'),
  say('genus', 'es', 'genero'),
  say('genus', 'de', 'gattung'),
  say('genus', 'fr', 'genre'),
  say('genus', 'it', 'genere'),
  say('epithet', 'en', 'epithet, specific epithet, species epithet, latin specific epithet, t species'),
  say('epithet', 'es', 'epiteto, especie'),
  say('epithet', 'fr', 'espece, epithete'),
  say('epithet', 'de', 'art, artepitheton'),
  say('epithet', 'it', 'epiteto, specie'),
  say('count', 'en', 'count, quantity, qty, number of trees, no of trees, tree count, trees, tree qty, tree planted qty, planted qty, tree quantity, how many'),
  say('count', 'es', 'cantidad, numero de arboles'),
  say('count', 'de', 'anzahl, stueckzahl, stuck, anzahl baeume, anzahl baume'),
  say('count', 'fr', 'nombre, quantite, nombre d arbres, nb arbres'),
  say('count', 'it', 'quantita, numero alberi, numero di alberi'),
  say('caliper', 'en', 'dbh, caliper, trunk diameter, caliper or dbh, diameter at breast height, diameter breast height, diam breast height, tree dbh, exact dbh, ex dbh, dbh size, dbh val, dbh value, dbh actual, dsh, d b h, tree caliper, calliper, cal, trunk diam, stem diameter, bole diameter, tree diameter, diameter at base, diameter base height, trunk size, tree size dbh, trunk width, diameter, diam, dia'),
  say('caliper', 'en', 'tree size, size', { loose: true }),
  say('caliper', 'es', 'dap, diametro del tronco, diametro tronco, diametro a la altura del pecho, calibre, diametro'),
  say('caliper', 'de', 'stammdurchmesser, stammdurchm, bhd, brusthohendurchmesser, brusthoehendurchmesser, durchmesser'),
  say('caliper', 'fr', 'diametre du tronc, diametre tronc, tronc diam, dhp, diametre'),
  say('caliper', 'it', 'diametro tronco, diametro del tronco, diametro fusto'),
  say('circumference', 'en', 'circumference, trunk circumference, girth, trunk girth, circum, stem girth, gbh, cbh'),
  say('circumference', 'es', 'cap, circunferencia, perimetro, perimetro tronco, circunferencia del tronco, perimetro del tronco'),
  say('circumference', 'de', 'stammumfang, umfang, stu'),
  say('circumference', 'fr', 'circonference, circonference du tronc, circonference tronc, tour de tronc'),
  say('circumference', 'it', 'circonferenza, circonferenza fusto, circonferenza tronco, al is c, ins cmed'),
  say('diameterClass', 'en', 'diameter class, dbh class, dbh classes, dbh range, size class, trunk diameter range, diameter range, dv dbh, trunk diameter class'),
  say('diameterClass', 'es', 'clase diametrica'),
  say('diameterClass', 'de', 'durchmesserklasse'),
  say('diameterClass', 'fr', 'classe de diametre'),
  say('diameterClass', 'it', 'classe diametrica, classe di diametro'),
  say('container', 'en', 'container class, container, container size, pot size, pot, stock size, nursery size, gallon size, container gal'),
  say('container', 'en', 'tree size, size', { loose: true }),
  say('container', 'es', 'contenedor, tamano de contenedor, maceta'),
  say('container', 'de', 'container, containergrosse, topfgrosse'),
  say('container', 'fr', 'conteneur, taille du conteneur'),
  say('container', 'it', 'contenitore, vaso'),
  say('ballDiameter', 'en', 'ball diameter, root ball diameter, rootball diameter, ball size, root ball, rootball, root ball width, ball width, ball dia'),
  say('ballDiameter', 'es', 'diametro del cepellon, cepellon'),
  say('ballDiameter', 'de', 'ballendurchmesser, ballen'),
  say('ballDiameter', 'fr', 'diametre de la motte, diametre motte, motte'),
  say('ballDiameter', 'it', 'diametro zolla, zolla'),
  say('ballDepth', 'en', 'ball depth, root ball depth, rootball depth, ball height, root ball height'),
  say('ballDepth', 'es', 'profundidad del cepellon, altura del cepellon'),
  say('ballDepth', 'de', 'ballenhohe, ballentiefe, ballenhoehe'),
  say('ballDepth', 'fr', 'hauteur de la motte, profondeur motte'),
  say('ballDepth', 'it', 'altezza zolla, profondita zolla'),
  say('planted', 'en', 'planted, planting date, plant date, date planted, planted date, planted on, planted at, installed, install date, installed date, date of planting, pl date, tree plant date, date installed, day planted, transplant date'),
  say('planted', 'en', 'date, completed date, year', { loose: true }),
  say('planted', 'es', 'fecha de plantacion, fecha plantacion, plantado, plantado el'),
  say('planted', 'de', 'pflanzdatum, gepflanzt, gepflanzt am, pflanzung'),
  say('planted', 'fr', 'date de plantation, date plantation, plante le'),
  say('planted', 'it', 'data di impianto, data impianto, data di piantagione, piantato il'),
  say('plantedYear', 'en', 'year planted, planting year, planted year, plant year, plant yr, yr planted, year plant, install year, year installed, year of planting'),
  say('plantedYear', 'es', 'ano de plantacion, ano plantacion'),
  say('plantedYear', 'de', 'pflanzjahr, jahr der pflanzung'),
  say('plantedYear', 'fr', 'annee de plantation, annee plantation'),
  say('plantedYear', 'it', 'anno di impianto, anno impianto, anno di piantagione'),
  say('canopy', 'en', 'canopy diameter, crown diameter, canopy, canopy width, crown width, crown spread, canopy spread, spread, crown spread ft, can width, canopy wid, tree spread, tree spread tip to tip, crown width ew, crown width ns, dripline, dripline diameter, crown'),
  say('canopy', 'en', 'canopy radius, crown radius, can radius, dripline radius', { factor: 2 }),
  say('canopy', 'es', 'diametro de copa, diametro copa, ancho de copa, copa'),
  say('canopy', 'de', 'kronendurchmesser, kronenbreite, krone, kronendurchm'),
  say('canopy', 'fr', 'diametre de la couronne, diametre couronne, diametre houppier, envergure'),
  say('canopy', 'it', 'diametro chioma, diametro della chioma, ampiezza chioma, chioma'),
  say('height', 'en', 'height, tree height, total height, ht, exact height, height total, exact hgt, tree ht, height range, height class, h class'),
  say('height', 'es', 'altura, altura total'),
  say('height', 'de', 'hohe, hoehe, baumhohe, baumhoehe'),
  say('height', 'fr', 'hauteur, hauteur totale, haut tot'),
  say('height', 'it', 'altezza, altezza totale, al is h, ins hmed'),
  say('waterNeed', 'en', 'water use, water need, water needs, water requirement, plant factor, watering needs, water demand'),
  say('waterNeed', 'es', 'uso de agua, necesidad de agua'),
  say('waterNeed', 'de', 'wasserbedarf'),
  say('waterNeed', 'fr', 'besoin en eau'),
  say('waterNeed', 'it', 'fabbisogno idrico'),
  say('texture', 'en', 'soil texture, soil type, soil, texture'),
  say('texture', 'es', 'textura del suelo, tipo de suelo, suelo'),
  say('texture', 'de', 'bodenart, boden'),
  say('texture', 'fr', 'texture du sol, type de sol, sol'),
  say('texture', 'it', 'tessitura, tipo di suolo, suolo'),
  say('mulchDepth', 'en', 'mulch depth, mulch, mulch thickness'),
  say('mulchDepth', 'es', 'profundidad del mantillo, mantillo, acolchado'),
  say('mulchDepth', 'de', 'mulchdicke, mulch'),
  say('mulchDepth', 'fr', 'paillage, epaisseur paillage'),
  say('mulchDepth', 'it', 'pacciamatura, spessore pacciamatura'),
  say('site', 'en', 'site, site name, property, park name, park location, park, job site, job, site name combo box, client, project, location, tree location, located in, area, zone name, project name'),
  say('site', 'es', 'sitio, parque, lugar, ubicacion'),
  say('site', 'de', 'objekt, standort, anlage, gebiet, ort, park'),
  say('site', 'fr', 'lieu, parc, nom ev, secteur, clc secteur, site'),
  say('site', 'it', 'sito, localita, parco, luogo'),
  say('address', 'en', 'address, street address, property address, full address, site address, addr'),
  say('address', 'es', 'direccion, domicilio'),
  say('address', 'de', 'adresse, anschrift'),
  say('address', 'fr', 'adresse'),
  say('address', 'it', 'indirizzo'),
  say('houseNumber', 'en', 'street number, house number, house no, building number, address number, on address, street no, house num, addr num'),
  say('houseNumber', 'es', 'numero, numero de puerta, numero de calle'),
  say('houseNumber', 'de', 'hausnummer, haus nr, hnr'),
  say('houseNumber', 'fr', 'numero de rue, numero voie, no civique, numero civique'),
  say('houseNumber', 'it', 'numero civico, civico'),
  say('street', 'en', 'street, street name, on street, road, street nam'),
  say('street', 'es', 'calle, nombre de calle, via'),
  say('street', 'de', 'strasse, strassenname'),
  say('street', 'fr', 'rue, voie, nom de rue, nom voie'),
  say('street', 'it', 'via, strada, nome via'),
  say('latitude', 'en', 'latitude, lat, y coord, y, lat location, gps lat, point y, coord y, y wgs84'),
  say('latitude', 'es', 'latitud'),
  say('latitude', 'de', 'breite, breitengrad, geogr breite'),
  say('latitude', 'it', 'latitudine'),
  say('longitude', 'en', 'longitude, long, lon, lng, x coord, x, long location, lon location, gps long, point x, coord x, x wgs84'),
  say('longitude', 'es', 'longitud'),
  say('longitude', 'de', 'laenge, lange, laengengrad, langengrad, geogr laenge'),
  say('longitude', 'it', 'longitudine'),
  say('tap', 'en', 'tap, hose bib, hose bibb, spigot, water access, tap nearby, tap distance, distance to tap, distance to water, faucet'),
  say('tap', 'es', 'grifo, toma de agua, llave de agua'),
  say('tap', 'de', 'wasserhahn, wasseranschluss'),
  say('tap', 'fr', 'robinet, point d eau'),
  say('tap', 'it', 'rubinetto, presa d acqua'),
  say('tapFlow', 'en', 'tap flow, flow, flow rate, hose flow, bib flow, gpm'),
  say('tapFlow', 'es', 'caudal'),
  say('tapFlow', 'de', 'durchfluss, wassermenge'),
  say('tapFlow', 'fr', 'debit'),
  say('tapFlow', 'it', 'portata'),
  say('source', 'en', 'water source, source, water supply, supply'),
  say('source', 'es', 'fuente de agua, fuente'),
  say('source', 'de', 'wasserquelle'),
  say('source', 'fr', 'source d eau'),
  say('source', 'it', 'fonte d acqua, fonte idrica'),
  say('meansWanted', 'en', 'means wanted, means, watering method, method, irrigation, irrigation method, water method, watering'),
  say('meansWanted', 'es', 'metodo de riego, riego'),
  say('meansWanted', 'de', 'bewasserung, bewaesserung'),
  say('meansWanted', 'fr', 'methode d arrosage, arrosage'),
  say('meansWanted', 'it', 'irrigazione, metodo di irrigazione'),
  say('status', 'en', 'status, tree status, condition, tree condition, health, site status, space status, wo status, condition rating, condition class, state of tree, t condition, tree condi, tp structure, tp condition, health sta, legal status'),
  say('status', 'es', 'estado, estado del arbol'),
  say('status', 'de', 'zustand, vitalitat'),
  say('status', 'fr', 'etat, etat de l arbre, arb etat, fk arb etat'),
  say('status', 'it', 'stato, stato dell albero, condizione'),
  say('note', 'en', 'note, notes, comments, comment, remarks, details, notes eg mushroom, description, memo, comments hidden'),
  say('note', 'es', 'nota, notas, observaciones, comentarios'),
  say('note', 'de', 'bemerkung, bemerkungen, anmerkung, notiz'),
  say('note', 'fr', 'remarque, remarques, observation, commentaire, commentaires'),
  say('note', 'it', 'osservazioni, commenti'),
]; // prettier-ignore

/** Headers of a pair "(lat, lon)" in one cell. */
export const PAIR_WORDS: readonly string[] = [
  'geopoint', 'geo point', 'geo point 2d', 'coordinates', 'coordinate', 'lat long', 'lat lon', 'latlng', 'location', 'gps', 'coordenadas', 'koordinaten', 'coordonnees', 'coordinate',
]; // prettier-ignore

/** Headers that look like ours but say something else, with what they say. They are never taken. */
export const OTHER_THINGS: readonly (readonly [string, readonly string[]])[] = [
  ['the day of a survey, a sale or an edit, not of planting', ['inv date', 'inventory date', 'date inven', 'date inventory', 'date of inventory', 'date inv', 'invdate', 'inv year', 'inventory yr', 'inventory year', 'year inv', 'yearinv', 'survey date', 'survey year', 'survey date time', 'created at', 'created date', 'created on', 'creation date', 'creationda', 'date created', 'date creat', 'entry date', 'input date', 'uploaded at', 'edit date', 'last edited date', 'updated date', 'update date', 'udate', 'date last updated', 'date modified', 'last modified', 'last update', 'last survey', 'last insp', 'insp date', 'inspected', 'inspection date', 'gps date', 'con date', 'dbh date', 'tree caliper date', 'data collected date', 'collection date time', 'date added', 'date and time', 'date collected', 'collected date', 'last tree inventory date', 'site last changed on', 'fecha de inventario', 'fecha censo', 'erfassungsdatum', 'aufnahmedatum', 'date de releve', 'data rilievo', 'removed date', 'date removed', 'removal date', 'sold date', 'planting season', 'fiscal year', 'service year', 'proposed planting year']],
  ['an age, not a date', ['age', 'tree age', 'age class', 'age estim', 'edad', 'alter', 'useful life expectancy value', 'useful life expectancy', 'life expectancy', 'eta', 'cr eta']],
  ['a code', ['species code', 'spec code', 'sp code', 'spp code', 'code', 'bot abbr', 'id species', 'id size', 'cod calle', 'cod entre', 'cod y']],
  ['the size of the place, not of the tree', ['plot size', 'site size', 'site width', 'site type', 'site info', 'site order', 'site devel', 'site information', 'ancho vereda', 'grow space', 'pit size', 'tree pit size', 'strip width', 'distancia', 'distance']],
  ['the clear trunk, not the tree', ['haut tronc', 'trunk height', 'stem height', 'crown base height', 'height to crown']],
  ['another number of trees', ['tree watered qty', 'tree replaced qty', 'tree to be replaced', 'trunks', 'stems', 'number of stems', 'multi stem', 'multistem', 'trunk no', 'nbr diag', 'clc nbr diag']],
  ['where the tree came from', ['tree source', 'vendor', 'nursery', 'planted by']],
  ['a person or an office', ['contact name', 'surveyor name', 'volunteer', 'caretaker', 'collected by', 'contact phone']],
  ['a side or a cross street', ['acera', 'entre', 'block start', 'block end', 'block', 'sector']],
  ['a score, not a measure', ['cr circonf', 'cr altezza', 'cr ampiezz', 'cr fm o po']],
  ['a larger area', ['neighborhood', 'borough', 'city', 'state', 'zip', 'zip code', 'zipcode', 'county', 'arrondissement', 'clc quartier', 'comune', 'provincia', 'regione', 'family', 'famille', 'project type']],
]; // prettier-ignore

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
