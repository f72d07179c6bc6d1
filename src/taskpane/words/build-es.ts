/** Words of the step Build in Spanish. Translation from memory, to be read by a speaker: the panel's foot says so. */
import type { Formats } from '../parts/format.js';
import type { BuildWords } from './build-en.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;
const trees = (f: Formats, n: number): string => counted(f, n, 'árbol', 'árboles');

export const buildEs: BuildWords = {
  lead: 'Mire primero la temporada. No se escribe nada hasta que usted lo diga.',
  empty:
    'El plan sale de los árboles, el sitio, las reglas y el equipo. Los pasos 1 a 4 dicen qué falta todavía.',
  currency: (amount, currency) => `${currency} ${amount}`,
  fullestWeek: 'semana más llena',
  fullestWeekNote: (day) => `desde ${day}`,
  hours: 'h',
  whereFrom: 'De dónde salen estos números',
  whereFromLines: [
    'Riegos, agua y días de estrés: el balance diario de agua de cada árbol (FAO-56, capítulo 8, con cepellón y anillo), con sus árboles, sitio, clima, reglas y equipo.',
    'Horas de cuadrilla: minutos en los árboles, manejo y recargas, según Sitio y Equipo.',
    'Precio: costo ÷ (1 − margen); la hoja Estimate da cada línea.',
  ],
  over: (f, days) =>
    days === 1
      ? 'Un día pide más horas de las que tienen las cuadrillas.'
      : `${f.whole(days)} días piden más horas de las que tienen las cuadrillas.`,
  overSays: (day, hours, available) =>
    `El más largo, ${day}, le lleva a una cuadrilla ${hours} h de ${available}.`,
  overBefore: (f, days) =>
    days === 0 ? 'El plan anterior cabía.' : `El plan anterior tenía ${f.whole(days)}.`,
  fitsNow: (f, days) =>
    `Caben todos los días. En el plan anterior no ${days === 1 ? 'cabía' : 'cabían'} ${counted(f, days, 'día')}.`,
  was: (value) => `antes ${value}`,
  before: (f, trees, days, hours, price) =>
    `El plan antes del cambio: ${counted(f, trees, 'árbol', 'árboles')}, ${days === 0 ? 'caben todos los días' : `${counted(f, days, 'día')} no ${days === 1 ? 'cabe' : 'caben'}`}, ${f.amount(hours)} horas de cuadrilla, ${price}.`,
  overFails: 'Así el plan no se puede cumplir.',
  overWho: 'Elegir quién se riega',
  stressMeans:
    'Un día de estrés: el agua fácil del suelo se acabó y el árbol toma menos de lo que tomaría. «No se pueden sostener» cuenta los árboles con más días así de los que acepta Sitio; no dice que mueran.',
  onward: 'Debajo de los dibujos',
  toSheets: 'Ir a escribir las hojas',
  toFiles: 'Ir a guardar archivos',
  means: 'Árboles por medio',
  meansLine: (f, n, water, unit) => `${trees(f, n)}, ${f.amount(water)} ${unit}`,
  toBuy: 'Este plan necesita más de lo que usted tiene. Antes hay que comprar:',
  toBuyLine: (f, pieces, device, cost) => `${f.whole(pieces)} × «${device}», ${cost}`,
  toBuyNot:
    'Si no se puede comprar nada, o no más de un aparato, indíquelo en Equipo y planifique otra vez.',
  otherHours: (f, settingOut, checks) =>
    `Además de las horas de cuadrilla, en ningún día de cuadrilla pero en el precio: ${[
      ...(settingOut > 0 ? [`${f.amount(settingOut)} h para colocarlo todo una vez`] : []),
      ...(checks > 0 ? [`${f.amount(checks)} h para mirar las mangueras con temporizador`] : []),
    ].join(', ')}.`,
  tapsAssumed: (f, n) =>
    `La lista no dice si ${n === 1 ? 'un árbol tiene' : `${f.whole(n)} árboles tienen`} un grifo al alcance de la manguera: se toma que sí. Una columna «Grifo» con «no» junto a un árbol lo deja sin mangueras.`,
  toBuyKit: 'Ir a Equipo',
  toSite: 'Ir a Sitio',
  inventedPrice: (prices, numbers, place) =>
    `El precio está hecho con cifras de ejemplo, inventadas: ${[...prices, ...numbers].join(', ')}. Ponga las suyas en ${place === 'kit' ? 'Equipo' : 'Sitio, Dinero'}.`,
  priceOfOne: (cost, device) => `${cost} por un «${device}»`,
  idle: (f, stock, device) => `Ninguno de sus ${f.whole(stock)} × «${device}» se usa:`,
  idleClosed: {
    drain: (f, n, takes, longest, from, to) =>
      `para ${trees(f, n)} las reglas piden que se haya vaciado dentro de las horas abiertas: ${takes === undefined ? 'en Equipo no se dice cuánto tarda' : `tarda ${f.figure(takes)} horas en vaciarse`}, y el mayor tramo abierto en un día de trabajo, desde que la cuadrilla puede haber llegado, es de ${f.figure(longest)} horas, de ${from} a ${to}`,
    crew: (f, n) =>
      `para ${trees(f, n)} todas las horas que abren las reglas quedan fuera de la jornada de la cuadrilla`,
    days: (f, n) =>
      `para ${trees(f, n)} las reglas no la abren ningún día en que trabaja la cuadrilla`,
    rules: (f, n) => `para ${trees(f, n)} las reglas no la abren ningún día de la temporada`,
  },
  idleStressed: (f, n, least, most) =>
    `${trees(f, n)} ${n === 1 ? 'tendría' : 'tendrían'} con él ${least === most ? counted(f, most, 'día') : `de ${f.whole(least)} a ${f.whole(most)} días`} de estrés`,
  idleDearer: (f, n) => `para ${trees(f, n)} otro medio cuesta menos en la temporada`,
  idleRefused: (f, n) => `${trees(f, n)}: `,
  pictures: {
    loading: 'Dibujando …',
    crew: 'Semanas de cuadrilla',
    tree: 'Un árbol',
    coils: 'Mangueras como se tienden',
    pick: 'Qué árbol',
    pickRow: (row, label) => (label === '' ? `fila ${row}` : `${label} (fila ${row})`),
    useChosen: 'La fila de la celda elegida',
    noChosen: 'Elija primero en la hoja una celda de una fila planificada.',
    notPlanned: (row) => `La fila ${row} no está en el plan.`,
    toRow: 'Ir a su fila',
    whyMeans: (means) => `Por qué ${means}`,
    whyDates: (f, n) => `Por qué estas fechas: ${counted(f, n, 'riego')}`,
    noWaterings: 'Este árbol no necesita riego en la temporada.',
    day: 'Día',
    amount: (unit) => `Agua (${unit})`,
    why: 'Por qué ese día',
  },
  trial: {
    title: 'Probar otros valores',
    lead: 'Mueva un valor: la temporada se planifica de nuevo y los dibujos la siguen. Nada se guarda hasta que usted lo diga.',
    share: 'Parte de la lluvia con que contar',
    workDays: 'como se escribió',
    replanning: (f, done, total) =>
      `Planificando con los valores de prueba … ${f.whole(done)} de ${f.whole(total)} filas.`,
    same: 'Como está guardado.',
    trying: 'En prueba, sin guardar',
    keep: 'Guardar estos valores',
    discard: 'Volver a los valores guardados',
    kept: 'Los valores están guardados y la temporada está planificada con ellos.',
    back: 'De vuelta a los valores guardados.',
    first:
      'Guarde primero los valores de prueba o vuelva atrás; después escriba y guarde archivos.',
    more: (f, n, what) => `${f.amount(n)} ${what} más`,
    fewer: (f, n, what) => `${f.amount(n)} ${what} menos`,
    moreOf: (amount, what) => `${amount} más de ${what}`,
    lessOf: (amount, what) => `${amount} menos de ${what}`,
    nothing: 'Sin diferencia en los números.',
    stressDays: 'días de estrés',
    waterings: 'riegos',
    overDays: 'días con más trabajo que horas',
    lost: 'árboles que no se pueden sostener',
    hours: 'horas de cuadrilla',
    water: 'agua',
    price: 'precio',
  },
  whatIf: {
    title: 'Qué pasaría',
    lead: 'Se cambia una cosa cada vez y se planifica de nuevo toda la temporada, con visitas separadas: compare las líneas entre sí.',
    ask: 'Calcularlo',
    again: 'Calcularlo de nuevo',
    working: (f, done, total) =>
      `Calculando qué pasaría … ${f.whole(done)} de ${counted(f, total, 'temporada')}.`,
    stop: 'Detener',
    done: 'Está calculado qué pasaría.',
    base: 'La temporada como está',
    line: (f, stress, waterings) =>
      `${counted(f, stress, 'día de estrés', 'días de estrés')}, ${counted(f, waterings, 'riego')}`,
    over: (f, days) =>
      days === 0 ? '' : `${counted(f, days, 'día')} de cuadrilla con más horas de las que hay`,
    lost: (f, n) =>
      n === 0
        ? 'se sostienen todos los árboles'
        : `${trees(f, n)} no se ${n === 1 ? 'puede' : 'pueden'} sostener`,
    cost: (amount) => `costo ${amount}`,
  },
  sheets: {
    title: 'Crear las hojas',
    lead: 'Escribe el plan en hojas nuevas detrás de las abiertas. No se toca nada de lo que hay; un nombre en uso recibe un número.',
    how: 'Fórmulas',
    live: 'Nuestras funciones',
    liveNote:
      'Cada cifra se puede rastrear y se recalcula donde está este complemento; en otra parte muestra #NAME?',
    native: 'Las fórmulas propias de la hoja de cálculo',
    nativeNote: 'Se recalculan en cualquier sitio, sin este complemento, y más rápido.',
    suggested: (f, rows, limit) =>
      rows > limit
        ? `Para ${f.whole(rows)} filas se sugieren las propias de la hoja de cálculo. Con más de ${f.whole(limit)} filas nuestras funciones hacen lento el libro.`
        : `Para ${counted(f, rows, 'fila')} se sugieren nuestras funciones, para poder comprobar una cifra. Para quien no tiene este complemento tome las otras.`,
    log: 'Con un registro de visitas',
    logNote:
      'Una hoja Log vacía para llenar, una fila por visita, y junto a ella Service, Meters y Clocks.',
    logThere:
      'Con las hojas van Log, Service, Meters y Clocks, con las visitas registradas hasta ahora.',
    build: 'Crear las hojas',
    preparing: 'Preparando las hojas …',
    writing: (f, done, total, sheet) =>
      `Escribiendo la hoja ${f.whole(done)} de ${f.whole(total)}: ${sheet}`,
    last: (line) => `${line}. Después la hoja de cálculo calcula sus fórmulas, y eso puede tardar.`,
    cancel: 'Cancelar',
    cancelled: 'Se detuvo la creación. Las hojas están como antes.',
    done: (f, n, first) => `${counted(f, n, 'hoja escrita', 'hojas escritas')}, desde «${first}».`,
    doneAgain: (f, n, first) =>
      `${counted(f, n, 'hoja creada', 'hojas creadas')} de nuevo en lugar de las anteriores, desde «${first}».`,
    built: 'Escrito por este panel',
    made: (when) => `Hechas el ${when}:`,
    madeOnce: 'Hechas antes:',
    sheetsFrom: (f, n, first) =>
      n === 1 ? `la hoja «${first}».` : `${counted(f, n, 'hoja')}, desde «${first}».`,
    which: 'Qué hojas',
    ofPlan: 'Del plan como está.',
    ofInputs: 'De aquello de lo que sale el plan, como está.',
    ofEarlier: (what) => `De un plan anterior, hechas antes de un cambio en ${what}.`,
    ofUnknown: 'No se puede decir si son del plan como está: no se sabe de qué se hicieron.',
    parts: {
      trees: 'los árboles',
      units: 'las unidades',
      site: (names) => `el sitio (${names})`,
      weather: 'el clima',
      rules: 'las reglas',
      kit: 'el equipo',
      contract: 'el contrato o los límites',
    },
    andMore: (f, n) => `${f.whole(n)} más`,
    again: 'Crear de nuevo en su lugar',
    againOf: (first) => `Crear de nuevo en su lugar: las hojas desde «${first}»`,
    againKeeps:
      'Al crearlas de nuevo se conservan las visitas, los medidores, los relojes y las bolsas que se escribieron en ellas. Lo demás que se escribió allí se va, y las fórmulas suyas que apuntan allí pueden perder su sitio.',
    againTakes:
      'Al crearlas de nuevo se va lo que se escribió en ellas, y las fórmulas suyas que apuntan allí pueden perder su sitio.',
    wouldBeLost: (f, n, sheet) =>
      `No se escribió nada: ${counted(f, n, 'fila')} de «${sheet}» no se ${n === 1 ? 'puede' : 'pueden'} leer y se ${n === 1 ? 'perdería' : 'perderían'}. Corríjalas primero, o quite las hojas.`,
    takeAway: 'Quitar',
    visitsToo: (f, n, sheet) =>
      `«${sheet}» tiene ${counted(f, n, 'visita')}. Se van con las hojas.`,
    takeVisits: 'Quitarlas',
    leave: 'Dejarlas',
    notes: 'Lo que la hoja de cálculo no aceptó',
    open: (sheet) => `Ir a «${sheet}»`,
    undo: 'Deshacer la creación',
    undoOf: (f, n) => `Quita ${counted(f, n, 'hoja')}: `,
    undoing: 'Quitando las hojas …',
    undone: (f, n) => counted(f, n, 'hoja quitada', 'hojas quitadas') + '.',
  },
  files: {
    title: 'Guardar como archivos',
    names: {
      workbook: 'Libro (.xlsx)',
      'crew.xlsx': 'Copia para la cuadrilla (.xlsx)',
      'crew.pdf': 'Hojas de cuadrilla en papel (.pdf)',
      'client.xlsx': 'Copia para el cliente (.xlsx)',
      'client.pdf': 'Carta al cliente (.pdf)',
      'plan.ics': 'Calendario (.ics)',
      'plan.csv': 'Tabla (.csv)',
    },
    notes: {
      workbook:
        'El plan como libro propio: hojas, fórmulas, gráficos y lo que fija en este panel. Las hojas de usted no van en él.',
      'crew.xlsx': 'Solo rondas y paradas, sin precios.',
      'crew.pdf': 'Una página por ronda, letra grande, casillas para marcar.',
      'client.xlsx': 'Qué se hace, cuándo y el precio. Sin sus costos.',
      'client.pdf': 'Qué se hace, cuándo y el precio, en papel.',
      'plan.ics':
        'Una ronda por día, para cualquier calendario. Una exportación posterior reemplaza a la anterior.',
      'plan.csv': 'Cada riego en una fila.',
    },
    save: 'Guardar',
    saveOf: (name) => `Guardar: ${name}`,
    writing: (name) => `Haciendo ${name} …`,
    saved: (name) => `Guardado como ${name}.`,
    language: 'Idioma de las hojas de cuadrilla',
    both: 'Los dos, uno tras otro',
    days: 'Días de las hojas de cuadrilla',
    from: 'Desde',
    to: 'Hasta',
    outside: (from: string, to: string) =>
      `El plan va del ${from} al ${to}. Tome días dentro de él.`,
    backwards: 'El último día es anterior al primero.',
    bom: 'Marca de orden de bytes en la tabla, para programas que sin ella estropean los acentos',
    whole: 'Descargar el libro abierto',
    wholeNote: 'Lo que está abierto aquí, tal como está: su hoja y todas las demás.',
    wholeName: 'libro.xlsx',
  },
  notesTitle: 'Notas',
};
