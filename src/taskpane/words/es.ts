/** The panel in Spanish. Translation from memory, to be read by a speaker: the panel's foot says so. */
import type { Formats } from '../parts/format.js';
import type { Words } from './en.js';
import { SITE_NAMES } from './site-es.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;

/** Unit words that are not the same in both languages. */
const UNITS: Readonly<Record<string, string>> = {
  people: 'personas',
  crews: 'cuadrillas',
  days: 'días',
  'per hour': 'por hora',
  'per 1000 gal': 'por 1000 gal',
  'per m³': 'por m³',
  'per yd³': 'por yd³',
  '1/day': '1/día',
  '1/year': '1/año',
  'gal/h per 100 ft': 'gal/h por 100 ft',
  'L/h per m': 'L/h por m',
};

/** Where rules are from, as the planner says it, and the same in Spanish. */
const ORIGINS: readonly (readonly [RegExp, string])[] = [
  [/^the sheet “(.*)”$/, 'la hoja «$1»'],
  [/^the example “(.*)”$/, 'el ejemplo «$1»'],
  [/^the site’s own table$/, 'la tabla propia del sitio'],
  [/^the built-in example$/, 'el ejemplo incluido'],
];

function inSpanish(origin: string): string {
  const known = ORIGINS.find(([pattern]) => pattern.test(origin));
  return known ? origin.replace(known[0], known[1]) : origin;
}

