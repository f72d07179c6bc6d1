/** Words of a plan whose days do not fit, in Spanish. Translation from memory, to be read by a speaker: the panel's foot says so. */
import { lowerFirst } from '../../engine/first-letter.js';
import type { Formats } from '../parts/format.js';
import type { EnoughWords } from './enough-en.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;
const trees = (f: Formats, n: number): string => counted(f, n, 'árbol', 'árboles');
const long = (f: Formats, minutes: number): string =>
  minutes <= 1 ? 'un minuto' : `${f.whole(minutes)} minutos`;
const dontFit = (f: Formats, days: number): string =>
  `${counted(f, days, 'día')} no ${days === 1 ? 'cabe' : 'caben'}`;

export const enoughEs: EnoughWords = {
  planned: (f, days) => `Planificado, pero ${dontFit(f, days)}.`,
  ifMade: 'Los números de abajo solo valen si se pudieran hacer todas las visitas.',
  treesPlanned: 'árboles planificados, si se pudieran hacer todas las visitas',
  cannotBeKept: 'ni así se pueden sostener',
  price: 'precio del plan que no cabe',
  build: (f, days) => `Las hojas dirán que ${dontFit(f, days)}.`,
  built: (f, days) => `En su plan ${dontFit(f, days)}.`,
  helps:
    'Lo que bastaría se encuentra planificando con ello: más horas, más cuadrillas, otros medios o menos árboles.',
  ask: 'Probar qué bastaría',
  again: 'Probar de nuevo',
  stop: 'Dejar de probar',
  cost: (f, most, minutes) =>
    `Planifica la temporada hasta ${f.whole(most)} veces: con otras horas, temporizadores, medios y cuadrillas, solos y juntos, y con menos árboles. Según la última planificación tarda hasta ${long(f, minutes)}. Puede detenerlo cuando quiera; lo encontrado queda.`,
  busy: 'Se está probando qué bastaría. Espere o deténgalo primero.',
  first: 'Se están probando valores a mano. Guárdelos o vuelva atrás primero.',
  working: (f, nth, what) => `Prueba ${f.whole(nth)}: ${what} …`,
  starting: 'Empezando …',
  found: (f, enough) =>
    enough === 0
      ? 'Nada de lo probado basta. Tome lo que más ayuda y pruebe de nuevo desde ahí.'
      : enough === 1
        ? 'Basta una manera.'
        : `Bastan ${f.whole(enough)} maneras, cada una por sí sola. La primera atiende todos los árboles si alguna lo hace.`,
  stopped: 'Detenido. Esto es lo probado hasta ahora; el plan está como estaba.',
  caption: 'Lo probado, la temporada planificada con cada cosa; primero lo que cabe',
  asItIs: 'El plan como está',
  heads: { days: 'Días que no caben', longest: 'Día más largo', water: 'Agua', price: 'Precio' },
  longest: (hours, available) =>
    hours === available ? `algo más de ${available} h` : `${hours} h de ${available}`,
  fits: 'cabe',
  same: 'igual',
  use: 'Usar esto',
  useOf: (what) => `Usar esto: ${what}`,
  who: 'Ver quiénes',
  whoOf: (what) => `Ver quién se riega: ${what}`,
  ways: {
    crews: (f, crews, from) => `${counted(f, crews, 'cuadrilla')} en lugar de ${f.whole(from)}`,
    start: (start, from) => `Las cuadrillas empiezan a las ${start} en lugar de ${from}`,
    days: (days, from) => `Las cuadrillas trabajan ${days} en lugar de ${from}`,
    hours: (f, hours) => `Un día de cuadrilla de ${f.amount(hours)} h`,
    tank: (volume) => `El doble de tanque: ${volume}, o un segundo igual`,
    means: (f, worth) =>
      `Medios que ahorran tiempo de cuadrilla: una hora cuenta ${f.amount(worth)} veces su salario`,
    everyDay: 'todos los días',
    timers: (devices) => `Con temporizador: ${devices}`,
    buying: 'Se compra lo que falta en existencia',
    together: (ways) => ways.map((way, i) => (i === 0 ? way : lowerFirst(way))).join('; además, '),
    fewer: (f, n, hours) =>
      `${trees(f, n)} sin regar: ${f.amount(hours)} h por semana en los árboles`,
  },
  leftOut: {
    header: 'Atendido',
    rows: (f, rows) =>
      `${counted(f, rows, 'fila')} de la lista ${rows === 1 ? 'queda' : 'quedan'} fuera: «Atendido» dice no a su lado. Solo reciben lluvia y no están en ninguna hoja de cuadrilla.`,
    serveAll: 'Atenderlas de nuevo',
    served: (f, rows) =>
      `${counted(f, rows, 'fila')} ${rows === 1 ? 'se atiende' : 'se atienden'} de nuevo. Planifique para ver si caben los días.`,
    noRoom: (range) =>
      `Solo se lee ${range} de la hoja, así que una columna «Atendido» a su lado no se vería. Escríbala usted dentro de esa parte o lea la hoja entera en Árboles.`,
    changed: (f, rows) =>
      `${counted(f, rows, 'celda')} había${rows === 1 ? '' : 'n'} cambiado entretanto y se ${rows === 1 ? 'dejó' : 'dejaron'} como estaba${rows === 1 ? '' : 'n'}. Mire la columna «Atendido» y planifique de nuevo.`,
  },
  notes: {
    crews: 'El precio incluye sus horas, no sus camiones.',
    tank: 'No incluye el precio del tanque, ni si el camión puede llevarlo.',
    night:
      'Trabajo de noche: ruido, luz y tránsito son asunto de la norma local y de sus propias reglas de seguridad.',
    timers: (f, n) =>
      `${trees(f, n)} ${n === 1 ? 'tiene' : 'tienen'} entonces una manguera con temporizador, cada una en un grifo. No incluye lo que cuestan los temporizadores; alguien los ajusta, y otra vez cuando cambia el calendario.`,
    buying: (what) => `Antes hay que comprar: ${what}.`,
    same: 'Ningún árbol tendría otro medio: ninguno ahorra tiempo bastante y sostiene el árbol.',
    uses: (devices) => `Usa lo que está sin usar: ${devices}.`,
    dearer: (money) => `Cuesta ${money} más que los medios elegidos por costo.`,
    fewer:
      'Primero las plantaciones nuevas; el resto solo recibe la lluvia. «Usar esto» escribe «no» junto a sus filas, en una columna «Atendido» de la lista.',
    lost: (f, n) => `${trees(f, n)} más no se ${n === 1 ? 'puede' : 'pueden'} sostener.`,
    notPlanned: (f, rows) => `${counted(f, rows, 'fila')} más sin planificar.`,
    notFewer: 'No se probó con menos árboles: ',
  },
  shortage: {
    filled: (hours) =>
      `Ya puesto: ${hours} por semana en los árboles caben en las horas abiertas de las cuadrillas, descontados viajes y recargas como en el plan. Lo que falta son horas, no agua.`,
    unknown:
      'Lo que falta son horas, no agua, y por las reglas no se sabe cuántas caben. En Crear, «Probar qué bastaría» busca primero más horas.',
    single: 'Algún día puede estar aún demasiado lleno: Crear lo prueba planificando.',
  },
};
