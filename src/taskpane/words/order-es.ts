/** Words of the form that writes an order, in Spanish. Unreviewed wording. */
import type { Formats } from '../parts/format.js';
import type { OrderWords } from './order-en.js';

const rows = (f: Formats, n: number): string => `${f.whole(n)} ${n === 1 ? 'fila' : 'filas'}`;

/** Up to four names; of more, three and how many there are besides. */
const named = (names: readonly string[]): string =>
  names.length <= 4
    ? names.join(', ')
    : `${names.slice(0, 3).join(', ')} y ${names.length - 3} más`;

export const orderEs: OrderWords = {
  open: 'Escribir la orden',
  close: 'Cerrar sin usarla',
  title: 'Escribir la orden',
  lead: 'Una línea por cada cosa que dice la orden. Debajo de cada una está cómo la leen las reglas. No se escribe nada antes de «Usar esta orden».',
  from: {
    blank: 'Una orden nueva.',
    starter: (name) => `Rellenada con el ejemplo «${name}»: cámbielo a lo que dice su orden.`,
    sheet: (name) => `Rellenada con la hoja «${name}». Las celdas que no cambie quedan como están.`,
    own: 'Rellenada con las reglas propias del sitio.',
  },
  other: (name) =>
    `La hoja «${name}» no contiene una tabla de reglas (falta la columna Verdict), así que no se escribe nada en ella. Dé otro nombre a esa hoja y escriba después la orden.`,
  replaces: (f, n, name) =>
    `${rows(f, n)} de la hoja «${name}» dejan su sitio a esta orden. Una copia queda en una hoja «Rules before».`,
  stale: 'Las reglas en uso han cambiado desde que se rellenó este formulario.',
  refill: 'Rellenarlo de nuevo',
  kept: (row) => `${row} no se puede mostrar aquí y queda como está:`,
  closed: 'Horas en que no se permite ningún riego',
  closedNote:
    'Todos los días y para todos los medios, también los exentos o sin línea. Las dos en blanco: no hay tales horas. 10 am, 18:00; pasada la medianoche 18:00 a 06:00.',
  line: (n) => `Línea ${n}`,
  means: 'De qué trata',
  meansWords: {
    soaker: 'mangueras porosas',
    drip: 'líneas de goteo',
    sprinkler: 'aspersores',
    hand: 'manguera en mano',
    bucket: 'balde o regadera',
    bag: 'bolsas de riego',
    tanker: 'camiones cisterna',
    pad: 'almohadillas de gel',
  },
  all: 'Todos los medios',
  others: (names) => `Todos los medios que ninguna otra línea nombra: ${named(names)}`,
  allMeans: 'Todos los medios, también los que ninguna otra línea nombra.',
  verdict: 'La orden dice',
  verdicts: { allow: 'puede regar', ban: 'prohibido', free: 'exento' },
  address: 'Direcciones',
  addresses: {
    '': 'todas',
    odd: 'números impares',
    even: 'números pares',
    'odd or none': 'impares o sin número',
    'even or none': 'pares o sin número',
    none: 'sin número',
    words: 'otras, con palabras',
  },
  addressWords: 'Direcciones con las palabras de la tabla',
  days: 'Días',
  anyDay: 'ninguno elegido: cualquier día',
  weekdays: ['domingo', 'lunes', 'martes', 'miércoles', 'jueves', 'viernes', 'sábado'],
  dates: 'Fechas',
  datesWords: {
    any: 'cualquier fecha',
    odd: 'fechas impares',
    even: 'fechas pares',
    none: 'ningún día, salvo que otra línea lo abra',
  },
  hours: 'Horas',
  spans: { outside: 'cerrado de – a', within: 'abierto de – a', words: 'con palabras' },
  banSpans: {
    outside: 'prohibido salvo de – a',
    within: 'prohibido de – a',
    words: 'con palabras',
  },
  hourFrom: 'De',
  hourTo: 'A',
  hourFrom2: 'y de',
  hourTo2: 'a',
  hoursNote: 'Las dos en blanco: cualquier hora. 10 am, 18:00.',
  hoursNoteClosed:
    'Las dos en blanco: cualquier hora salvo las que no permiten ningún riego. 10 am, 18:00.',
  hourWords: 'Horas con las palabras de la tabla',
  more: 'Fechas, etapa, límites y más',
  perWeek: 'Como mucho tantos días por semana',
  every: 'Cada tantos días',
  columns: {
    Stage: 'Etapa',
    From: 'Desde la fecha',
    To: 'Hasta la fecha',
    Target: 'Qué se riega',
    Source: 'Fuente del agua',
    Limit: 'Límite',
    'New planting': 'Primeros riegos: días desde la plantación',
    Rain: 'Cerrado después de lluvia',
    Needs: 'Requiere',
    Note: 'Nota',
    Agency: 'Organismo',
    '31st': 'El día 31',
    Midnight: 'Pasada la medianoche, el día de',
    Finish: 'Un riego que acaba fuera',
    Drain: 'Una bolsa se vacía',
    Filling: 'Llenar bolsas o tanques cuenta como',
    'Day one': 'El día de plantación es el día',
  },
  add: 'Añadir una línea',
  copy: 'Copiar',
  copyOf: (n) => `Copiar la línea ${n}`,
  remove: 'Quitar',
  removeOf: (n) => `Quitar la línea ${n}`,
  reads: 'Se lee:',
  unread: 'Aún no se lee: vea arriba.',
  look: 'Revisar',
  strip: 'Las seis semanas con esta orden',
  unnamed: (names, hours, bans) =>
    `${names.length === 0 ? 'Ninguna línea nombra un medio. El plan toma todos' : `Ninguna línea nombra: ${names.join(', ')}. El plan los toma`} por permitidos cualquier día, ${hours ? 'fuera de las horas en que no se permite ningún riego' : 'a cualquier hora'}${bans ? ', salvo donde una línea prohíbe todos los medios' : ''}.`,
  banUnnamed: 'Prohibirlos en una línea propia',
  use: 'Usar esta orden',
  used: (name) => `La orden está en la hoja «${name}» y en uso.`,
  unchanged: 'La orden es como la tiene la hoja: no se escribió nada.',
  first: 'La orden aún no se usa: vea los campos marcados.',
  noLines: 'La orden no tiene ninguna línea. Añada una.',
  noRows: (name) =>
    `No hay ninguna fila libre debajo de las reglas en la hoja «${name}». Inserte allí filas en blanco y use después esta orden.`,
  noColumn: (name, column) =>
    `La hoja «${name}» no tiene la columna «${column}», ni una columna libre junto a su tabla. Añádala allí y use después esta orden.`,
  troubles: {
    noMeans: 'Elija de qué trata esta línea, o «Todos los medios».',
    time: (typed) => `«${typed}» no es una hora del día; se aceptan 10, 10:30, 10 am y 18:00.`,
    half: 'Un horario necesita sus dos extremos; se aceptan 10, 10:30, 10 am y 18:00. Deje los dos en blanco para cualquier hora.',
    ends: (from, to) =>
      `El horario acaba (${to}) antes de empezar (${from}). Para la tarde escriba 6 pm o 18:00.`,
    overnight: (from, to) =>
      `El horario acaba (${to}) antes de empezar (${from}). Para la tarde escriba 6 pm o 18:00; para pasar la medianoche escriba los dos con minutos, 18:00 y 06:00.`,
    perWeek: 'Una semana tiene de 1 a 7 días; déjelo en blanco si no hay límite.',
    every: 'Se acepta de 2 a 31; déjelo en blanco para todos los días.',
  },
};