export const es: Words = {
  panel: {
    label: 'Plan de riego',
    sheet: (name) => `Hoja «${name}»`,
    sampleSheet: (name) => `Hoja «${name}»: un ejemplo, todo inventado. Abra su propia lista.`,
    noSheet: 'Todavía no se ha leído ninguna hoja',
    language: 'Idioma',
    units: 'Unidades',
    unitsUS: 'EE. UU.: gal, ft',
    unitsSI: 'Métricas: L, m',
    openFile: 'Abrir un archivo',
    help: 'Ayuda de funciones',
    helpOpens: 'se abre en otra ventana',
    steps: 'Pasos',
    corners: 'También',
    next: (step) => `Siguiente: ${step}`,
    before: (step) => `Atrás: ${step}`,
    toSteps: 'Pasos: volver a la lista',
    opening: (file) => `Abriendo «${file}» …`,
    notFetched:
      'No se pudo traer una parte del panel. Compruebe que su servidor responda y elíjala otra vez.',
    program: (message) => `Algo falló en este programa: ${message}`,
    foot: 'Traducción de memoria: pida a un hablante que la lea. Una frase del programa sin traducción va en inglés.',
    panes: 'F6 pasa de la hoja a este panel y de vuelta.',
    keptHere: 'Lo que fije aquí se guarda en este libro. Nada sale de este equipo.',
  },
  places: {
    trees: 'Árboles',
    site: 'Sitio',
    rules: 'Reglas',
    kit: 'Equipo',
    build: 'Crear',
    contract: 'Contrato',
    'field-check': 'Control de campo',
    functions: 'Funciones',
    repair: 'Reparar',
  },
  states: {
    fine: 'sabido',
    look: 'revisar',
    missing: 'falta',
    estimated: 'estimado',
    example: 'ejemplo',
  },
  known: {
    noTrees: 'aún no se han leído árboles',
    trees: (f, usable, rows) =>
      usable === rows
        ? `${counted(f, rows, 'fila')}, todas planificables`
        : `${f.whole(usable)} de ${counted(f, rows, 'fila')} planificables`,
    site: (f, typed) =>
      typed === 0
        ? 'todo por defecto: ponga lo suyo'
        : counted(f, typed, 'dato suyo', 'datos suyos'),
    siteWrong: (f, wrong) =>
      wrong === 1 ? '1 dato no se puede usar' : `${f.whole(wrong)} datos no se pueden usar`,
    rules: (f, rows) => counted(f, rows, 'regla entendida', 'reglas entendidas'),
    rulesExample: 'ejemplo: ponga las suyas',
    rulesBroken: (f, broken) =>
      broken === 1 ? '1 punto no se puede leer' : `${f.whole(broken)} puntos no se pueden leer`,
    kit: (f, devices) => counted(f, devices, 'aparato'),
    kitExample: 'equipo de ejemplo: ponga el suyo',
    kitNone: 'ningún aparato con el que planificar',
    notPlanned: 'sin planificar',
    planAgain: 'cambió desde entonces: planifique de nuevo',
    planned: (f, trees) => counted(f, trees, 'árbol planificado', 'árboles planificados'),
    over: (f, days) =>
      `planificado, pero ${counted(f, days, 'día')} no ${days === 1 ? 'cabe' : 'caben'}`,
    unread: 'aún sin leer',
    sheetsOld: 'hojas de un plan anterior',
  },
  trees: {
    which: 'Qué hoja tiene los árboles',
    useFront: (name) => `Usar la hoja de delante, «${name}»`,
    range: 'Solo estas celdas',
    rangeNote: 'Opcional, como A1:H60 o A:H. En blanco: toda la hoja.',
    useSelected: 'Usar las celdas seleccionadas',
    selectedUsed: (range) => `Solo se lee ${range}.`,
    selectedOne: (cell) =>
      `Solo está seleccionada la celda ${cell}. Seleccione los encabezados y los árboles debajo de ellos y pulse otra vez el botón.`,
    selectedElsewhere: (range, other, sheet) =>
      `${range} está seleccionado en «${other}»; los árboles se leen de «${sheet}». Seleccione celdas allí, o elija antes «${other}» como hoja.`,
    rangeWrong: (typed) =>
      `«${typed}» no es un rango de celdas. Escriba dos esquinas, como A1:H60, o déjelo en blanco.`,
    rowsRead: 'filas leídas',
    canBePlanned: 'planificables',
    lookHere: 'revisar',
    treesCounted: (f, trees) =>
      `${counted(f, trees, 'árbol', 'árboles')} en total, contando las filas de varios.`,
    columns: 'Columnas',
    columnsMatched: (f, n) => counted(f, n, 'columna reconocida', 'columnas reconocidas'),
    askTitle: (f, n) =>
      n === 1
        ? 'Una columna no está clara. Diga qué significa.'
        : `${f.whole(n)} columnas no están claras. Diga qué significan.`,
    header: 'Encabezado',
    meaning: 'Significado',
    unit: 'Unidad',
    samples: 'Primeras celdas',
    noSamples: 'ninguna celda llena',
    meaningOf: (header) => `Significado de «${header}»`,
    unitOf: (header) => `Unidad de «${header}»`,
    notUsed: 'no se usa',
    column: (letter) => `columna ${letter}`,
    corrected: 'como usted dijo',
    rightAsIs: 'Está bien así',
    forget: 'Olvidar mis correcciones',
    remembered: (f, n) =>
      n === 1
        ? 'Se usa 1 corrección suya. Otra hoja con los mismos encabezados también la recibe.'
        : `Se usan ${f.whole(n)} correcciones suyas. Otra hoja con los mismos encabezados también las recibe.`,
    unmatched: 'Columnas que no se usan',
    look: 'Filas por revisar',
    row: (row) => `Fila ${row}`,
    goTo: (row, id) => (id === '' ? `Ir a la fila ${row}` : `Ir a la fila ${row}, ${id}`),
    notPlannedRow: 'sin planificar',
    rowsSaying: (f, n) => `${counted(f, n, 'fila', 'filas')}:`,
    rowsFrom: (from, to) => `Filas ${from}–${to}`,
    rowsIn: (f, n) => `(${f.whole(n)})`,
    sayingOf: (row) =>
      `Esto se dice de la fila ${row}. En las demás solo cambia la celda o un número.`,
    most: (f, n) => `Se muestran las primeras ${f.whole(n)}.`,
    showMore: (f, n) => `Mostrar ${f.whole(n)} más`,
    emptyTitle: 'Cómo es una hoja de árboles',
    emptyText:
      'Una fila por árbol, encabezados arriba. Estas tres columnas son lo mínimo; cada columna más mejora el plan. Los nombres y las unidades pueden ser los suyos.',
    emptyRows: [
      ['Árbol', 'Especie', 'Calibre (cm)'],
      ['A-1', 'Quercus virginiana', '5'],
      ['A-2', 'Chilopsis linearis', '4'],
    ],
    emptyMore:
      'También se leen: copa, envase, plantado, suelo, uso de agua, sitio, dirección, coordenadas, toma de agua, nota.',
    emptyNext: 'Ponga su hoja delante o elíjala arriba. Se lee en cuanto tiene filas.',
    emptyDesk: 'También puede abrir un archivo .csv o .xlsx con el botón de arriba.',
  },
  site: {
    name: (key) => SITE_NAMES[key],
    lead: 'Los campos en blanco toman el valor por defecto que se ve al lado. Alt+Intro en un campo, o un clic en «por defecto» o «suyo», muestra de dónde sale su valor.',
    first: 'El lugar y la temporada',
    more: 'Más datos',
    groups: {
      soil: 'Suelo, raíces y plantas',
      means: 'Bolsas, almohadillas, mangueras: qué llega a las raíces',
      planning: 'Cómo decide el plan',
      money: 'Dinero',
    },
    from: {
      typed: 'suyo',
      inventory: 'de las coordenadas de los árboles',
      default: 'por defecto',
    },
    whereFromOf: (name) => `De dónde sale ${name}`,
    sourceOfDefault: 'Valor por defecto:',
    notKnown: 'no se sabe',
    unfinishedDay: 'Esa no era una fecha entera: escriba mes, día y un año de cuatro cifras.',
    useDefault: 'Usar el valor por defecto',
    useDefaultOf: (name) => `Usar el valor por defecto de ${name}`,
    weather: 'Tiempo',
    weatherHow: 'Cómo se da el tiempo',
    ways: {
      temperatures: 'Máximas y mínimas por mes',
      months: 'ET0 por mes',
      paste: 'Pegar días',
      file: 'Archivo de estación',
    },
    weatherKind: {
      monthly: 'Se usan valores mensuales',
      daily: 'Se usan valores diarios',
      example: 'Se usa el ejemplo: es inventado, ponga el suyo',
      none: 'La tabla dada no se puede leer',
    },
    monthTable: 'Tiempo por mes',
    month: 'Mes',
    et0: (unit) => `ET0 (${unit}/día)`,
    rain: (unit) => `Lluvia (${unit})`,
    tmax: (unit) => `Máxima (°${unit})`,
    tmin: (unit) => `Mínima (°${unit})`,
    temperaturesNote:
      'Medias de cada mes, como las dan las tablas de clima de su ciudad. Lo que toma el aire, ET0, se calcula de ellas y de la latitud. Se cuenta con la mitad de la lluvia.',
    share: 'Parte de la lluvia con que contar',
    shareNote:
      'ET0 es la evapotranspiración de referencia. Una parte de 0.5 cuenta con la mitad de la lluvia media.',
    useMonths: 'Usar esta tabla',
    pasteLabel: 'Filas diarias, con sus encabezados',
    pasteNote:
      'Copie de una hoja: Fecha, ET0, Lluvia; o Date, Tmax, Tmin, Rain. Unidades en los encabezados, como «Rain (mm)».',
    usePaste: 'Leer estas filas',
    fileLabel: 'Abrir el archivo de una estación (.csv)',
    fileNote:
      'Un archivo diario con el formato GHCN-Daily, o una tabla con fecha y ET0 o temperaturas.',
    useExample: 'Volver al ejemplo',
    monthWrong: (month) => `${month}: escriba números, como 0.25, o deje toda la fila en blanco.`,
    monthWithoutBoth: (month) =>
      `${month}: escriba números, la máxima no por debajo de la mínima, o deje toda la fila en blanco.`,
    noMonths: 'La tabla está vacía. Llene al menos los meses de la temporada.',
  },
  rules: {
    lead: 'Qué días y horas están abiertos, por medio, dirección y etapa.',
    start: 'Reglas de partida',
    own: 'las reglas propias de este libro',
    inUse: (f, origin, n) =>
      `En uso: ${origin}, ${counted(f, n, 'fila entendida', 'filas entendidas')}.`,
    origin: (origin) => inSpanish(origin),
    example: 'Es un ejemplo: ponga su ordenanza.',
    toSheet: 'Poner estas reglas en una hoja para editarlas',
    toSheetNote: 'Escribe las hojas «Rules» y «Stages». Se leen de nuevo con cada cambio.',
    sheetThere: 'La hoja «Rules» está en este libro: edítela allí.',
    openSheet: 'Ir a la hoja «Rules»',
    chosenOver:
      'Arriba hay elegida una tabla de partida; la hoja «Rules» no se usa hasta que elija las reglas del libro.',
    written: (names) =>
      `Escrito: ${names}. La hoja «Rules» está delante: edítela, se lee con cada cambio.`,
    broken: 'No se usa',
    notice: 'Revisar',
    problems: 'Filas por revisar',
    goOn: 'Planificar sin lo que no se puede leer',
    mend: (f, n) =>
      `Las reglas tienen ${counted(f, n, 'punto')} que no se ${n === 1 ? 'puede' : 'pueden'} leer. Corríjalo en Reglas, o marque allí «Planificar sin lo que no se puede leer».`,
    columns: 'Qué puede ir en cada columna',
    columnsNote:
      'Una celda en blanco no pone condición. Las celdas van en inglés. «hose» son las mangueras porosas y las de mano.',
    canBe: 'Puede ser',
    sentences: 'Qué dicen las reglas',
    row: (row) => `Fila ${row}`,
    strip: (from) => `Seis semanas desde ${from}`,
    noStrip: 'Las seis semanas aparecen en cuanto hay árboles.',
    allTrees: (example) => `Todos los árboles, como ${example}`,
    kindTrees: (f, n, example) => `${counted(f, n, 'árbol', 'árboles')}, como ${example}`,
    openHours: 'horas abiertas por día y medio, reloj de 24 h',
    day: 'Día',
    open: 'abierto',
    any: 'todo el día',
    closed: 'cerrado',
    banned: 'prohibido',
    openDays: (f, open, days) => `abierto ${f.whole(open)} de ${f.whole(days)} días`,
    stage: (name) => `etapa ${name} en vigor`,
    noStage: 'ninguna etapa en vigor',
    moreKinds: (f, kinds, trees) =>
      `${counted(f, kinds, 'tipo más', 'tipos más')} con ${counted(f, trees, 'árbol', 'árboles')} sin mostrar.`,
    stripKey:
      '■\u00A0abierto todo el día · ◧\u00A0algunas horas · □\u00A0cerrado · ✕\u00A0prohibido',
    alike: (f, weeks, dates) => `${counted(f, weeks, 'semana igual', 'semanas iguales')}, ${dates}`,
    fromTo: (from, to) => `${from} a ${to}`,
    hours: 'Horas día por día',
    grid: 'días abiertos y cerrados, una fila por medio, una columna por día',
  },
  build: {
    plan: 'Planificar la temporada',
    planning: 'Planificando …',
    calculating: 'Esperando los resultados de las fórmulas del libro …',
    progress: (f, done, total) => `Planificando … ${f.whole(done)} de ${f.whole(total)} filas.`,
    stop: 'Detener',
    done: (from, to) => `La temporada del ${from} al ${to} está planificada.`,
    doneOver: (f, from, to, days) =>
      `Temporada del ${from} al ${to}: planificada, pero ${counted(f, days, 'día')} no ${days === 1 ? 'cabe' : 'caben'}.`,
    nothing: 'No hay ninguna fila que se pueda planificar. Vea Árboles.',
    withdrawnTrees: (f, before, now) =>
      `La lista ha cambiado desde que se planificó la temporada${before === now ? '' : `: ${f.whole(before)} ${before === 1 ? 'fila' : 'filas'} entonces, ${f.whole(now)} ahora`}. Planifique de nuevo para ver el efecto.`,
    withdrawn: 'Algo de lo que sale el plan ha cambiado. Planifique de nuevo para ver el efecto.',
    sheetsOld: 'En este libro hay hojas del plan de antes: Crear las enumera.',
    treesPlanned: 'árboles planificados',
    cannotBeKept: 'no se pueden sostener',
    notPlanned: 'filas sin planificar',
    waterings: 'riegos',
    water: 'agua en la temporada',
    stressDays: 'días de estrés',
    crewHours: 'horas de cuadrilla',
    crewDays: 'días de cuadrilla',
    price: 'precio',
    lost: 'Árboles que no se pueden sostener',
    notes: 'Notas',
    save: 'Guardar el plan como libro (.xlsx)',
    saving: 'Escribiendo el libro …',
    saved: (name) => `El plan está guardado como ${name}.`,
  },
  cell: {
    title: 'Celda elegida',
    shows: (address, shown) => `${address} muestra ${shown}`,
  },
  unit: (unit) => UNITS[unit] ?? unit,
  meanings: {
    id: 'Número de árbol', species: 'Especie', commonName: 'Nombre común', genus: 'Género', epithet: 'Especie, segunda palabra',
    count: 'Cantidad', caliper: 'Diámetro del tronco', circumference: 'Perímetro del tronco', diameterClass: 'Clase de diámetro',
    container: 'Clase de envase', ballDiameter: 'Diámetro del cepellón', ballDepth: 'Profundidad del cepellón', planted: 'Plantado',
    plantedYear: 'Año de plantación', canopy: 'Diámetro de copa', height: 'Altura', waterNeed: 'Uso de agua',
    texture: 'Textura del suelo', mulchDepth: 'Espesor del acolchado', site: 'Sitio', address: 'Dirección', houseNumber: 'Número de casa',
    street: 'Calle', latitude: 'Latitud', longitude: 'Longitud', tap: 'Toma de agua', tapFlow: 'Caudal de la toma',
    source: 'Origen del agua', meansWanted: 'Medio deseado', status: 'Estado', served: 'Atendido', note: 'Nota', assumed: 'Supuesto',
  }, // prettier-ignore
  families: {
    bag: 'bolsa',
    pad: 'almohadilla',
    soaker: 'manguera porosa',
    hand: 'a mano',
    tanker: 'cisterna',
  },
};
