/** Words of the step Kit in Spanish. Translation from memory, to be read by a speaker. */
import type { Formats } from '../parts/format.js';
import type { KitWords } from './kit-en.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;

export const kitEs: KitWords = {
  lead: 'Qué hay en existencia y qué se puede comprar. Un campo se toma al salir de él. Con precios y caudales suyos, la elección de medios es suya.',
  devices: 'Aparatos',
  none: 'Todavía no hay aparatos. Añada uno: el plan necesita al menos una manera de regar.',
  example: 'Equipo de ejemplo, inventado: ponga sus cifras y quite lo que no tiene.',
  someExample: (f, names, devices) =>
    `${f.whole(names.length)} de ${counted(f, devices, 'aparato')} ${names.length === 1 ? 'tiene' : 'tienen'} todavía las cifras del ejemplo, inventadas: ${names.join(', ')}.`,
  exampleNumbers: (names) =>
    `El precio se apoya en cifras de ejemplo: ${names.join(', ')}. Ponga las suyas en Sitio, Dinero; el salario y el precio del agua están también abajo, en Cuadrilla.`,
  partlyExample: (names) =>
    `${names.join(', ')}: algunas cifras son todavía las del ejemplo, inventadas. Allí se nombran.`,
  exampleDevice: 'Todas las cifras son las del ejemplo, inventadas: escriba las suyas, o',
  invented: (f, numbers, more) => {
    const behind = more === 0 ? [] : [`${counted(f, more, 'cifra')} en Más`];
    return `Inventadas todavía: ${[...numbers, ...behind].join(', ')}. Escriba las suyas, o`;
  },
  inventedNumber: (label, value) => `${label.toLowerCase()} ${value}`,
  confirm: 'Tomar como mías',
  confirmOf: (name) => `Tomar como mías: las cifras de ${name}`,
  confirmed: (name) => `Las cifras de ${name} cuentan como suyas.`,
  buying: '¿Se puede comprar más de lo que hay en existencia?',
  mayBuy: 'Sí: lo que falta se compra',
  stockOnly: 'No: solo lo que hay en existencia',
  buyingOne: 'Un aparato puede tener su propia respuesta: en su «Más».',
  buyAsAll: (may) => `${may ? 'Sí' : 'No'}, como todo el equipo`,
  buysOwn: 'se puede comprar más',
  stockOwn: 'solo lo que hay en existencia',
  tank: (volume, device) => `Tanque: ${volume}, el de «${device}». Cámbielo allí.`,
  pieces: {
    bag: 'Bolsas que hay',
    pad: 'Almohadillas que hay',
    soaker: 'Mangueras que hay',
    hand: 'Mangueras que hay',
    tanker: 'Camiones',
  },
  sizes: {
    bag: 'Tamaño',
    pad: 'Agua que da',
    soaker: 'Largo de una',
    hand: 'Caudal',
    tanker: 'Tanque',
  },
  hours: 'Se vacía en',
  price: 'Precio de uno',
  timed: 'con temporizador',
  onTimer: 'Un temporizador la abre y la cierra',
  unnamed: 'sin nombre',
  more: 'Más',
  moreOf: (name) => `Más de ${name}`,
  remove: 'Quitar',
  removeOf: (name) => `Quitar ${name}`,
  removed: (name) => `Se quitó ${name}.`,
  undo: (name) => `Reponer ${name}`,
  putBack: (name) => `Se repuso ${name}.`,
  add: 'Añadir',
  kinds: {
    bag: 'Bolsa',
    pad: 'Almohadilla',
    soaker: 'Manguera porosa',
    timed: 'Con temporizador',
    hand: 'A mano',
    tanker: 'Cisterna',
  },
  addOf: (kind) => `Añadir: ${kind}`,
  added: (name) => `Se añadió ${name}, con cifras de ejemplo. Ponga las suyas.`,
  trees: 'o árboles que riegan',
  treesOf: (f, mean, most) =>
    most <= 1
      ? 'Un árbol de esta lista lleva una manguera.'
      : `De media un árbol de esta lista lleva ${f.amount(mean)} mangueras; el mayor lleva ${f.whole(most)}.`,
  treesServed: (f, stock, served, trees) =>
    `Así, ${counted(f, stock, 'manguera')} ${stock === 1 ? 'alcanza' : 'alcanzan'} para unos ${f.whole(served)} de ${counted(f, trees, 'árbol', 'árboles')}.`,
  smallServed: (f, served) =>
    `Alcanzan para ${f.whole(served)} si las reciben los árboles más pequeños.`,
  treesWrong: (typed) =>
    `«${typed}» no es un número de árboles. Escriba un número entero desde 0, como 25.`,
  editTitle: (name) => `Aparato «${name}»`,
  keep: 'Guardar',
  cancel: 'Cancelar',
  kept: (name) => `Se guardó ${name}.`,
  nameMissing: 'El aparato necesita un nombre propio.',
  nameTaken: (name) => `«${name}» ya está en el equipo. Dé otro nombre a este.`,
  problems: 'Filas por revisar',
  useExample: 'Volver al equipo de ejemplo',
  crew: 'Cuadrilla',
  driving: 'Viajes y tanque',
  workDays: 'Días de trabajo',
  days: [
    ['Lun', 'lunes'],
    ['Mar', 'martes'],
    ['Mié', 'miércoles'],
    ['Jue', 'jueves'],
    ['Vie', 'viernes'],
    ['Sáb', 'sábado'],
    ['Dom', 'domingo'],
  ],
  noDay: 'La cuadrilla trabaja al menos un día de la semana. Marque antes otro día.',
  daysTyped: 'Estos días no se pueden mostrar como días de la semana; están escritos.',
  ends: 'La cuadrilla termina a las',
  endsFrom: 'de la hora de inicio y las horas al día',
  endsWrong: (typed) =>
    `«${typed}» no es una hora del día; se acepta una hora como 14:00, 2 pm o 24:00.`,
  endsBefore: (start) =>
    `La cuadrilla terminaría antes de empezar a las ${start}, o menos de media hora después. Escriba una hora posterior, como mucho 24:00.`,
  endsAfter: 'después de medianoche',
  open: {
    lead: 'De estas horas las reglas dejan, en días de trabajo de la temporada:',
    fromTo: (from, to) => `${from} a ${to}`,
    and: 'y',
    or: 'o',
    wholeDay: 'a cualquier hora',
    onDays: (f, days, of) =>
      `en ${f.whole(days)} de ${counted(f, of, 'día de trabajo', 'días de trabajo')}`,
    ofCrew: (hours, pastMidnight) =>
      `de las ${hours} horas de la cuadrilla${pastMidnight ? ' antes de medianoche' : ''}`,
    some: (when, hours, of) =>
      of === '' ? `${when} ${hours}` : `${when} están abiertas ${hours} ${of}`,
    none: (when, of) => (of === '' ? `${when} ninguna` : `${when} no está abierta ninguna ${of}`),
    all: (when, of) =>
      `${when} ${of === '' ? 'todas' : 'están abiertas todas las horas de la cuadrilla'}`,
    from: (day) => `Desde ${day}`,
    outside: (hours) => `las reglas abren ${hours}`,
    trees: (f, trees, example) =>
      `${counted(f, trees, 'árbol', 'árboles')} ${example === '' ? 'sin dirección' : `como en ${example}`}`,
    more: (f, lines) =>
      `Y ${counted(f, lines, 'respuesta')} más para otros árboles: los días están en Reglas.`,
  },
  columns: {
    name: 'Nombre',
    family: 'Familia',
    volume: 'Volumen',
    holes: 'Agujeros',
    ratedHours: 'Horas nominales',
    rate: 'Caudal por longitud',
    length: 'Longitud',
    flow: 'Caudal',
    price: 'Precio de uno',
    seasons: 'Temporadas que dura',
    stock: 'En existencia',
    buy: '¿Se puede comprar más?',
    setupMinutes: 'Minutos para instalar, una vez por temporada',
    visitMinutes: 'Minutos por visita',
    automatic: 'Un temporizador abre la válvula',
    shutsItself: 'Sin temporizador: se cierra sola',
  },
};
