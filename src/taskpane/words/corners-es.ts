/** Words of Field check, Functions and Repair in Spanish. Translation from memory, to be read by a speaker. */
import type { Formats } from '../parts/format.js';
import type { CornerWords } from './corners-en.js';

const counted = (f: Formats, n: number, one: string, many = `${one}s`): string =>
  `${f.whole(n)} ${n === 1 ? one : many}`;
/** Columnas de las respuestas que son tablas. */
const columnsEs: Readonly<Record<string, string>> = {
  verdict: 'veredicto', lacks: 'agua que falta', visitsLack: 'visitas que faltan', where: 'dónde', low: 'bajo', high: 'alto',
  work: 'trabajo', rest: 'descanso', questions: 'preguntas', date: 'fecha', water: 'agua', minutes: 'tiempo', et0: 'ET0',
  rain: 'lluvia que cuenta', demand: 'demanda', watering: 'riego', ball: 'en el cepellón', ring: 'en el anillo', ks: 'Ks',
  lost: 'perdida', means: 'medio', waterings: 'riegos', stress: 'con estrés', cost: 'costo', first: 'primero', between: 'entre riegos',
  cycles: 'ciclos', on: 'con agua', off: 'pausa', served: 'atendido', rank: 'puesto', why: 'por qué no',
}; // prettier-ignore
/** 1 de 4 agujeros está abierto */
const holesOpen = (open: string, holes: string): string =>
  open === '1'
    ? `1 de ${holes} agujeros está abierto`
    : `${open} de ${holes} agujeros están abiertos`;

