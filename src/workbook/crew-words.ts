/**
 * The words of the crew sheet in every language it speaks. Spanish by the writer of this file from memory, not by a
 * speaker of the trade: the sheet says so on every page.
 */
import type { Family, WaterSource } from '../engine/plan/model.js';
import { CAUTIONS } from './words.js';

export const LANGUAGES = ['en', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/** What the user asks for: one language a sheet, or a sheet each. */
export const CREW_LANGUAGES = [...LANGUAGES, 'both'] as const;
export type CrewLanguage = (typeof CREW_LANGUAGES)[number];

/** Languages of the sheets to make, in their order. */
export const languagesOf = (wanted: CrewLanguage = 'en'): readonly Language[] =>
  wanted === 'both' ? LANGUAGES : [wanted];

export type Words = Readonly<Record<Language, string>>;

const words = (en: string, es: string): Words => ({ en, es });

/** Certainty: memory. Trade words of Spain and the Americas differ; where both are common the plainer one stands. */
export const CREW_WORDS = {
  sheetName: words('Crew', 'Cuadrilla'),
  title: words('Crew sheet', 'Hoja de cuadrilla'),
  done: words('Done', 'Hecho'),
  dayStop: words('Day · stop', 'Día · parada'),
  where: words('Site and address', 'Lugar y dirección'),
  treesHeader: words('Trees', 'Árboles'),
  whatToDo: words('What to do', 'Qué hacer'),
  each: words('Each', 'Cada uno'),
  all: words('All', 'Todos'),
  crewMinutes: words('Crew (min)', 'Cuad. (min)'),
  reading: words('Reading', 'Lectura'),
  stop: words('stop', 'parada'),
  stops: words('stops', 'paradas'),
  tree: words('tree', 'árbol'),
  trees: words('trees', 'árboles'),
  row: words('row', 'fila'),
  rows: words('rows', 'filas'),
  sites: words('sites', 'lugares'),
  tankLoad: words('tank load', 'carga de cuba'),
  tankLoads: words('tank loads', 'cargas de cuba'),
  water: words('Water', 'Agua'),
  hours: words('Allowed hours', 'Horas permitidas'),
  anyHour: words('any', 'cualquiera'),
  overload: words('MORE HOURS THAN THE CREW HAS', 'MÁS HORAS DE LAS QUE TIENE LA CUADRILLA'),
  stillFull: words(
    'Bag still full? Do not fill it. Lift it, clear the holes, write it in Reading. Full after two days: report it.',
    '¿La bolsa de riego sigue llena? No la llene. Levántela, destape los orificios y anótelo en Lectura. Llena tras dos días: avise.',
  ),
  basin: words(
    'By hand or truck: slowly, inside the basin, over ball and ring.',
    'A mano o con cuba: despacio, dentro del alcorque, sobre el cepellón y alrededor.',
  ),
  aid: words(
    'A planning aid: local code and licensed practice decide',
    'Ayuda para planificar: deciden la norma local y el profesional con licencia',
  ),
  page: words('Page', 'Página'),
  of: words('of', 'de'),
} as const satisfies Record<string, Words>;
export type CrewWord = keyof typeof CREW_WORDS;

export const TO_DO: Readonly<Record<Family, Words>> = {
  bag: words('Check bag and stem, fill', 'Revise bolsa y tronco, llene'),
  pad: words('Lift pad, soak it, lay it back', 'Levante, remoje y reponga la almohadilla'),
  soaker: words('Open the soaker hose', 'Abra la manguera exudante'),
  hand: words('Water slowly by hand', 'Riegue despacio a mano'),
  tanker: words('Water slowly from the truck', 'Riegue despacio con la cuba'),
}; // prettier-ignore

/** Families in the line of allowed hours. */
export const FAMILY_NAMES: Readonly<Record<Family, Words>> = {
  bag: words('bag', 'bolsa de riego'),
  pad: words('gel pad', 'almohadilla de hidrogel'),
  soaker: words('soaker hose', 'manguera exudante'),
  hand: words('by hand', 'a mano'),
  tanker: words('truck', 'camión cuba'),
};

export const WATERS: Readonly<Record<WaterSource | 'tap' | 'truck tank', Words>> = {
  mains: words('mains', 'red de agua'),
  reclaimed: words('reclaimed', 'agua regenerada'),
  well: words('well', 'pozo'),
  grey: words('grey water', 'aguas grises'),
  rain: words('rain water', 'agua de lluvia'),
  tanker: words('truck tank', 'camión cuba'),
  tap: words('tap', 'boca de riego'),
  'truck tank': words('truck tank', 'camión cuba'),
};

const CAUTIONS_ES = [
  'Peso: 15 gal (57 L) pesan 125 lb (57 kg). Ponga la bolsa en el suelo, nunca colgada del tronco.',
  'Corteza: séquela y revise el tronco; una bolsa sin vaciar a los dos días está averiada.',
  'Tierra aún mojada a 6 in (15 cm): no riegue; anótelo en Lectura.',
  'Reflujo: válvula antirretorno en cada boca de riego, corte de aire en cada cuba.',
  'Calor: agua, sombra y descanso según el plan; los nuevos empiezan despacio.',
  'Deciden la norma local y el profesional con licencia.',
] as const;

/** Cautions at the top of every page, short. */
export const CREW_CAUTIONS: readonly Words[] = CAUTIONS.map(({ short }, i) =>
  words(short, CAUTIONS_ES[i] ?? short),
);

/** Monday is index 1, as in WEEKDAYS of the engine. */
export const WEEKDAY_WORDS: readonly Words[] = (
  [
    ['Sun', 'dom'],
    ['Mon', 'lun'],
    ['Tue', 'mar'],
    ['Wed', 'mié'],
    ['Thu', 'jue'],
    ['Fri', 'vie'],
    ['Sat', 'sáb'],
  ] as const
).map(([en, es]) => words(en, es));

export const MONTH_WORDS: readonly Words[] = (
  [
    ['Jan', 'ene'],
    ['Feb', 'feb'],
    ['Mar', 'mar'],
    ['Apr', 'abr'],
    ['May', 'may'],
    ['Jun', 'jun'],
    ['Jul', 'jul'],
    ['Aug', 'ago'],
    ['Sep', 'sep'],
    ['Oct', 'oct'],
    ['Nov', 'nov'],
    ['Dec', 'dic'],
  ] as const
).map(([en, es]) => words(en, es));

/** Below a translated sheet and at the foot of every page of it; in English as well, for whoever prints it. */
export const UNREAD: Partial<Record<Language, string>> = {
  es: 'Traducción de memoria: que la lea quien hable la lengua · Translation from memory, have it read by a speaker',
};
