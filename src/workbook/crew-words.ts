/**
 * The words of the crew's sheet and paper in every language they speak. Spanish by the writer of this file from memory,
 * not by a speaker of the trade: every page says so.
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
  titles: words('Crew sheets', 'Hojas de cuadrilla'),
  done: words('Done', 'Hecho'),
  dayStop: words('Day · stop', 'Día · parada'),
  where: words('Site and address', 'Lugar y dirección'),
  treesHeader: words('Trees', 'Árboles'),
  whatToDo: words('What to do', 'Qué hacer'),
  each: words('Each', 'C/u'),
  all: words('All', 'Todos'),
  crewMinutes: words('Crew (min)', 'Cuad. (min)'),
  reading: words('Reading', 'Lectura'),
  crew: words('crew', 'cuadrilla'),
  stop: words('stop', 'parada'),
  stops: words('stops', 'paradas'),
  tree: words('tree', 'árbol'),
  trees: words('trees', 'árboles'),
  row: words('row', 'fila'),
  rows: words('rows', 'filas'),
  site: words('site', 'lugar'),
  sites: words('sites', 'lugares'),
  tankLoad: words('tank load', 'carga de cuba'),
  tankLoads: words('tank loads', 'cargas de cuba'),
  waterPoint: words('Water point', 'Toma de agua'),
  fillTank: words('Fill the tank', 'Llene la cuba'),
  beforeStop: words('before stop {n}', 'antes de la parada {n}'),
  beforeTree: words('before {n}', 'antes de {n}'),
  beforeNext: words('before the next trees', 'antes de los árboles siguientes'),
  duringRound: words('during the round', 'durante la ronda'),
  refill: words('fill again when empty', 'vuelva a llenar al vaciarse'),
  driveOut: words('Drive to the stops', 'Trayecto a las paradas'),
  wayBack: words('Way back to the yard', 'Vuelta a la base'),
  atTrees: words('At the trees', 'En los árboles'),
  driving: words('driving', 'trayectos'),
  tank: words('tank', 'cuba'),
  time: words('Time, about', 'Hora aprox.'),
  about: words('about {t}', 'hacia las {t}'),
  pastMidnight: words('after midnight', 'pasada la medianoche'),
  estimates: words('Times are\nestimates', 'Horas\naproximadas'),
  nothingMore: words(
    'After this nothing more fits the hours until {t}.',
    'Después de esto no cabe nada más en las horas hasta las {t}.',
  ),
  nothingMoreOwn: words(
    'After this nothing more fits its hours.',
    'Después de esto no cabe nada más en sus horas.',
  ),
  nextUnfit: words(
    'The next {n} not fit the hours until {t}.',
    'Lo siguiente, {n}, no cabe en las horas hasta las {t}.',
  ),
  nextUnfitOwn: words(
    'The next {n} not fit the hours.',
    'Lo siguiente, {n}, no cabe en sus horas.',
  ),
  treeDoes: words('tree does', 'un árbol'),
  treesDo: words('trees do', 'árboles'),
  backLate: words(
    'All stops fit their hours; the way back ends after {t}.',
    'Todas las paradas caben en sus horas; la vuelta acaba después de las {t}.',
  ),
  byTimer: words('By timer today', 'Con temporizador hoy'),
  byTimerTell: words(
    'Open nothing. Passing by, look whether water comes or came; if not, tell the office.',
    'No abra nada. Si pasa y no salió agua, avise a la oficina.',
  ),
  byTimerApart: words('By timer, no crew out', 'Con temporizador, sin cuadrilla'),
  timerSheet: words('By timer', 'Con temporizador'),
  timerSet: words(
    'Set each timer as written: started between its times, the run ends within the hours allowed.',
    'Ponga cada temporizador como está escrito: si arranca entre sus horas, el riego acaba dentro de las permitidas.',
  ),
  timerLook: words(
    'Look at every hose, whether water comes and whether any runs off. None comes, or it runs off: write it in Reading, tell the office.',
    'Mire en cada manguera si sale agua y si se escurre. Si no sale o se escurre: anótelo en Lectura y avise a la oficina.',
  ),
  startBetween: words('Start between', 'Arranque entre'),
  runsFor: words('Each runs', 'Cada una corre'),
  hose: words('hose', 'manguera'),
  hoses: words('hoses', 'mangueras'),
  day: words('day', 'día'),
  days: words('days', 'días'),
  timersStart: words('start', 'arranque'),
  inParts: words('in parts within', 'por partes en'),
  or: words('or', 'o'),
  spread: words('over', 'en'),
  runs: words('runs', 'corre'),
  more: words('more', 'más'),
  water: words('Water', 'Agua'),
  waterFrom: words('Water from', 'Agua de'),
  hours: words('Hours to water', 'Horas de riego'),
  lawHours: words('Allowed by the rules', 'Permitido por las reglas'),
  startsAt: words('start', 'inicio'),
  anyHour: words('any hour', 'cualquier hora'),
  noHour: words('none', 'ninguna'),
  overloadTell: words(
    'More hours than the crew has: tell the office before you start.',
    'Más horas de las que tiene la cuadrilla: avise a la oficina antes de empezar.',
  ),
  overOpenTell: words(
    'More work than the open hours hold: tell the office before you start.',
    'Más trabajo del que cabe en las horas permitidas: avise a la oficina antes de empezar.',
  ),
  apart: words(
    'No hour is open to all stops: each stop names its own.',
    'Ninguna hora vale para todas las paradas: cada parada dice las suyas.',
  ),
  seeStops: words('see stops', 'vea las paradas'),
  allowed: words('allowed', 'permitido'),
  drive: words('drive', 'trayecto'),
  eachOne: words('each', 'c/u'),
  inAll: words('in all', 'en total'),
  allTogether: words('In all', 'En total'),
  sizeAssumed: words('size assumed', 'tamaño supuesto'),
  note: words('Note', 'Nota'),
  noSite: words('no site named', 'lugar sin nombre'),
  continued: words('continued', 'continuación'),
  start: words('Start', 'Inicio'),
  end: words('End', 'Fin'),
  skipped: words('Trees skipped', 'Árboles omitidos'),
  name: words('Name', 'Nombre'),
  made: words('made', 'hecha el'),
  stillFull: words(
    'Bag still full? Do not fill it. Lift it, clear the holes, write FULL in Reading. Full after two days: tell the office.',
    '¿La bolsa de riego sigue llena? No la llene. Levántela, destape los orificios y anote LLENA en Lectura. Llena tras dos días: avise a la oficina.',
  ),
  hoseDry: words(
    'Soaker hose does not weep along its length? Shut it, write BLOCKED in Reading.',
    '¿La manguera exudante no rezuma en toda su longitud? Ciérrela y anote OBSTRUIDA en Lectura.',
  ),
  hoseShut: words(
    'Set the shut-off at the tap to the minutes given; none there or stuck? Stay until it is shut.',
    'Ponga el cierre de la toma a los minutos indicados; ¿no hay o está trabado? Quédese hasta cerrarla.',
  ),
  hoseStay: words(
    'Soaker hose without a timer: stay until it is shut.',
    'Manguera exudante sin temporizador: quédese hasta cerrarla.',
  ),
  openHoses: words('Open {n} soaker hoses', 'Abra {n} mangueras exudantes'),
  fillBags: words(
    'Check {n} joined bags and stem, fill',
    'Revise {n} bolsas unidas y tronco, llene',
  ),
  run: words('let run', 'deje correr'),
  pauses: words('pauses of', 'pausas de'),
  shutOff: words('shut-off to', 'cierre a los'),
  basin: words(
    'By hand or truck: slowly, inside the basin, over ball and ring.',
    'A mano o con cuba: despacio, dentro del alcorque, sobre el cepellón y alrededor.',
  ),
  aid: words(
    'A planning aid: local code and licensed practice decide',
    'Ayuda para planificar: deciden la norma local y el profesional con licencia',
  ),
  aidShort: words('A planning aid', 'Ayuda para planificar'),
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

/** Where the crew's water comes from, in a word. */
export type Water = WaterSource | 'tap' | 'truck tank';

export const WATERS: Readonly<Record<Water, Words>> = {
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

/** Cautions at the top of every page, short; those of bags where there are bags. */
export const CREW_CAUTIONS: readonly (Words & { bag: boolean })[] = CAUTIONS.map(
  ({ short, bag = false }, i) => ({ ...words(short, CAUTIONS_ES[i] ?? short), bag }),
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

/** What to do on the spot, said once a page for the means that are on it. */
export const ON_THE_SPOT: readonly (readonly [families: readonly Family[], say: CrewWord])[] = [
  [['bag'], 'stillFull'],
  [['soaker'], 'hoseDry'],
  [['hand', 'tanker'], 'basin'],
];

/** That a translation has not been read, in the language and in English for whoever prints it: two sentences. */
export const UNREAD_SENTENCES: Partial<Record<Language, readonly [string, string]>> = {
  es: [
    'Traducción de memoria: que la lea quien hable la lengua',
    'Translation from memory, have it read by a speaker',
  ],
};

/** The same in one line: below a translated sheet and at the foot of every page of it. */
export const UNREAD: Partial<Record<Language, string>> = {
  es: UNREAD_SENTENCES.es!.join(' · '),
};