export const cornersEs: CornerWords = {
  field: {
    lead: 'Escriba lo que leyó en la ronda. El veredicto sale mientras escribe; páselo al registro cuando esté bien.',
    kind: 'Qué se revisó',
    kinds: {
      bag: 'Una bolsa, con reloj',
      flow: 'Una manguera o toma, con cubo',
      pad: 'Una almohadilla, pesada',
    },
    workOut: '¿Cuánto debe tardar una bolsa? Calcúlelo con tamaño, agujeros y altura',
    device: 'Aparato del equipo',
    noDevice: { bag: 'otra bolsa', flow: 'una toma, o ninguno', pad: 'otra almohadilla' },
    tree: 'Árbol o lugar, para el registro',
    optional: 'si se sabe',
    fields: {
      holes: 'Agujeros',
      ratedHours: 'Tiempo nominal de un vaciado completo',
      hours: 'Tiempo medido, desde llena',
      left: 'Parte que queda al final, 0 si vacía',
      volume: 'Agua recogida',
      seconds: 'En',
      pressure: 'Presión ahora',
      rated: 'Presión cuando se midió el caudal',
      saturated: 'Peso empapada',
      dry: 'Peso seca',
      now: 'Peso como está puesta',
      usable: 'Parte que las raíces pueden tomar',
    },
    units: { hours: 'h', seconds: 's', share: 'parte', holes: '' },
    fromKit: (value) => `${value} en Equipo`,
    notNumber: (typed) => `«${typed}» no es un número. Escriba cifras, como 2.5.`,
    missing: {
      bag: 'Hace falta: horas por encima de 0; agujeros, un número entero, y horas nominales, aquí o del equipo; una parte que queda de 0 a menos de 1.',
      flow: 'Hace falta: agua recogida y segundos, ambos por encima de 0.',
      pad: 'Hace falta: peso seca por encima de 0, peso empapada mayor; parte utilizable por encima de 0 hasta 1.',
    },
    noneInKit: {
      bag: 'Equipo no tiene bolsas. Escriba lo que dice la suya, o añádala en Equipo y aquí aparece sola.',
      flow: 'Equipo no tiene mangueras ni cisterna. El caudal se mide igual, sin nada con que compararlo.',
      pad: 'Equipo no tiene almohadillas. El agua que retiene se mide igual, sin nada con que compararla.',
    },
    how: {
      bag: {
        title: 'Cómo medir el tiempo de una bolsa',
        steps: [
          'Llénela hasta arriba en su árbol y anote la hora.',
          'Vuelva cuando esté vacía, o mire cuánto queda.',
          'Escriba las horas que pasaron. Los agujeros y el tiempo nominal están en la bolsa o en Equipo.',
        ],
      },
      flow: {
        title: 'Cómo medir un caudal',
        steps: [
          'Ponga la punta de la manguera o la boquilla en un cubo de volumen conocido.',
          'Cuente los segundos hasta que esté lleno.',
          'Escriba los dos datos. Las presiones, solo si tiene manómetro.',
        ],
      },
      pad: {
        title: 'Cómo pesar una almohadilla',
        steps: [
          'Pésela seca una vez, y otra tras una noche en agua.',
          'En la ronda, levántela y pésela como está.',
          'Escriba los pesos: el veredicto dice si le toca.',
        ],
      },
    },
    example: (readings, verdict) => `Ejemplo inventado: ${readings}. Veredicto: ${verdict}`,
    verdicts: {
      bagOk: (hours) => `Esta bolsa está bien: llena se vacía en ${hours} h.`,
      flush: (open, holes) => `Esta bolsa necesita un lavado: ${holesOpen(open, holes)}.`,
      slow: (hours, limit) =>
        `Esta bolsa está defectuosa: llena tarda ${hours} h, más de ${limit} h.`,
      leaking: (open, holes) =>
        `Esta bolsa pierde agua: se vacía como si tuviera ${open} agujeros abiertos en vez de ${holes}.`,
      low: (share) => `El caudal es bajo: ${share} % de lo que dice Equipo.`,
      high: (share) => `El caudal es alto: ${share} % de lo que dice Equipo.`,
      flowOk: (share) => `El caudal es el de Equipo: ${share} % de él.`,
      noted: (flow) => `El caudal es ${flow}. El equipo no tiene con qué compararlo.`,
      soak: (share) => `A esta almohadilla le toca: queda ${share} % de su agua.`,
      weak: (share) => `Esta almohadilla es débil: retiene ${share} % de lo que dice Equipo.`,
      padOk: (volume) =>
        `Esta almohadilla está bien: retiene ${volume} que las raíces pueden tomar.`,
    },
    actions: {
      bagOk: 'Nada que hacer: siga usándola.',
      flush: 'Lávela, llénela y mida otra vez.',
      slow: 'Quítela y use otra.',
      leaking: 'Use otra bolsa.',
      low: 'Busque un doblez, una válvula a medio abrir o una manguera obstruida. Si sigue así, ponga este caudal en Equipo y planifique de nuevo.',
      high: 'Busque una rotura o un extremo abierto. Si no hay, ponga este caudal en Equipo y planifique de nuevo.',
      flowOk: 'Nada que hacer.',
      noted: 'Anótelo como caudal de la toma en el inventario, o como caudal en Equipo.',
      soak: 'Levántela, déjela en agua toda la noche y póngala otra vez.',
      weak: 'Ponga el nuevo volumen en Equipo y planifique de nuevo. Piense en agua más blanda o en otra almohadilla.',
      padOk: 'Nada que hacer: pésela otra vez en el próximo remojo.',
    },
    next: 'Ahora:',
    numbers: {
      open: 'agujeros abiertos',
      full: 'vaciado completo ahora',
      flow: 'caudal',
      expected: 'caudal en Equipo',
      held: 'agua que retiene',
      left: 'agua que queda',
    },
    whereFrom: 'De dónde sale esto',
    equation: 'Ecuación',
    source: 'Fuente',
    limits: {
      bag: (faulty, leaking, clogged) =>
        `Límites: defectuosa por encima de ${faulty} h (guía publicada de un municipio de Londres); pierde por encima de ${leaking} veces sus agujeros, lavado por debajo de ${clogged} veces (supuestos).`,
      flow: (low, high) =>
        `Límites: bajo por debajo de ${low} veces, alto por encima de ${high} veces el caudal de Equipo (supuestos).`,
      pad: (reserve, weak) =>
        `Límites: toca cuando queda una parte de ${reserve} (reserva de la almohadilla, en Sitio); débil por debajo de ${weak} veces el volumen de Equipo (supuesto).`,
    },
    inputs: 'Datos',
    log: 'Pasarlo al registro',
    logged: (sheet, row) => `Escrito en «${sheet}», fila ${row}.`,
    logNote: (sheet) => `Una fila en la hoja «${sheet}», que se crea si no existe.`,
    logOther: (sheet) =>
      `La hoja «${sheet}» tiene otros encabezados que este registro. Cámbiele el nombre y se crea una nueva.`,
    logHeader: ['Fecha', 'Revisión', 'Árbol', 'Aparato', 'Lecturas', 'Veredicto', 'Qué hacer'],
  },
  functions: {
    lead: 'Busque una función, escriba sus valores y lea aquí la respuesta. También puede ir a una celda en blanco.',
    search: '¿Qué quiere saber?',
    searchHint: 'Enter abre la primera.',
    found: (f, n) => counted(f, n, 'función encontrada', 'funciones encontradas') + '.',
    none: (typed) =>
      `No hay nada para «${typed}». Pruebe una palabra: bolsa, manguera, lluvia, suelo, precio.`,
    choose: (name) => `Usar ${name}`,
    back: 'Volver a la lista',
    help: (name) => `Página de ayuda de ${name}`,
    helpOpens: 'se abre en otra ventana',
    result: 'Da',
    equation: 'Ecuación',
    range: 'Válido para',
    source: 'Fuente',
    whereFrom: 'De dónde sale esto',
    where: (address) => `${address} está en blanco.`,
    filled: (address) => `${address} está llena y queda como está.`,
    holds: (address) => `${address} tiene una fórmula puesta desde aquí.`,
    refused: (sheet) =>
      `«${sheet}» es una hoja del planificador: una fórmula en ella se leería como parte de su tabla, o se perdería al crearla otra vez.`,
    nowhere: 'No hay ninguna celda elegida en la hoja.',
    onSheet: (sheet, address) => `${address} de «${sheet}»`,
    answers: { sheet: 'Respuestas', header: ['Respuesta', 'Qué es'] },
    answer: {
      title: 'Respuesta',
      working: 'Calculando …',
      missing: (name) => `Llene ${name} para ver la respuesta.`,
      bySheet: (name) =>
        `${name} es una fórmula, que solo la hoja puede calcular. Póngala en una celda para ver el valor.`,
      mend: (name) => `No hay respuesta: vea ${name}.`,
      examples: (names) => `Con valores de ejemplo para ${names}: ponga los suyos.`,
      rows: (shown, all) =>
        shown === all
          ? `${all} ${all === 1 ? 'fila' : 'filas'}`
          : `Primeras ${shown} de ${all} filas`,
      yes: 'sí',
      no: 'no',
      columns: columnsEs,
    },
    optional: 'opcional',
    origins: {
      column: (header, row) => `Columna «${header}», fila ${row}.`,
      example: 'Valor de ejemplo: ponga el suyo.',
      units: 'Las unidades de este libro.',
      blank: 'Escriba un valor, una celda como D5 o un rango como A1:C9.',
      default: 'En blanco: se toma el valor por omisión.',
      yours: 'Como usted lo escribió.',
      otherUnit: (header, unit, wanted) =>
        `La columna «${header}» está en ${unit}, hace falta ${wanted}: no se usa.`,
    },
    noRow:
      'La celda elegida no está en ninguna fila de los árboles leídos, así que no se une ninguna columna.',
    formula: 'La fórmula',
    insert: (where) => `Poner en ${where}`,
    replace: (address) => `Reemplazar la fórmula de ${address}`,
    onAnswers: (sheet) => `Ponerla en la hoja «${sheet}»`,
    inserted: (where, shown) => `${where} muestra ${shown}.`,
    narrow: 'su valor cuando la columna sea más ancha',
    waits: (where) => `La fórmula está en ${where}. El programa todavía la calcula.`,
    takenBack: (address, error, why) =>
      `${address} mostró ${error}: ${why} La fórmula se quitó otra vez.`,
    notInserted: (why) => `No se puso: ${why}`,
    errors: {
      '#NAME?': 'el programa no conoce la función; vea Reparar.',
      '#SPILL!': 'las celdas que la respuesta necesita no están en blanco.',
      '#REF!': 'una celda a la que apunta no existe.',
      other: 'la función no acepta uno de sus argumentos.',
    },
    noExamples: 'No se pudieron traer los ejemplos resueltos; los argumentos quedan por escribir.',
  },
  repair: {
    lead: 'Donde la hoja de cálculo ha perdido nuestras funciones, las celdas muestran #NAME? o esperan sin fin. Reparar escribe esas fórmulas de nuevo. No se toca nada más.',
    repair: 'Reparar las fórmulas',
    working: 'Revisando todas las hojas …',
    none: 'No se encontró ninguna fórmula nuestra rota. No se cambió nada.',
    done: (f, n) => counted(f, n, 'fórmula escrita de nuevo', 'fórmulas escritas de nuevo') + '.',
    still:
      'Si las celdas siguen mostrando #NAME?, las funciones del complemento no están cargadas: cierre y abra el libro, o instale otra vez el complemento.',
  },
};
